"""The maker's triangle: lines across a shelf's panels from which any part tells its place and way up.

         /\\                  One large triangle lies over top, front and bottom and points to the top:
top     /  \\                 the top has its tip, the bottom its foot, the front two lines that lean
-------/----\\-------         together upwards. A small one lies over each end's own seam, half on the end:
front / .. . \\   ./|\\.       the half's upright side is the seam, and left and right are each other's mirror.
-----/--------\\-----
    '----------'
"""

from __future__ import annotations

from typing import Final

import msgspec

from core.drawing.model import Box, Line, Point
from core.geometry.net import Net
from core.plan.model import Panel

TIP: Final = 0.62  # of the depth: how far the tip reaches into the top, the foot into the bottom
LEAN: Final = 0.42  # width of the large triangle for its height
SHARE: Final = 0.24  # most of the shelf's length that it takes
START: Final = 0.05  # of the length, from the left end to the foot
END_LOW: Final = 0.12  # of the strip's height: foot of a small triangle
END_HIGH: Final = 0.58  # and its tip
END_LEAN: Final = 0.5  # half its width for its height


def show_box(panel: Panel) -> Box:
    """The show face on its sheet; (0, 0) based where it has no place."""
    x, y = panel.x or 0.0, panel.y or 0.0
    return (x, y, x + panel.show[0], y + panel.show[1])


def body_span(box: Box, rise: float) -> tuple[float, float]:
    """Where the large triangle lies along the shelf: left and right x, for its height `rise`."""
    length = box[2] - box[0]
    width = min(LEAN * rise, SHARE * length)
    left = box[0] + START * length
    return left, left + width


def makers_triangle(panels: dict[str, Panel], net: Net) -> list[Line]:
    """All marks of one shelf; each line lies on one panel and is about it.

    panels: the shelf's panels by role, all placed on one sheet. On a net that lies turned the marks do too.
    """
    if net.turned:
        marks = _marks(half_turned(panels), net)
        return [Line(line.layer, tuple((-x, -y) for x, y in line.points), line.about) for line in marks]
    return _marks(panels, net)


def half_turned(panels: dict[str, Panel]) -> dict[str, Panel]:
    """The panels as they lie when their sheet is turned by 180° about its origin; turned twice they lie as before."""
    return {
        role: msgspec.structs.replace(p, x=-(p.x or 0.0) - p.show[0], y=-(p.y or 0.0) - p.show[1])
        for role, p in panels.items()
    }


def _marks(panels: dict[str, Panel], net: Net) -> list[Line]:
    lines: list[Line] = []
    if strips := strips_together(panels, net):
        lines += _body(strips)
    for panel in net.panels:
        is_end = panel.role in ("left", "right") and panel.role not in net.apart
        if is_end and panel.parent is not None and {panel.role, panel.parent} <= panels.keys():
            lines += _end(panels[panel.role], panels[panel.parent], panel.role == "left")
    return lines


def strips_together(panels: dict[str, Panel], net: Net) -> list[Panel]:
    """The strips the large triangle lies over, from the top down: those cut in one with the front."""
    if "front" not in panels:
        return []
    return [panels[role] for role in ("top", "front", "bottom") if role in panels and role not in net.apart]


def _body(strips: list[Panel]) -> list[Line]:
    """The large triangle over the strips of the net, from the top down; those cut apart have none."""
    top, bottom = show_box(strips[0]), show_box(strips[-1])
    tip = top[1] + TIP * (top[3] - top[1])
    foot = bottom[3] - TIP * (bottom[3] - bottom[1])
    left, right = body_span(top, tip - foot)
    corners: tuple[Point, Point, Point] = ((left, foot), ((left + right) / 2.0, tip), (right, foot))
    lines = [Line("mark", (corners[0], corners[2]), strips[-1].id)]
    for strip in strips:
        _, low, _, high = show_box(strip)
        for start in (corners[0], corners[2]):
            lines.append(Line("mark", _between_levels(start, corners[1], low, high), strip.id))
    return lines


def _between_levels(start: Point, end: Point, low: float, high: float) -> tuple[Point, Point]:
    """The piece of a rising line between two levels of y that it crosses or ends between."""

    def at(y: float) -> Point:
        share = (y - start[1]) / (end[1] - start[1])
        return (start[0] + share * (end[0] - start[0]), y)

    return at(max(low, start[1])), at(min(high, end[1]))


def _end(end: Panel, strip: Panel, left: bool) -> list[Line]:
    x0, low, x1, high = show_box(end)
    neighbour = show_box(strip)
    seam = (x1 + neighbour[0]) / 2.0 if left else (x0 + neighbour[2]) / 2.0
    foot = low + END_LOW * (high - low)
    tip = low + END_HIGH * (high - low)
    half = min(END_LEAN * (tip - foot), 0.5 * (x1 - x0))
    lines: list[Line] = []
    for panel, edge, way in (
        (end, x1 if left else x0, -1.0 if left else 1.0),
        (strip, neighbour[0] if left else neighbour[2], 1.0 if left else -1.0),
    ):
        off = abs(edge - seam)
        top_of_it = tip - (tip - foot) * off / half if half else tip
        points = ((edge, top_of_it), (seam + way * half, foot), (edge, foot))
        lines.append(Line("mark", points, panel.id))
    return lines
