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
    steps = [ceil((v - offset) / spacing) for _, v in turned]  # the first line at or over each corner
    first = min(steps)
    places: list[list[float]] = [[] for _ in range(first, max(steps))]  # of each line: where it crosses edges
    edges = zip(turned, turned[1:] + turned[:1], steps, steps[1:] + steps[:1], strict=True)
    for (u0, v0), (u1, v1), start, end in edges:
        if start == end:
            continue
        slope = (u1 - u0) / (v1 - v0)
        for step in range(min(start, end), max(start, end)):
            places[step - first].append(u0 + (step * spacing + offset - v0) * slope)
    lines: list[Segment] = []
    for step, crossed in enumerate(places, first):
        level = step * spacing + offset
        crossed.sort()
        if not angle:
            lines += [((start, level), (end, level)) for start, end in zip(crossed[::2], crossed[1::2], strict=True)]
            continue
        for start_u, end_u in zip(crossed[::2], crossed[1::2], strict=True):
            lines.append(
                (
                    (start_u * cosine - level * sine, start_u * sine + level * cosine),
                    (end_u * cosine - level * sine, end_u * sine + level * cosine),
                )
            )
    return lines
