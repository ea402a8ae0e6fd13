"""Strips and sticks: a rest is ripped into strips, then every strip is crosscut to length. All cuts are square."""

from __future__ import annotations

from collections.abc import Sequence

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
    ripped: list[tuple[Piece, StripPlan]] = []
    for piece, strips in squared:
        rest: Piece | None = piece
        for strip in strips:
            assert rest is not None
            strip_piece, rest = _part(bench, rest, "y", strip.high, STRIP * TURNS + 1, strip.sticks[0][0], done)
            ripped.append((strip_piece, strip))
        if rest is not None:
            done.rest.append(rest)
    ended = [
        (_square(bench, piece, "x", strip.start, "high", STICK * TURNS, strip.sticks[0][0], done), strip)
        for piece, strip in ripped
    ]
    for piece, strip in ended:
        stick: Piece | None = piece
        for name, end in strip.sticks:
            assert stick is not None
            done.pieces[name], stick = _part(bench, stick, "x", end, STICK * TURNS + 1, name, done)
        if stick is not None:
            done.rest.append(stick)
    return done


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
