"""Which seams the eye sees, and how well they match together."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from core.document.model import Shelf
from core.figure.match import SeamFigure
from core.figure.places import SeamPlace
from core.wall.eye import seen_from_above


def is_seen(seam: str, shelf: Shelf) -> bool:
    """Does the eye see a seam? The ends always, of the two long ones that on the side it looks from."""
    roles = set(seam.partition("/")[2].split("-"))
    if roles & {"left", "right"}:
        return True
    return ("top" if seen_from_above(shelf) else "bottom") in roles


def together(figures: Sequence[SeamFigure], lengths: Callable[[str], float]) -> float:
    """The match of several seams, each weighed by its length. 0..100."""
    total = sum(lengths(one.seam) for one in figures)
    return sum(one.match * lengths(one.seam) for one in figures) / total if total else 0.0


def seen_places(places: Sequence[SeamPlace], shelf: Shelf) -> tuple[SeamPlace, ...]:
    """Those of the seams that the eye sees; all where it sees none."""
    return tuple(place for place in places if is_seen(place.seam, shelf)) or tuple(places)
