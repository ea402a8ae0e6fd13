"""One stud more within reach of a short slide, and whether a slide leaves the frame its sticks."""

from __future__ import annotations

from typing import Final

from core.document.model import Project, Shelf
from core.frame.build import build_frame
from core.frame.job import FrameJob
from core.frame.stud_remarks import frame_slide
from core.frame.studs import frame_left, reachable_room, shift_of, stud_lines
from core.language import tr
from core.plan.model import Finding, Fix, Frame
from core.plan.shapes import Shape
from core.wall.job import WallJob

MOST_SLID: Final = 101.6  # mm, 4 in: a shelf is slid no farther for one more stud
NOISE: Final = 1e-6  # mm


def more_studs_findings(job: WallJob) -> list[Finding]:
    """`more-studs`: a short slide of the frame in its play, or of the shelf along the wall, catches one stud more.

    Fewer than two studs are told elsewhere.
    """
    frame = job.frame
    if frame is None or len(frame.studs) < 2:
        return []
    slide = slide_for_more(job, _room(job, frame))
    if slide is None or abs(slide) > MOST_SLID:
        return []
    fixes = [fix for fix in (_slid_frame(job, frame, slide), _slid_shelf(job, frame, slide)) if fix is not None]
    if not fixes:
        return []
    message = tr(
        "The frame catches {count} studs; {moved} farther to the {side} it would catch {count2}.",
        count=len(frame.studs),
        moved=job.show(abs(slide), "up"),
        side="right" if slide > 0.0 else "left",
        count2=len(frame.studs) + 1,
    )
    return [job.finding("note", "more-studs", message, tuple(fixes), abs(slide))]


def same_wood(project: Project, shape: Shape, frame: Frame, moved: Shelf) -> bool:
    """Does the frame, its shelf moved along the wall or itself slid in it, catch no stud less with the same sticks?

    Then not a cut of the plan is another one, and such a way out needs no whole plan to be tried.
    """
    tried = build_frame(FrameJob(project, moved, shape.stock.thickness, frame.thickness, shape.section)).frame
    if tried is None or len(tried.studs) < len(frame.studs):
        return False
    return [(p.id, p.length, p.width) for p in tried.parts] == [(p.id, p.length, p.width) for p in frame.parts]


def _room(job: WallJob, frame: Frame) -> tuple[float, float]:
    """Where studs can be screwed to, from the wall's left edge. [mm]"""
    wish = job.project.frame
    left = frame_left(job.shelf, job.mount, job.shell_thickness, wish.side_play)
    low, high = reachable_room(frame.length, frame.thickness, wish, job.project.screw)
    return left + low, left + high


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


def _slid_frame(job: WallJob, frame: Frame, slide: float) -> Fix | None:
    """The frame slid in its play; None where it has no play left for that."""
    play = job.project.frame.side_play
    now = shift_of(job.shelf, play)
    if abs(now + slide) > play + NOISE:
        return None
    value = max(-play, min(play, _rounded(job, frame, now, slide)))
    return frame_slide(job, value, len(frame.studs) + 1)


def _slid_shelf(job: WallJob, frame: Frame, slide: float) -> Fix | None:
    """The shelf slid along the wall; None where it would hang off it."""
    x = _rounded(job, frame, job.mount.x, slide)
    if not 0.0 <= x <= job.wall.width - job.shelf.length:
        return None
    text = tr(
        "Move it {moved} to the {side}, on to {count} studs",
        moved=job.show(abs(x - job.mount.x)),
        side="right" if slide > 0.0 else "left",
        count=len(frame.studs) + 1,
    )
    return job.set_shelf(text, "mount/x", x)


def _rounded(job: WallJob, frame: Frame, now: float, slide: float) -> float:
    """`now` slid to the nearest whole place that still catches the stud, else to the very edge. [mm]"""
    exact = now + slide
    rounded = job.coarse_up(exact) if slide > 0.0 else job.coarse_down(exact)
    low, high = _room(job, frame)
    moved = rounded - now
    return rounded if len(stud_lines(job.wall, low + moved, high + moved)) > len(frame.studs) else exact
