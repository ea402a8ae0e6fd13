"""A shelf between two side walls: how long it may be, that it can be pushed in, and that its ends are open."""

from __future__ import annotations

from typing import Final

from core.document.model import Alcove, Wall
from core.frame.job import coarse_down
from core.language import tr
from core.lengths import INCH_MM, Unit
from core.plan.model import Finding, Fix, Pointers, Severity
from core.wall.job import WallJob

CLEARANCE: Final = {Unit.INCH: INCH_MM / 4.0, Unit.MM: 6.0}  # in total, both ends: common practice
WORTH_FILLING: Final = 3.0  # mm: a shelf shorter by less is as long as it should be
NOISE: Final = 1e-6  # mm


def longest_in(alcove: Alcove, unit: Unit) -> float:
    """The length of a shelf that fits: the smallest of the six widths less the clearance. [mm]"""
    return min(*alcove.top, *alcove.bottom) - CLEARANCE[unit]


def place_in(wall: Wall, alcove: Alcove, unit: Unit) -> tuple[float, float] | None:
    """Length, and place from the wall's left edge, of the shelf that fills an alcove; None where none fits. [mm]"""
    length = coarse_down(longest_in(alcove, unit), unit)
    return (length, max(0.0, (wall.width - length) / 2.0)) if length > 0.0 else None


def alcove_findings(job: WallJob) -> list[Finding]:
    """`alcove-front` or `alcove-gap`, `alcove-length` or `alcove-short`, `alcove-ends`; nothing without an alcove."""
    alcove = job.wall.alcove
    if alcove is None:
        return []
    found = [_front(job, alcove), _length(job, alcove), _ends(job)]
    return [finding for finding in found if finding is not None]


def _fit(job: WallJob, alcove: Alcove) -> tuple[float, Fix] | None:
    """The length that fits, and the fix that gives it, in the middle of the wall; None where there is none."""
    place = place_in(job.wall, alcove, job.unit)
    if place is None:
        return None
    length, middle = place
    fix = job.set_shelf(tr("Make it {length} long", length=job.show(length)), "length", length)
    return length, Fix(fix.text, {**fix.set, **job.set_shelf("", "mount/x", middle).set})


def _front(job: WallJob, alcove: Alcove) -> Finding | None:
    """The shell goes in from the front: where that is the narrowest, a shelf as wide as the back does not pass."""
    fit, where = _fit(job, alcove), ""
    back, front = 0.0, 0.0
    for name, (behind, _, before) in (("over", alcove.top), ("under", alcove.bottom)):
        if before < behind - NOISE and behind - before > back - front:
            back, front, where = behind, before, name
    if not where:
        return None
    message = tr(
        "The alcove is {front} wide at the front and {back} at the back, {where} the shelf: ",
        front=job.show(front),
        back=job.show(back),
        where=where,
    )
    if job.shelf.length > front - NOISE:
        message += tr("a shelf {length} long does not go in.", length=job.show(job.shelf.length))
        return job.finding("error", "alcove-front", message, (fit[1],) if fit else (), job.shelf.length - front)
    gap = back - job.shelf.length
    message += tr("one that goes in leaves {gap} of gap at the back, both ends together.", gap=job.show(gap))
    return job.finding("warning", "alcove-gap", message, amount=gap)


def _length(job: WallJob, alcove: Alcove) -> Finding | None:
    longest, length = longest_in(alcove, job.unit), job.shelf.length
    fit = _fit(job, alcove)
    if fit is None or -NOISE <= fit[0] - length <= WORTH_FILLING:
        return None
    smallest, clear = min(*alcove.top, *alcove.bottom), CLEARANCE[job.unit]
    reckoned = tr(
        "the alcove's smallest width, {smallest}, less {clear} to slide it in",
        smallest=job.show(smallest),
        clear=job.show(clear),
    )
    if fit[0] > length:
        message = tr(
            "In this alcove the shelf may be {fit} long: {reckoned}.", fit=job.show(fit[0], "down"), reckoned=reckoned
        )
        return job.finding("note", "alcove-short", message, (fit[1],), fit[0] - length)
    message = tr(
        "A shelf {length} long is {length2} too long: {reckoned}.",
        length=job.show(length),
        length2=job.show(length - longest, "up"),
        reckoned=reckoned,
    )
    severity: Severity = "error" if length > smallest + NOISE else "warning"
    return job.finding(severity, "alcove-length", message, (fit[1],), length - longest)


def _ends(job: WallJob) -> Finding | None:
    mitred = [side for side in ("left", "right") if getattr(job.shelf, side) == "mitred"]
    if not mitred:
        return None
    message = tr(
        "Between side walls nobody sees {rest}: open ends spare {mitred} × {depth} of net.",
        rest=tr("its ends") if len(mitred) == 2 else tr("the {mitred} end", mitred=mitred[0]),
        mitred=len(mitred),
        depth=job.show(job.shelf.depth),
    )
    pointers: Pointers = {}
    for side in mitred:
        pointers.update(job.set_shelf("", side, "open").set)
    text = tr("Leave both ends open") if len(mitred) == 2 else tr("Leave the {mitred} end open", mitred=mitred[0])
    return job.finding("note", "alcove-ends", message, (Fix(text, pointers),))
