"""A drawing of something long with a length out of its middle left out, between two broken lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

import msgspec

from core.drawing.flat import bounds, united
from core.drawing.model import Area, Box, Drawing, Item, Line, Point, Sign, Text
from core.drawing.panels import rectangle

WOOD: Final = frozenset({"kept", "work", "bench", "fallen"})  # layers of what is broken
JAG: Final = 0.45  # of the room between the lines: how far each goes to and fro


class Gap(msgspec.Struct, frozen=True, gc=False):
    """What is left out: from start to end along x; room: what stands for it. [mm]"""

    start: float
    end: float
    room: float

    def along(self, x: float) -> float:
        """Where a place is drawn."""
        if x <= self.start:
            return x
        if x >= self.end:
            return x - (self.end - self.start) + self.room
        return self.start + (x - self.start) / (self.end - self.start) * self.room

    def box(self, box: Box) -> Box:
        """Where a box is drawn."""
        return (self.along(box[0]), box[1], self.along(box[2]), box[3])

    def points(self, points: Iterable[Point]) -> tuple[Point, ...]:
        """Where points are drawn."""
        return tuple((self.along(x), y) for x, y in points)


def shortened(drawing: Drawing, gap: Gap) -> Drawing:
    """The drawing without what lies in the gap; lines and areas that cross it are drawn shorter."""
    items = (*_break(_crossed(drawing, gap), gap), *(_moved(item, gap) for item in drawing.items))
    return msgspec.structs.replace(drawing, box=gap.box(drawing.box), items=items, runs=())


def _moved(item: Item, gap: Gap) -> Item:
    if isinstance(item, Area | Line):
        return msgspec.structs.replace(item, points=gap.points(item.points))
    if isinstance(item, Sign):
        return msgspec.structs.replace(item, at=(gap.along(item.at[0]), item.at[1]))
    assert isinstance(item, Text)  # a step's drawing has nothing else
    if item.room is None or item.layer == "setting" or not gap.start < item.at[0] < gap.end:
        room = None if item.room is None else gap.box(item.room)
        return msgspec.structs.replace(item, at=(gap.along(item.at[0]), item.at[1]), room=room)
    x0, y0, x1, y1 = gap.box(item.room)  # a name in the middle of what is left out: in the longer part
    left, right = (x0, gap.start), (gap.start + gap.room, x1)
    low, high = max(left, right, key=lambda part: part[1] - part[0])
    return msgspec.structs.replace(item, at=((low + high) / 2.0, item.at[1]), room=(low, y0, high, y1))


def _crossed(drawing: Drawing, gap: Gap) -> Box:
    """The box of the wood that goes on over the gap; of all of the picture where there is none."""
    boxes = [bounds(item.points) for item in drawing.items if isinstance(item, Area) and item.layer in WOOD]
    return united([box for box in boxes if box[0] < gap.start and gap.end < box[2]] or [drawing.box])


def _break(box: Box, gap: Gap) -> Iterator[Item]:
    """Paper between two broken lines, from the upper to the lower edge of a box."""
    x, y0, y1, jag = gap.start, box[1], box[3], JAG * gap.room
    yield Area("void", rectangle((x, y0, x + gap.room, y1)))
    middle = (y0 + y1) / 2.0
    for at in (x, x + gap.room):
        turns = ((at, middle - jag), (at + jag, middle - jag / 2.0), (at - jag, middle + jag / 2.0), (at, middle + jag))
        yield Line("cut", ((at, y0), *turns, (at, y1)))
