"""The height of the eye, and what it sees of a shelf."""

from __future__ import annotations

from typing import Final

from core.document.model import Shelf

EYE: Final = 1500.0  # mm: height of the eyes of somebody who stands, common practice


def seen_from_above(shelf: Shelf) -> bool:
    """Is the top what one sees? So it is until told where the shelf hangs."""
    return shelf.mount is None or shelf.mount.top <= EYE
