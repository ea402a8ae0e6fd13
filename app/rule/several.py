"""Edits of several shelves at once, and shelves to start from. Pure: from a project to a project. No Qt here."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Final

import msgspec

from app.rule.edits import duplicate_shelf, free_mount, free_name
from core.document.apart import still_apart
from core.document.model import Mount, Project, Shelf
from core.language import tr
from core.lengths import INCH_MM, Unit
from core.wall.alcove import place_in

# What shelves edited together share; a name, a pin and a place on the wall are each shelf's own.
SHARED: Final = ("length", "depth", "height", "left", "right", "ends_from", "scribe", "sheet", "apart")

# Name, words, sizes in inches and in mm (length, depth, height), ends.
Starter = tuple[str, str, tuple[float, float, float], tuple[float, float, float], tuple[bool, bool]]
STARTERS: Final[tuple[Starter, ...]] = (
    (tr("display shelf"), tr("for a few good things"), (48.0, 8.0, 2.5), (1200.0, 200.0, 64.0), (True, True)),
    (tr("picture ledge"), tr("narrow, for frames that lean"), (36.0, 4.5, 2.5), (900.0, 115.0, 62.0), (True, True)),
    (tr("book shelf"), tr("deep and short, for weight"), (30.0, 10.5, 3.0), (750.0, 265.0, 76.0), (True, True)),
    (tr("mantel"), tr("a tall front over a fireplace"), (60.0, 8.0, 5.0), (1500.0, 200.0, 125.0), (True, True)),
    (
        tr("corner shelf"),
        tr("its left end against a side wall"),
        (40.0, 9.0, 2.5),
        (1000.0, 230.0, 64.0),
        (False, True),
    ),
    (tr("alcove shelf"), tr("both ends against side walls"), (36.0, 9.0, 2.5), (900.0, 230.0, 64.0), (False, False)),
)


def start_from(project: Project, name: str) -> tuple[Project, str]:
    """One of the shelves to start from at the end; returns the project and the new id.

    One for an alcove fills the alcove that was measured.
    """
    _, _, inches, mm, (left, right) = next(starter for starter in STARTERS if starter[0] == name)
    length, depth, height = (size * INCH_MM for size in inches) if project.units == "in" else mm
    called = free_name(name, {shelf.id for shelf in project.shelves})
    place = None
    if project.wall.alcove is not None and not left and not right:
        place = place_in(project.wall, project.wall.alcove, Unit(project.units))
    length, x = place or (length, None)
    mount = free_mount(project, length)
    shelf = Shelf(
        called,
        length,
        depth,
        height,
        left="mitred" if left else "open",
        right="mitred" if right else "open",
        mount=mount if mount is None or x is None else msgspec.structs.replace(mount, x=x),
    )
    return msgspec.structs.replace(project, shelves=(*project.shelves, shelf)), called


def change_together(project: Project, at: int, value: Shelf, others: Collection[str]) -> Project:
    """The shelf at a place replaced, and what was changed of it changed of the others too."""
    old = project.shelves[at]
    fields = {name: getattr(value, name) for name in SHARED if getattr(value, name) != getattr(old, name)}
    shelves = [
        still_apart(msgspec.structs.replace(shelf, **fields)) if shelf.id in others and n != at else shelf
        for n, shelf in enumerate(project.shelves)
    ]
    shelves[at] = still_apart(value)
    return msgspec.structs.replace(project, shelves=tuple(shelves))


def differing(shelves: Sequence[Shelf]) -> tuple[str, ...]:
    """Names of the shared fields in which these shelves differ."""
    return tuple(name for name in SHARED if any(getattr(s, name) != getattr(shelves[0], name) for s in shelves))


def duplicate_all(project: Project, ids: Sequence[str]) -> tuple[Project, str]:
    """Each of these once more, right after it; the id is the first copy's."""
    first = ""
    for name in ids:
        at = next(n for n, shelf in enumerate(project.shelves) if shelf.id == name)
        project, copy = duplicate_shelf(project, at)
        first = first or copy
    return project, first


def remove_all(project: Project, ids: Collection[str]) -> tuple[Project, str]:
    """Without these; the id is a neighbour's, '' for none."""
    at = next((n for n, shelf in enumerate(project.shelves) if shelf.id in ids), 0)
    shelves = tuple(shelf for shelf in project.shelves if shelf.id not in ids)
    near = shelves[min(at, len(shelves) - 1)].id if shelves else ""
    return msgspec.structs.replace(project, shelves=shelves), near


def move_all(project: Project, ids: Collection[str], by: int) -> Project:
    """These one place earlier (by -1) or later (+1), as a block that stops at the end."""
    shelves = list(project.shelves)
    order = range(len(shelves)) if by < 0 else range(len(shelves) - 1, -1, -1)
    for n in order:
        to = n + by
        if shelves[n].id in ids and 0 <= to < len(shelves) and shelves[to].id not in ids:
            shelves[n], shelves[to] = shelves[to], shelves[n]
    return msgspec.structs.replace(project, shelves=tuple(shelves))


def paste(project: Project, shelves: Sequence[Shelf]) -> tuple[Project, tuple[str, ...]]:
    """With these at the end, under names that are free and in places on the wall that are; returns their ids."""
    ids = []
    for shelf in shelves:
        name = free_name(shelf.id, {other.id for other in project.shelves})
        pasted = msgspec.structs.replace(shelf, id=name, sheet=None, at=None, mount=_place(project, shelf))
        project = msgspec.structs.replace(project, shelves=(*project.shelves, pasted))
        ids.append(name)
    return project, tuple(ids)


def _place(project: Project, shelf: Shelf) -> Mount | None:
    mount = shelf.mount
    if mount is None:
        return None
    inside = mount.x >= 0.0 and mount.x + shelf.length <= project.wall.width and mount.top <= project.wall.height
    if inside and all(mount != other.mount for other in project.shelves):
        return mount
    return free_mount(project, shelf.length, mount)
