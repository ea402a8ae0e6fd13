"""Ordinates made plain: leaders from the edge, bent where numbers would run into each other.

         edge |
              |--.                      start, bend, turn, end: points from the edge
              |   \\
              |    '-- 10-3/16"
"""

from __future__ import annotations

from typing import Final

from core.drawing.flat import BASELINE, Words
from core.drawing.measure import LINE, text_width
from core.drawing.model import Align, Line, Ordinates, Point
from core.drawing.spread import spread
from core.drawing.style import STYLES

START: Final = 2.0
BEND: Final = 8.0
TURN: Final = 17.0
END: Final = 21.0
GAP: Final = 2.5  # from the leader to its number


def reach(ordinates: Ordinates) -> float:
    """How far leaders and numbers stand out from the edge. [points]"""
    strong = STYLES[ordinates.layer].strong
    widths = [text_width(text, ordinates.size, strong) for _, text in ordinates.marks]
    return END + GAP + max(widths, default=0.0)


def flat_ordinates(ordinates: Ordinates, point: float) -> tuple[list[Line], list[Words]]:
    """Leaders and numbers at one scale. point: mm of the drawing for a point of the surface."""
    places = [place for place, _ in ordinates.marks]
    pitch = LINE * ordinates.size * point
    if ordinates.axis == "x":
        ends = spread(places, pitch)
    else:  # measured from the upper edge, past which they must not run
        ends = [-end for end in reversed(spread([-place for place in reversed(places)], pitch))]
    out = point if ordinates.side == "high" else -point
    upright = ordinates.axis == "x"

    def at(along: float, from_edge: float) -> Point:
        across = ordinates.base + out * from_edge
        return (along, across) if upright else (across, along)

    layer, size = ordinates.layer, ordinates.size
    strong, angle = STYLES[layer].strong, 90.0 if upright else 0.0
    align: Align = "left" if ordinates.side == "high" else "right"
    down = BASELINE["middle"] * size * point
    lines: list[Line] = []
    words: list[Words] = []
    for (place, text), end in zip(ordinates.marks, ends, strict=True):
        bent = (at(place, BEND), at(end, TURN)) if abs(end - place) > 0.2 * point else ()
        lines.append(Line(layer, (at(place, START), *bent, at(end, END))))
        x, y = at(end, END + GAP)
        spot = (x + down, y) if upright else (x, y - down)
        words.append(Words(layer, spot, text, size, align, angle, "", False, text_width(text, size, strong)))
    return lines, words
