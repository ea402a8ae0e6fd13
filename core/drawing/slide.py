"""Items of a drawing slid along x."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from core.drawing.model import Area, Box, Dimension, Item, Line, Ordinates, Point, Sign, Text


def slid(items: Iterable[Item], by: float) -> tuple[Item, ...]:
    """The items, each slid to the right by so much; their words and numbers stay. [mm]"""
    return tuple(_slid(item, by) for item in items) if by else tuple(items)


def slid_box(box: Box, by: float) -> Box:
    """A box slid to the right by so much. [mm]"""
    return (box[0] + by, box[1], box[2] + by, box[3])


def _slid(item: Item, by: float) -> Item:
    def at(point: Point) -> Point:
        return (point[0] + by, point[1])

    if isinstance(item, Line | Area):
        return replace(item, points=tuple(at(point) for point in item.points))
    if isinstance(item, Dimension):
        return replace(item, start=at(item.start), end=at(item.end))
    if isinstance(item, Ordinates):
        if item.axis == "y":
            return replace(item, base=item.base + by)
        return replace(item, marks=tuple((place + by, text) for place, text in item.marks))
    assert isinstance(item, Text | Sign)
    return replace(item, at=at(item.at), room=None if item.room is None else slid_box(item.room, by))
