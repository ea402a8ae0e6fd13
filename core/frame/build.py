"""The frame of one shelf with all it has to say."""

from __future__ import annotations

from typing import Final

import msgspec

from core.document.model import Project, Shelf
from core.frame.access import access_remark
from core.frame.cavity import Cavity, FrameSize, cavity_of, frame_size
from core.frame.faults import cavity_faults, rib_fault
from core.frame.job import FrameJob
from core.frame.remarks import mount_remark, mouth_remark, put_remark, rib_remark, screw_remarks
from core.frame.ribs import RibPlan, RibRefusal, place_ribs
from core.frame.stud_remarks import kind_remark, shift_remark, stud_remark
from core.frame.studs import (
    driver_way,
    frame_left,
    least_screw,
    place_screws,
    reachable_room,
    screw_heights,
    sold_length,
    stud_lines,
)
from core.geometry.seam import SeamSection
from core.kept import Kept
from core.plan.model import Finding, Frame, FramePart, ScrewPlace

REMEMBERED: Final = 256  # shelves


class FrameResult(msgspec.Struct, frozen=True):
    """A frame, None where the shelf can have none; and the findings about it."""

    frame: Frame | None
    findings: tuple[Finding, ...]


_MADE: Kept[FrameResult] = Kept(REMEMBERED)


class _Fixing(msgspec.Struct, frozen=True):
    """How the frame is held to the wall."""

    studs: tuple[float, ...]  # from the wall's left edge
    screws: tuple[ScrewPlace, ...]  # from the frame's left end
    blocked: tuple[tuple[float, float], ...]  # drivers' ways, from the frame's left end
    remark: Finding | None


def frame_of(
    project: Project, shelf: Shelf, shell_thickness: float, frame_thickness: float, section: SeamSection
) -> FrameResult:
    """The frame of a shelf of the project; its parts lie on no sheet yet.

    shell_thickness, frame_thickness: of the sheets they are cut from. [mm]
    section: of the shell's seams.

    Remembered for each shelf: under a dragging hand most are as they were.
    """
    shop = (project.frame, project.wall, project.screw, project.saw, project.units)
    source = (shop, project.shelves.index(shelf), shelf, shell_thickness, frame_thickness, section)
    return _MADE.get(
        shelf.id, source, lambda: build_frame(FrameJob(project, shelf, shell_thickness, frame_thickness, section))
    )


def build_frame(job: FrameJob) -> FrameResult:
    """The frame of a job, made anew: for a place on the wall that is only tried."""
    project, shelf = job.project, job.shelf
    shell_thickness, frame_thickness = job.shell_thickness, job.frame_thickness
    cavity = cavity_of(shelf, shell_thickness)
    size = frame_size(cavity, project.frame, frame_thickness)
    faults = cavity_faults(job, size)
    if faults:
        return FrameResult(None, faults + _without_place(job))
    fixing = _fixing(job, size)
    wish = project.frame
    ribs = place_ribs(size.length, frame_thickness, wish.end_layers, wish.spacing, fixing.blocked, shelf.ribs)
    if isinstance(ribs, RibRefusal):
        return FrameResult(None, (rib_fault(job, ribs), *_without_place(job)))
    remarks = (
        fixing.remark,
        put_remark(job, ribs),
        rib_remark(job, ribs),
        mouth_remark(job, size),
        shift_remark(job),
        access_remark(job, size, fixing.screws),
    )
    found = tuple(remark for remark in remarks if remark is not None)
    return FrameResult(_frame(job, cavity, size, ribs, fixing), found + screw_remarks(job, size, fixing.screws))


def _without_place(job: FrameJob) -> tuple[Finding, ...]:
    """The note that a shelf has no place on the wall, which is said of shelves without a frame too."""
    return (mount_remark(job),) if job.shelf.mount is None else ()


def _fixing(job: FrameJob, size: FrameSize) -> _Fixing:
    project, mount, t = job.project, job.shelf.mount, job.frame_thickness
    if mount is None:
        return _Fixing((), (), (), mount_remark(job))
    if project.wall.kind != "timber stud":
        return _Fixing((), (), (), kind_remark(job))
    left = frame_left(job.shelf, mount, job.shell_thickness, project.frame.side_play)
    low, high = reachable_room(size.length, t, project.frame, project.screw)
    studs = stud_lines(project.wall, left + low, left + high)
    way = driver_way(project.screw, t)
    return _Fixing(
        studs,
        place_screws(studs, left, _heights(job, size), _screw_length(job)) if studs else (),
        tuple((stud - left - way, stud - left + way) for stud in studs),
        stud_remark(job, mount, studs, (left + low, left + high)),
    )


def _heights(job: FrameJob, size: FrameSize) -> tuple[float, ...]:
    screw = job.project.screw
    return screw_heights(size.height, screw.diameter, screw.per_stud, screw.stand)


def _screw_length(job: FrameJob) -> float:
    project = job.project
    if project.screw.length is not None:
        return project.screw.length
    least = least_screw(job.frame_thickness, project.frame, project.wall, project.screw)
    return sold_length(least, job.unit) or least


def _frame(job: FrameJob, cavity: Cavity, size: FrameSize, ribs: RibPlan, fixing: _Fixing) -> Frame:
    return Frame(
        shelf=job.shelf.id,
        length=size.length,
        depth=size.depth,
        height=size.height,
        ribs=ribs.ribs,
        studs=fixing.studs,
        screws=fixing.screws,
        parts=_parts(job, size, ribs),
        thickness=job.frame_thickness,
        rib_length=size.rib_length,
        cavity=(cavity.length, cavity.depth, cavity.height),
    )


def _parts(job: FrameJob, size: FrameSize, ribs: RibPlan) -> tuple[FramePart, ...]:
    """Rails, back before front, then ribs from the left: "ledge/back rail", "ledge/back rail 2", ... "ledge/rib 1"."""
    wish, shelf, t = job.project.frame, job.shelf.id, job.frame_thickness

    def stick(name: str, role: str, length: float) -> FramePart:
        return FramePart(f"{shelf}/{name}", role, None, None, length, size.height, t, None, None)

    rails = [
        stick(role if n == 0 else f"{role} {n + 1}", role, size.length)
        for role, layers in (("back rail", wish.back_layers), ("front rail", wish.front_layers))
        for n in range(layers)
    ]
    between = [
        stick(f"rib {n + 1}", "end rib" if ribs.is_end(n) else "rib", size.rib_length) for n in range(len(ribs.ribs))
    ]
    return (*rails, *between)
