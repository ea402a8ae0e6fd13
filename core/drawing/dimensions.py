"""Dimensions made plain: extension lines, the dimension line with its ticks, and the number over it.

A dimension too short for its number gets its ticks from outside and the number past its end.
"""

from __future__ import annotations

from math import atan2, degrees, hypot
from typing import Final

from core.drawing.flat import Words, written
from core.drawing.measure import text_width
from core.drawing.model import Dimension, Line, Point, Text
from core.drawing.style import STYLES

GAP: Final = 2.0  # from the thing measured to the extension line [points]
PAST: Final = 3.0  # of the extension line past the dimension line
TICK: Final = 2.6  # half a tick's height and width
TAIL: Final = 9.0  # of a dimension line outside its ticks
OVER: Final = 2.0  # from the dimension line to its number


def flat_dimension(dimension: Dimension, point: float) -> tuple[list[Line], list[Words]]:
    """Lines and words at one scale. point: mm of the drawing for a point of the surface."""
    (x0, y0), (x1, y1) = dimension.start, dimension.end
    length = hypot(x1 - x0, y1 - y0)
    ux, uy = ((x1 - x0) / length, (y1 - y0) / length) if length else (1.0, 0.0)
    side = -1.0 if dimension.offset < 0 else 1.0
    nx, ny = -uy * side, ux * side
    offset = abs(dimension.offset)

    def at(along: float, out: float) -> Point:
        """A place `along` mm from the start and `out` points from the thing measured."""
        return (x0 + ux * along + nx * out * point, y0 + uy * along + ny * out * point)

    def line(*points: Point) -> Line:
        return Line(dimension.layer, points)

    size, strong = dimension.size, STYLES[dimension.layer].strong
    width = text_width(dimension.text, size, strong) * point
    inside = width + 2.0 * TICK * point <= length
    tail = 0.0 if inside else TAIL * point
    tail_end = tail if inside else tail + width + 2.0 * TICK * point
    lines = [line(at(-tail, offset), at(length + tail_end, offset))]
    for along in (0.0, length):
        lines.append(line(at(along, GAP), at(along, offset + PAST)))
        lines.append(line(at(along - TICK * point, offset - TICK), at(along + TICK * point, offset + TICK)))
    middle = length / 2.0 if inside else length + tail + width / 2.0 + TICK * point
    return lines, [_number(dimension, at(middle, offset), (ux, uy), point)]


def _number(dimension: Dimension, at: Point, along: Point, point: float) -> Words:
    """The number, readable from below or from the right, over its line."""
    angle = degrees(atan2(along[1], along[0]))
    if angle > 90.0 + 1e-6 or angle <= -90.0 + 1e-6:
        angle += -180.0 if angle > 0 else 180.0
        along = (-along[0], -along[1])
    place = (at[0] - along[1] * OVER * point, at[1] + along[0] * OVER * point)
    text = Text(dimension.layer, place, dimension.text, dimension.size, "middle", valign="bottom", angle=angle)
    return written(text, point, dimension.text, angle)
