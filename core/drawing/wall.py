"""The wall in elevation: studs from one datum, the line each frame stands on, heights, keep-outs, eye line, alcove.

Seen as one faces it: x from its left edge, heights from the floor. Numbers run from the left edge and the floor.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.document.model import KeepOut, Wall
from core.drawing.measure import clean
from core.drawing.model import Area, Box, Drawing, Item, Line, Ordinates, Sign, Text
from core.drawing.names import shelf_letters, shelf_thickness
from core.drawing.panels import rectangle
from core.frame.studs import frame_left, stud_lines
from core.language import tr
from core.lengths import Denominator, Unit, show_length
from core.plan.model import Frame, Plan
from core.wall.eye import EYE
from core.wall.places import Hung, gaps, hung

FINE: Final[Denominator] = 16  # of an inch: as fine as a wall is measured
SAME: Final = 0.4  # mm: nearer marks are one
CROSS: Final = (((-4.0, 0.0), (4.0, 0.0)), ((0.0, -4.0), (0.0, 4.0)))  # points
EYES: Final = {"in": 1524.0, "mm": EYE}  # height of the eyes of one who stands, common practice [mm]
CHEEK: Final = 30.0  # mm: how thick an alcove's side walls are drawn
NUMBERED: Final = 0.68  # up a clear height: where its number stands, over the lower shelf's name
MOST_GAPS: Final = 12  # shelves with clear heights between them; more would be a thicket


def draw_wall(plan: Plan) -> Drawing:
    """The wall with the shelves that hang on it."""
    wall, unit = plan.project.wall, Unit(plan.project.units)
    letters, shelves = shelf_letters(plan), hung(plan.project)
    frames = {frame.shelf: frame for frame in plan.frames}
    hidden = [item for one in shelves for item in _frame(plan, one, frames.get(one.shelf.id))]
    items: list[Item] = [
        Area("wall", rectangle((0.0, 0.0, wall.width, wall.height))),
        *(_cheeks(wall) if wall.alcove is not None else ()),
        *_studs(wall),
        *(item for area in wall.keep_outs for item in _keep_out(area)),
        *_eye_line(wall, plan.project.units),
        *(item for one in shelves for item in _shelf(one, letters, unit)),
        *hidden,
        *_clear_heights(plan, unit),
        *_ordinates(plan, shelves, frames, unit),
        Sign("datum", (0.0, 0.0), (((0.0, 0.0), (0.0, 26.0)), ((0.0, 0.0), (26.0, 0.0)))),
    ]
    return Drawing("wall", tr("Wall, as you face it"), (0.0, 0.0, wall.width, wall.height), tuple(items))


def wall_length(mm: float, unit: Unit) -> str:
    """A length on the wall, as fine as a wall is measured: `48-3/16"`, `1223 mm`."""
    return show_length(mm, unit, FINE, marks=False)


def frame_box(plan: Plan, one: Hung, frame: Frame) -> Box:
    """The frame on the wall: x0, y0, x1, y1 from its left edge and the floor; the shell's top lies on the frame."""
    thickness = shelf_thickness(plan, one.shelf.id)
    left = frame_left(one.shelf, one.mount, thickness, plan.project.frame.side_play)
    high = one.mount.top - thickness
    return (left, high - frame.height, left + frame.length, high)


def _studs(wall: Wall) -> Iterator[Item]:
    half = wall.stud_width / 2.0
    for x in stud_lines(wall, 0.0, wall.width):
        yield Area("stud", rectangle((max(0.0, x - half), 0.0, min(wall.width, x + half), wall.height)))


def _cheeks(wall: Wall) -> Iterator[Item]:
    for x0, x1 in ((-CHEEK, 0.0), (wall.width, wall.width + CHEEK)):
        yield Area("waste", rectangle((x0, 0.0, x1, wall.height)))


def _keep_out(area: KeepOut) -> Iterator[Item]:
    box = (area.x, area.y, area.x + area.width, area.y + area.height)
    yield Area("keepout", rectangle(box))
    at = (box[2], (box[1] + box[3]) / 2.0)
    yield Text("keepout", at, area.kind, 9.0, shift=(4.0, 0.0), clear=True)


def _eye_line(wall: Wall, units: str) -> Iterator[Item]:
    height = EYES[units]
    if wall.height > height:
        yield Line("heel", ((0.0, height), (wall.width, height)))
        room = (0.0, height, wall.width, wall.height)
        yield Text("note", (wall.width, height), tr("eye line"), 9.0, "right", shift=(-4.0, 7.0), room=room, clear=True)


def _shelf(one: Hung, letters: dict[str, str], unit: Unit) -> Iterator[Item]:
    shelf, mount = one.shelf, one.mount
    box = (mount.x, one.low, mount.x + shelf.length, mount.top)
    yield Area("panel", rectangle(box), shelf.id)
    letter = letters[shelf.id]
    words = tr(
        "{letter}  {clean}, {length} long",
        letter=letter,
        clean=clean(shelf.id, 40),
        length=show_length(shelf.length, unit),
    )
    room = (box[0] - 500.0, mount.top, box[2] + 500.0, mount.top + 2000.0)
    at = ((box[0] + box[2]) / 2.0, mount.top)
    yield Text("label", at, words, 9.0, "middle", shift=(0.0, 8.0), room=room, about=shelf.id, short=letter, clear=True)


def _frame(plan: Plan, one: Hung, frame: Frame | None) -> Iterator[Item]:
    """The hidden frame dashed, the line under it right across, and a cross at each screw."""
    if frame is None:
        return
    box = frame_box(plan, one, frame)
    yield Area("heel", rectangle(box), one.shelf.id)
    wide = plan.project.wall.width
    yield Line("level", ((0.0, box[1]), (wide, box[1])), one.shelf.id)
    room = (max(box[2], 0.0), 0.0, wide, box[1])
    yield Text("note", (wide, box[1]), tr("line"), 9.0, "right", shift=(-4.0, -7.0), room=room, clear=True)
    for screw in frame.screws:
        yield Sign("mark", (box[0] + screw.x, box[1] + screw.height), CROSS, about=one.shelf.id)


def _clear_heights(plan: Plan, unit: Unit) -> Iterator[Item]:
    project = plan.project
    if sum(shelf.mount is not None for shelf in project.shelves) > MOST_GAPS:
        return
    for gap in gaps(project, project.wall.height):
        low, high = gap.lower.mount.top, gap.upper.low
        left = max(gap.upper.mount.x, gap.lower.mount.x)
        right = min(gap.upper.mount.x + gap.upper.shelf.length, gap.lower.mount.x + gap.lower.shelf.length)
        if high > low:
            x = left + 0.12 * (right - left)
            yield Line("dimension", ((x, low), (x, high)))
            for y in (low, high):
                yield Sign("dimension", (x, y), (((-3.0, 0.0), (3.0, 0.0)),))
            text = wall_length(high - low, unit)
            room = (left, low, right, high)
            at = (x, low + NUMBERED * (high - low))
            yield Text("dimension", at, text, 9.0, room=room, shift=(4.0, 0.0), clear=True)


def _ordinates(plan: Plan, shelves: list[Hung], frames: dict[str, Frame], unit: Unit) -> Iterator[Ordinates]:
    """Below: studs. Above: ends of shelves. At the left: tops. At the right: lines under the frames."""
    wall = plan.project.wall
    studs = stud_lines(wall, 0.0, wall.width)
    yield _row("x", 0.0, "low", studs, unit)
    ends = [end for one in shelves for end in (one.mount.x, one.mount.x + one.shelf.length)]
    yield _row("x", wall.height, "high", [0.0, *ends, wall.width], unit)
    yield _row("y", 0.0, "low", [0.0, *(one.mount.top for one in shelves), wall.height], unit)
    lines = [frame_box(plan, one, frames[one.shelf.id])[1] for one in shelves if one.shelf.id in frames]
    yield _row("y", wall.width, "high", lines, unit)


def _row(axis: str, base: float, side: str, places: list[float] | tuple[float, ...], unit: Unit) -> Ordinates:
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > SAME:
            kept.append(place)
    marks = tuple((place, wall_length(place, unit)) for place in kept)
    return Ordinates("dimension", "x" if axis == "x" else "y", base, "low" if side == "low" else "high", marks)
