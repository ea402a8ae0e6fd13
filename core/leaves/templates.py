"""The full-size templates of a job: drill strips, gauge sticks, the wall's story stick."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.drawing.names import shelf_letters
from core.drawing.template import Mark, Strip, levelled
from core.drawing.wall import wall_length
from core.frame.studs import driver_way, stud_lines
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Plan
from core.supplies.buying import gauge_sticks
from core.wall.places import hung

STICK: Final = 16.0  # mm: how high a stick's strip is drawn
HIGHEST: Final = 110.0  # mm: a higher rail is drawn so high, its screws from the lower edge
LONGEST: Final = 620.0  # mm: a longer gauge stick is truer by tape than by paper joined
HOW: Final = tr(
    "Print at 100 %, measure the bar below, cut out. Lay each length on the flap before it, "
    "join on join, cross over cross. Measure the whole before you drill."
)


def strips_of(plan: Plan) -> tuple[Strip, ...]:
    """Every template, drill strips first."""
    return (*drill_strips(plan), *stick_strips(plan), *story_strips(plan))


def drill_strips(plan: Plan) -> Iterator[Strip]:
    """One for each frame with screws: laid on the back rail, on the wall on its line, and on a front rail's holes."""
    unit, letters, hole = Unit(plan.project.units), shelf_letters(plan), plan.project.screw.access_hole
    has_front = plan.project.frame.front_layers > 0
    for frame in plan.frames:
        if not frame.screws:
            continue
        high = min(frame.height, HIGHEST)
        marks = [
            Mark("end", 0.0, "left end"),
            Mark("end", frame.length, tr("right end {length}", length=show_length(frame.length, unit)), level=1),
        ]
        for number, screw in enumerate(frame.screws, 1):
            words = f"{number}: {show_length(screw.x, unit)}"
            marks.append(Mark("hole" if has_front and hole < high else "cross", screw.x, words, screw.height, hole))
        yield Strip(_drill_name(letters[frame.shelf], has_front), frame.length, high, tuple(marks))


def _drill_name(letter: str, has_front: bool) -> str:
    if has_front:
        return tr(
            "Drill strip, shelf {letters}, for wall, back rail and front rail's holes, from the front", letters=letter
        )
    return tr("Drill strip, shelf {letters}, for wall and back rail, from the front", letters=letter)


def stick_strips(plan: Plan) -> Iterator[Strip]:
    """All short gauge sticks on one strip, each from the left end to its line."""
    unit = Unit(plan.project.units)
    sticks = [mm for mm in gauge_sticks(plan) if mm <= LONGEST]
    if sticks:
        marks = [Mark("end", 0.0, tr("all from here")), *(Mark("line", mm, show_length(mm, unit)) for mm in sticks)]
        yield levelled(tr("Short gauge sticks, each from the left end to its line"), max(sticks), marks, STICK)


def story_strips(plan: Plan) -> Iterator[Strip]:
    """The story stick of the wall: studs, ends of shelves, and where no rib may stand; from its left corner."""
    project, wall = plan.project, plan.project.wall
    unit, letters, shelves = Unit(project.units), shelf_letters(plan), hung(plan.project)
    if not shelves:
        return
    corner = tr("right corner: {wall_length}", wall_length=wall_length(wall.width, unit))
    marks = [Mark("end", 0.0, tr("left corner")), Mark("end", wall.width, corner), *_zones(plan)]
    for n, x in enumerate(stud_lines(wall, 0.0, wall.width), 1):
        marks.append(Mark("line", x, tr("stud {n}: {wall_length}", n=n, wall_length=wall_length(x, unit))))
    for one in shelves:
        letter, right = letters[one.shelf.id], one.mount.x + one.shelf.length
        marks.append(
            Mark(
                "line",
                one.mount.x,
                tr("{letter} left: {wall_length}", letter=letter, wall_length=wall_length(one.mount.x, unit)),
            )
        )
        marks.append(
            Mark(
                "line", right, tr("{letter} right: {wall_length}", letter=letter, wall_length=wall_length(right, unit))
            )
        )
    name = tr("Story stick of the wall, hatched where no rib may stand")
    yield levelled(name, wall.width, [mark for mark in marks if mark.x >= 0.0], STICK)


def _zones(plan: Plan) -> list[Mark]:
    """Bands about the screwed studs as wide as a driver needs between two ribs' middles."""
    widths: dict[float, float] = {}
    for frame in plan.frames:
        way = driver_way(plan.project.screw, frame.thickness)
        for stud in frame.studs:
            widths[stud] = max(widths.get(stud, 0.0), 2.0 * way)
    return [Mark("band", x, size=size) for x, size in sorted(widths.items())]
