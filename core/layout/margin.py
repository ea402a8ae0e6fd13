"""Margin: how far each net can be slid on its sheet as things lie, after a chip, say, or to choose the figure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import msgspec

from core.geometry.net import Net
from core.geometry.parts import part_of
from core.layout.clear import Areas, Axis, blocked, clear
from core.layout.model import FIT, Rect, trimmed
from core.plan.model import Plan
from core.sawing.blocks import Block, separable


class Margin(msgspec.Struct, frozen=True):
    """How far one net can be slid each way, straight, the others lying still; 0 where it cannot. [mm]

    left and right are along the grain, towards low and high x; down and up across it, towards low and high y.
    """

    shelf: str
    sheet: str
    left: float
    right: float
    down: float
    up: float
    panel: str | None = None  # role of the panel that is cut apart; None for the net itself


def margins(plan: Plan) -> tuple[Margin, ...]:
    """The margin of every net, and panel cut apart, that lies on a sheet, in the plan's order; see `margin_of`."""
    return tuple(_margin(plan, at) for at in range(len(plan.nets)))


def margin_of(plan: Plan, shelf: str) -> Margin | None:
    """The margin of one shelf's net, None where it lies on no sheet.

    A net stops at the trim, a kerf before another net, at an area it must keep out of, and where straight cuts would
    no longer part the nets. Frame parts are no hindrance: they are cut from what is left, wherever that is.
    """
    nets = ((at, net) for at, net in enumerate(plan.nets) if net.shelf == shelf and net.panel is None)
    return next((_margin(plan, at) for at, _ in nets), None)


def _margin(plan: Plan, at: int) -> Margin:
    net = plan.nets[at]
    home = next(s for s in plan.sheets if s.id == net.sheet)
    stock = home.source
    rects = [(n.x, n.y, n.x + n.length, n.y + n.width) for n in plan.nets if n.sheet == net.sheet]
    mine = (net.x, net.y, net.x + net.length, net.y + net.width)
    rects.remove(mine)
    ways = [_way(mine, rects, trimmed(stock), plan.project.saw.kerf, axis, sign) for axis in (0, 1) for sign in (-1, 1)]
    if home.areas:
        form = part_of(next(shape for shape in plan.shapes if shape.owner == net.shelf), net.panel)
        ways = [min(way, to) for way, to in zip(ways, _to_areas(form, (net.x, net.y), home.areas), strict=True)]
    left, right, down, up = ways
    return Margin(net.shelf, net.sheet, left, right, down, up, net.panel)


def _to_areas(form: Net, at: tuple[float, float], areas: Areas) -> list[float]:
    """How far a net can go each way before it comes onto an area: left, right, down, up. 0 where it lies on one."""
    if not clear(form, at, areas):
        return [0.0] * 4
    found = []
    axes: tuple[tuple[Axis, int], ...] = (("x", 0), ("y", 1))
    for axis, low in axes:
        intervals = blocked(form, areas, axis, at[1 - low])
        found.append(min((at[low] - end for _, end in intervals if end < at[low] + FIT), default=float("inf")))
        found.append(min((start - at[low] for start, _ in intervals if start > at[low] - FIT), default=float("inf")))
    return [max(0.0, way) for way in found]


def _way(rect: Rect, others: Sequence[Rect], room: Rect, kerf: float, axis: int, sign: int) -> float:
    """How far a rectangle can go along an axis (0 x, 1 y), up it (sign 1) or down. [mm]"""
    far = axis + 2 if sign > 0 else axis
    end = sign * (room[far] - rect[far])
    for other in others:
        if _beside(rect, other, kerf, 1 - axis):
            near = other[axis] if sign > 0 else other[axis + 2]
            gap = sign * (near - rect[far]) - kerf
            if gap >= -FIT - kerf:  # it lies on this side
                end = min(end, gap)
    return _parted(rect, others, kerf, axis, sign, end) if end > FIT else 0.0


def _beside(rect: Rect, other: Rect, kerf: float, across: int) -> bool:
    """Is the other in the way of a net that slides square to the axis `across`?"""
    return rect[across] < other[across + 2] + kerf - FIT and other[across] < rect[across + 2] + kerf - FIT


def _parted(rect: Rect, others: Sequence[Rect], kerf: float, axis: int, sign: int, end: float) -> float:
    """How far the way stays such that straight cuts part the nets: it changes only where a cut comes free or goes."""
    marks = {0.0, end}
    for other in others:
        for step in (other[axis + 2] + kerf - rect[axis], other[axis] - kerf - rect[axis + 2]):
            if 0.0 < sign * step < end:
                marks.add(sign * step)
    stops = sorted(marks)
    blocks = [Block("", other) for other in others]
    for start, after in pairwise(stops):
        moved = list(rect)
        for side in (axis, axis + 2):
            moved[side] += sign * (start + after) / 2.0
        here = Block("", (moved[0], moved[1], moved[2], moved[3]))
        if after - start > FIT and not separable([*blocks, here], kerf):
            return start
    return end
