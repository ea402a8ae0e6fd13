"""A piece in section across a cut: the polygon between its sides, cut off where it reaches too far."""

from __future__ import annotations

from typing import Final

from core.drawing.model import Point
from core.sawing.piece import WOOD, Side, SideLine

# From the lower end of a break on, and to the right of it: over the middle, where words stand; those of a gap's two
# sides run beside each other.
JAG: Final = ((0.66, 0.0), (0.74, -1.0), (0.86, 1.0), (0.94, 0.0))


def profile(low: Side, high: Side, thickness: float) -> tuple[Point, ...]:
    """The section of a piece between two sides: x along the axis, y = 0 at the show face, -thickness inside. [mm]

    Clockwise from the lower of its low corners on the show face; empty where there is no wood.
    """
    depths = sorted({0.0, 1.0, *_crossings(low), *_crossings(high), *(_meeting(a, b) for a in low for b in high)})
    depths = [depth for depth in depths if 0.0 <= depth <= 1.0]
    spans = [(depth, max(_at(line, depth) for line in low), min(_at(line, depth) for line in high)) for depth in depths]
    wood = [(depth, a, b) for depth, a, b in spans if b - a > -WOOD]
    if max((b - a for _, a, b in wood), default=0.0) <= WOOD:
        return ()
    left = [(a, -thickness * depth) for depth, a, _ in wood]
    right = [(b, -thickness * depth) for depth, _, b in wood]
    points = (*right, *reversed(left))
    return tuple(p for n, p in enumerate(points) if not _same(p, points[n - 1]))


def broken(points: tuple[Point, ...], place: float, deep: float) -> tuple[Point, ...]:
    """A polygon with a break line, the draughtsman's long one, where it is cut off at x = place. deep: of its jag."""
    found: list[Point] = []
    for n, (x, y) in enumerate(points):
        found.append((x, y))
        x1, y1 = points[(n + 1) % len(points)]
        if abs(x - place) < WOOD and abs(x1 - place) < WOOD:
            jag = [(place + out * deep, min(y, y1) + share * abs(y1 - y)) for share, out in JAG]
            found += jag if y1 > y else reversed(jag)
    return tuple(found)


def _at(line: SideLine, depth: float) -> float:
    return line[0] + (line[1] - line[0]) * depth


def _crossings(side: Side) -> list[float]:
    return [_meeting(a, b) for n, a in enumerate(side) for b in side[:n]]


def _meeting(a: SideLine, b: SideLine) -> float:
    """The depth, 0 at the show face and 1 inside, where two lines meet; -1 where they do not."""
    slope = (a[1] - a[0]) - (b[1] - b[0])
    return (b[0] - a[0]) / slope if abs(slope) > WOOD else -1.0


def _same(a: Point, b: Point) -> bool:
    return abs(a[0] - b[0]) <= WOOD and abs(a[1] - b[1]) <= WOOD
