"""Studs under the hand, and where a shelf catches them. No Qt here."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import msgspec

from app.hand.grid import LIGHT, Catch
from app.hand.grip import Handle, Number
from app.rule.reading import LENGTH
from core.document.model import Project, Studs, Wall
from core.document.ranges import RANGES
from core.frame.cavity import cavity_of, frame_size
from core.frame.studs import frame_left, reachable_room, stud_lines
from core.language import tr
from core.plan.shapes import shape_of

MOST_STUDS: Final = 40  # with handles of their own
ABOVE_FLOOR: Final = 12.0  # pixels from the floor to a stud's handle
FLOOR_BAND: Final = 30.0  # pixels over the floor in which the studs show their handles


def stud_handles(project: Project, pixel: float) -> tuple[Handle, ...]:
    """A handle at the foot of each stud. pixel: mm of the wall in a pixel.

    A stud as noted goes by itself; of even ones the first takes all along, any other changes their spacing.
    """
    wall = project.wall
    lines = stud_lines(wall, 0.0, wall.width)
    if len(lines) > MOST_STUDS:
        return ()
    if isinstance(wall.studs, Studs):
        studs = wall.studs
        return tuple(_even_handle(project, round((x - studs.first) / studs.spacing), x, pixel) for x in lines)
    return tuple(_noted_handle(project, n, x, pixel) for n, x in enumerate(lines))


def _even_handle(project: Project, n: int, x: float, pixel: float) -> Handle:
    studs = project.wall.studs
    assert isinstance(studs, Studs)
    if n == 0:
        number = Number("first", tr("first stud"), LENGTH, studs.first, (1.0, 0.0), 1.0, RANGES[Studs]["first"])
    else:
        limits = RANGES[Studs]["spacing"]
        number = Number("spacing", tr("studs apart"), LENGTH, studs.spacing, (1.0, 0.0), 1.0 / n, limits)

    def change(value: float) -> Project:
        return _with_studs(project, msgspec.structs.replace(studs, **{number.name: value}))

    return _handle(tr("stud {n}", n=n), number, change, x, pixel)


def _noted_handle(project: Project, n: int, x: float, pixel: float) -> Handle:
    studs = project.wall.studs
    assert not isinstance(studs, Studs)
    at = studs.index(x)

    def change(value: float) -> Project:
        return _with_studs(project, (*studs[:at], value, *studs[at + 1 :]))

    number = Number("stud", tr("stud at"), LENGTH, x, (1.0, 0.0), 1.0, RANGES[Wall]["studs"])
    return _handle(tr("stud {n}", n=n), number, change, x, pixel)


def _handle(key: str, number: Number, change: Callable[[float], Project], x: float, pixel: float) -> Handle:
    return Handle(key, tr("Studs"), "", (x, ABOVE_FLOOR * pixel), number, change)


def _with_studs(project: Project, studs: Studs | tuple[float, ...]) -> Project:
    return msgspec.structs.replace(project, wall=msgspec.structs.replace(project.wall, studs=studs))


def stud_catches(project: Project, at: int) -> tuple[Catch, ...]:
    """Where a shelf's left end makes its frame catch one stud more, or keep the last: with how many it then has."""
    shelf, wish = project.shelves[at], project.frame
    shape = shape_of(project, at)
    thickness = wish.thickness or shape.stock.thickness
    size = frame_size(cavity_of(shelf, shape.stock.thickness), wish, thickness)
    low, high = reachable_room(size.length, thickness, wish, project.screw)
    if shelf.mount is None or low > high:
        return ()
    start = frame_left(shelf, shelf.mount, shape.stock.thickness, wish.side_play) - shelf.mount.x
    lines = stud_lines(project.wall, 0.0, project.wall.width)
    found = []
    for place in (edge for x in lines for edge in (x - start - high, x - start - low)):
        count = len(stud_lines(project.wall, place + start + low, place + start + high))
        around = (len(stud_lines(project.wall, p + start + low, p + start + high)) for p in (place - 0.5, place + 0.5))
        if count > min(around) and 0.0 <= place <= project.wall.width - shelf.length:
            found.append(
                Catch(place, tr("on {count} {rest}", count=count, rest="stud" if count == 1 else "studs"), LIGHT)
            )
    return tuple(found)
