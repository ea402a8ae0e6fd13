"""The frame of a shelf from above, with the wall behind it, and its back rail from the front. Lengths in mm.

x = 0 is where the frame's left end stands in the middle of its play, so a frame that is slid in it moves and the shell
stays; numbers run from the frame's own left end. From above y = 0 is the frame's front, its depth the wall's face.

    ____:_____________:_______   studs, and the wall's cover
    ==========================   back rail
    ||    |       |        |||   ribs; a driver's way leads from the front to each screw
    --------------------------   front rail; the shell is outlined round it

    [    o             o      ]  the back rail as one sees it from the front, with its screws
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import cos, pi, sin
from typing import Final

import msgspec

from core.document.model import Shelf
from core.drawing.model import Area, Dimension, Drawing, Item, Line, Ordinates, Point, Text
from core.drawing.names import letter
from core.drawing.slide import slid, slid_box
from core.frame.studs import frame_left, shift_of, sold_name, stud_lines
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Frame, Plan

DEEP: Final = 60.0  # of a stud, as much of it as is drawn
APART: Final = 110.0  # between the two views
ROUND: Final = 12  # corners of a screw's head from the front
HEAD: Final = 1.9  # a screw's head, of its diameter
SAME: Final = 0.4  # mm: nearer places are one


class _Job(msgspec.Struct, frozen=True):
    """What the drawing is made from. shell: thickness of the shelf's sheet."""

    plan: Plan
    frame: Frame
    shelf: Shelf
    shell: float

    @property
    def unit(self) -> Unit:
        return Unit(self.plan.project.units)

    @property
    def back(self) -> float:
        """Inner face of the back rail."""
        return self.frame.depth - self.plan.project.frame.back_layers * self.frame.thickness

    @property
    def wall_face(self) -> float:
        """Face of the studs."""
        return self.frame.depth + self.plan.project.wall.cover

    def screw(self, mm: float) -> str:
        """What the shop calls a screw of that length."""
        return sold_name(mm, self.unit) or self.show(mm)

    def show(self, mm: float) -> str:
        return show_length(mm, self.unit)


def draw_frame(plan: Plan, shelf_id: str) -> Drawing:
    """Frame plan and elevation of one shelf; KeyError where it has no frame."""
    frame = next((f for f in plan.frames if f.shelf == shelf_id), None)
    if frame is None:
        raise KeyError(f"no frame of {shelf_id}")
    index, shelf = next((n, s) for n, s in enumerate(plan.project.shelves) if s.id == shelf_id)
    job = _Job(plan, frame, shelf, shelf.depth - frame.cavity[1])
    items = (*_shell(job), *_wall(job), *_sticks(job), *_ways(job), *_screws(job), *_elevation(job), *_numbers(job))
    left, right = _ends(job)
    front = -(plan.project.frame.front_play + job.shell)
    shift = shift_of(shelf, plan.project.frame.side_play)
    box = slid_box((left, front - APART - frame.height, right, job.wall_face + DEEP), shift)
    return Drawing(f"frame {shelf_id}", tr("Frame of {letter}", letter=letter(index)), box, slid(items, shift))


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _ends(job: _Job) -> tuple[float, float]:
    """Outside of the shell's ends."""
    (low, high), shelf = _cavity_ends(job), job.shelf
    left, right = (job.shell if end == "mitred" else 0.0 for end in (shelf.left, shelf.right))
    return low - left, high + right


def _cavity_ends(job: _Job) -> tuple[float, float]:
    """Inside of the shell's ends: the frame may be slid in its play."""
    play = job.plan.project.frame.side_play
    shift = shift_of(job.shelf, play)
    return -play - shift, job.frame.length + play - shift


def _shell(job: _Job) -> Iterator[Item]:
    """The shell round the frame, in section from above."""
    left, right = _ends(job)
    front, back = -job.plan.project.frame.front_play, job.frame.depth
    yield Line("note", ((left, back), (left, front - job.shell), (right, front - job.shell), (right, back)))
    inner_left, inner_right = _cavity_ends(job)
    yield Line("note", ((inner_left, back), (inner_left, front), (inner_right, front), (inner_right, back)))


def _wall(job: _Job) -> Iterator[Item]:
    """What covers the studs, and the studs behind the shelf; those that are screwed to have their centre line."""
    left, right = _ends(job)
    wall, cover = job.plan.project.wall, job.plan.project.wall.cover
    if cover > 0.0:
        yield Area("bench", _box(left, job.frame.depth, right, job.wall_face))
    else:
        yield Line("cut", ((left, job.wall_face), (right, job.wall_face)))
    if job.shelf.mount is None:
        return
    start = frame_left(job.shelf, job.shelf.mount, job.shell, job.plan.project.frame.side_play)
    half = wall.stud_width / 2.0
    for stud in stud_lines(wall, start + left + half, start + right - half):
        x = stud - start
        used = stud in job.frame.studs
        yield Area("wood" if used else "sheet", _box(x - half, job.wall_face, x + half, job.wall_face + DEEP))
        if used:
            yield Line("blade", ((x, 0.0), (x, job.wall_face + DEEP)))


def _sticks(job: _Job) -> Iterator[Item]:
    """Rails and ribs, each with its part's id."""
    frame, wish, t = job.frame, job.plan.project.frame, job.frame.thickness
    rails = [(tr("back rail{nth}", nth=_nth(n)), frame.depth - (n + 1) * t) for n in range(wish.back_layers)]
    rails += [(tr("front rail{nth}", nth=_nth(n)), n * t) for n in range(wish.front_layers)]
    for name, y in rails:
        yield Area("wood", _box(0.0, y, frame.length, y + t), f"{frame.shelf}/{name}")
    low = wish.front_layers * t
    for n, x in enumerate(frame.ribs, 1):
        yield Area("wood", _box(x - t / 2.0, low, x + t / 2.0, job.back), f"{frame.shelf}/rib {n}")


def _nth(n: int) -> str:
    return f" {n + 1}" if n else ""


def _ways(job: _Job) -> Iterator[Item]:
    """The way of each screw's driver, from the front through a hole in the front rail."""
    half = job.plan.project.screw.access_hole / 2.0
    front = job.plan.project.frame.front_layers * job.frame.thickness
    for x in dict.fromkeys(screw.x for screw in job.frame.screws):
        yield Area("waste", _box(x - half, 0.0, x + half, job.back))
        if front > 0.0 and half > 0.0:
            yield Area("void", _box(x - half, 0.0, x + half, front))
            for edge in (x - half, x + half):
                yield Line("cut", ((edge, 0.0), (edge, front)))


def _screws(job: _Job) -> Iterator[Item]:
    half = job.plan.project.screw.diameter / 2.0
    for x, length in dict.fromkeys((screw.x, screw.length) for screw in job.frame.screws):
        yield Area("guide", _box(x - half, job.back, x + half, job.back + length))


def _elevation(job: _Job) -> Iterator[Item]:
    """The back rail from the front: ribs dashed, screws where they are drilled."""
    frame, base = job.frame, _base(job)
    yield Area("wood", _box(0.0, base, frame.length, base + frame.height), f"{frame.shelf}/back rail")
    for x in frame.ribs:
        for edge in (x - frame.thickness / 2.0, x + frame.thickness / 2.0):
            yield Line("heel", ((edge, base), (edge, base + frame.height)))
    size = HEAD * job.plan.project.screw.diameter / 2.0
    for screw in frame.screws:
        turns = [2.0 * pi * n / ROUND for n in range(ROUND)]
        middle = base + screw.height
        yield Area("guide", tuple((screw.x + size * cos(a), middle + size * sin(a)) for a in turns))


def _base(job: _Job) -> float:
    """Lower edge of the rail from the front."""
    return -(job.plan.project.frame.front_play + job.shell) - APART - job.frame.height


def _numbers(job: _Job) -> Iterator[Item]:
    """All places run from the frame's left end and, from above, from its front."""
    frame, base, wish = job.frame, _base(job), job.plan.project.frame
    ribs = _distinct([0.0, *frame.ribs, frame.length])
    yield Ordinates("dimension", "x", base, "low", tuple((x, job.show(x)) for x in ribs))
    places = _distinct([screw.x for screw in frame.screws])
    if places:
        yield Ordinates("dimension", "x", job.wall_face + DEEP, "high", tuple((x, job.show(x)) for x in places))
    left, right = _ends(job)
    layers = _distinct([0.0, wish.front_layers * frame.thickness, job.back, frame.depth])
    yield Ordinates("dimension", "y", right, "high", tuple((y, job.show(y)) for y in layers))
    yield Dimension("dimension", (left, base), (left, base + frame.height), job.show(frame.height), 16.0)
    words = tr("back rail from the front, middles of the ribs from its left end")
    heights = _distinct([screw.height for screw in frame.screws])
    if heights:
        told = tr(" and ").join(job.show(height) for height in heights)
        length = job.screw(frame.screws[0].length)
        words += tr("; screws {told} over its lower edge, {length} long", told=told, length=length)
    yield Text("note", (0.0, base + frame.height), words, 9.0, shift=(0.0, 7.0))


def _distinct(places: Iterable[float]) -> tuple[float, ...]:
    """In order, without those that are close to the one before them."""
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > SAME:
            kept.append(place)
    return tuple(kept)
