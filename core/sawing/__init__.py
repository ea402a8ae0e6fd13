"""Sawing: what a straight through cut does to a piece of wood, how a sheet is cut up, and the replay that proves it."""
