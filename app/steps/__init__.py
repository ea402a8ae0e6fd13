"""The cut steps: a board in which one steps through the cuts on the sheet, as they are made at the bench."""
