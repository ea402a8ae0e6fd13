"""The plan set from the window: looked at in a board, written as PDF, printed; never in the window's way."""
