"""Everything that must pass: `python3 -m tests`."""
