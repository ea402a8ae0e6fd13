"""The height of the eye, and what it sees of a shelf."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from core.document.model import Shelf
from core.plan.model import Seam

EYE: Final = 1500.0  # mm: height of the eyes of somebody who stands, common practice


def faces_in_sight(shelf: Shelf) -> frozenset[str]:
    """The faces that one who stands before the wall sees: front and ends, the top under the eye, the bottom over it.

    None of a shelf that does not hang.
    """
    if shelf.mount is None:
        return frozenset()
    level = {"top": shelf.mount.top < EYE, "bottom": shelf.mount.top - shelf.height > EYE}
    ends = {"left": shelf.left == "mitred", "right": shelf.right == "mitred"}
    return frozenset(face for face, seen in {"front": True, **level, **ends}.items() if seen)


def seams_in_sight(seams: Iterable[Seam], shelf: Shelf) -> tuple[Seam, ...]:
    """Those of a shelf's seams of which both faces are in sight."""
    faces = faces_in_sight(shelf)
    return tuple(seam for seam in seams if {panel.rpartition("/")[2] for panel in seam.between} <= faces)


def seen_from_above(shelf: Shelf) -> bool:
    """Is the top what one sees? So it is until told where the shelf hangs."""
    return shelf.mount is None or shelf.mount.top <= EYE
