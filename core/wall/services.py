"""What is hidden in the wall: rectangles to keep out of, lines a cable may run along, how deep a screw goes.

          |///////|            above a socket
----------+-------+---------
//////////|socket |/////////   level with it
----------+-------+---------
          |///////|            below it
"""

from __future__ import annotations

from typing import Final, Literal

from core.document.model import KeepOut, Mount
from core.frame.job import coarse_up
from core.frame.studs import frame_left
from core.language import tr
from core.lengths import INCH_MM, Unit
from core.plan.model import Finding, Fix, Frame, ScrewPlace
from core.stock.stud import STUD_DEPTH
from core.wall.job import WallJob

Way = Literal["in", "above", "below", "level with"]
Box = tuple[float, float, float, float]

CABLE_DEPTH: Final = 1.25 * INCH_MM  # from the stud's face: a North American rule
WITH_CABLES: Final = ("socket", "switch")
NOISE: Final = 1e-6  # mm
MOST_NAMED: Final = 4  # screws in one sentence
PROOF: Final = tr("detect, switch the power off, pilot by hand; metal plate means stop")


def frame_low(job: WallJob, frame: Frame) -> float:
    """The frame's lower edge from the floor: the shell's top lies on the frame. [mm]"""
    return job.mount.top - job.shell_thickness - frame.height


def screw_points(job: WallJob, frame: Frame) -> tuple[tuple[float, float], ...]:
    """Where the screws meet the wall: from its left edge, from the floor. [mm]"""
    left = frame_left(job.shelf, job.mount, job.shell_thickness, job.project.frame.side_play)
    low = frame_low(job, frame)
    return tuple((left + screw.x, low + screw.height) for screw in frame.screws)


def way_of(box: Box, area: KeepOut) -> Way | None:
    """How a box x0, y0, x1, y1 (a point has no size) stands to a keep-out; None: clear of it and of its lines.

    Only above, below and level with sockets and switches a cable may run.
    """
    x0, y0, x1, y1 = box
    beside = x1 <= area.x + NOISE or x0 >= area.x + area.width - NOISE
    over, under = y0 >= area.y + area.height - NOISE, y1 <= area.y + NOISE
    if not beside and not over and not under:
        return "in"
    if area.kind not in WITH_CABLES or (beside and (over or under)):
        return None
    return "level with" if beside else "above" if over else "below"


def keep_out_findings(job: WallJob) -> list[Finding]:
    """`keep-out` where frame or screws stand in a rectangle, `cable-zone` where they stand in line with a socket."""
    if job.frame is None or not job.wall.keep_outs:
        return []
    found = (_keep_out(job, job.frame, area) for area in job.wall.keep_outs)
    return [finding for finding in found if finding is not None]


def _box(job: WallJob, frame: Frame) -> Box:
    """The frame on the wall: left, low, right, high. [mm]"""
    left = frame_left(job.shelf, job.mount, job.shell_thickness, job.project.frame.side_play)
    low = frame_low(job, frame)
    return left, low, left + frame.length, low + frame.height


def _keep_out(job: WallJob, frame: Frame, area: KeepOut) -> Finding | None:
    way = way_of(_box(job, frame), area)
    if way is None:
        return None
    radius = job.project.screw.diameter / 2.0
    points = screw_points(job, frame)
    near = {p: way_of((p[0] - radius, p[1] - radius, p[0] + radius, p[1] + radius), area) for p in points}
    inside = sorted({x for (x, _), how in near.items() if how == "in"})
    in_line = sorted({x for (x, _), how in near.items() if how is not None})
    where = tr(
        "{kind} at {x} from the wall's left edge, {y} from the floor",
        kind=area.kind,
        x=job.show(area.x),
        y=job.show(area.y),
    )
    if way == "in":
        message = tr("The frame stands in the {where}", where=where)
        message += tr(", with the screws at {listed}", listed=_listed(job, inside)) if inside else ""
        return job.finding(
            "warning",
            "keep-out",
            tr("{message}: move the shelf; {PROOF}.", message=message, PROOF=PROOF),
            _ways_off(job, frame),
        )
    message = tr("The frame hangs {way} the {where}", way=way, where=where)
    message += tr(", with the screws at {listed} in its line", listed=_listed(job, in_line)) if in_line else ""
    rule = tr("Never above, below or level with a {kind} without proof", kind=area.kind)
    return job.finding("warning", "cable-zone", f"{message}. {rule}: {PROOF}.", _ways_off(job, frame))


def _ways_off(job: WallJob, frame: Frame) -> tuple[Fix, ...]:
    """Moves along the wall, and up or down, after which the frame is clear of all areas and their lines; the least
    move each way."""
    left, low, right, high = _box(job, frame)
    areas, unit = job.wall.keep_outs, job.unit
    sideways = [(coarse_up(a.x + a.width - left, unit), 0.0) for a in areas]
    sideways += [(-coarse_up(right - a.x, unit), 0.0) for a in areas]
    upright = [(0.0, coarse_up(a.y + a.height - low, unit)) for a in areas]
    upright += [(0.0, -coarse_up(high - a.y, unit)) for a in areas]
    fixes = []
    for moves in (
        [m for m in sideways if m[0] > 0.0],
        [m for m in sideways if m[0] < 0.0],
        [m for m in upright if m[1] > 0.0],
        [m for m in upright if m[1] < 0.0],
    ):
        good = [move for move in moves if _is_clear(job, (left, low, right, high), move)]
        if good:
            fixes.append(_moved(job, min(good, key=lambda move: abs(move[0]) + abs(move[1]))))
    return tuple(fixes)


def _is_clear(job: WallJob, box: Box, move: tuple[float, float]) -> bool:
    """Would the frame, moved, be clear of every area, with its shelf on the wall?"""
    mount = Mount(job.mount.x + move[0], job.mount.top + move[1])
    if not 0.0 <= mount.x <= job.wall.width - job.shelf.length:
        return False
    if not job.shelf.height <= mount.top <= job.wall.height:
        return False
    there = (box[0] + move[0], box[1] + move[1], box[2] + move[0], box[3] + move[1])
    return all(way_of(there, area) is None for area in job.wall.keep_outs)


def _moved(job: WallJob, move: tuple[float, float]) -> Fix:
    x, y = move
    if x:
        return job.set_shelf(
            tr("Move it {x} to the {rest}", x=job.show(abs(x)), rest="right" if x > 0.0 else "left"),
            "mount/x",
            job.mount.x + x,
        )
    return job.set_shelf(
        tr("Hang it {y} {rest}", y=job.show(abs(y)), rest="higher" if y > 0.0 else "lower"),
        "mount/top",
        job.mount.top + y,
    )


def _listed(job: WallJob, places: list[float]) -> str:
    more = tr(" and {places} more", places=len(places) - MOST_NAMED) if len(places) > MOST_NAMED else ""
    return ", ".join(job.show(x) for x in places[:MOST_NAMED]) + more


def screw_depth_findings(job: WallJob) -> list[Finding]:
    """`cable-line`: a screw passes the depth at which cables may lie. `screw-deep`: it is longer than the wall is."""
    if job.frame is None or not job.frame.screws:
        return []
    screw = job.frame.screws[0]
    bite = screw.length - job.project.frame.back_layers * job.frame.thickness - job.wall.cover
    if bite <= CABLE_DEPTH + NOISE:
        return []
    if bite > STUD_DEPTH + NOISE:
        return [_too_deep(job, screw, bite)]
    message = tr(
        "The screws go {bite} into the studs, past the {CABLE_DEPTH} from the stud's face that "
        "cables keep, or a steel plate covers (a North American rule; elsewhere zones beside "
        "sockets): {PROOF}.",
        bite=job.show(bite, "up"),
        CABLE_DEPTH=job.show(CABLE_DEPTH if job.unit is Unit.INCH else float(round(CABLE_DEPTH))),
        PROOF=PROOF,
    )
    return [job.finding("note", "cable-line", message, amount=bite - CABLE_DEPTH)]


def _too_deep(job: WallJob, screw: ScrewPlace, bite: float) -> Finding:
    message = tr(
        "Screws {length} long go {bite} into studs {STUD_DEPTH} deep: they come out behind, past every cable and pipe.",
        length=job.show(screw.length),
        bite=job.show(bite, "up"),
        STUD_DEPTH=job.show(STUD_DEPTH),
    )
    fixes = (Fix(tr("Choose the length from what is sold"), {"/screw/length": None}),)
    given = job.project.screw.length is not None
    return job.finding("warning", "screw-deep", message, fixes if given else (), bite - STUD_DEPTH)
