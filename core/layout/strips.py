"""Frame parts from what is left: strips as wide as a frame is high, ripped from the rests, crosscut to length.

Long parts choose first; a part goes into the open strip it fills best, else opens a strip in the smallest rest that
takes it, so that the corners beside the strips are used up before good large rests are touched.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterable, Sequence
from heapq import heappop, heappush
from typing import Final

import msgspec

from core.layout.model import FIT, Rect
from core.sawing.sticks import StripPlan

SAWN: Final = 0.5  # mm: with less to spare no cut gives a stick its length; it would be what others leave of the strip


class Stick(msgspec.Struct, frozen=True, gc=False):
    """A frame part to be cut: length along the grain, width across."""

    id: str
    length: float
    width: float
    thickness: float


class Rest(msgspec.Struct, gc=False):
    """A rest strips can be ripped from: the rectangle that is square through, and the strips in it so far.

    spare: how much longer and wider than a part it must be: what was sawn is as large as it comes out. [mm]
    """

    name: str
    clear: Rect
    thickness: float
    strips: list[Strip]
    next_y: float
    spare: float


class Strip(msgspec.Struct, gc=False):
    """A strip being filled: where its room ends, its low edge, its width, where the next stick starts, and its sticks.

    It does not know its rest: a ring of values that the collector is told to pass over is never given back.
    """

    end: float
    y: float
    width: float
    next_x: float
    sticks: list[tuple[str, float]]  # name and end of each


def new_rest(name: str, clear: Rect, thickness: float, *, sawn: bool = False) -> Rest:
    """A rest with no strips yet. sawn: is it what other cuts have left, not a sheet as it came?"""
    return Rest(name, clear, thickness, [], clear[1], SAWN if sawn else -FIT)


def allot(sticks: Sequence[Stick], rests: Iterable[Rest], kerf: float) -> list[Stick]:
    """Give every part a place in the rests, smallest rest first; returns the parts that found none."""
    by_size = sorted(rests, key=lambda r: (r.clear[2] - r.clear[0]) * (r.clear[3] - r.clear[1]))
    open_strips: dict[tuple[float, float], list[tuple[float, int, Strip]]] = {}
    openings: dict[tuple[float, float], _Openings] = {}
    left_over = []
    count = 0
    for stick in sorted(sticks, key=lambda s: (-s.length, -s.width)):
        strips = open_strips.setdefault((stick.width, stick.thickness), [])
        n = bisect_left(strips, stick.length + SAWN, key=_room)
        if n < len(strips):
            strip = strips.pop(n)[2]
        else:
            kind = (stick.width, stick.thickness)
            if kind not in openings:
                openings[kind] = _Openings(by_size, *kind)
            rest = openings[kind].first(stick.length)
            if rest is None:
                left_over.append(stick)
                continue
            strip = Strip(rest.clear[2], rest.next_y, stick.width, rest.clear[0], [])
            rest.strips.append(strip)
            rest.next_y += stick.width + kerf
        _put(strip, stick, kerf)
        count += 1
        insort(strips, (strip.end - strip.next_x, count, strip), key=_order)
    return left_over


class _Openings:
    """Which rest a strip of one width and thickness is to be opened in; asked for ever shorter sticks.

    Rests only fill up, and one too short for a stick may do for the next: so each is looked at but once as it becomes
    long enough, and once more when it is full.
    """

    def __init__(self, by_size: Sequence[Rest], width: float, thickness: float) -> None:
        self._rests, self._width = by_size, width
        lengths = [
            (rest.clear[2] - rest.clear[0] - rest.spare, at)
            for at, rest in enumerate(by_size)
            if abs(rest.thickness - thickness) <= FIT
        ]
        self._waiting = sorted(lengths)  # the longest last
        self._ready: list[int] = []  # those long enough, a heap

    def first(self, length: float) -> Rest | None:
        """The smallest rest with room for a strip that takes a stick of that length."""
        waiting, ready = self._waiting, self._ready
        while waiting and waiting[-1][0] >= length:
            heappush(ready, waiting.pop()[1])
        while ready:
            rest = self._rests[ready[0]]
            if rest.clear[3] - rest.next_y >= self._width + rest.spare:
                return rest
            heappop(ready)
        return None


def _room(entry: tuple[float, int, Strip]) -> float:
    return entry[0]


def _order(entry: tuple[float, int, Strip]) -> tuple[float, int]:
    return entry[0], entry[1]


def _put(strip: Strip, stick: Stick, kerf: float) -> None:
    end = strip.next_x + stick.length
    strip.sticks.append((stick.id, end))
    strip.next_x = end + kerf


def strip_plans(rest: Rest, kerf: float) -> list[StripPlan]:
    """The strips of a rest as they are to be cut: those of one width follow each other, the widest first."""
    plans: list[StripPlan] = []
    y = rest.clear[1]
    for strip in sorted((s for s in rest.strips if s.sticks), key=lambda s: -s.width):
        plans.append(StripPlan(y, y + strip.width, rest.clear[0], tuple(strip.sticks)))
        y += strip.width + kerf
    return plans
