"""A wall that is not flat: gaps behind a straightedge, the scribe they ask for, shims, and what tips a shelf.

straightedge on the line   ===========================
wall                       --.__            __.---.__     gap at x, 0 where they touch
                                `--.____.--'
"""

from __future__ import annotations

from bisect import bisect_left
from typing import Final

from core.language import tr
from core.lengths import INCH_MM
from core.plan.model import Finding
from core.wall.job import WallJob

Bow = tuple[tuple[float, float], ...]

BESIDE_GAP: Final = INCH_MM / 16.0  # scribe beyond the widest gap: common practice
WIDE_GAP: Final = INCH_MM / 4.0  # beyond it a rail is shimmed and the back scribed, never pulled in: common practice
WORTH_SHIMMING: Final = 0.4  # mm
BUMP: Final = INCH_MM / 32.0  # the high spot a sentence takes as its example
MOST_NAMED: Final = 5  # shims in one sentence
NOISE: Final = 1e-6  # mm


def gap_at(bow: Bow, x: float) -> float:
    """The gap at x between readings that ascend by x: on a straight line from one to the next, level past the ends."""
    n = bisect_left(bow, (x,))
    if n == 0 or n == len(bow):
        return bow[min(n, len(bow) - 1)][1]
    (x0, gap0), (x1, gap1) = bow[n - 1], bow[n]
    return gap0 + (gap1 - gap0) * (x - x0) / (x1 - x0)


def widest_gap(bow: Bow, low: float, high: float) -> float:
    """The largest gap from low to high; 0 without readings. [mm] Readings may be in any order."""
    if not bow:
        return 0.0
    ordered = tuple(sorted(bow))
    between = (gap for x, gap in ordered if low <= x <= high)
    return max(gap_at(ordered, low), gap_at(ordered, high), *between)


def tip_at_front(depth: float, bump: float, height: float) -> float:
    """How far the front of a shelf moves over a high spot behind the lower edge of a rail: depth x bump / height."""
    return depth * bump / height


def bow_findings(job: WallJob) -> list[Finding]:
    """`bow` (scribe lacks), `shims` (where the rail has to be packed out), `tip` (what a high spot does)."""
    gap = widest_gap(job.wall.bow, *job.span)
    if gap < WORTH_SHIMMING:
        return []
    found = [_scribe(job, gap), _shims(job, gap), _tip(job)]
    return [finding for finding in found if finding is not None]


def _scribe(job: WallJob, gap: float) -> Finding | None:
    need, scribe = gap + BESIDE_GAP, job.shelf.scribe
    if scribe >= need - NOISE:
        return None
    value = job.coarse_up(need)
    message = tr(
        "The wall stands back by up to {gap} behind this shelf: the backs need {value} of "
        "scribe, there is {scribe}. The depth is measured from the front, so no figure moves.",
        gap=job.show(gap, "up"),
        value=job.show(value, "up"),
        scribe=job.show(scribe, "down"),
    )
    fix = job.set_shelf(tr("Leave {value} of scribe", value=job.show(value)), "scribe", value)
    return job.finding("warning", "bow", message, (fix,), need - scribe)


def _shims(job: WallJob, gap: float) -> Finding:
    ordered = tuple(sorted(job.wall.bow))
    studs = job.frame.studs if job.frame is not None else ()
    wide = [(x, depth) for x in studs if (depth := gap_at(ordered, x)) >= WORTH_SHIMMING]
    named = ", ".join(tr("{depth} at {x}", depth=job.show(depth), x=job.show(x)) for x, depth in wide[:MOST_NAMED])
    more = tr(" and at {wide} more", wide=len(wide) - MOST_NAMED) if len(wide) > MOST_NAMED else ""
    where = (
        tr("shims at the studs: {named}{more}, from the wall's left edge", named=named, more=more)
        if wide
        else tr("pack it out at each fixing")
    )
    message = tr("Keep the rail straight over a hollow of {gap}: {where}.", gap=job.show(gap, "up"), where=where)
    if gap > WIDE_GAP:
        message += tr(" Never pull the rail to the wall.")
    return job.finding("note", "shims", message, amount=gap)


def _tip(job: WallJob) -> Finding | None:
    if job.frame is None:
        return None
    moved = tip_at_front(job.shelf.depth, BUMP, job.frame.height)
    message = tr(
        "Each {BUMP} of a high spot left behind the lower edge of a rail {height} high moves the "
        "front by {moved}: shim or plane it.",
        BUMP=job.show(BUMP),
        height=job.show(job.frame.height),
        moved=job.show(moved),
    )
    return job.finding("note", "tip", message, amount=moved)
