"""A drawing made plain for one scale: lines, areas and words, no ordinates or dimensions left."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians, sin
from typing import Final

import msgspec

from core.drawing.measure import CAP, text_width
from core.drawing.model import Align, Area, Box, Layer, Line, Point, Text, VAlign
from core.drawing.style import STYLES

ABOVE: Final = 0.74  # of the size: from the baseline to the top of the letters
BELOW: Final = 0.21  # from the baseline to the bottom of letters with a tail
TAILS: Final = frozenset("gjpqyQ,;/()[]@ß")
BASELINE: Final[dict[VAlign, float]] = {"top": ABOVE, "middle": CAP / 2.0, "bottom": -BELOW}
_BEFORE: Final[dict[Align, float]] = {"left": 0.0, "middle": 0.5, "right": 1.0}


class Words(msgspec.Struct, frozen=True, gc=False):
    """A text with its baseline's place: `at` [mm] is the baseline's left end, middle or right end, as `align` says."""

    layer: Layer
    at: Point
    text: str
    size: float  # points
    align: Align
    angle: float  # [deg]
    about: str
    clear: bool
    width: float  # points, as estimated from the bundled fonts

    @property
    def strong(self) -> bool:
        """Whether it is written in the semibold face."""
        return STYLES[self.layer].strong

    def corners(self, point: float, pad: float = 0.0) -> tuple[Point, Point, Point, Point]:
        """The four corners of the room it takes, lower left first, along its baseline. [mm]

        point: mm for a point of the surface; pad: more room all round. [points]
        """
        cosine, sine = cos(radians(self.angle)), sin(radians(self.angle))
        left, right, low, high = self._sides(pad)
        x, y = self.at

        def place(u: float, v: float) -> Point:
            return (x + (u * cosine - v * sine) * point, y + (u * sine + v * cosine) * point)

        return (place(left, low), place(right, low), place(right, high), place(left, high))

    def box(self, point: float, pad: float = 0.0) -> Box:
        """The upright box around it. [mm]"""
        if self.angle not in (0.0, 90.0):
            return bounds(self.corners(point, pad))
        left, right, low, high = (side * point for side in self._sides(pad))
        x, y = self.at
        return (x + left, y + low, x + right, y + high) if not self.angle else (x - high, y + left, x - low, y + right)

    def _sides(self, pad: float) -> tuple[float, float, float, float]:
        """How far it reaches along its baseline (from, to) and across it (from, to). [points]"""
        left = -self.width * _BEFORE[self.align] - pad
        below = 0.02 if TAILS.isdisjoint(self.text) and self.text.isascii() else BELOW
        return left, left + self.width + 2.0 * pad, -below * self.size - pad, ABOVE * self.size + pad


class Flat(msgspec.Struct, frozen=True):
    """A drawing made plain; `box` takes in everything, the words beside it too. [mm]"""

    point: float  # mm of the drawing for a point of the surface
    areas: tuple[Area, ...]
    lines: tuple[Line, ...]
    words: tuple[Words, ...]
    box: Box


def written(text: Text, point: float, words: str, angle: float) -> Words:
    """The words of a text at one scale, in another wording or turned."""
    size, strong = text.size, STYLES[text.layer].strong
    down = BASELINE[text.valign] * size
    x = text.at[0] + point * text.shift[0]
    y = text.at[1] + point * text.shift[1]
    if angle == 90.0:
        x += down * point
    elif angle:
        x += down * point * sin(radians(angle))
        y -= down * point * cos(radians(angle))
    else:
        y -= down * point
    return Words(
        text.layer,
        (x, y),
        words,
        size,
        text.align,
        angle,
        text.about,
        text.clear,
        text_width(words, size, strong),
    )


def bounds(points: Iterable[Point]) -> Box:
    """The upright box around points; ValueError where there are none."""
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def united(boxes: Iterable[Box]) -> Box:
    """The upright box around boxes; ValueError where there are none."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return (min(x0), min(y0), max(x1), max(y1))
