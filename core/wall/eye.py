"""The height of the eye, and what it sees of a shelf."""

from __future__ import annotations

from typing import Final

from core.document.model import Shelf

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


def is_in_sight(seam: str, shelf: Shelf) -> bool:
    """Are both faces of a seam in sight? Ends and top of a shelf that does not hang: it may yet hang anywhere."""
    faces = faces_in_sight(shelf) or {"front", "left", "right", "top"}
    return set(seam.rpartition("/")[2].split("-")) <= faces


def seen_from_above(shelf: Shelf) -> bool:
    """Is the top what one sees? So it is until told where the shelf hangs."""
    return shelf.mount is None or shelf.mount.top <= EYE
