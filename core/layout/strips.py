"""Frame parts from what is left: strips as wide as a frame is high, ripped from the rests, crosscut to length.

Long parts choose first; a part goes into the open strip it fills best, else opens a strip in the smallest rest that
takes it, so that the corners beside the strips are used up before good large rests are touched.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from core.layout.model import FIT, Rect
from core.sawing.sticks import StripPlan


class Stick(msgspec.Struct, frozen=True, gc=False):
    """A frame part to be cut: length along the grain, width across."""

    id: str
    length: float
    width: float
    thickness: float


class Rest(msgspec.Struct, gc=False):
    """A rest strips can be ripped from: the rectangle that is square through, and the strips in it so far."""

    name: str
    clear: Rect
    thickness: float
    strips: list[Strip]
    next_y: float

    def opens(self, stick: Stick) -> bool:
        """Is there room for one more strip that takes this part?"""
        return (
            abs(self.thickness - stick.thickness) <= FIT
            and self.clear[2] - self.clear[0] >= stick.length - FIT
            and self.clear[3] - self.next_y >= stick.width - FIT
        )


class Strip(msgspec.Struct, gc=False):
    """A strip being filled: its low edge, its width, where the next stick starts, and the sticks in it."""

    rest: Rest
    y: float
    width: float
    next_x: float
    sticks: list[tuple[str, float]]  # name and end of each


def new_rest(name: str, clear: Rect, thickness: float) -> Rest:
    """A rest with no strips yet."""
    return Rest(name, clear, thickness, [], clear[1])


def allot(sticks: Sequence[Stick], rests: Iterable[Rest], kerf: float) -> list[Stick]:
    """Give every part a place in the rests, smallest rest first; returns the parts that found none."""
    by_size = sorted(rests, key=lambda r: (r.clear[2] - r.clear[0]) * (r.clear[3] - r.clear[1]))
    open_strips: dict[tuple[float, float], list[Strip]] = {}
    for rest in by_size:
        for strip in rest.strips:
            open_strips.setdefault((round(strip.width, 6), rest.thickness), []).append(strip)
    left_over = []
    for stick in sorted(sticks, key=lambda s: (-s.length, -s.width)):
        strips = open_strips.setdefault((round(stick.width, 6), stick.thickness), [])
        snug = _snuggest(strips, stick)
        if snug is None:
            roomy = next((r for r in by_size if r.opens(stick)), None)
            if roomy is None:
                left_over.append(stick)
                continue
            snug = Strip(roomy, roomy.next_y, stick.width, roomy.clear[0], [])
            roomy.strips.append(snug)
            roomy.next_y += stick.width + kerf
            strips.append(snug)
        _put(snug, stick, kerf)
    return left_over


def _snuggest(strips: Iterable[Strip], stick: Stick) -> Strip | None:
    best: Strip | None = None
    spare = float("inf")
    for strip in strips:
        room = strip.rest.clear[2] - strip.next_x - stick.length
        if -FIT <= room < spare:
            best, spare = strip, room
    return best


def _put(strip: Strip, stick: Stick, kerf: float) -> None:
    end = strip.next_x + stick.length
    strip.sticks.append((stick.id, end))
    strip.next_x = end + kerf


def strip_plans(rest: Rest) -> list[StripPlan]:
    """The strips of a rest as they are to be cut."""
    return [StripPlan(s.y, s.y + s.width, rest.clear[0], tuple(s.sticks)) for s in rest.strips if s.sticks]
