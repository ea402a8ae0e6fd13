"""What the parts come to where a maker keeps to the numbers as they are printed: the cuts replayed with those."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, tan

import msgspec

from core.lengths import INCH_MM
from core.plan.model import Cut, Plan
from core.sawing.piece import Axis, Piece, saw_piece, whole_sheet
from core.steps.bench import Pass, pass_cuts, passes_of
from core.steps.edges import outermost, place_on
from core.steps.model import Step
from core.steps.section import SIGN, section
from core.steps.steps import steps_of

SETTLED = 0.02  # mm: a part that is off by less is as planned
Rounded = Callable[[float], float]  # mm to mm


class Cost(msgspec.Struct, frozen=True, gc=False):
    """What rounding costs. worst: a part's id, '' where none is off; off: its largest error [mm]; parts: how many are
    off by more than `SETTLED`; of: how many there are."""

    worst: str
    off: float
    parts: int
    of: int


def to_fraction(fraction: int) -> Rounded:
    """Rounds to the nearest of such a fraction of an inch, with no mark of more or less."""
    step = INCH_MM / fraction
    return lambda mm: round(mm / step) * step


def rounding_cost(plan: Plan, rounded: Rounded) -> Cost:
    """The cost of printed numbers that are rounded so: every part of a sheet against its planned show face."""
    errors = {part: abs(off) for part, off in part_errors(plan, rounded).items()}
    worst = max(errors, key=lambda part: errors[part], default="")
    off = errors.get(worst, 0.0)
    return Cost(worst if off > SETTLED else "", off, sum(e > SETTLED for e in errors.values()), len(errors))


def part_errors(plan: Plan, rounded: Rounded) -> dict[str, float]:
    """The larger of each part's errors, along and across the grain; by id. [mm]"""
    pieces = _followed(plan, rounded)
    planned = {p.piece: (p.id, p.show) for p in plan.panels if p.piece}
    planned |= {p.piece: (p.id, (p.length, p.width)) for f in plan.frames for p in f.parts if p.piece}
    errors = {}
    for name, (part, sizes) in planned.items():
        if name in pieces:
            x0, y0, x1, y1 = pieces[name].show_box()
            errors[part] = max(x1 - x0 - sizes[0], y1 - y0 - sizes[1], key=abs)
    return errors


def _followed(plan: Plan, rounded: Rounded) -> dict[str, Piece]:
    """Every piece there is in the end, by name."""
    saw, groups = plan.project.saw, pass_cuts(plan)
    pieces = {sheet.id: whole_sheet(sheet.id, sheet.length, sheet.width) for sheet in plan.sheets}
    for step, (work, _) in zip(steps_of(plan), passes_of(plan, groups), strict=True):
        before = [pieces.pop(cut.piece, None) for cut in work.cuts]
        there = [piece for piece in before if piece is not None]
        if not there:
            continue
        cut = section(saw, work.thickness, step.at, step.bevel, step.keep)
        at = _place(step, work.axis, there, cut.at_table - cut.at, rounded)
        for one, piece in zip(work.cuts, before, strict=True):
            if piece is not None:
                pieces.update((made.name, made) for made in _sawn(one, work, piece, at, saw.kerf) if made is not None)
    return pieces


def _place(step: Step, axis: Axis, pieces: list[Piece], at_table: float, rounded: Rounded) -> float:
    """Where the kept side's show face comes to end. at_table: from there to the blade beside the fence. [mm]"""
    by = step.set_by
    if not by.reads_scale:
        side = by.side if by.back is None else step.keep
        return place_on(pieces[0], axis, side, False) - SIGN[side] * rounded(by.number)
    ends = [outermost(piece, axis, step.guide) for piece in pieces]
    bearing = min(ends) if step.guide == "low" else max(ends)  # of several strips the one that reaches furthest
    return bearing - SIGN[step.guide] * rounded(by.number) - at_table


def _sawn(cut: Cut, work: Pass, piece: Piece, at: float, kerf: float) -> tuple[Piece | None, Piece | None]:
    tilt = radians(cut.bevel)
    axis: Axis = work.axis
    names = (cut.makes[0] or "", cut.makes[1] or "")
    return saw_piece(piece, axis, at, cut.keep, work.thickness * tan(tilt), kerf / cos(tilt), names)
