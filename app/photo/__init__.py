"""The photograph of a sheet, in the sheet's place: opened, its corners placed by hand, its lens and light put right."""
