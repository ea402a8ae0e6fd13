"""The same drawing with larger numbers: what is read at arm's length, at the bench and at the wall."""

from __future__ import annotations

from typing import Final

import msgspec

from core.drawing.model import Dimension, Drawing, Item, Ordinates

AT_THE_WALL: Final = 13.0  # points; on paper letters of drawings are a tenth larger still
AT_THE_BENCH: Final = 11.5


def with_numbers(drawing: Drawing, size: float) -> Drawing:
    """A drawing whose ordinates and dimensions have letters of a size. [points]"""

    def sized(item: Item) -> Item:
        return msgspec.structs.replace(item, size=size) if isinstance(item, Ordinates | Dimension) else item

    return msgspec.structs.replace(drawing, items=tuple(map(sized, drawing.items)))
