"""The boards: wall, fold, sheet, and the section and tables that open in the place of the sheet."""
