"""Posts of a wall. Sizes in mm."""

from __future__ import annotations

STUD_DEPTH = 89.0  # of a 2 x 4, common practice: thread beyond it holds nothing
