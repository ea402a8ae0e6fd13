"""Level: a line near the shelf that runs out of it, and the front of a shelf that drops."""

from __future__ import annotations

from typing import Final

from core.frame.mouth import held_tilt, mouth_closing
from core.language import tr
from core.lengths import INCH_MM, Unit
from core.plan.model import Finding, Fix, Frame
from core.wall.job import WallJob

DROP_SEEN: Final = 2.0  # mm: a smaller one is about what the front is set high, 1/16 in: common practice
RUN_SEEN: Final = 0.4  # mm over a shelf
# Within it the eye compares shelf and line: common practice. [mm]
NEAR_LINE: Final = {Unit.INCH: 12.0 * INCH_MM, Unit.MM: 300.0}


def front_drop(slack: float, depth: float, frame_depth: float) -> float:
    """How far the front drops: about slack x depth / depth of the frame, common practice. [mm]"""
    return slack * depth / frame_depth


def droop_findings(job: WallJob) -> list[Finding]:
    """`droop`: the slack between frame and shell lets the front drop so far that it shows."""
    slack = job.project.frame.height_play
    if job.frame is None:
        return []
    drop = front_drop(slack, job.shelf.depth, job.frame.depth)
    if drop < DROP_SEEN:
        return []
    message = tr(
        "A height play of {slack} lets the front drop by about {drop}: lay veneer or card on the "
        "ribs at the front and under the rail at the back.",
        slack=job.show(slack),
        drop=job.show(drop),
    )
    return [job.finding("note", "droop", message, _tighter(job, job.frame), drop)]


def _tighter(job: WallJob, frame: Frame) -> tuple[Fix, ...]:
    """The largest height play whose drop does not show, where the mouth still passes the frame with it."""
    play = job.coarse_down(0.99 * DROP_SEEN * frame.depth / job.shelf.depth)
    closing = mouth_closing(job.shelf.depth, held_tilt(job.project.saw.bevel_sd))
    if play <= 0.0 or closing > 2.0 * play:
        return ()
    return (Fix(tr("Leave {play} of height play", play=job.show(play)), {"/frame/height_play": play}),)


def run_out_findings(job: WallJob) -> list[Finding]:
    """`run-out`: a line near the shelf is out of level; a person decides which to follow."""
    run = job.wall.run_out
    over = run * job.shelf.length / job.wall.width
    if abs(over) < RUN_SEEN:
        return []
    side = "right" if over > 0.0 else "left"
    message = tr(
        "Counter, ceiling or tiles rise to the {side} by {run} over the wall, {over} over this "
        "shelf. Hang it level, or parallel to them? Within {NEAR_LINE} the eye compares.",
        side=side,
        run=job.show(abs(run)),
        over=job.show(abs(over)),
        NEAR_LINE=job.show(NEAR_LINE[job.unit]),
    )
    return [job.finding("note", "run-out", message, amount=abs(over))]
