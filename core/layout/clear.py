"""Areas of a sheet to keep clear: where a net may lie, how far it is in one, and the first place that is clear of all.

    clear(net, (x, y), areas)           may the net lie there?
    blocked(net, areas, "x", y)         where along x it may not, at that y
    first_clear(net, areas, room)       the lowest place in a room, or the leftmost
    intrusion(net, (x, y), areas)       what it lies on, and how far it is out of all of it

What keeps out of an area (`KeepClear.of`) is a few rectangles of the net, so all is reckoned with rectangles against
polygons: at one y an area forbids one open interval of x for each rectangle and each part of the area beside it.
Areas belong to the first copy of their stock. Shapely is imported only where an area is no rectangle.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

import msgspec

from core.document.areas import box_of
from core.document.model import KeepClear, KeptOut, Sheet
from core.geometry.net import Net, NetPanel
from core.layout.model import FIT, Rect

if TYPE_CHECKING:  # shapely takes a quarter of a second to import
    from shapely import Polygon

Point = tuple[float, float]
Interval = tuple[float, float]
Axis = Literal["x", "y"]
Areas = tuple[KeepClear, ...]

FRONT = "front"


class Intrusion(msgspec.Struct, frozen=True):
    """A net on an area that it must keep out of.

    by: the least way, straight along or across, after which it is out of every area. [mm]
    """

    area: KeepClear
    by: float


def areas_on(stocks: Sequence[Sheet], number: int) -> Areas:
    """The areas of the sheet of that number, where `stocks` has one for each sheet: those of a first copy."""
    stock = stocks[number]
    if not stock.keep_clear or any(other.id == stock.id for other in stocks[:number]):
        return ()
    return stock.keep_clear


@lru_cache(maxsize=1024)
def kept_out(net: Net, of: KeptOut) -> tuple[Rect, ...]:
    """The rectangles of a net that keep out of an area, in the net's own axes."""
    if of == "front":
        return tuple(panel.box for panel in net.panels if panel.role == FRONT)
    boxes = [panel.box for panel in net.panels]
    if of == "net":
        panels = {panel.role: panel for panel in net.panels}
        strips = (_strip(panel, panels[panel.parent]) for panel in net.panels if panel.parent)
        boxes = _joined([*boxes, *(strip for strip in strips if strip)])
    return tuple(boxes)


def _strip(panel: NetPanel, parent: NetPanel) -> Rect | None:
    """What the V between a panel and its parent takes; None where they do not lie beside each other."""
    a, b = panel.box, parent.box
    for low in (0, 1):
        high, across = low + 2, 1 - low
        first, second = (a, b) if a[low] < b[low] else (b, a)
        start, end = max(a[across], b[across]), min(a[across + 2], b[across + 2])
        if end > start and second[low] > first[high]:
            gap = (first[high], start, second[low], end)
            return gap if low == 0 else (gap[1], gap[0], gap[3], gap[2])
    return None


def _joined(boxes: list[Rect]) -> list[Rect]:
    """The same area in fewer boxes: two that share a whole side become one."""
    for at, a in enumerate(boxes):
        for b in boxes[at + 1 :]:
            for low in (0, 1):
                across = (a[1 - low], a[3 - low]) == (b[1 - low], b[3 - low])
                if across and min(abs(a[low + 2] - b[low]), abs(b[low + 2] - a[low])) < FIT:
                    both = (min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3]))
                    return _joined([both, *(box for box in boxes if box not in (a, b))])
    return boxes


# Where a net may not lie


def blocked(net: Net, areas: Iterable[KeepClear], axis: Axis, across: float) -> list[Interval]:
    """The places of a net along an axis at which it lies on an area: open intervals, ascending by their start.

    across: where its lower left corner is along the other axis. [mm]
    """
    low = 0 if axis == "x" else 1
    found = []
    for area in areas:
        for box in kept_out(net, area.of):
            for start, end in _extents(area, low, across + box[1 - low] + FIT, across + box[3 - low] - FIT):
                found.append((start - box[low + 2], end - box[low]))
    found.sort()
    return found


def clear(net: Net, at: Point, areas: Iterable[KeepClear]) -> bool:
    """May the net lie there, its lower left corner at `at`? It may touch an area."""
    return not _within(blocked(net, areas, "x", at[1]), at[0])


def _within(intervals: Iterable[Interval], value: float) -> bool:
    return any(start + FIT < value < end - FIT for start, end in intervals)


def passed(intervals: Iterable[Interval], value: float, sign: int = 1) -> float:
    """The first place at or after `value` that is not blocked; before it for sign -1. Intervals as of `blocked`."""
    if sign < 0:
        return -passed(sorted((-end, -start) for start, end in intervals), -value)
    for start, end in intervals:
        if start + FIT < value < end - FIT:
            value = end
    return value


def _extents(area: KeepClear, low: int, start: float, end: float) -> Iterator[Interval]:
    """How far the parts of an area reach along an axis (0 x, 1 y), of what lies between two lines across it."""
    box = box_of(area) or bounds(area.corners)
    if end <= box[1 - low] or start >= box[3 - low]:
        return
    if box_of(area) is not None or (start <= box[1 - low] and end >= box[3 - low]):
        yield box[low], box[low + 2]
        return
    yield from _cut(area.corners, low, start, end)


@lru_cache(maxsize=4096)
def _cut(corners: tuple[Point, ...], low: int, start: float, end: float) -> tuple[Interval, ...]:
    import shapely

    reach = bounds(corners)
    sides = (reach[0], start, reach[2], end) if low == 0 else (start, reach[1], end, reach[3])
    parts = shapely.get_parts(shapely.intersection(_polygon(corners), shapely.box(*sides)))
    return tuple((float(b[low]), float(b[low + 2])) for b in shapely.bounds(parts))


@lru_cache(maxsize=1024)
def _polygon(corners: tuple[Point, ...]) -> Polygon:
    import shapely

    return shapely.Polygon(corners)


def bounds(corners: Sequence[Point]) -> Rect:
    """The box round some corners."""
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


# Where it may


def first_clear(net: Net, areas: Areas, room: Rect, first: Axis = "y") -> Point | None:
    """The place in a room where the net is clear of all areas, None where there is none.

    first: "y" for the lowest place and there the leftmost; "x" for the leftmost and there the lowest.
    """
    size = (net.length, net.width)
    low = 1 if first == "y" else 0
    ends = tuple(room[axis + 2] - size[axis] + FIT for axis in (0, 1))
    if ends[0] < room[0] or ends[1] < room[1]:
        return None
    other: Axis = "x" if first == "y" else "y"
    for place in _levels(net, areas, first, room):
        if room[low] <= place <= ends[low]:
            along = passed(blocked(net, areas, other, place), room[1 - low])
            if along <= ends[1 - low]:
                return (along, place) if first == "y" else (place, along)
    return None


def _levels(net: Net, areas: Areas, axis: Axis, room: Rect) -> list[float]:
    """Places along an axis at which a net may come free, ascending: the room's edge, and past corners of areas."""
    low = 0 if axis == "x" else 1
    found = {room[low]}
    for area in areas:
        lines, boxes = {corner[low] for corner in area.corners}, kept_out(net, area.of)
        found |= {line - box[low] for line in lines for box in boxes}
    for across in (room[1 - low], room[3 - low] - (net.width if low == 0 else net.length)):
        found |= {end for _, end in blocked(net, areas, axis, across)}
    return sorted(found)


def intrusion(net: Net, at: Point, areas: Areas) -> Intrusion | None:
    """The first area the net lies on although it must keep out, None where it is clear."""
    hit = next((area for area in areas if not clear(net, at, (area,))), None)
    if hit is None:
        return None
    ways = []
    axes: tuple[tuple[Axis, int], ...] = (("x", 0), ("y", 1))
    for axis, low in axes:
        intervals = blocked(net, areas, axis, at[1 - low])
        ways += [abs(passed(intervals, at[low], sign) - at[low]) for sign in (1, -1)]
    return Intrusion(hit, min(ways))


def edges(net: Net, areas: Iterable[KeepClear], axis: Axis) -> list[float]:
    """Places along an axis at which a net is just beside an area, whatever it does across."""
    low = 0 if axis == "x" else 1
    found: dict[float, None] = {}
    for area in areas:
        reach = bounds(area.corners)
        for box in kept_out(net, area.of):
            found |= {reach[low + 2] - box[low]: None, reach[low] - box[low + 2]: None}
    return list(found)
