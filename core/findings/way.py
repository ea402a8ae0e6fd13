"""A way out that is proposed, before it is tried."""

from __future__ import annotations

import msgspec

from core.layout.largest import Dimension
from core.plan.model import Pointers


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
