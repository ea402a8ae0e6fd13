"""A way out that is proposed, before it is tried; and what one sees of a shelf, which ways out look at."""

from __future__ import annotations

import msgspec

from core.document.model import Shelf
from core.layout.largest import Dimension
from core.plan.model import Pointers

EYE = 1550.0  # mm: height of the eyes of somebody who stands, common practice


class Way(msgspec.Struct, frozen=True):
    """A change that may give the shelf its room.

    text, set: the change by itself, as a fix has it; no pointers where it is nothing but a size.
    size: what is cut down to the largest that then fits where the change by itself is not enough; None: nothing is.
    sized: the words for both, with the size in place of {}.
    together: all shelves get the size, not only this one.
    once: of the ways with this name only the first that helps is offered.
    """

    text: str
    set: Pointers
    size: Dimension | None = None
    sized: str = ""
    together: bool = False
    once: str = ""


def seen_from_above(shelf: Shelf) -> bool:
    """Is the top what one sees? So it is until told where the shelf hangs."""
    return shelf.mount is None or shelf.mount.top <= EYE
