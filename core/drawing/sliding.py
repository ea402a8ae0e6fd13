"""Words moved a little, to be clear of other words and of the lines round them."""

from __future__ import annotations

from bisect import bisect_right
from functools import lru_cache
from math import inf
from typing import Final

import msgspec

from core.drawing.crowd import Crowd
from core.drawing.flat import Words, bounds
from core.drawing.model import Area, Box, Drawing, Line, Point

APART: Final = 3.0  # points between words and what stands before or after them
CLEAR: Final = 1.0  # points between words and lines over or under them
UNDER: Final = 2.0  # points between words and others over or under them
STEP: Final = 0.25  # of the words' width: by so much at a time they are moved along their line
ROWS: Final = (0.6, 1.2)  # of their size: so far across it, where along it no place is clear
OUTLINED: Final = frozenset({"kept", "work", "bench", "fallen", "packer", "guide", "void"})
DRAWN: Final = frozenset({"setting", "now", "cut"})


class Edges:
    """Level and upright lines, looked up by their place."""

    def __init__(self, boxes: list[Box]) -> None:
        """boxes: all four sides of each count; of one that is a line, that."""
        self._upright = sorted({(x, y0, y1) for x0, y0, x1, y1 in boxes for x in (x0, x1)})
        self._level = sorted({(y, x0, x1) for x0, y0, x1, y1 in boxes for y in (y0, y1)})

    def meet(self, box: Box) -> bool:
        """Does one of them come into a box?"""
        x0, y0, x1, y1 = box
        return _meet(self._upright, x0, x1, y0, y1) or _meet(self._level, y0, y1, x0, x1)


def _meet(lines: list[tuple[float, float, float]], low: float, high: float, start: float, end: float) -> bool:
    """Does one of lines at places between low and high come between start and end?"""
    for at, first, last in lines[bisect_right(lines, (low, inf)) :]:
        if at >= high:
            return False
        if first < end and start < last:
            return True
    return False


class Lines:
    """What words keep clear of where they can: outlines, and rather yet the lines of dimensions, cuts and breaks."""

    def __init__(self, drawing: Drawing, point: float) -> None:
        """point: mm of the drawing for a point of the surface."""
        self._point = point
        areas = (item for item in drawing.items if isinstance(item, Area) and item.layer in OUTLINED)
        lines = (item for item in drawing.items if isinstance(item, Line) and item.layer in DRAWN)
        self._outlines = Edges([bounds(item.points) for item in areas])
        self._drawn = Edges([bounds(item.points) for item in lines])

    def place(self, words: Words, slide: float, room: Box, crowd: Crowd, *, tidy: bool) -> Words | None:
        """The words moved as little as may be: clear of all, else of drawn lines, else of other words; then let in.

        None where there is no room. slide: how far along their line at most, in their widths; crowd: the words that
        stand already; tidy: none rather than across a line.
        """
        level, point = words.angle != 90.0, self._point
        across, along = words.size * point, words.width * point
        x0, y0, x1, y1 = words.box(point)
        wide, high = (APART * point, CLEAR * point) if level else (CLEAR * point, APART * point)
        more = (UNDER - CLEAR) * point
        best: tuple[int, Point] | None = None
        for share, row in _places(slide):
            u, v = (share * along, row * across) if level else (-row * across, share * along)
            box = (x0 + u, y0 + v, x1 + u, y1 + v)
            if box[0] < room[0] or box[1] < room[1] or box[2] > room[2] or box[3] > room[3]:
                continue
            around = (box[0] - wide, box[1] - high, box[2] + wide, box[3] + high)
            u0, v0 = (0.0, more) if level else (more, 0.0)
            if crowd.meets((around[0] - u0, around[1] - v0, around[2] + u0, around[3] + v0)):
                continue
            crossed = 2 if self._drawn.meet(around) else 1 if self._outlines.meet(around) else 0
            if best is None or crossed < best[0]:
                best = crossed, (u, v)
            if not crossed:
                break
        if best is None or (best[0] and tidy):
            return None
        u, v = best[1]
        crowd.add((x0 + u, y0 + v, x1 + u, y1 + v))
        return msgspec.structs.replace(words, at=(words.at[0] + u, words.at[1] + v))


@lru_cache(maxsize=16)
def _places(slide: float) -> tuple[Point, ...]:
    """Where words are tried, their own place first: along their line in widths, across it in sizes."""
    steps = (0.0, *(way * STEP * n for n in range(1, int(slide / STEP) + 1) for way in (1.0, -1.0)))
    rows = (0.0, *(way * n for n in ROWS for way in (1.0, -1.0))) if slide >= 1.0 else (0.0,)
    return tuple((step, row) for row in rows for step in steps)
