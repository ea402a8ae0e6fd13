"""Strips and sticks: a rest is ripped into strips, then every strip is crosscut to length. All cuts are square."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from core.sawing.bench import Bench
from core.sawing.choosing import STICK, STRIP
from core.sawing.cutting import CutUp
from core.sawing.piece import Axis, Keep, Piece


class StripPlan(msgspec.Struct, frozen=True, gc=False):
    """A strip: its low and high edge, where its first stick starts, and each stick's name and end. [mm]"""

    low: float
    high: float
    start: float
    sticks: tuple[tuple[str, float], ...]


def cut_sticks(bench: Bench, piece: Piece, strips: Sequence[StripPlan]) -> CutUp:
    """Cut strips, low edge to high edge, and their sticks, from a rest.

    Each strip starts where the one below it ends plus a kerf; sticks likewise. The rest's own bevelled edges are
    squared first.
    """
    done = CutUp([], {}, [])
    rest: Piece | None = _square(bench, piece, "y", strips[0].low, "high", STRIP, strips[0].sticks[0][0], done)
    for strip in strips:
        assert rest is not None
        strip_piece, rest = _part(bench, rest, "y", strip.high, STRIP, strip.sticks[0][0], done)
        stick: Piece | None = _square(bench, strip_piece, "x", strip.start, "high", STICK, strip.sticks[0][0], done)
        for name, end in strip.sticks:
            assert stick is not None
            done.pieces[name], stick = _part(bench, stick, "x", end, STICK, name, done)
        if stick is not None:
            done.rest.append(stick)
    if rest is not None:
        done.rest.append(rest)
    return done


def _square(
    bench: Bench, piece: Piece, axis: Axis, at: float, keep: Keep, stage: int, about: str, done: CutUp
) -> Piece:
    """Give a piece a square low edge, unless it has it."""
    if bench.has_edge(piece.low(axis), at, 0.0, keep):
        return piece
    cut, low, high = bench.saw(piece, axis, at, 0.0, keep, about, None, stage)
    done.cuts.append(cut)
    if low is not None:
        done.rest.append(low)
    assert high is not None
    return high


def _part(
    bench: Bench, piece: Piece, axis: Axis, at: float, stage: int, about: str, done: CutUp
) -> tuple[Piece, Piece | None]:
    """Cut off the low side, ending square at a place, unless the piece ends there already."""
    if bench.has_edge(piece.high(axis), at, 0.0, "low"):
        return piece, None
    cut, low, high = bench.saw(piece, axis, at, 0.0, "low", about, None, stage)
    done.cuts.append(cut)
    assert low is not None
    return low, high
