"""The edges of a piece across a cut: what each is, and so whether it may be measured from."""

from __future__ import annotations

from typing import Literal

from core.plan.model import Side
from core.sawing.piece import TOUCH, Axis, Piece
from core.sawing.piece import Side as Lines
from core.steps.bench import Pass
from core.steps.section import SIGN

EdgeKind = Literal["datum", "square", "toe", "heel", "raw"]


def lines_of(piece: Piece, axis: Axis, side: Side) -> Lines:
    """One side of a piece across a cut."""
    return piece.low(axis) if side == "low" else piece.high(axis)


def edge_kind(work: Pass, piece: Piece, side: Side) -> EdgeKind:
    """What an edge is.

    datum: the trued edge or end of the sheet; square: another square edge that was sawn; toe: its show face is the
    longer; heel: its inside face is; raw: as it came, or no one plane. With no trim edges are true as they came.
    """
    lines = lines_of(piece, work.axis, side)
    if len(lines) != 1:
        return "raw"
    show, inside = lines[0]
    out = (show - inside) * SIGN[side]
    if abs(out) > TOUCH:
        return "toe" if out > 0 else "heel"
    if side == work.datum[0] and abs(show - work.datum[1]) <= TOUCH:
        return "datum"
    size = work.sheet[0] if work.axis == "x" else work.sheet[1]
    return "raw" if work.trim > 0 and (show <= TOUCH or show >= size - TOUCH) else "square"


def place_on(piece: Piece, axis: Axis, side: Side, inside: bool) -> float:
    """Where an edge stands on the show or the inside face."""
    lines = lines_of(piece, axis, side)
    if len(lines) == 1:
        return lines[0][inside]
    places = [line[inside] for line in lines]
    return max(places) if side == "low" else min(places)


def outermost(piece: Piece, axis: Axis, side: Side) -> float:
    """The furthest an edge reaches on either face."""
    both = place_on(piece, axis, side, False), place_on(piece, axis, side, True)
    return min(both) if side == "low" else max(both)
