"""Ways out, tried before they are offered: each is planned with the change made."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import msgspec

from core.document.errors import ProjectError
from core.document.model import Project
from core.document.patch import apply_pointers
from core.findings.room import ways_out
from core.plan.model import Finding, Fix, Plan
from core.plan.shapes import shape_of

MOST_FIXES = 6
MOST_TRIES, SHELVES_PLANNED = 60, 600  # tries for a plan; fewer where each has many shelves to plan

Planning = Callable[[Project], Plan]
Told = tuple[str, str]  # code and about of a finding


def with_fixes(plan: Plan, planning: Planning) -> Plan:
    """The plan with, for each finding, those fixes that make it go and make nothing else wrong.

    planning: makes a plan without trying fixes.
    """
    count = max(1, len(plan.project.shelves))
    tries = max(8, min(MOST_TRIES, SHELVES_PLANNED // count))
    errors = _told(plan.errors)
    findings = []
    for finding in plan.findings:
        good: list[Fix] = []
        second: list[Fix] = []  # the finding goes, but the frame of the same shelf then finds no room
        for fix in _proposed(plan, finding):
            if tries == 0 or len(good) == MOST_FIXES:
                break
            tries -= 1
            left = _left_wrong(plan.project, fix, finding, errors, planning)
            if left is None:
                continue
            if not left:
                good.append(fix)
            elif all(about.startswith(f"{finding.about}/") for _, about in left):
                second.append(fix)
        findings.append(msgspec.structs.replace(finding, fixes=tuple(good or second)))
    return msgspec.structs.replace(plan, findings=tuple(findings))


def without_fixes(plan: Plan) -> Plan:
    """The plan while a hand drags: what is wrong is said, ways out come when the hand rests."""
    return msgspec.structs.replace(plan, findings=tuple(msgspec.structs.replace(f, fixes=()) for f in plan.findings))


def _told(findings: Iterable[Finding]) -> set[Told]:
    return {(f.code, f.about) for f in findings}


def _proposed(plan: Plan, finding: Finding) -> Iterable[Fix]:
    yield from finding.fixes
    if finding.code == "no-room":
        for misfit in plan.layout.misfits:
            if plan.project.shelves[misfit.index].id == finding.about:
                yield from ways_out(plan.project, shape_of(plan.project, misfit.index), misfit)


def _left_wrong(
    project: Project, fix: Fix, finding: Finding, errors: set[Told], planning: Planning
) -> set[Told] | None:
    """New errors the fix would bring; None where it cannot be made or does not make the finding go."""
    try:
        changed = apply_pointers(project, fix.set)
    except ProjectError:
        return None
    after = planning(changed)
    if (finding.code, finding.about) in _told(after.findings):
        return None
    return _told(after.errors) - errors
