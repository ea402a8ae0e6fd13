"""Panel stock as it is sold: how far its thickness may be off, and what it weighs."""
