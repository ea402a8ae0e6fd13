"""The bench at each pass: the pieces sawn in it, what they become, and what else lies there."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from math import cos, radians, tan
from typing import Final

import msgspec

from core.plan.model import Cut, Plan, Side
from core.sawing.piece import Axis, Box, Piece, saw_piece, whole_sheet

TRIM: Final = "trim"  # what a cut is about that trues a sheet's edge

Datum = tuple[Side, float]  # the side the trued edge or end is on, and its place


class Pass(msgspec.Struct, gc=False):
    """One pass: its cuts, the pieces as they were before, and the pieces each cut made (low, high)."""

    cuts: tuple[Cut, ...]
    axis: Axis
    thickness: float
    before: tuple[Piece, ...]
    made: tuple[tuple[Piece | None, Piece | None], ...]
    sheet: tuple[float, float]  # length, width
    trim: float
    datum: Datum


class Lying(msgspec.Struct, gc=False):
    """A piece that lies on the bench: its sheet, its thickness, its longer and shorter side square through."""

    piece: Piece
    sheet: str
    thickness: float
    sides: tuple[float, float]
    show: Box  # its show face


def pass_cuts(plan: Plan) -> list[tuple[Cut, ...]]:
    """The plan's cuts, those of one pass together."""
    return [tuple(group) for _, group in groupby(plan.cuts, key=lambda c: (c.sheet, c.pass_))]


def passes_of(plan: Plan, groups: list[tuple[Cut, ...]]) -> Iterator[tuple[Pass, dict[str, Lying]]]:
    """Each pass with the bench as it is while the pass is made: everything but the pieces being sawn.

    groups: what `pass_cuts` gives.
    The dict is the same one every time, changed between passes.
    """
    sheets = {s.id: s for s in plan.sheets}
    datums = datums_of(plan)
    bench = {s.id: _lying(whole_sheet(s.id, s.length, s.width), s.id, s.thickness) for s in plan.sheets}
    kerf = plan.project.saw.kerf
    for cuts in groups:
        stock = sheets[cuts[0].sheet]
        before = tuple(bench.pop(cut.piece).piece for cut in cuts)
        made = tuple(_saw(cut, piece, stock.thickness, kerf) for cut, piece in zip(cuts, before, strict=True))
        axis: Axis = "y" if cuts[0].kind == "rip" else "x"
        size = (stock.length, stock.width)
        yield Pass(cuts, axis, stock.thickness, before, made, size, stock.source.trim, datums[stock.id, axis]), bench
        for pair in made:
            bench.update((p.name, _lying(p, stock.id, stock.thickness)) for p in pair if p is not None)


def _lying(piece: Piece, sheet: str, thickness: float) -> Lying:
    x0, y0, x1, y1 = piece.clear_box()
    a, b = x1 - x0, y1 - y0
    return Lying(piece, sheet, thickness, (a, b) if a >= b else (b, a), piece.show_box())


def datums_of(plan: Plan) -> dict[tuple[str, Axis], Datum]:
    """The edge and the end of each sheet that were trued first; of one with no trim the upper edge and the left end."""
    datums: dict[tuple[str, Axis], Datum] = {}
    for cut in plan.cuts:
        if cut.about == TRIM:
            side: Side = "high" if cut.keep == "low" else "low"
            datums.setdefault((cut.sheet, "y" if cut.kind == "rip" else "x"), (side, cut.at))
    for sheet in plan.sheets:
        datums.setdefault((sheet.id, "y"), ("high", sheet.width))
        datums.setdefault((sheet.id, "x"), ("low", 0.0))
    return datums


def _saw(cut: Cut, piece: Piece, thickness: float, kerf: float) -> tuple[Piece | None, Piece | None]:
    tilt = radians(cut.bevel)
    axis: Axis = "y" if cut.kind == "rip" else "x"
    names = (cut.makes[0] or "", cut.makes[1] or "")
    return saw_piece(piece, axis, cut.at, cut.keep, thickness * tan(tilt), kerf / cos(tilt), names)
