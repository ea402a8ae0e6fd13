"""What can be done with one thing, offered where it is pressed with the other button or the menu key."""
