"""Studs as they were noted: out of order, off the wall, on top of each other; and one more within reach."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

import msgspec

from core.document.model import Mount, Project, Studs
from core.frame.build import build_frame
from core.frame.job import FrameJob
from core.frame.studs import frame_left, reachable_room, stud_lines
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Finding, Fix, Frame
from core.plan.shapes import Shape
from core.wall.job import WallJob

MOST_SLID: Final = 101.6  # mm, 4 in: a shelf is slid no farther for one more stud
NOISE: Final = 1e-6  # mm


def noted_findings(project: Project) -> list[Finding]:
    """`stud-off-wall`, `stud-order`, `stud-close`: what is wrong with the studs as noted, about the first shelf
    that hangs; nothing where none does."""
    wall, about = project.wall, next((shelf.id for shelf in project.shelves if shelf.mount is not None), None)
    if about is None or wall.kind != "timber stud":
        return []
    unit = Unit(project.units)
    if isinstance(wall.studs, Studs):
        if wall.studs.first <= wall.width and wall.studs.first + wall.studs.spacing > 0.0:
            return []
        message = tr(
            "The first stud is noted at {first}, the wall is {width} wide.",
            first=_shown(wall.studs.first, unit),
            width=_shown(wall.width, unit),
        )
        return [Finding("warning", "stud-off-wall", about, message)]
    found = (_off_wall(wall.studs, wall.width, about, unit), _order(wall.studs, about, unit))
    told = [finding for finding in found if finding is not None]
    return told or _close(wall.studs, wall.stud_width, about, unit)


def _shown(mm: float, unit: Unit) -> str:
    return show_length(mm, unit, marks=False)


def _off_wall(studs: tuple[float, ...], width: float, about: str, unit: Unit) -> Finding | None:
    off = [x for x in studs if not 0.0 <= x <= width]
    if not off:
        return None
    message = tr(
        "{rest} noted at {off}, off a wall {width} wide.",
        rest=tr("A stud is") if len(off) == 1 else tr("{off} studs are", off=len(off)),
        off=_shown(off[0], unit),
        width=_shown(width, unit),
    )
    fix = Fix(tr("Leave out what is off the wall"), {"/wall/studs": sorted(x for x in studs if 0.0 <= x <= width)})
    return Finding("warning", "stud-off-wall", about, message, (fix,))


def _order(studs: tuple[float, ...], about: str, unit: Unit) -> Finding | None:
    back = next(((a, b) for a, b in pairwise(studs) if b <= a), None)
    if back is None:
        return None
    message = tr(
        "The studs are out of order: {back} is noted after {back2}. Note them all from one edge, "
        "never from stud to stud.",
        back=_shown(back[1], unit),
        back2=_shown(back[0], unit),
    )
    return Finding("note", "stud-order", about, message, (Fix(tr("Sort them"), {"/wall/studs": sorted(set(studs))}),))


def _close(studs: tuple[float, ...], width: float, about: str, unit: Unit) -> list[Finding]:
    near = next(((a, b) for a, b in pairwise(studs) if b - a < width - NOISE), None)
    if near is None:
        return []
    message = tr(
        "The studs at {near} and {near2} are only {near3} apart, less than the {width} a stud is "
        "wide: one of them may be its edge.",
        near=_shown(near[0], unit),
        near2=_shown(near[1], unit),
        near3=_shown(near[1] - near[0], unit),
        width=_shown(width, unit),
    )
    return [Finding("note", "stud-close", about, message, (), width - (near[1] - near[0]))]


def more_studs_findings(job: WallJob) -> list[Finding]:
    """`more-studs`: a short slide along the wall catches one stud more. Fewer than two studs are told elsewhere."""
    frame = job.frame
    if frame is None or len(frame.studs) < 2:
        return []
    wish, screw = job.project.frame, job.project.screw
    left = frame_left(job.shelf, job.mount, job.shell_thickness, wish.side_play)
    low, high = reachable_room(frame.length, frame.thickness, wish, screw)
    slide = slide_for_more(job, (left + low, left + high))
    if slide is None or abs(slide) > MOST_SLID:
        return []
    x = _round_place(job, slide)
    count, side = len(frame.studs), "right" if slide > 0.0 else "left"
    if not 0.0 <= x <= job.wall.width - job.shelf.length:
        return []
    moved = job.show(abs(x - job.mount.x))
    message = tr(
        "The frame catches {count} studs; {moved} farther to the {side} it would catch {count2}.",
        count=count,
        moved=moved,
        side=side,
        count2=count + 1,
    )
    fix = job.set_shelf(
        tr("Move it {moved} to the {side}, on to {count} studs", moved=moved, side=side, count=count + 1), "mount/x", x
    )
    return [job.finding("note", "more-studs", message, (fix,), abs(x - job.mount.x))]


def same_wood(project: Project, shape: Shape, frame: Frame, x: float) -> bool:
    """Does the frame at another place along the wall catch no stud less, with the very same sticks?

    Then not a cut of the plan is another one, and such a way out needs no whole plan to be tried.
    """
    shelf = shape.shelf
    assert shelf.mount is not None
    moved = msgspec.structs.replace(shelf, mount=Mount(x, shelf.mount.top))
    tried = build_frame(FrameJob(project, moved, shape.stock.thickness, frame.thickness, shape.section)).frame
    if tried is None or len(tried.studs) < len(frame.studs):
        return False
    return [(p.id, p.length, p.width) for p in tried.parts] == [(p.id, p.length, p.width) for p in frame.parts]


def slide_for_more(job: WallJob, room: tuple[float, float]) -> float | None:
    """The least slide (left negative) that brings one stud more into the room; None if none within reach does. [mm]"""
    near = stud_lines(job.wall, room[0] - MOST_SLID, room[1] + MOST_SLID)
    left = [x - room[0] for x in near if x < room[0] - NOISE]
    right = [x - room[1] for x in near if x > room[1] + NOISE]
    now = len(near) - len(left) - len(right)

    def caught(slide: float) -> int:
        return sum(room[0] + slide - NOISE <= x <= room[1] + slide + NOISE for x in near)

    good = [slide for slide in left[-1:] + right[:1] if caught(slide) > now]
    return min(good, key=abs, default=None)


def _round_place(job: WallJob, slide: float) -> float:
    """The nearest whole place that still catches the stud, else the very edge."""
    exact = job.mount.x + slide
    rounded = job.coarse_up(exact) if slide > 0.0 else job.coarse_down(exact)
    wish, screw, frame = job.project.frame, job.project.screw, job.frame
    assert frame is not None
    left = frame_left(job.shelf, Mount(rounded, job.mount.top), job.shell_thickness, wish.side_play)
    low, high = reachable_room(frame.length, frame.thickness, wish, screw)
    return rounded if len(stud_lines(job.wall, left + low, left + high)) > len(frame.studs) else exact
