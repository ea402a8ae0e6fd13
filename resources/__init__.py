"""What is not code: pinned packages, fonts, and other data that ships with the program."""
