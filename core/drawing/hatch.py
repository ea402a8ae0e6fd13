"""Hatch lines clipped to polygons, for surfaces that cannot hatch by themselves."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import ceil, cos, radians, sin

from core.drawing.model import Point
from core.drawing.style import Hatch

Segment = tuple[Point, Point]


@lru_cache(maxsize=1 << 10)
def hatch_lines(points: tuple[Point, ...], hatch: Hatch, point: float) -> tuple[Segment, ...]:
    """The lines of one hatch inside one simple polygon.

    point: mm of the drawing for a point of the surface.
    The lines lie on a grid through the drawing's origin, so that neighbouring areas join up.
    """
    lines: list[Segment] = []
    for angle in hatch.angles:
        for offset in (0.0, hatch.pair) if hatch.pair else (0.0,):
            lines += clipped_lines(points, angle, hatch.spacing * point, offset * point)
    return tuple(lines)


def clipped_lines(points: Sequence[Point], angle: float, spacing: float, offset: float = 0.0) -> list[Segment]:
    """Parallel lines inside a simple polygon, by the even-odd rule; corners touched once count half.

    angle: counter-clockwise from x [deg]; spacing, offset: square to the lines, spacing > 0. [mm]
    """
    cosine, sine = cos(radians(angle)), sin(radians(angle))
    turned = [(x * cosine + y * sine, y * cosine - x * sine) for x, y in points]
    edges = list(zip(turned, turned[1:] + turned[:1], strict=True))
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    lines: list[Segment] = []
    for step in range(ceil((low - offset) / spacing), ceil((high - offset) / spacing)):
        level = step * spacing + offset
        places = sorted(
            u0 + (level - v0) * (u1 - u0) / (v1 - v0) for (u0, v0), (u1, v1) in edges if (v0 <= level) != (v1 <= level)
        )
        for start, end in zip(places[::2], places[1::2], strict=True):
            lines.append(
                (
                    (start * cosine - level * sine, start * sine + level * cosine),
                    (end * cosine - level * sine, end * sine + level * cosine),
                )
            )
    return lines
