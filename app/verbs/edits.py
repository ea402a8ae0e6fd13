"""The edits that verbs make: each from a project to a project. No Qt here."""

from __future__ import annotations

from typing import Final

import msgspec

from app.hand.frame import SAME
from app.rule import edits
from app.rule.area_edits import Place, area_at, rectangle, with_area
from core.document.model import APART, Flaw, FrameWish, KeepClear, KeepOut, KeptOut, Mount, Project, Shelf, Studs
from core.frame.studs import stud_lines
from core.layout import pin
from core.layout.pin import index_of, placed_net, sheet_under, with_shelf
from core.lengths import INCH_MM
from core.plan.model import Frame, Plan

NEW_AREA: Final = 100.0  # mm: side of an area that is put down to be pulled to its size
PLATE: Final = 86.0  # mm: a socket's plate, common practice


def _shelf(project: Project, shelf: str) -> tuple[int, Shelf]:
    at = index_of(project, shelf)
    return at, project.shelves[at]


def hung(project: Project, shelf: str) -> Project:
    """The shelf in a free place on the wall; over the others where there is none."""
    at, one = _shelf(project, shelf)
    return with_shelf(project, at, mount=edits.free_mount(project, one.length) or Mount(0.0, edits.LOWEST))


def taken_down(project: Project, shelf: str) -> Project:
    """The shelf without a place on the wall."""
    return with_shelf(project, index_of(project, shelf), mount=None)


def pinned(project: Project, plan: Plan, shelf: str) -> Project:
    """The shelf's net where it lies in the plan, whatever else changes."""
    net = placed_net(plan, shelf)
    return project if net is None else pin.pinned(project, shelf, sheet_under(plan, net).stock, (net.x, net.y))


def freed(project: Project, shelf: str) -> Project:
    """The shelf's net wherever it lies best."""
    return with_shelf(project, index_of(project, shelf), at=None)


def switched_apart(project: Project, shelf: str, role: str) -> Project:
    """The panel cut apart from its net, or within it again."""
    at, one = _shelf(project, shelf)
    wanted = set(one.apart) ^ {role}
    return with_shelf(project, at, apart=tuple(panel for panel in APART if panel in wanted))


def rib_put(project: Project, frame: Frame, number: int) -> Project:
    """A rib (from 0) put by hand where it stands; put already, it finds its own place again."""
    at, one = _shelf(project, frame.shelf)
    x = frame.ribs[number]
    others = tuple(rib for rib in one.ribs if abs(rib - x) > SAME)
    ribs = others if len(others) < len(one.ribs) else tuple(sorted((*others, x)))
    return with_shelf(project, at, ribs=ribs)


def rail_layers(project: Project, which: str, more: int) -> Project:
    """The back or the front rail with so many layers more (or, below 0, fewer)."""
    name = f"{which}_layers"
    wish: FrameWish = project.frame
    frame = msgspec.structs.replace(wish, **{name: getattr(wish, name) + more})
    return msgspec.structs.replace(project, frame=frame)


def area_put(project: Project, sheet: int, place: tuple[float, float]) -> Project:
    """A new area to keep clear round a place of a sheet, kept on it."""
    stock = project.sheets[sheet]
    half = NEW_AREA / 2.0
    x = min(max(place[0], half), max(half, stock.length - half))
    y = min(max(place[1], half), max(half, stock.width - half))
    area = KeepClear(rectangle((x - half, y - half, x + half, y + half)))
    return with_area(project, (sheet, len(stock.keep_clear)), area)


def area_as(project: Project, place: Place, kind: Flaw | None = None, of: KeptOut | None = None) -> Project:
    """An area of another kind, or that another thing keeps out of."""
    area = area_at(project, place)
    return with_area(project, place, msgspec.structs.replace(area, kind=kind or area.kind, of=of or area.of))


def shelf_at(project: Project, place: tuple[float, float]) -> tuple[Project, str]:
    """One more shelf, its top at a place of the wall; returns the project and the new id."""
    project, name = edits.add_shelf(project)
    at, shelf = _shelf(project, name)
    x = min(max(0.0, place[0] - shelf.length / 2.0), max(0.0, project.wall.width - shelf.length))
    step = INCH_MM / 4.0 if project.units == "in" else 5.0
    mount = Mount(step * round(x / step), step * round(max(place[1], shelf.height) / step))
    return with_shelf(project, at, mount=mount), name


def socket_put(project: Project, place: tuple[float, float]) -> Project:
    """A socket round a place of the wall, kept on it."""
    wall = project.wall
    x = min(max(0.0, place[0] - PLATE / 2.0), max(0.0, wall.width - PLATE))
    y = min(max(0.0, place[1] - PLATE / 2.0), max(0.0, wall.height - PLATE))
    areas = (*wall.keep_outs, KeepOut(round(x, 1), round(y, 1), PLATE, PLATE))
    return msgspec.structs.replace(project, wall=msgspec.structs.replace(wall, keep_outs=areas))


def without_keep_out(project: Project, at: int) -> Project:
    """The wall without that rectangle."""
    areas = project.wall.keep_outs
    wall = msgspec.structs.replace(project.wall, keep_outs=areas[:at] + areas[at + 1 :])
    return msgspec.structs.replace(project, wall=wall)


def _noted(project: Project) -> tuple[float, ...]:
    """The studs one by one, as they stand."""
    wall = project.wall
    return stud_lines(wall, 0.0, wall.width) if isinstance(wall.studs, Studs) else wall.studs


def _with_studs(project: Project, studs: tuple[float, ...]) -> Project:
    return msgspec.structs.replace(project, wall=msgspec.structs.replace(project.wall, studs=studs))


def stud_put(project: Project, x: float) -> Project:
    """A stud noted at x; even studs are noted one by one from then on."""
    step = INCH_MM / 16.0 if project.units == "in" else 1.0
    return _with_studs(project, tuple(sorted({*_noted(project), step * round(x / step)})))


def without_stud(project: Project, x: float) -> Project:
    """Without the stud at x; even studs are noted one by one from then on."""
    return _with_studs(project, tuple(stud for stud in _noted(project) if abs(stud - x) > SAME))
