"""Edits that change which shelves and sheets there are. Pure: from a project to a project. No Qt here."""

from __future__ import annotations

from itertools import count

import msgspec

from core.document.model import Mount, Project, Sheet, Shelf, Studs, Wall
from core.language import tr
from core.lengths import INCH_MM

FIRST_SHEET = tr("ply A")
FIRST_TOP = 1400.0  # mm, where the first new shelf is hung
GAP_ABOVE = 330.0  # mm between the tops of shelves that are hung one over the other
HIGHEST = 200.0  # mm kept free below the ceiling
LOWEST = 700.0  # mm, the lowest a new shelf is hung without being asked


def new_project(units: str) -> Project:
    """A fresh start: one sheet, nothing on the wall yet."""
    if units == "in":
        sheet = Sheet(
            FIRST_SHEET, 96 * INCH_MM, 48 * INCH_MM, thickness=0.703 * INCH_MM, veneer=0.6, trim=0.25 * INCH_MM
        )
        wall = Wall(120 * INCH_MM, 96 * INCH_MM, Studs(8 * INCH_MM, 16 * INCH_MM), 1.5 * INCH_MM)
        return Project((sheet,), (), wall=wall, name=tr("New project"), units="in")
    sheet = Sheet(FIRST_SHEET, 2440.0, 1220.0, thickness=17.8, veneer=0.6, trim=6.0)
    return Project((sheet,), (), name=tr("New project"), units="mm")


def in_units(project: Project, units: str) -> Project:
    """Shown in these units. While no shelf is drawn, a sheet and a wall nobody has changed become those sold there."""
    changed = msgspec.structs.replace(project, units="in" if units == "in" else "mm")
    if project.shelves:
        return changed
    old, new = new_project(project.units), new_project(units)
    sheets = tuple(
        msgspec.structs.replace(new.sheets[0], id=sheet.id)
        if sheet == msgspec.structs.replace(old.sheets[0], id=sheet.id)
        else sheet
        for sheet in project.sheets
    )
    wall = new.wall if project.wall == old.wall else project.wall
    return msgspec.structs.replace(changed, sheets=sheets, wall=wall)


def free_name(wanted: str, taken: set[str]) -> str:
    """`wanted`, or `wanted 2`, `wanted 3`, …: the first that is not taken. A number at its end is counted on."""
    stem, _, tail = wanted.rpartition(" ")
    if stem and tail.isdecimal():
        wanted = stem
    if wanted not in taken:
        return wanted
    return next(name for n in count(2) if (name := f"{wanted} {n}") not in taken)


def free_mount(project: Project, length: float, near: Mount | None = None) -> Mount | None:
    """A place on the wall under or over the others; None where the wall is full or the shelf longer than it.

    Places are whole inches or centimetres; near: the place to begin from.
    """
    wall, step = project.wall, INCH_MM if project.units == "in" else 10.0
    if length > wall.width:
        return None
    x = near.x if near else step * round((wall.width - length) / 2.0 / step)
    x = min(max(x, 0.0), wall.width - length)
    start = near.top if near else min(step * round(FIRST_TOP / step), wall.height - HIGHEST)
    gap = step * round(GAP_ABOVE / step)
    tops = [shelf.mount.top for shelf in project.shelves if shelf.mount]
    for n in range(12):
        for top in (start + n * gap, start - n * gap):
            clear = all(abs(top - other) > gap * 0.75 for other in tops)
            if LOWEST <= top <= wall.height - HIGHEST and clear:
                return Mount(x, top)
    return None


def add_shelf(project: Project, like: Shelf | None = None) -> tuple[Project, str]:
    """A shelf at the end, of the size and ends of another or a common one; returns the project and the new id."""
    inch = project.units == "in"
    length, depth, height = (48 * INCH_MM, 8 * INCH_MM, 2.5 * INCH_MM) if inch else (1200.0, 200.0, 64.0)
    name = free_name(tr("shelf"), {shelf.id for shelf in project.shelves})
    if like is not None:
        shelf = Shelf(name, like.length, like.depth, like.height, left=like.left, right=like.right)
    else:
        shelf = Shelf(name, length, depth, height)
    shelf = msgspec.structs.replace(shelf, mount=free_mount(project, shelf.length))
    return msgspec.structs.replace(project, shelves=(*project.shelves, shelf)), name


def duplicate_shelf(project: Project, at: int) -> tuple[Project, str]:
    """The same shelf once more, right after it, free on the sheet and in a free place on the wall."""
    shelf = project.shelves[at]
    name = free_name(shelf.id, {other.id for other in project.shelves})
    mount = free_mount(project, shelf.length, shelf.mount) if shelf.mount else None
    copy = msgspec.structs.replace(shelf, id=name, at=None, mount=mount)
    shelves = (*project.shelves[: at + 1], copy, *project.shelves[at + 1 :])
    return msgspec.structs.replace(project, shelves=shelves), name


def remove_shelf(project: Project, at: int) -> tuple[Project, str]:
    """Without that shelf; the id is its neighbour's, '' for none."""
    shelves = (*project.shelves[:at], *project.shelves[at + 1 :])
    near = shelves[min(at, len(shelves) - 1)].id if shelves else ""
    return msgspec.structs.replace(project, shelves=shelves), near


def add_sheet(project: Project) -> tuple[Project, str]:
    """Another kind of sheet, of the usual size."""
    taken = {sheet.id for sheet in project.sheets}
    sheet = msgspec.structs.replace(new_project(project.units).sheets[0], id=_sheet_name(taken))
    return msgspec.structs.replace(project, sheets=(*project.sheets, sheet)), sheet.id


def duplicate_sheet(project: Project, at: int) -> tuple[Project, str]:
    """The same kind of sheet once more, right after it."""
    name = _sheet_name({sheet.id for sheet in project.sheets})
    copy = msgspec.structs.replace(project.sheets[at], id=name, keep_clear=())  # what is on the one is not on another
    sheets = (*project.sheets[: at + 1], copy, *project.sheets[at + 1 :])
    return msgspec.structs.replace(project, sheets=sheets), name


def remove_sheet(project: Project, at: int) -> tuple[Project, str]:
    """Without that kind of sheet; shelves that asked for it take any. The last one stays."""
    if len(project.sheets) == 1:
        return project, project.sheets[0].id
    gone = project.sheets[at].id
    sheets = (*project.sheets[:at], *project.sheets[at + 1 :])
    shelves = tuple(
        msgspec.structs.replace(shelf, sheet=None, at=None) if shelf.sheet == gone else shelf
        for shelf in project.shelves
    )
    near = sheets[min(at, len(sheets) - 1)].id
    return msgspec.structs.replace(project, sheets=sheets, shelves=shelves), near


def rename_sheet(project: Project, at: int, name: str) -> Project:
    """That kind of sheet under another id, in the shelves that ask for it too."""
    old = project.sheets[at]
    sheet = msgspec.structs.replace(old, id=name)
    shelves = tuple(
        msgspec.structs.replace(shelf, sheet=name) if shelf.sheet == old.id else shelf for shelf in project.shelves
    )
    sheets = (*project.sheets[:at], sheet, *project.sheets[at + 1 :])
    return msgspec.structs.replace(project, sheets=sheets, shelves=shelves)


def _sheet_name(taken: set[str]) -> str:
    names = (tr("ply {chr}", chr=chr(code)) for code in range(ord("A"), ord("Z") + 1))
    return next((name for name in names if name not in taken), free_name("sheet", taken))
