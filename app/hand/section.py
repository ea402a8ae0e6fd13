"""The seam in section: the clean-up and the overcut by handles. No Qt here."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import Final

import msgspec

from app.hand.grid import LIGHT, Aim, Catch
from app.hand.grip import Edit, Handle, Number, Point, Values
from app.rule.reading import ANGLE, THICKNESS, Reading
from core.document.model import Project, Saw
from core.document.ranges import RANGES
from core.drawing.model import Area, Drawing
from core.drawing.names import shelf_thickness
from core.geometry.seam import seam_section
from core.language import tr
from core.lengths import Unit, show_thickness
from core.plan.model import Plan, Seam

OUT: Final = 11.0  # pixels from an edge to its handle, so that the edge stays in sight


@dataclass(frozen=True)
class SectionHandle(Handle):
    """A handle of the section; what the seam loses or leaves open is said beside its own number."""

    thickness: float = 0.0

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """At the nearest catch or step."""
        return self._told(super().drop(wanted, aim))

    def put(self, values: Values) -> Edit:
        """Exactly this."""
        return self._told(super().put(values))

    def _told(self, edit: Edit) -> Edit:
        project, unit = edit.project, Unit(edit.project.units)
        saw = project.saw
        section = seam_section(self.thickness, saw.kerf, saw.overcut, saw.allowance, project.glue_line)
        if self.key == "allowance":
            said = tr("each seam loses {loss}", loss=show_thickness(section.loss, unit))
        elif section.outside_gap > 0.0:
            said = tr("the outside stays open {outside_gap}", outside_gap=show_thickness(section.outside_gap, unit))
        elif section.inside_gap > 0.0:
            said = tr("the inside stays open {inside_gap}", inside_gap=show_thickness(section.inside_gap, unit))
        else:
            said = tr("closes flush")
        return Edit(project, edit.values, said, edit.stop)


def section_handles(plan: Plan, seam: Seam, drawing: Drawing, pixel: float) -> tuple[Handle, ...]:
    """The handles of a seam's section.

    pixel: mm of the section in a pixel. The hand goes as far as the edge does, but never faster than a step for a
    pixel: these are tenths of a millimetre.
    """
    wood = [area.points for area in drawing.items if isinstance(area, Area) and area.layer == "wood"]
    if len(wood) < 4:
        return ()
    (_, toe, *_), (closed_heel, closed_toe, *_), (other_heel, *_) = wood[1], wood[2], wood[3]
    saw, unit, thickness = plan.project.saw, Unit(plan.project.units), shelf_thickness(plan, seam.shelf)
    axis = _across(closed_toe, closed_heel)
    opening = seam_section(thickness, saw.kerf, 1.0).inside_gap  # for a degree of overcut
    per = _slow(1.0 / opening, ANGLE, unit, pixel)
    overcut = Number("overcut", "overcut", ANGLE, saw.overcut, axis, per, RANGES[Saw]["overcut"])
    outside = (OUT * axis[0], -OUT * axis[1])
    found = [_handle(plan.project, overcut, tr("Overcut"), other_heel, outside, thickness)]
    if seam.show_loss is not None:
        per = _slow(1.0, THICKNESS, unit, pixel)
        cleaned = Number("allowance", "clean-up", THICKNESS, saw.allowance, (1.0, 0.0), per, RANGES[Saw]["allowance"])
        found.append(_handle(plan.project, cleaned, tr("Clean-up"), toe, (0.0, -OUT), thickness))
    return tuple(found)


def _handle(project: Project, number: Number, label: str, at: Point, offset: Point, thickness: float) -> SectionHandle:
    def change(value: float) -> Project:
        saw = msgspec.structs.replace(project.saw, **{number.name: value})
        return msgspec.structs.replace(project, saw=saw)

    return SectionHandle(number.name, label, "", at, number, change, label[0], _nothing, offset, thickness=thickness)


def _nothing() -> tuple[Catch, ...]:
    """Where there is no clean-up, or the corner closes true."""
    return (Catch(0.0, "", LIGHT),)


def _slow(per: float, reading: Reading, unit: Unit, pixel: float) -> float:
    top, bottom = reading.ratio(unit, False)
    return min(per, top / bottom / pixel)


def _across(toe: Point, heel: Point) -> Point:
    """Square to the closed mitre, the way its inside opens."""
    x, y = heel[0] - toe[0], heel[1] - toe[1]
    long = hypot(x, y) or 1.0
    return (-y / long, x / long)
