"""A seam in section at true scale: flat on the sheet as it is cut, and closed to its corner as it is glued.

   show face up                            outside
______________  ______________          ______________
|  first     /\\/\\   second   |          |   first    /|
|___________/ /\\ \\___________|          |___________/ |
         falls free                                |  | second
                                                   |__|
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin
from typing import Final

import msgspec

from core.drawing.flat import bounds
from core.drawing.measure import clean
from core.drawing.model import Area, Box, Dimension, Drawing, Item, Line, Point, Sign, Text
from core.drawing.names import part_name, section_of, shapes_by_shelf, shelf_letters, shelf_thickness
from core.geometry.seam import SQUARE_CORNER, SeamSection
from core.language import tr
from core.lengths import Unit, show_angle, show_thickness
from core.plan.model import Plan, Seam
from core.solid.plies import Ply, plies

ARM: Final = 1.6  # of the thickness: wood drawn behind the heel
BLADE_OUT: Final = 0.22  # of the thickness: how far the blade is drawn past the faces
APART: Final = 1.8  # of the thickness: between the two states
WAY: Final = 3.0  # footprints between two edges that are cut apart


class _Cutting(msgspec.Struct, frozen=True):
    """What the drawing is made from; x = 0 at the first panel's toe, y = 0 at the show face."""

    seam: Seam
    section: SeamSection
    plies: tuple[Ply, ...]
    names: tuple[str, str]
    unit: Unit

    @property
    def wraps(self) -> bool:
        """Does the seam have a V of its own?"""
        return self.seam.show_loss is not None

    @property
    def gap(self) -> float:
        """Between the toes on the sheet, or as drawn where the two edges are cut apart. [mm]"""
        return self.section.loss if self.wraps else WAY * self.section.footprint

    @property
    def reach(self) -> float:
        """Length of wood drawn, from the toe. [mm]"""
        return self.section.setback + ARM * self.section.thickness


def draw_seam(plan: Plan, seam_id: str) -> Drawing:
    """The section of one seam, flat at the left and closed at the right; KeyError where there is no such seam."""
    seam = next((s for s in plan.seams if s.id == seam_id), None)
    if seam is None:
        raise KeyError(f"no seam {seam_id}")
    thickness = shelf_thickness(plan, seam.shelf)
    veneer = next((s.veneer for s in plan.project.sheets if s.thickness == thickness), 0.6)
    letters = shelf_letters(plan)
    first, second = (part_name(part, letters) for part in seam.between)
    cutting = _Cutting(
        seam,
        section_of(plan, thickness, _corner(plan, seam)),
        plies(thickness, veneer),
        (first, second),
        Unit(plan.project.units),
    )
    flat = list(_flat(cutting))
    closed = list(_closed(cutting))
    x0, y0, x1, y1 = _box(flat)
    a0, b0, _, _ = _box(closed)
    step = (x1 + APART * thickness - a0, 0.0)
    closed = [_moved(item, step) for item in closed]
    a0, b0, a1, b1 = _box(closed)
    title = tr(
        "Seam {clean}–{clean}, {first} to {split}",
        clean=clean(seam.letter),
        first=first,
        split=second.split(" ", 1)[-1],
    )
    return Drawing(f"seam {seam.id}", title, (x0, min(y0, b0), a1, max(y1, b1)), tuple(flat + closed))


def _corner(plan: Plan, seam: Seam) -> float:
    """Angle between the two panels when closed. [deg]"""
    net = shapes_by_shelf(plan).get(seam.shelf)
    joints = net.joints if net else ()
    return next((j.corner for j in joints if f"{seam.shelf}/{j.name}" == seam.id), SQUARE_CORNER)


def _flat(c: _Cutting) -> Iterator[Item]:
    """The two panels on the sheet, the blades' two kerfs and what falls out between them."""
    s, t, gap = c.section, c.section.thickness, c.gap
    first, middle = _profile(c), gap / 2.0
    yield Area("wood", first, c.seam.between[0])
    yield Area("wood", _mirrored(first, middle), c.seam.between[1])
    for line in _ply_lines(c):
        yield Line("ply", line)
        yield Line("ply", _mirrored(line, middle))
    fall = _falling(c)
    if fall:
        yield Area("waste", fall)
    yield Area("blade", _blade(c))
    yield Area("blade", _mirrored(_blade(c), middle))
    yield from _flat_words(c, fall)
    heel, other = (-s.setback, -t), (gap + s.setback, -t)
    if c.wraps:
        yield Dimension("dimension", (0.0, 0.0), (gap, 0.0), tr("lost {fine}", fine=_fine(c, s.loss)), offset=22.0)
        yield Dimension("dimension", heel, other, f"V {_fine(c, s.void_width)}", offset=-44.0)
    yield Dimension("dimension", (0.0, -t), heel, tr("toe to heel {fine}", fine=_fine(c, s.setback)), offset=25.0)
    left = -c.reach
    yield Dimension("dimension", (left, -t), (left, 0.0), _fine(c, t), offset=12.0)


def _flat_words(c: _Cutting, fall: tuple[Point, ...]) -> Iterator[Item]:
    s, t, gap = c.section, c.section.thickness, c.gap
    middle = s.setback + (c.reach - s.setback) * 0.5
    y = -t / 2.0
    first, second = c.names
    room = (-c.reach, -t, -s.setback, 0.0)
    yield Text("wood", (-middle, y), first, 9.0, "middle", room=room, clear=True)
    room = (gap + s.setback, -t, gap + c.reach, 0.0)
    yield Text("wood", (gap + middle, y), second, 9.0, "middle", room=room, clear=True)
    tilt = show_angle(s.bevel, 1 if abs(round(s.bevel, 1) - s.bevel) < 1e-9 else 2)
    yield Text("note", (gap + c.reach, 0.0), tr("blade at {tilt}", tilt=tilt), 9.0, "right", shift=(0.0, 12.0))
    yield Text("note", (-c.reach, 0.0), tr("show face up"), 9.0, shift=(0.0, 12.0))
    if fall:
        x0, y0, x1, y1 = bounds(fall)
        at = ((x0 + x1) / 2.0, y0)
        room = (x0 + 0.2 * (x1 - x0), y0, x1 - 0.2 * (x1 - x0), y1)
        yield Text("waste", at, tr("falls free"), 9.0, "middle", room=room, shift=(0.0, 8.0), clear=True)


def _profile(c: _Cutting) -> tuple[Point, ...]:
    """The first panel in section, counter-clockwise from its heel: toe at the origin, wood to the left."""
    s = c.section
    return ((-s.setback, -s.thickness), (0.0, 0.0), (-c.reach, 0.0), (-c.reach, -s.thickness))


def _ply_lines(c: _Cutting) -> Iterator[tuple[Point, Point]]:
    """The glue lines between the first panel's plies, up to its bevel."""
    lean = c.section.setback / c.section.thickness
    for ply in c.plies[:-1]:
        yield ((-c.reach, -ply.bottom), (-ply.bottom * lean, -ply.bottom))


def _blade(c: _Cutting) -> tuple[Point, ...]:
    """The first cut's kerf, drawn a little past both faces."""
    s = c.section
    out = BLADE_OUT * s.thickness
    lean = s.setback / s.thickness
    top, low = (out * lean, out), (-s.setback - out * lean, -s.thickness - out)
    return (low, (low[0] + s.footprint, low[1]), (top[0] + s.footprint, top[1]), top)


def _falling(c: _Cutting) -> tuple[Point, ...]:
    """What is left between the two kerfs, a triangle; empty where nothing is."""
    s = c.section
    if not c.wraps or s.setback <= 0.0:
        return ()
    middle, half = s.loss / 2.0, s.loss / 2.0 - s.footprint + s.setback  # half its width at the inside face
    if half <= 0.0:
        return ()
    rise = half * s.thickness / s.setback
    if rise > s.thickness:  # an allowance leaves wood at the show face too
        top = s.loss / 2.0 - s.footprint
        return (
            (middle - half, -s.thickness),
            (middle + half, -s.thickness),
            (middle + top, 0.0),
            (middle - top, 0.0),
        )
    return ((middle - half, -s.thickness), (middle + half, -s.thickness), (middle, rise - s.thickness))


def _closed(c: _Cutting) -> Iterator[Item]:
    """The corner closed true: toes touching and heels apart, or the other way round where undercut."""
    s, corner = c.section, 180.0 - 2.0 * (c.section.bevel - c.section.overcut)
    off = max(0.0, s.thickness / _tangent(corner / 2.0) - s.setback)
    first = tuple((x - off, y) for x, y in _profile(c))
    heel, toe = first[0], first[1]

    def folded(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(_reflected(p, 180.0 + corner / 2.0) for p in points)

    yield Area("wood", first, c.seam.between[0])
    yield Area("wood", folded(first), c.seam.between[1])
    for line in _ply_lines(c):
        moved = tuple((x - off, y) for x, y in line)
        yield Line("ply", moved)
        yield Line("ply", folded(moved))
    other_heel, other_toe = folded((heel, toe))
    touching, apart, other = (heel, toe, other_toe) if s.outside_gap > 0.0 else (toe, heel, other_heel)
    if s.inside_gap > 0.0 or s.outside_gap > 0.0:
        yield Area("gap", (touching, apart, other))
    share = min(1.0, s.glue_band / s.bevel_face)
    ends = (_along(touching, apart, share), _along(touching, other, share))
    yield Area("glue", (touching, *ends)) if s.overcut else Line("glue", (touching, ends[0]))
    yield from _closed_words(c, toe, heel)


def _closed_words(c: _Cutting, toe: Point, heel: Point) -> Iterator[Item]:
    """What is open outside and inside, and how far the glue bites, beside the arris it starts from."""
    s = c.section
    glue = tr("glue bites {fine}", fine=_fine(c, s.glue_band))
    inside = tr("inside open {fine}", fine=_fine(c, s.inside_gap)) if s.inside_gap > 0.0 else tr("inside closed")
    undercut = s.outside_gap > 0.0
    if undercut:
        outside = tr("outside open {fine}", fine=_fine(c, s.outside_gap))
        yield Text("trouble", (0.0, 0.0), outside, 9.0, "left", shift=(8.0, 6.0))
    else:
        yield Text("note", (0.0, 0.0), tr("outside closed"), 9.0, "left", shift=(8.0, 6.0))
        yield Text("dimension", (0.0, 0.0), glue, 9.0, "left", shift=(8.0, -7.0))
    yield Sign("note", heel, (((-1.5, -2.0), (-9.0, -12.0), (-13.0, -12.0)),))
    yield Text("dimension", heel, inside, 9.0, "right", shift=(-15.0, -12.0))
    if undercut:
        yield Text("dimension", heel, glue, 9.0, "right", shift=(-15.0, -25.0))


def _tangent(angle: float) -> float:
    return sin(radians(angle)) / cos(radians(angle))


def _reflected(point: Point, axis: float) -> Point:
    """A point mirrored in a line through the origin at `axis` degrees."""
    cosine, sine = cos(radians(2.0 * axis)), sin(radians(2.0 * axis))
    return (point[0] * cosine + point[1] * sine, point[0] * sine - point[1] * cosine)


def _mirrored(points: tuple[Point, ...], middle: float) -> tuple[Point, ...]:
    """Points mirrored in an upright line."""
    return tuple((2.0 * middle - x, y) for x, y in points)


def _along(start: Point, end: Point, share: float) -> Point:
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def _fine(c: _Cutting, mm: float) -> str:
    return show_thickness(mm, c.unit)


def _box(items: list[Item]) -> Box:
    return bounds(p for item in items if isinstance(item, (Area, Line)) for p in item.points)


def _moved(item: Item, step: Point) -> Item:
    """An item moved by `step` mm."""

    def at(p: Point) -> Point:
        return (p[0] + step[0], p[1] + step[1])

    if isinstance(item, (Area, Line)):
        return msgspec.structs.replace(item, points=tuple(map(at, item.points)))
    if isinstance(item, Dimension):
        return msgspec.structs.replace(item, start=at(item.start), end=at(item.end))
    if isinstance(item, (Text, Sign)):
        return msgspec.structs.replace(item, at=at(item.at))
    return item
