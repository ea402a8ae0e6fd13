"""Set-ups: runs of passes that need nothing changed on the saw."""

from __future__ import annotations

from core.plan.model import Plan
from core.sawing.guide import guide_side


def setups_of(plan: Plan) -> tuple[int, ...]:
    """The set-up of each cut, from 1: a run of cuts of one tilt, one kind and one side for the guide."""
    numbers: list[int] = []
    last = None
    for cut in plan.cuts:
        this = (round(cut.bevel, 6), cut.kind, guide_side(plan.project.saw, cut.bevel, cut.keep))
        numbers.append((numbers[-1] if numbers else 0) + (this != last))
        last = this
    return tuple(numbers)
