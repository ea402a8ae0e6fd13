"""Projects for the frame's tests, and the frame of their first shelf."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from core.document.model import FrameWish, Mount, Project, Saw, Screw, Sheet, Shelf, Wall
from core.frame import FrameResult, frame_of
from core.geometry.seam import SeamSection, seam_section

INCH = 25.4


def asked(length: float, depth: float, height: float, **changes: Any) -> Project:
    """One shelf; `changes` go to whichever part of the project has the field, or are whole parts."""
    parts: dict[str, Any] = {
        "frame": FrameWish(),
        "wall": Wall(),
        "screw": Screw(),
        "saw": Saw(),
        "sheet": Sheet("A", 2440.0, 1220.0),
        "shelf": Shelf("ledge", length, depth, height),
    }
    units = changes.pop("units", "mm")
    for name, value in changes.items():
        part, _, field = name.partition("_")
        parts[part] = replace(parts[part], **{field: value}) if field else value
    return Project(
        (parts["sheet"],),
        (parts["shelf"],),
        units=units,
        saw=parts["saw"],
        frame=parts["frame"],
        wall=parts["wall"],
        screw=parts["screw"],
    )


def mounted(length: float, depth: float, height: float, x: float = 300.0, **changes: Any) -> Project:
    """The same, hung on the wall."""
    return asked(length, depth, height, shelf_mount=Mount(x, 1400.0), **changes)


def section_of(project: Project) -> SeamSection:
    saw, t = project.saw, project.sheets[0].thickness
    return seam_section(t, saw.kerf, saw.overcut, saw.allowance, project.glue_line)


def built(project: Project) -> FrameResult:
    """The frame of the first shelf, shell and frame from the first sheet unless the frame has its own thickness."""
    t = project.sheets[0].thickness
    return frame_of(project, project.shelves[0], t, project.frame.thickness or t, section_of(project))


def codes(result: FrameResult) -> list[str]:
    return [finding.code for finding in result.findings]
