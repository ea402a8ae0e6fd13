"""The two sides of a seam laid edge to edge, as they meet when folded: a picture at true scale."""

from __future__ import annotations

import numpy as np

from core.figure.match import Bytes, Span, piece
from core.figure.places import SeamPlace

DEPTH = 40.0  # mm shown of each side


def both_sides(face: Bytes, sheet: Span, place: SeamPlace, depth: float = DEPTH) -> tuple[Bytes, float]:
    """Pixels (down, across, 3) along the seam, and the row where the sides meet.

    The seam runs from left to right: what lies above the sheet's higher edge is above, or to the right of it.
    """
    high = piece(face, sheet, place, place.high, place.high + depth)
    low = piece(face, sheet, place, place.low - depth, place.low)
    if place.runs == "y":  # a quarter turn against the clock: the sheet's upper edge comes to lie at the left
        high, low = (np.rot90(high, 1), np.rot90(low, 1))
    return np.concatenate([high, low]), float(len(high))
