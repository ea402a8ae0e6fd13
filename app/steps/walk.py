"""Where one is among the steps, and where that is when the plan is another one. No Qt here."""

from __future__ import annotations

from collections.abc import Sequence

from core.plan.model import Plan
from core.steps.model import Step

Mark = tuple[str, str, str, str, bool, bool, int]  # what a step does, and the how manieth that does it


def marks_of(steps: Sequence[Step]) -> list[Mark]:
    """What each step does, so that it is found again among the steps of another plan."""
    seen: dict[tuple[str, str, str, str, bool, bool], int] = {}
    marks: list[Mark] = []
    for step in steps:
        kind = (step.sheet, step.kind, step.about, step.keep, bool(step.bevel), step.second)
        seen[kind] = seen.get(kind, -1) + 1
        marks.append((*kind, seen[kind]))
    return marks


def follow(mark: Mark | None, number: int, steps: Sequence[Step]) -> int:
    """The number of the step that does the same as before, else the same number as far as there is one; 0 for none."""
    if mark is not None:
        now = marks_of(steps)
        if mark in now:
            return now.index(mark) + 1
    return min(max(number, 1), len(steps))


def step_about(plan: Plan, steps: Sequence[Step], about: str, number: int) -> int:
    """The step to show for a thing that was selected: the one shown, if it is about it, else the first that is.

    About a panel or a frame part is what makes an edge of it; about a seam what makes one of its edges; about a piece
    what sets it free; about a sheet its first. 0 for none: a whole shelf is nothing to go to.
    """
    wanted = {about}
    seam = next((seam for seam in plan.seams if seam.id == about), None)
    if seam is not None:
        wanted = set(seam.between)
    made = {cut.n: cut.makes for cut in plan.cuts}
    found = [
        step.number
        for step in steps
        if ("/" in about and wanted.intersection(step.abouts) and (seam is None or step.bevel))
        or any(about in made.get(n, ()) for n in step.cuts)
        or about == step.sheet
    ]
    if number in found:
        return number
    return found[0] if found else 0
