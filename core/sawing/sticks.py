"""Strips and sticks: a rest is ripped into strips, then every strip is crosscut to length. All cuts are square.

Cuts to one size follow each other, whatever piece they are made in, so that guide, fence or stop is set once for all.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heapify, heappop, heappush

import msgspec

from core.sawing.bench import Bench
from core.sawing.cutting import CutUp
from core.sawing.piece import Axis, Keep, Piece
from core.sawing.steps import STICK, STRIP, TURNS


class StripPlan(msgspec.Struct, frozen=True, gc=False):
    """A strip: its low and high edge, where its first stick starts, and each stick's name and end. [mm]"""

    low: float
    high: float
    start: float
    sticks: tuple[tuple[str, float], ...]


def cut_sticks(bench: Bench, rests: Sequence[tuple[Piece, Sequence[StripPlan]]]) -> CutUp:
    """Cut strips, low edge to high edge, and their sticks, from rests.

    Each strip starts where the one below it ends plus a kerf; sticks likewise. All rests are ripped before any strip is
    crosscut; what bevels left is squared first, so that the guide is flipped once for rips and once for crosscuts.
    """
    done = CutUp([], {}, [])
    squared = [
        (_square(bench, piece, "y", strips[0].low, "high", STRIP * TURNS, strips[0].sticks[0][0], done), strips)
        for piece, strips in rests
    ]
    ripped = _rip(bench, squared, done)
    ended = [
        (_square(bench, piece, "x", strip.start, "high", STICK * TURNS, strip.sticks[0][0], done), strip)
        for piece, strip in ripped
    ]
    _cut_to_length(bench, ended, done)
    return done


def _rip(
    bench: Bench, rests: Sequence[tuple[Piece, Sequence[StripPlan]]], done: CutUp
) -> list[tuple[Piece, StripPlan]]:
    """All strips, the widest first, those of each rest from its low edge up."""
    ripped: list[tuple[Piece, StripPlan]] = []
    pieces: list[Piece | None] = [piece for piece, _ in rests]
    waiting = [(-_size(strips[0].low, strips[0].high), at, 0) for at, (_, strips) in enumerate(rests)]
    heapify(waiting)
    while waiting:
        _, at, number = heappop(waiting)
        piece, strips = pieces[at], rests[at][1]
        assert piece is not None
        strip = strips[number]
        made, pieces[at] = _part(bench, piece, "y", strip.high, STRIP * TURNS + 1, strip.sticks[0][0], done)
        ripped.append((made, strip))
        if number + 1 < len(strips):
            heappush(waiting, (-_size(strips[number + 1].low, strips[number + 1].high), at, number + 1))
    done.rest += [rest for rest in pieces if rest is not None]
    return ripped


def _cut_to_length(bench: Bench, strips: Sequence[tuple[Piece, StripPlan]], done: CutUp) -> None:
    """All sticks, the longest first, those of each strip from its low end on."""
    pieces: list[Piece | None] = [piece for piece, _ in strips]
    waiting = [(-_size(strip.start, strip.sticks[0][1]), at, 0) for at, (_, strip) in enumerate(strips)]
    heapify(waiting)
    while waiting:
        _, at, number = heappop(waiting)
        piece, sticks = pieces[at], strips[at][1].sticks
        assert piece is not None
        name, end = sticks[number]
        done.pieces[name], pieces[at] = _part(bench, piece, "x", end, STICK * TURNS + 1, name, done)
        if number + 1 < len(sticks):
            heappush(waiting, (-_size(end + bench.kerf, sticks[number + 1][1]), at, number + 1))
    done.rest += [rest for rest in pieces if rest is not None]


def _size(start: float, end: float) -> float:
    """What a cut leaves between two places, the same for all that are to be alike. [mm]"""
    return round(end - start, 6)


def _square(bench: Bench, piece: Piece, axis: Axis, at: float, keep: Keep, step: int, about: str, done: CutUp) -> Piece:
    """Give a piece a square low edge, unless it has it."""
    if bench.has_edge(piece.low(axis), at, 0.0, keep):
        return piece
    cut, low, high = bench.saw(piece, axis, at, 0.0, keep, about, None, step)
    done.cuts.append(cut)
    if low is not None:
        done.rest.append(low)
    assert high is not None
    return high


def _part(
    bench: Bench, piece: Piece, axis: Axis, at: float, step: int, about: str, done: CutUp
) -> tuple[Piece, Piece | None]:
    """Cut off the low side, ending square at a place, unless the piece ends there already."""
    if bench.has_edge(piece.high(axis), at, 0.0, "low"):
        return piece, None
    cut, low, high = bench.saw(piece, axis, at, 0.0, "low", about, None, step)
    done.cuts.append(cut)
    assert low is not None
    return low, high
