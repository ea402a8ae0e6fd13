"""The order of cuts over several sheets.

Step by step (see `core.sawing.steps`), and within a step sheet by sheet. Trims and square partings are made sheet by
sheet instead, so that no sheet is carried on and off the bench needlessly, unless that would flip the guide more often.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from core.plan.sheets import SheetCut
from core.sawing.bench import SawnCut
from core.sawing.steps import RIP, TURNS

Numbered = tuple[int, SawnCut]  # number of the sheet, and a cut on it


def in_order(sheets: Sequence[SheetCut]) -> list[Numbered]:
    """Every cut with the number of its sheet, in the order they are made."""
    by_sheet: list[Numbered] = []
    steps: dict[int, list[Numbered]] = {}
    for number, sheet in enumerate(sheets):
        for cut in sheet.cuts:
            if cut.step < RIP * TURNS:
                by_sheet.append((number, cut))
            else:
                steps.setdefault(cut.step, []).append((number, cut))
    later = [pair for step in sorted(steps) for pair in steps[step]]
    return [*_squared(by_sheet, len(sheets)), *later]


def _squared(by_sheet: list[Numbered], sheets: int) -> list[Numbered]:
    """Trims and partings: sheet by sheet, or step by step where that flips the guide less often."""
    if sheets < 2:
        return by_sheet
    by_step = sorted(by_sheet, key=lambda pair: pair[1].step)
    return by_step if _flips(by_step) < _flips(by_sheet) else by_sheet


def _flips(cuts: Iterable[Numbered]) -> int:
    """Flips of the guide between square cuts, which are guided on the part they keep."""
    return sum(a.axis == b.axis and a.keep != b.keep for (_, a), (_, b) in pairwise(cuts))


def flips_for_bevels(sheets: Sequence[SheetCut]) -> bool:
    """Is the guide flipped between the last square cut and the first bevel, with no crosscut between them?

    Then bevels had better be ripped from the other side first (`Guides.rip`).
    """
    ordered = in_order(sheets)
    first = next((i for i, (_, cut) in enumerate(ordered) if cut.step >= RIP * TURNS), 0)
    if not first:
        return False
    (_, before), (_, bevel) = ordered[first - 1], ordered[first]
    return bevel.bevel > 0.0 and before.axis == bevel.axis == "y" and before.keep == "low"
