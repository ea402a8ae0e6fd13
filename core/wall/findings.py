"""Everything the wall has to say about the shelves on it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final

from core.document.model import Project
from core.kept import Kept
from core.plan.model import Finding, Frame
from core.plan.shapes import Shape
from core.wall.alcove import alcove_findings
from core.wall.bow import bow_findings
from core.wall.job import WallJob
from core.wall.level import droop_findings, run_out_findings
from core.wall.looks import eye_findings
from core.wall.noted import noted_findings
from core.wall.places import clear_of_others, place_findings
from core.wall.services import keep_out_findings, screw_depth_findings
from core.wall.studs import more_studs_findings

REMEMBERED: Final = 256  # shelves
_MADE: Kept[tuple[Finding, ...]] = Kept(REMEMBERED)
_TOGETHER: Kept[tuple[Finding, ...]] = Kept(1)


def wall_findings(project: Project, shapes: Sequence[Shape], frames: Sequence[Frame | None]) -> list[Finding]:
    """What is to say of each shelf that hangs, then of all of them together; remembered while nothing changes.

    shapes, frames: of the whole shelves, in the project's order.
    """
    places = tuple((n, s.id, s.length, s.height, s.mount) for n, s in enumerate(project.shelves) if s.mount is not None)
    if not places:
        return []
    found: list[Finding] = []
    shop = (project.wall, project.frame, project.screw, project.units)
    for shape, frame in zip(shapes, frames, strict=True):
        if shape.shelf.mount is not None:
            source = (shop, shape.shelf_index, shape.shelf, shape.stock.thickness, frame)
            told = _MADE.get(shape.shelf.id, source, partial(_of_shelf, project, shape, frame))
            clear = (clear_of_others(project, shape, one) if one.code == "more-studs" else one for one in told)
            found += [one for one in clear if one is not None]
    together = (project.wall, project.units, places)
    return found + list(_TOGETHER.get("", together, lambda: (*noted_findings(project), *place_findings(project))))


def _of_shelf(project: Project, shape: Shape, frame: Frame | None) -> tuple[Finding, ...]:
    shelf, mount = shape.shelf, shape.shelf.mount
    assert mount is not None
    thickness = shape.stock.thickness
    job = WallJob(project, shelf, thickness, project.frame.thickness or thickness, shape.section, mount, frame)
    return (
        *alcove_findings(job),
        *keep_out_findings(job),
        *screw_depth_findings(job),
        *bow_findings(job),
        *run_out_findings(job),
        *more_studs_findings(job),
        *droop_findings(job),
        *eye_findings(job),
    )
