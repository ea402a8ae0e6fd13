"""One stud more within reach of a short slide, and whether a slide leaves the frame its sticks."""

from __future__ import annotations

from typing import Final

import msgspec

from core.document.model import Mount, Project
from core.frame.build import build_frame
from core.frame.job import FrameJob
from core.frame.studs import frame_left, reachable_room, stud_lines
from core.language import tr
from core.plan.model import Finding, Frame
from core.plan.shapes import Shape
from core.wall.job import WallJob

MOST_SLID: Final = 101.6  # mm, 4 in: a shelf is slid no farther for one more stud
NOISE: Final = 1e-6  # mm


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
