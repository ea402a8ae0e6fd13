"""The order of cuts over several sheets.

Step by step (see `core.sawing.steps`), and within a step sheet by sheet. Trims and square partings are made sheet by
sheet instead, so that no sheet is carried on and off the bench needlessly, unless that would flip the guide more often.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

import msgspec

from core.plan.sheets import SheetCut
from core.sawing.bench import SawnCut
from core.sawing.steps import OTHER, RIP, SQUARE_UP, STRIP, TURNS, Guides

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


def better_guides(ordered: Sequence[Numbered], guides: Guides) -> Guides:
    """Guides that begin on another side, where that saves a flip before the first bevel or after the last.

    ordered: all cuts, as `in_order` gives them.
    guides: with which the sheets were cut, each on its usual first side. No order flips the guide less often while
    bevels are made: both sides of a V are cut, one from either side.
    """
    first = next((i for i, (_, cut) in enumerate(ordered) if cut.step >= RIP * TURNS), 0)
    rip, crosscut = guides.rip, guides.crosscut
    if first:
        (_, before), (_, bevel) = ordered[first - 1], ordered[first]
        if bevel.bevel and before.axis == bevel.axis == "y" and before.keep != rip:
            rip = before.keep
    kept = {
        cut.keep
        for _, cut in ordered[first:]
        if SQUARE_UP * TURNS <= cut.step < STRIP * TURNS and cut.axis == "x" and not cut.shared
    }
    if len(kept) == 1:
        crosscut = OTHER[kept.pop()]
    return msgspec.structs.replace(guides, rip=rip, crosscut=crosscut)
