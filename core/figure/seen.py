"""The seams in sight, and how well they match together."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from core.document.model import Shelf
from core.figure.match import SeamFigure
from core.figure.places import SeamPlace
from core.wall.eye import is_in_sight


def together(figures: Sequence[SeamFigure], lengths: Callable[[str], float]) -> float:
    """The match of several seams, each weighed by its length. 0..100."""
    total = sum(lengths(one.seam) for one in figures)
    return sum(one.match * lengths(one.seam) for one in figures) / total if total else 0.0


def seen_places(places: Sequence[SeamPlace], shelf: Shelf) -> tuple[SeamPlace, ...]:
    """Those of the seams that are in sight; all where none is."""
    return tuple(place for place in places if is_in_sight(place.seam, shelf)) or tuple(places)
