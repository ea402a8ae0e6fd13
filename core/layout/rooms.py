"""Rooms: the free rectangles of a sheet, each cut free by edge-to-edge cuts."""

from __future__ import annotations

from collections.abc import Sequence

from core.layout.model import FIT, Rect
from core.sawing.blocks import AXES, Block, bounds, groups_along
from core.sawing.piece import Axis


def fits(room: Rect, length: float, width: float) -> bool:
    """Does a rectangle of that size fit the room?"""
    return length <= room[2] - room[0] + FIT and width <= room[3] - room[1] + FIT


def split(room: Rect, length: float, width: float, kerf: float) -> list[Rect]:
    """What is left of a room after a rectangle is taken from its lower left corner: beside it, then above it."""
    x0, y0, x1, y1 = room
    left = [(x0 + length + kerf, y0, x1, y0 + width), (x0, y0 + width + kerf, x1, y1)]
    return [r for r in left if r[2] - r[0] > FIT and r[3] - r[1] > FIT]


def beside(room: Rect, taken: Sequence[Rect], kerf: float) -> list[Rect]:
    """The free rooms of a room in which rectangles are already taken, as far as straight cuts free them."""
    return [r for r in _beside(room, [Block("", t) for t in taken], kerf) if r[2] - r[0] > FIT and r[3] - r[1] > FIT]


def _beside(room: Rect, taken: Sequence[Block], kerf: float) -> list[Rect]:
    if not taken:
        return [room]
    for axis in AXES:
        groups = groups_along(taken, axis, kerf)
        if len(groups) > 1 or len(taken) == 1:
            return _slabs(room, groups, axis, kerf)
    return []


def _slabs(room: Rect, groups: list[list[Block]], axis: Axis, kerf: float) -> list[Rect]:
    """Full slabs between groups along an axis, then what is free inside each group's own slab."""
    low, high = (0, 2) if axis == "x" else (1, 3)
    found, start = [], room[low]
    for group in groups:
        box = bounds(group)
        found.append(_with(room, low, start, box[low] - kerf))
        slab = _with(room, low, box[low], box[high])
        start = box[high] + kerf
        if len(group) > 1:
            found.extend(_beside(slab, group, kerf))
        else:
            across = 1 - low  # index of the other axis' low side
            inner = group[0].box
            found.append(_with(slab, across, slab[across], inner[across] - kerf))
            found.append(_with(slab, across, inner[across + 2] + kerf, slab[across + 2]))
    found.append(_with(room, low, start, room[high]))
    return found


def _with(rect: Rect, low: int, start: float, end: float) -> Rect:
    sides = list(rect)
    sides[low], sides[low + 2] = start, end
    return (sides[0], sides[1], sides[2], sides[3])
