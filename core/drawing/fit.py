"""From millimetres of a drawing to pixels of a surface."""

from __future__ import annotations

from typing import Final

import msgspec

from core.drawing.flatten import Outline
from core.drawing.model import Drawing, Point
from core.drawing.style import PIXEL

_ROUNDS: Final = 24  # words wider than the room bring the scale down by little each time
_CLOSE: Final = 1e-4  # of the scale: what no further round need find
LEAST: Final = 0.5  # of the scale without numbers: below it they are left out


class View(msgspec.Struct, frozen=True):
    """Where a drawing's millimetres lie: x to the right, y up on the drawing and down on the surface.

    scale: pixels for a mm of the drawing. x, y: pixel of the drawing's origin. ratio: device pixels in a pixel.
    points: pixels in a point of text; 4/3 on a screen at 100 %, so that text of 9 points is 12 pixels high.
    plain: without the numbers beside the drawing, for small pictures.
    """

    scale: float
    x: float
    y: float
    ratio: float = 1.0
    points: float = 1.0 / PIXEL
    plain: bool = False

    @property
    def point(self) -> float:
        """Mm of the drawing for a point of text."""
        return self.points / self.scale

    def to_surface(self, place: Point) -> Point:
        """Pixel of a place of the drawing."""
        return (self.x + self.scale * place[0], self.y - self.scale * place[1])

    def to_drawing(self, pixel: Point) -> Point:
        """Place of the drawing at a pixel."""
        return ((pixel[0] - self.x) / self.scale, (self.y - pixel[1]) / self.scale)


def fit(
    drawing: Drawing,
    width: float,
    height: float,
    *,
    pad: float = 8.0,
    points: float = 1.0 / PIXEL,
    ratio: float = 1.0,
    most: float | None = None,
    least: float = LEAST,
) -> View:
    """The view that shows the whole drawing, its numbers too, in the middle of `width` x `height` pixels.

    Where its numbers would leave too little room for the drawing itself, the view is a plain one.
    pad: left free all round [pixels]; most: largest scale [pixels/mm]; least: share of the scale without numbers.
    """
    x0, y0, x1, y1 = drawing.box
    wide, high = max(x1 - x0, 1e-9), max(y1 - y0, 1e-9)
    room, tall = max(width - 2.0 * pad, 1.0), max(height - 2.0 * pad, 1.0)
    bare = min(room / wide, tall / high, most or 1e9)
    scale = bare
    outline = Outline(drawing)
    for _ in range(_ROUNDS):
        left, low, right, top = outline.at(points / scale)
        wanted = min((room / scale - (right - left - wide)) / wide, (tall / scale - (top - low - high)) / high)
        before, scale = scale, min(max(wanted * scale, least * bare), bare)
        if abs(scale - before) <= _CLOSE * scale:
            break
    around = outline.at(points / scale)
    plain = scale <= least * bare * (1.0 + 1e-9)
    if plain:
        scale, around = bare, drawing.box
    left, low, right, top = around
    x = width / 2.0 - scale * (left + right) / 2.0
    y = height / 2.0 + scale * (low + top) / 2.0
    return View(scale, x, y, ratio, points, plain)
