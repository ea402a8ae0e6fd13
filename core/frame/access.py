"""The holes in the front rail through which the driver reaches the screws."""

from __future__ import annotations

from typing import Final

from core.frame.cavity import FrameSize
from core.frame.job import FrameJob
from core.language import tr
from core.plan.model import Finding, Fix, ScrewPlace

LEAST_EDGE: Final = 3.0  # mm of wood between a hole and the rail's edge: common practice
LEAST_HOLE: Final = 12.0  # mm: a quarter-inch bit holder goes through with room to spare, common practice


def access_remark(job: FrameJob, size: FrameSize, screws: tuple[ScrewPlace, ...]) -> Finding | None:
    """`access-hole` (note): a hole for the driver leaves the front rail by its edge; amount: how far. [mm]"""
    hole = job.project.screw.access_hole
    if not screws or not job.project.frame.front_layers or hole <= 0.0:
        return None
    low, high = min(s.height for s in screws), size.height - max(s.height for s in screws)
    edge, side = (high, "upper") if high <= low else (low, "lower")
    over = hole / 2.0 - edge
    if over <= 0.0:
        return None
    message = tr(
        "The holes for the driver, {hole} wide, leave the front rail by its {edge} edge: it is {height} high, and they "
        "stand {place} from that edge. Bore them before the frame is joined, backed by waste, or bore them smaller.",
        hole=job.show(hole),
        edge=side,
        height=job.show(size.height),
        place=job.show(edge),
    )
    fits = job.coarse_down(2.0 * (edge - LEAST_EDGE))
    words = tr("Bore them {fits} wide", fits=job.show(fits))
    fixes = (Fix(words, {"/screw/access_hole": fits}),) if fits >= LEAST_HOLE else ()
    return job.finding("note", "access-hole", message, fixes, over)
