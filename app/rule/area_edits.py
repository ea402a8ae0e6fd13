"""Edits of the areas that are kept clear on a sheet. Pure: from a project to a project. No Qt here."""

from __future__ import annotations

import msgspec

from core.document.areas import box_of
from core.document.model import KeepClear, Project
from core.drawing.clear import area_name
from core.layout.clear import bounds

Place = tuple[int, int]  # number of the sheet in the project, of the area on it
Point = tuple[float, float]
Box = tuple[float, float, float, float]

DIGITS = 9  # of a millimetre that are kept of a sum; a 64th of an inch has six


def rectangle(box: Box) -> tuple[Point, ...]:
    """The corners of a box, lower left first."""
    x0, y0, x1, y1 = box
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def place_of(project: Project, about: str) -> Place | None:
    """Where the area with this id stands in the project, None for anything else."""
    if " keep clear " not in about:
        return None
    for at, stock in enumerate(project.sheets):
        for number in range(len(stock.keep_clear)):
            if about == area_name(stock, number):
                return at, number
    return None


def area_at(project: Project, place: Place) -> KeepClear:
    """The area at a place."""
    return project.sheets[place[0]].keep_clear[place[1]]


def _with(project: Project, at: int, areas: tuple[KeepClear, ...]) -> Project:
    stock = msgspec.structs.replace(project.sheets[at], keep_clear=areas)
    return msgspec.structs.replace(project, sheets=(*project.sheets[:at], stock, *project.sheets[at + 1 :]))


def with_area(project: Project, place: Place, area: KeepClear) -> Project:
    """The project with one area replaced, or added where its number is the next one."""
    at, number = place
    areas = project.sheets[at].keep_clear
    return _with(project, at, (*areas[:number], area, *areas[number + 1 :]))


def without_area(project: Project, place: Place) -> Project:
    """The project without that area."""
    at, number = place
    areas = project.sheets[at].keep_clear
    return _with(project, at, areas[:number] + areas[number + 1 :])


def moved(area: KeepClear, corner: Point) -> KeepClear:
    """The area with the lower left corner of the box round it at a place."""
    x0, y0, _, _ = bounds(area.corners)
    dx, dy = corner[0] - x0, corner[1] - y0
    return msgspec.structs.replace(area, corners=tuple((_tidy(x + dx), _tidy(y + dy)) for x, y in area.corners))


def _tidy(mm: float) -> float:
    """Without the noise of adding: what was typed reads back the same."""
    return round(mm, DIGITS)


def resized(area: KeepClear, along: float, across: float) -> KeepClear:
    """A rectangle with these sides, its lower left corner where it is."""
    x0, y0, _, _ = box_of(area) or bounds(area.corners)
    return msgspec.structs.replace(area, corners=rectangle((x0, y0, _tidy(x0 + along), _tidy(y0 + across))))
