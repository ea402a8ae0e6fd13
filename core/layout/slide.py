"""Sliding a net about on its sheet: where it may lie nearest to where the hand wants it, and what stops it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot

import msgspec

from core.document.model import Sheet
from core.geometry.net import Net
from core.layout.clear import Areas, Axis, blocked, clear, edges, passed
from core.layout.model import FIT, Rect, trimmed
from core.sawing.blocks import Block, separable


class Neighbour(msgspec.Struct, frozen=True):
    """Another net on the sheet: its shelf and its rectangle."""

    shelf: str
    rect: Rect


class Slide(msgspec.Struct, frozen=True):
    """Where the net comes to lie, what it has snapped to, and what keeps it from where the hand is.

    snapped: 'edge', 'kerf' (a kerf beside another net), 'line' (in line with another net), 'area' (just beside one
        that is kept clear) or '' for each axis.
    stop: '' where nothing stops it, 'edge' of the trimmed sheet, 'net' (then `other` names the shelf), 'area' (then
        `other` says of what kind), or 'parting' where no straight cut would part the nets.
    """

    x: float
    y: float
    snapped: tuple[str, str]
    stop: str = ""
    other: str = ""


def slide(
    stock: Sheet,
    size: tuple[float, float],
    want: tuple[float, float],
    others: Sequence[Neighbour],
    kerf: float,
    reach: float,
    grid: float,
    net: Net | None = None,
    areas: Areas = (),
) -> Slide:
    """The place nearest to `want` that is allowed, after snapping.

    size: length and width of the net; want: its lower left corner; others: the nets that stay. [mm]
    net, areas: its panels, and what of this very sheet is to be kept clear.
    reach: how near an edge must be to catch the net; grid: step of whole fractions, measured from the trim. [mm]
    Where no place at all is allowed the net stays at `want` and `stop` says why.
    """
    xs = _catches(trimmed(stock), size, others, kerf, 0)
    ys = _catches(trimmed(stock), size, others, kerf, 1)
    if net is not None and areas:
        xs += [(x, "area") for x in edges(net, areas, "x")]
        ys += [(y, "area") for y in edges(net, areas, "y")]
    else:
        net = None

    def stopped(at: tuple[float, float]) -> tuple[str, str]:
        found = _stop(stock, size, at, others, kerf)
        if not found[0] and net is not None:
            hit = next((area.kind for area in areas if not clear(net, at, (area,))), "")
            return ("area", hit) if hit else found
        return found

    snap_x, snap_y = _snap(want[0], xs, reach, grid, stock.trim), _snap(want[1], ys, reach, grid, stock.trim)
    stop = stopped((snap_x[0], snap_y[0]))
    if not stop[0]:
        return Slide(snap_x[0], snap_y[0], (snap_x[1], snap_y[1]))
    if net is not None:  # along an area's slanting side, too
        xs += [(x, "area") for x in _ends(net, areas, "x", snap_x[0], snap_y[0])]
        ys += [(y, "area") for y in _ends(net, areas, "y", snap_y[0], snap_x[0])]
    for x, y, kinds in _by_distance(want, [snap_x, *xs], [snap_y, *ys]):
        if not stopped((x, y))[0]:
            return Slide(x, y, kinds, *stop)
    return Slide(want[0], want[1], ("", ""), *stop)


def may_lie(
    stock: Sheet,
    size: tuple[float, float],
    at: tuple[float, float],
    others: Sequence[Neighbour],
    kerf: float,
    net: Net,
    areas: Areas = (),
) -> bool:
    """May a net lie just there: inside the trim, a kerf from the others, parted by straight cuts, clear of areas?"""
    return not _stop(stock, size, at, others, kerf)[0] and clear(net, at, areas)


def _ends(net: Net, areas: Areas, axis: Axis, along: float, across: float) -> list[float]:
    """The places nearest to one on an area at which the net is out of all areas, straight along an axis."""
    intervals = blocked(net, areas, axis, across)
    return [passed(intervals, along, sign) for sign in (1, -1)]


Catch = tuple[float, str]


def _catches(room: Rect, size: tuple[float, float], others: Sequence[Neighbour], kerf: float, axis: int) -> list[Catch]:
    """Every place along an axis where the net is at an edge, a kerf beside another, or in line with one."""
    long = size[axis]
    found = [(room[axis], "edge"), (room[axis + 2] - long, "edge")]
    for other in others:
        low, high = other.rect[axis], other.rect[axis + 2]
        found += [(high + kerf, "kerf"), (low - kerf - long, "kerf"), (low, "line"), (high - long, "line")]
    return found


def _snap(value: float, catches: Sequence[Catch], reach: float, grid: float, datum: float) -> Catch:
    near = min(catches, key=lambda c: abs(c[0] - value))
    if abs(near[0] - value) <= reach:
        return near
    if grid > 0:
        return datum + round((value - datum) / grid) * grid, ""
    return value, ""


def _by_distance(
    want: tuple[float, float], xs: Sequence[Catch], ys: Sequence[Catch]
) -> Iterator[tuple[float, float, tuple[str, str]]]:
    places = [(hypot(x[0] - want[0], y[0] - want[1]), x, y) for x in xs for y in ys]
    places.sort(key=lambda p: p[0])
    for _, x, y in places:
        yield x[0], y[0], (x[1], y[1])


def _stop(
    stock: Sheet, size: tuple[float, float], at: tuple[float, float], others: Sequence[Neighbour], kerf: float
) -> tuple[str, str]:
    """What forbids a place: ('', '') for nothing."""
    room = trimmed(stock)
    x0, y0, x1, y1 = at[0], at[1], at[0] + size[0], at[1] + size[1]
    if x0 < room[0] - FIT or y0 < room[1] - FIT or x1 > room[2] + FIT or y1 > room[3] + FIT:
        return "edge", ""
    for other in others:
        a0, b0, a1, b1 = other.rect
        if max(a0 - x1, x0 - a1, b0 - y1, y0 - b1) < kerf - FIT:
            return "net", other.shelf
    blocks = [Block("", o.rect) for o in others]
    if not separable([*blocks, Block("", (x0, y0, x1, y1))], kerf):
        return "parting", ""
    return "", ""
