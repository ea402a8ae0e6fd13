"""What is wrong with a wall as it was noted: studs out of order, off it or on top of each other, and the like."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from core.document.model import Project, Studs, Wall
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Finding, Fix, Pointers

NOISE: Final = 1e-6  # mm
SIDES: Final = 25.0  # mm: an alcove and its wall differ by no more, however crooked they are


def noted_findings(project: Project) -> list[Finding]:
    """What is wrong with the wall as noted, about the first shelf that hangs; nothing where none does.

    `stud-off-wall`, `stud-order`, `stud-close`, `keep-out-off`, `bow-off-wall`, `alcove-wall`.
    """
    wall, about = project.wall, next((shelf.id for shelf in project.shelves if shelf.mount is not None), None)
    if about is None:
        return []
    unit = Unit(project.units)
    others = (_keep_outs_off(wall, about, unit), _bow_off(wall, about, unit), _alcove_wall(wall, about, unit))
    return [*_studs(wall, about, unit), *(finding for finding in others if finding is not None)]


def _studs(wall: Wall, about: str, unit: Unit) -> list[Finding]:
    """`stud-off-wall`, `stud-order`, `stud-close`: of timber studs."""
    if wall.kind != "timber stud":
        return []
    if isinstance(wall.studs, Studs):
        if wall.studs.first <= wall.width and wall.studs.first + wall.studs.spacing > 0.0:
            return []
        message = tr(
            "The first stud is noted at {first}, the wall is {width} wide.",
            first=_shown(wall.studs.first, unit),
            width=_shown(wall.width, unit),
        )
        return [Finding("warning", "stud-off-wall", about, message)]
    found = (_off_wall(wall.studs, wall.width, about, unit), _order(wall.studs, about, unit))
    told = [finding for finding in found if finding is not None]
    return told or _close(wall.studs, wall.stud_width, about, unit)


def _shown(mm: float, unit: Unit) -> str:
    return show_length(mm, unit, marks=False)


def _off_wall(studs: tuple[float, ...], width: float, about: str, unit: Unit) -> Finding | None:
    off = [x for x in studs if not 0.0 <= x <= width]
    if not off:
        return None
    message = tr(
        "{rest} noted at {off}, off a wall {width} wide.",
        rest=tr("A stud is") if len(off) == 1 else tr("{off} studs are", off=len(off)),
        off=_shown(off[0], unit),
        width=_shown(width, unit),
    )
    fix = Fix(tr("Leave out what is off the wall"), {"/wall/studs": sorted(x for x in studs if 0.0 <= x <= width)})
    return Finding("warning", "stud-off-wall", about, message, (fix,))


def _order(studs: tuple[float, ...], about: str, unit: Unit) -> Finding | None:
    back = next(((a, b) for a, b in pairwise(studs) if b <= a), None)
    if back is None:
        return None
    message = tr(
        "The studs are out of order: {back} is noted after {back2}. Note them all from one edge, "
        "never from stud to stud.",
        back=_shown(back[1], unit),
        back2=_shown(back[0], unit),
    )
    return Finding("note", "stud-order", about, message, (Fix(tr("Sort them"), {"/wall/studs": sorted(set(studs))}),))


def _close(studs: tuple[float, ...], width: float, about: str, unit: Unit) -> list[Finding]:
    near = next(((a, b) for a, b in pairwise(studs) if b - a < width - NOISE), None)
    if near is None:
        return []
    message = tr(
        "The studs at {near} and {near2} are only {near3} apart, less than the {width} a stud is "
        "wide: one of them may be its edge.",
        near=_shown(near[0], unit),
        near2=_shown(near[1], unit),
        near3=_shown(near[1] - near[0], unit),
        width=_shown(width, unit),
    )
    return [Finding("note", "stud-close", about, message, (), width - (near[1] - near[0]))]


def _keep_outs_off(wall: Wall, about: str, unit: Unit) -> Finding | None:
    """A rectangle that reaches past the wall's edges: it was measured from somewhere else, or mistyped."""
    off = [
        (n, a)
        for n, a in enumerate(wall.keep_outs)
        if a.x < -NOISE or a.y < -NOISE or a.x + a.width > wall.width + NOISE or a.y + a.height > wall.height + NOISE
    ]
    if not off:
        return None
    area = off[0][1]
    more = tr(", and {count} more", count=len(off) - 1) if len(off) > 1 else ""
    message = tr(
        "What is noted at {x} from the wall's left edge, {y} from the floor ({kind}) reaches past the wall, {width} "
        "wide and {height} high{more}: measure it again.",
        kind=tr(area.kind),
        x=_shown(area.x, unit),
        y=_shown(area.y, unit),
        width=_shown(wall.width, unit),
        height=_shown(wall.height, unit),
        more=more,
    )
    words = tr("Leave out what is off the wall")
    return Finding("note", "keep-out-off", about, message, (Fix(words, _without("keep_outs", [n for n, _ in off])),))


def _bow_off(wall: Wall, about: str, unit: Unit) -> Finding | None:
    off = [n for n, (x, _) in enumerate(wall.bow) if not -NOISE <= x <= wall.width + NOISE]
    if not off:
        return None
    message = tr(
        "{rest} noted at {off}, off a wall {width} wide.",
        rest=tr("A reading of the bow is") if len(off) == 1 else tr("{off} readings of the bow are", off=len(off)),
        off=_shown(wall.bow[off[0]][0], unit),
        width=_shown(wall.width, unit),
    )
    fix = Fix(tr("Leave out what is off the wall"), _without("bow", off))
    return Finding("note", "bow-off-wall", about, message, (fix,))


def _without(key: str, places: list[int]) -> Pointers:
    """Leaves out items of a list of the wall, the last first, so that the others keep their places."""
    return {f"/wall/{key}/{n}": None for n in sorted(places, reverse=True)}


def _alcove_wall(wall: Wall, about: str, unit: Unit) -> Finding | None:
    """An alcove's back is the wall: they are as wide as each other, and places run from its left side."""
    if wall.alcove is None:
        return None
    backs = (wall.alcove.top[0], wall.alcove.bottom[0])
    if min(backs) - SIDES <= wall.width <= max(backs) + SIDES:
        return None
    message = tr(
        "The alcove is {back} wide at the back, the wall {width}: between side walls the wall is the alcove's back, "
        "and all places run from its left side.",
        back=_shown(max(backs), unit),
        width=_shown(wall.width, unit),
    )
    fix = Fix(tr("Take the wall as {back} wide", back=_shown(max(backs), unit)), {"/wall/width": max(backs)})
    return Finding("note", "alcove-wall", about, message, (fix,))
