"""Absolute bounds, measured on the machine at hand: `python -m tests.bench` (`--json` for one object a line)."""
