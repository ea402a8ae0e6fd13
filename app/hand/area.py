"""Areas of a sheet to keep clear: drawing one, moving it about, pulling its edges or corners. No Qt here."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from math import hypot
from typing import Final

import msgspec

from app.hand.grid import LIGHT, Aim, Catch, rest
from app.hand.grip import Edit, Grip, Handle, Number, Point, Values
from app.rule.area_edits import Box, Place, area_at, moved, rectangle, with_area
from app.rule.reading import LENGTH
from core.document.areas import box_of
from core.document.model import KeepClear, Project, Sheet
from core.document.ranges import LARGEST, Range
from core.drawing.clear import area_name
from core.language import tr
from core.layout.clear import bounds
from core.layout.model import trimmed
from core.lengths import Unit, show_length

LEAST_DRAWN: Final = 3.0  # pixels each way: a smaller stroke draws nothing
SIDE: Final = Range(1.0, LARGEST)
SMALL: Final = 56.0  # pixels: on an area with a smaller side the handles stand outside, so that it can be taken hold of
OUTSIDE: Final = 12.0  # pixels from the area


def _catches(stock: Sheet, axis: int, but: int = -1) -> tuple[Catch, ...]:
    """Where an edge of an area likes to be along an axis (0 x, 1 y): the sheet's ends, its trim, other areas' ends."""
    room = trimmed(stock)
    far = (stock.length, stock.width)[axis]
    word = ("end", "edge")[axis]
    found = [Catch(0.0, tr("at the sheet's {word}", word=word)), Catch(far, tr("at the sheet's {word}", word=word))]
    found += [Catch(place, tr("at the trimmed {word}", word=word), LIGHT) for place in (room[axis], room[axis + 2])]
    for number, area in enumerate(stock.keep_clear):
        if number != but:
            reach = bounds(area.corners)
            found += [Catch(reach[n], tr("in line with the {kind}", kind=area.kind), LIGHT) for n in (axis, axis + 2)]
    return tuple(found)


def _shifted(catches: Iterable[Catch], by: float) -> tuple[Catch, ...]:
    return tuple(Catch(catch.value + by, catch.words, catch.reach) for catch in catches)


def _kept(value: float, least: float, most: float, unit: Unit) -> tuple[float, str]:
    """A value kept on the sheet, and by how much it was past its edge."""
    if least > most:
        return value, ""
    inside = min(max(value, least), most)
    over = abs(value - inside)
    return inside, tr(
        "{over} past the sheet's edge", over=show_length(over, unit, rounding="up")
    ) if over > 1e-9 else ""


# Drawing


class AreaDrawing(Grip):
    """A rectangle drawn from one corner to the other. forbidden: why none is drawn on this sheet, '' for nothing."""

    pull = "draw"

    def __init__(self, project: Project, at: int, start: Point, pixel: float, forbidden: str = "") -> None:
        stock = project.sheets[at]
        aim = Aim(pixel, Unit(project.units))
        self._project, self._stock, self._forbidden = project, stock, forbidden
        self._place: Place = (at, len(stock.keep_clear))
        x, _ = rest(start[0], LENGTH, aim, 1.0, _catches(stock, 0))
        y, _ = rest(start[1], LENGTH, aim, 1.0, _catches(stock, 1))
        self._start = (min(max(x, 0.0), stock.length), min(max(y, 0.0), stock.width))
        self._way = (1.0, 1.0)  # which way it was drawn last
        self.about = area_name(stock, self._place[1])
        self.label = tr("Keep clear on sheet {id}", id=stock.id)
        self._numbers = (
            Number("along", "along", LENGTH, 0.0, (1.0, 0.0), 1.0),
            Number("across", "across", LENGTH, 0.0, (0.0, 1.0), 1.0),
        )

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The sides, with the sign of the way they are drawn."""
        return self._numbers

    def drop(self, wanted: Values, aim: Aim) -> Edit | None:
        """From where the stroke began to where the hand is; None while it is too small to be an area."""
        if self._forbidden:
            return Edit(self._project, self.values, stop=self._forbidden)
        ways, said = [], []
        for axis, asked in enumerate(wanted):
            begin, most = self._start[axis], (self._stock.length, self._stock.width)[axis]
            way, caught = rest(asked, LENGTH, aim, 1.0, _shifted(_catches(self._stock, axis), -begin))
            way, stop = _kept(way, -begin, most - begin, aim.unit)
            ways.append(way)
            said.append((caught, stop))
        if min(map(abs, ways)) < LEAST_DRAWN * aim.pixel:
            return None
        self._way = (1.0 if ways[0] > 0.0 else -1.0, 1.0 if ways[1] > 0.0 else -1.0)
        stop = next((stop for _, stop in said if stop), "")
        caught = "" if stop else ", ".join(dict.fromkeys(caught for caught, _ in said if caught))
        return Edit(self._drawn(*ways), (abs(ways[0]), abs(ways[1])), caught, stop)

    def put(self, values: Values) -> Edit:
        """With exactly these sides, from where it began."""
        if self._forbidden:
            return Edit(self._project, self.values, stop=self._forbidden)
        along, across = (abs(v) or abs(other) or 1.0 for v, other in (values, values[::-1]))
        return Edit(self._drawn(self._way[0] * along, self._way[1] * across), (along, across))

    def after(self, travel: Point) -> Values:
        """Signed: where the hand is from where it began."""
        return travel

    def _drawn(self, along: float, across: float) -> Project:
        x, y = self._start
        box = (min(x, x + along), min(y, y + across), max(x, x + along), max(y, y + across))
        return with_area(self._project, self._place, KeepClear(rectangle(box)))


# Moving


class AreaMove(Grip):
    """An area moved about on its sheet."""

    pull = "move"

    def __init__(self, project: Project, place: Place) -> None:
        self._project, self._place = project, place
        self._stock, self._area = project.sheets[place[0]], area_at(project, place)
        self._box = bounds(self._area.corners)
        self.about = area_name(self._stock, place[1])
        self.label = tr("Place of the {kind} on sheet {id}", kind=self._area.kind, id=self._stock.id)
        trim = self._stock.trim
        self._numbers = (
            Number("x", tr("from trued end"), LENGTH, self._box[0] - trim, (1.0, 0.0), 1.0),
            Number("y", tr("from lower edge"), LENGTH, self._box[1] - trim, (0.0, 1.0), 1.0),
        )

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The lower left corner of the box round it, from the trimmed corner of the sheet."""
        return self._numbers

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """At the nearest catch or whole fraction, on the sheet."""
        trim = self._stock.trim
        values, said = [], []
        for axis, asked in enumerate(wanted):
            size = self._box[axis + 2] - self._box[axis]
            catches = _catches(self._stock, axis, self._place[1])
            both = (*_shifted(catches, -trim), *_shifted(catches, -trim - size))
            value, caught = rest(asked, LENGTH, aim, 1.0, both)
            most = (self._stock.length, self._stock.width)[axis] - size
            value, stop = _kept(value, -trim, most - trim, aim.unit)
            values.append(value)
            said.append((caught, stop))
        stop = next((stop for _, stop in said if stop), "")
        caught = "" if stop else ", ".join(dict.fromkeys(caught for caught, _ in said if caught))
        return self._at(values, caught, stop)

    def put(self, values: Values) -> Edit:
        """Exactly there."""
        return self._at(values, "", "")

    def _at(self, values: Iterable[float], caught: str, stop: str) -> Edit:
        x, y = values
        area = moved(self._area, (x + self._stock.trim, y + self._stock.trim))
        return Edit(with_area(self._project, self._place, area), (x, y), caught, stop)


# Pulling


def area_handles(project: Project, place: Place, pixel: float) -> tuple[Handle, ...]:
    """The handles of an area: on the edges of a rectangle, on the corners of any other. pixel: mm in a pixel."""
    area = area_at(project, place)
    reach = bounds(area.corners)
    out = OUTSIDE if min(reach[2] - reach[0], reach[3] - reach[1]) < SMALL * pixel else 0.0
    box = box_of(area)
    if box is not None:
        return tuple(_edge(project, place, box, side, out) for side in range(4))
    return tuple(_corner(project, place, number, out) for number in range(len(area.corners)))


def _edge(project: Project, place: Place, box: Box, side: int, out: float) -> Handle:
    """side: 0 low x, 1 low y, 2 high x, 3 high y; out: pixels it stands outside."""
    axis, high = side % 2, side >= 2
    stock, area = project.sheets[place[0]], area_at(project, place)
    middle = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
    at = (box[side], middle[1]) if axis == 0 else (middle[0], box[side])
    sign = 1.0 if high else -1.0
    way = (sign, 0.0) if axis == 0 else (0.0, sign)
    words = ("along", "across")[axis]
    number = Number(words, words, LENGTH, box[axis + 2] - box[axis], way, 1.0, SIDE)

    def change(size: float) -> Project:
        sides = list(box)
        sides[side] = box[axis] + size if high else box[axis + 2] - size
        corners = rectangle((sides[0], sides[1], sides[2], sides[3]))
        return with_area(project, place, msgspec.structs.replace(area, corners=corners))

    def catches() -> tuple[Catch, ...]:
        places = _catches(stock, axis, place[1])
        sizes = (Catch(sign * (c.value - box[axis if high else axis + 2]), c.words, c.reach) for c in places)
        return tuple(catch for catch in sizes if catch.value >= SIDE.least)

    key = ("low x", "low y", "high x", "high y")[side]
    label = tr("Size of the {kind} on sheet {id}", kind=area.kind, id=stock.id)
    offset = (out * way[0], -out * way[1])
    return Handle(key, label, area_name(stock, place[1]), at, number, change, catches=catches, offset=offset)


@dataclass(frozen=True)
class CornerHandle(Handle):
    """A handle that moves one corner any way about."""

    pull = "move"
    across: Number | None = None
    put_at: Callable[[Point], Project] | None = None
    across_catches: tuple[Catch, ...] = ()

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The corner's place, from the trimmed corner of the sheet."""
        assert self.across is not None
        return (self.number, self.across)

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """At the nearest catch or whole fraction."""
        x, along = rest(wanted[0], LENGTH, aim, 1.0, self.catches())
        y, up = rest(wanted[1], LENGTH, aim, 1.0, self.across_catches)
        return self._edit((x, y), ", ".join(dict.fromkeys(words for words in (along, up) if words)))

    def put(self, values: Values) -> Edit:
        """Exactly there."""
        return self._edit((values[0], values[1]), "")

    def stepped(self, values: Values, way: Point, unit: Unit, fine: bool) -> Values:
        """One step in the key's direction."""
        return Grip.stepped(self, values, way, unit, fine)

    def _edit(self, place: Point, caught: str) -> Edit:
        assert self.put_at is not None
        return Edit(self.put_at(place), place, caught)


def _corner(project: Project, place: Place, number: int, out: float) -> Handle:
    stock, area = project.sheets[place[0]], area_at(project, place)
    corner, trim = area.corners[number], stock.trim

    def put_at(values: Point) -> Project:
        corners = list(area.corners)
        corners[number] = (values[0] + trim, values[1] + trim)
        return with_area(project, place, msgspec.structs.replace(area, corners=tuple(corners)))

    reach = bounds(area.corners)
    way = (corner[0] - (reach[0] + reach[2]) / 2.0, corner[1] - (reach[1] + reach[3]) / 2.0)
    far = hypot(*way) or 1.0
    x = Number("x", tr("from trued end"), LENGTH, corner[0] - trim, (1.0, 0.0))
    y = Number("y", tr("from lower edge"), LENGTH, corner[1] - trim, (0.0, 1.0))
    return CornerHandle(
        f"corner {number}",
        tr("Shape of the {kind} on sheet {id}", kind=area.kind, id=stock.id),
        area_name(stock, place[1]),
        corner,
        x,
        lambda value: put_at((value, corner[1] - trim)),
        catches=partial(_shifted, _catches(stock, 0, place[1]), -trim),
        offset=(out * way[0] / far, -out * way[1] / far),
        across=y,
        put_at=put_at,
        across_catches=_shifted(_catches(stock, 1, place[1]), -trim),
    )
