"""What `python3 -m tests` does: system packages, environment, then one stage after the other."""
