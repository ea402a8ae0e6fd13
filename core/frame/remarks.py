"""What a frame that can be built has to say: the mouth, ribs that had to move, studs and screws."""

from __future__ import annotations

from math import floor

from core.frame.cavity import FrameSize
from core.frame.faults import LEAST_HEIGHT
from core.frame.job import FrameJob
from core.frame.mouth import WORST, clamped_tilt, held_tilt, mouth_closing, passing_share, worst_closing
from core.frame.ribs import RibPlan
from core.frame.spread import Interval
from core.frame.studs import BETWEEN_DIAMETERS, least_screw, screws_that_fit, sold_length
from core.language import tr
from core.lengths import snap_up
from core.plan.model import Finding, Fix, ScrewPlace

WORTH_SAYING = 0.05  # mm: a mouth that closes less, or a rib that moves less, shows as nothing
WIDEST_SPACING = 406.4  # mm: 16 in, the limit for ribs: common practice


def mouth_remark(job: FrameJob, size: FrameSize) -> Finding | None:
    """`mouth`: how far top and bottom may close on the frame. A note; a warning past twice the height play."""
    depth, play, saw = job.shelf.depth, job.project.frame.height_play, job.project.saw
    held = mouth_closing(depth, held_tilt(saw.bevel_sd))
    clamped = mouth_closing(depth, clamped_tilt(saw.overcut))
    if max(held, clamped) < WORTH_SAYING:
        return None
    message = tr(
        "Top and bottom together may close the mouth by {held} with the corners held true, "
        "against {play} of height play",
        held=job.show(held),
        play=job.show(play),
    )
    if abs(clamped) >= WORTH_SAYING:
        way = "close" if clamped > 0.0 else "open"
        message += tr("; bevel faces clamped shut would {way} it by {clamped}", way=way, clamped=job.show(abs(clamped)))
    message += _how_surely(job)
    if held <= 2.0 * play:
        return job.finding("note", "mouth", message + ".", amount=held)
    wider = snap_up(held, job.unit)
    fixes: tuple[Fix, ...] = ()
    if size.height + play - wider >= LEAST_HEIGHT:
        fixes = (Fix(tr("Leave {wider} of height play", wider=job.show(wider)), {"/frame/height_play": wider}),)
    return job.finding("warning", "mouth", message + ".", fixes, held)


def _how_surely(job: FrameJob) -> str:
    """How many frames pass, and what the worst of bevels would do; nothing without a spread."""
    depth, play, spread = job.shelf.depth, job.project.frame.height_play, job.project.saw.bevel_sd
    if spread <= 0.0:
        return ""
    return tr(
        ". Of 100 shells about {count} let their frame pass; were all four bevels off by {times:g} times the saw's "
        "spread the same way, the mouth would close by {worst}",
        count=floor(100.0 * passing_share(depth, play, spread)),
        times=WORST,
        worst=job.show(worst_closing(depth, spread)),
    )


def rib_remark(job: FrameJob, plan: RibPlan) -> Finding | None:
    """`rib-spacing` (warning) where ribs stand too far apart, `rib-moved` (note) where some left equal spacing."""
    if plan.wide:
        return _wide_remark(job, plan.wide)
    moved = [n for n, shift in enumerate(plan.shifts) if abs(shift) >= WORTH_SAYING]
    if not moved:
        return None
    most = max((plan.shifts[n] for n in moved), key=abs)
    names = ", ".join(str(n + 1) for n in moved[:4]) + (", …" if len(moved) > 4 else "")
    which, upto = (
        (tr("Rib {names} stands", names=names), "")
        if len(moved) == 1
        else (tr("Ribs {names} stand", names=names), tr("up to "))
    )
    side = "right" if most > 0.0 else "left"
    where = (
        tr("{most} to the {side} of its even place", most=job.show(abs(most)), side=side)
        if not upto
        else tr("{most} off", most=job.show(abs(most)))
    )
    message = tr("{which} {upto}{where}, clear of the drivers' ways to the screws", which=which, upto=upto, where=where)
    if plan.extra > 0:
        message += tr(
            "; {extra} {rest} more than equal spacing needs",
            extra=plan.extra,
            rest="rib" if plan.extra == 1 else "ribs",
        )
    return job.finding("note", "rib-moved", message + ".", amount=abs(most))


def put_remark(job: FrameJob, plan: RibPlan) -> Finding | None:
    """`rib-put` (warning) where ribs put by hand can not stand where they were put."""
    if not plan.refused:
        return None
    places = ", ".join(job.show(x) for x in plan.refused[:4]) + (", …" if len(plan.refused) > 4 else "")
    message = tr(
        "No rib can stand at {places} from the frame's left end, where it was put by hand: a "
        "driver's way, another rib or the frame's end is there. It is left out.",
        places=places,
    )
    n = next(n for n, shelf in enumerate(job.project.shelves) if shelf.id == job.shelf.id)
    kept = [x for x in job.shelf.ribs if x not in plan.refused]
    fix = Fix(tr("Let the ribs stand where they do by themselves"), {f"/shelves/{n}/ribs": kept})
    return job.finding("warning", "rib-put", message, (fix,))


def _wide_remark(job: FrameJob, wide: tuple[Interval, ...]) -> Finding:
    low, high = max(wide, key=lambda gap: gap[1] - gap[0])
    gap, asked = high - low, job.project.frame.spacing
    narrow = gap < 2.0 * job.frame_thickness
    why = tr("two ribs are thicker than that") if narrow else tr("the drivers' ways leave no place for a rib there")
    message = tr(
        "Between {low} and {high} from the frame's left end the ribs stand {gap} apart, more "
        "than the {asked} asked for: {why}.",
        low=job.show(low),
        high=job.show(high),
        gap=job.show(gap),
        asked=job.show(asked),
        why=why,
    )
    allowed = job.coarse_up(gap)
    fixes: tuple[Fix, ...] = ()
    if allowed <= WIDEST_SPACING:
        fixes = (Fix(tr("Allow ribs {allowed} apart", allowed=job.show(allowed)), {"/frame/spacing": allowed}),)
    return job.finding("warning", "rib-spacing", message, fixes, gap - asked)


def mount_remark(job: FrameJob) -> Finding:
    """`not-mounted`: the shelf has no place on the wall."""
    message = tr(
        "These {length} of shelf have no place on the wall yet: studs, screws and load are not planned.",
        length=job.show(job.shelf.length),
    )
    return job.finding("note", "not-mounted", message)


def screw_remarks(job: FrameJob, size: FrameSize, screws: tuple[ScrewPlace, ...]) -> tuple[Finding, ...]:
    """`screw-length` and `screw-crowd`: warnings about screws that are too short, not sold, or too close."""
    if not screws:
        return ()
    found, screw, length = [], job.project.screw, screws[0].length
    least = least_screw(job.frame_thickness, job.project.frame, job.project.wall, screw)
    if length < least - WORTH_SAYING:
        bite = length - (least - screw.bite)
        holds = tr("{bite} of thread", bite=job.show(bite, "down")) if bite > 0.0 else tr("no thread")
        message = tr(
            "Screws {length} long leave {holds} in the stud, not the {bite} asked for: they need {least}.",
            length=job.show(length),
            holds=holds,
            bite=job.show(screw.bite),
            least=job.show(least, "up"),
        )
        fix = Fix(tr("Choose the length from what is sold"), {"/screw/length": None})
        found.append(job.finding("warning", "screw-length", message, (fix,), least - length))
    elif screw.length is None and sold_length(least, job.unit) is None:
        message = tr(
            "No screw of {least} is sold as stock: fewer rail layers or less bite would help.",
            least=job.show(least, "up"),
        )
        found.append(job.finding("warning", "screw-length", message, amount=least))
    fit = screws_that_fit(size.height, screw.diameter)
    if screw.per_stud > fit:
        message = tr(
            "In a frame {height} high, {per_stud} screws one above the other stand closer than "
            "{BETWEEN_DIAMETERS} or too near its edges; it has room for {fit}.",
            height=job.show(size.height),
            per_stud=screw.per_stud,
            BETWEEN_DIAMETERS=job.show(BETWEEN_DIAMETERS * screw.diameter),
            fit=fit,
        )
        fix = Fix(tr("Use {fit} to a stud", fit=fit), {"/screw/per_stud": fit})
        found.append(job.finding("warning", "screw-crowd", message, (fix,)))
    return tuple(found)
