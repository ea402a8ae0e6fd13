"""Shelves on the wall: drawing one, moving it about, pulling its edges. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cached_property
from itertools import pairwise
from typing import Final

import msgspec

from app.hand.grid import LIGHT, Aim, Catch, on_step, rest, step_size
from app.hand.grip import Edit, Grip, Handle, Number, Point, Values
from app.hand.shelf import Along, size_handle
from app.hand.wall_measured import stud_catches
from app.rule.edits import free_name
from app.rule.reading import LENGTH
from core.document.model import Mount, Project, Shelf, Wall
from core.document.ranges import RANGES
from core.drawing.names import letter
from core.frame.studs import stud_lines
from core.language import tr
from core.layout.pin import index_of, with_shelf
from core.lengths import INCH_MM, Unit, show_length

LEAST_DRAWN: Final = 50.0  # mm: a shorter stroke draws no shelf
STEEP: Final = 0.2  # rise over run from which a stroke gives the height too
TALL: Final = 16.0  # pixels: likewise
TALLER: Final = 1.5  # of the common height: likewise
CLEAR: Final = 30.0  # pixels between two handles
OUTSIDE: Final = 10.0  # pixels from a low shelf to its handle


def stud_centres(wall: Wall) -> tuple[float, ...]:
    """Centre lines of the studs, from the wall's left edge. [mm]"""
    return stud_lines(wall, 0.0, wall.width)


def eye_line(units: str) -> float:
    """Height of the eye of one who stands, common practice. [mm]"""
    return 60.0 * INCH_MM if units == "in" else 1500.0


def common_sizes(units: str) -> tuple[float, float]:
    """Depth and height of a shelf that is drawn without saying them. [mm]"""
    return (8.0 * INCH_MM, 2.5 * INCH_MM) if units == "in" else (200.0, 60.0)


# What catches


def _hung(project: Project, but: str) -> list[tuple[str, Shelf, Mount]]:
    return [
        (letter(at), shelf, shelf.mount)
        for at, shelf in enumerate(project.shelves)
        if shelf.mount is not None and shelf.id != but
    ]


def end_catches(project: Project, but: str = "", *, studs: bool = True) -> tuple[Catch, ...]:
    """Where an end of a shelf likes to be: the wall's ends, other shelves' ends, studs. [mm from the left]"""
    found = [Catch(0.0, tr("at the wall's left end")), Catch(project.wall.width, tr("at the wall's right end"))]
    for name, shelf, mount in _hung(project, but):
        found += [Catch(x, tr("in line with {name}", name=name)) for x in (mount.x, mount.x + shelf.length)]
    if studs:
        found += [Catch(x, tr("on a stud"), LIGHT) for x in stud_centres(project.wall)]
    return tuple(found)


def middle_catches(project: Project, but: str = "") -> tuple[Catch, ...]:
    """Where the middle of a shelf likes to be. [mm from the left]"""
    found = [Catch(project.wall.width / 2.0, tr("in the middle of the wall"))]
    found += [
        Catch(mount.x + shelf.length / 2.0, tr("centred on {name}", name=name))
        for name, shelf, mount in _hung(project, but)
    ]
    return (*found, *(Catch(x, tr("centred on a stud"), LIGHT) for x in stud_centres(project.wall)))


def top_catches(project: Project, but: str = "") -> tuple[Catch, ...]:
    """Where the top of a shelf likes to be. [mm from the floor]"""
    found = [Catch(mount.top, tr("level with {name}", name=name)) for name, _, mount in _hung(project, but)]
    return (*found, Catch(eye_line(project.units), tr("at the eye line"), LIGHT))


def spacing_catches(project: Project, moved: Shelf) -> tuple[Catch, ...]:
    """Where the top of a shelf makes clear heights equal or undersides level. [mm from the floor]"""
    others = sorted(_hung(project, moved.id), key=lambda one: -one[2].top)
    found = [
        Catch(mount.top - other.height + moved.height, tr("underside level with {name}", name=name), LIGHT)
        for name, other, mount in others
        if other.height != moved.height
    ]
    for (over, upper, high), (under, lower, low) in pairwise(others):
        clear = high.top - upper.height - low.top
        if clear <= 0.0:
            continue
        middle = low.top + (clear + moved.height) / 2.0
        below = low.top - lower.height - clear
        found += [
            Catch(below, tr("as far below {under} as {under} below {over}", under=under, over=over)),
            Catch(
                high.top + clear + moved.height,
                tr("as far above {over} as {over} above {under}", over=over, under=under),
            ),
        ]
        if clear > moved.height:
            found.append(Catch(middle, tr("midway between {over} and {under}", over=over, under=under)))
    return tuple(found)


def _moved(catches: Iterable[Catch], by: float) -> tuple[Catch, ...]:
    return tuple(Catch(catch.value + by, catch.words, catch.reach) for catch in catches)


# Moving


class Hanging(Grip):
    """A shelf moved about on the wall, or hung there from the tray."""

    pull = "move"

    def __init__(self, project: Project, shelf: str, under: Point | None = None) -> None:
        """under: place of the wall where a shelf that does not hang yet is held by its middle."""
        self._at = index_of(project, shelf)
        self._project = project
        self._shelf = project.shelves[self._at]
        mount, limits = self._shelf.mount, RANGES[Mount]
        x, y = under or (0.0, 0.0)
        start = mount or Mount(x - self._shelf.length / 2.0, y + self._shelf.height / 2.0)
        self.about = shelf
        self.label = tr("Place on the wall of {shelf}", shelf=shelf)
        self._numbers = (
            Number("x", tr("from the left"), LENGTH, start.x, (1.0, 0.0), 1.0, limits["x"]),
            Number("top", tr("top at"), LENGTH, start.top, (0.0, 1.0), 1.0, limits["top"]),
        )

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The left end's place and the top's height."""
        return self._numbers

    @cached_property
    def _on_studs(self) -> tuple[Catch, ...]:
        """Where its frame catches one stud more; the same as long as it is held."""
        return stud_catches(self._project, self._at)

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """At the nearest catch or whole fraction; not past the wall's ends, floor or ceiling."""
        shelf, wall = self._shelf, self._project.wall
        if shelf.mount is None and wanted[1] <= 0.0:
            return Edit(self._project, wanted, caught=tr("up onto the wall with it"))
        ends = end_catches(self._project, shelf.id, studs=False)
        middles = middle_catches(self._project, shelf.id)
        sideways = (*ends, *_moved(ends, -shelf.length), *_moved(middles, -shelf.length / 2.0), *self._on_studs)
        x, along = rest(wanted[0], LENGTH, aim, 1.0, sideways)
        tops = (*top_catches(self._project, shelf.id), *spacing_catches(self._project, shelf))
        top, up = rest(wanted[1], LENGTH, aim, 1.0, tops)
        x, past_end = _kept(x, 0.0, wall.width - shelf.length, tr("the wall's end"), aim.unit)
        top, past_floor = _kept(top, shelf.height, wall.height, tr("the wall"), aim.unit)
        stop = past_end or past_floor
        caught = "" if stop else ", ".join(words for words in (along, up) if words)
        return Edit(self._hung_at(x, top), (x, top), caught, stop)

    def put(self, values: Values) -> Edit:
        """Exactly there."""
        return Edit(self._hung_at(*values), values)

    def _hung_at(self, x: float, top: float) -> Project:
        return with_shelf(self._project, self._at, mount=Mount(x, top))


def _kept(value: float, least: float, most: float, edge: str, unit: Unit) -> tuple[float, str]:
    """A value kept between two, and by how much it was past them; where there is no between, as it is."""
    if least > most:
        return value, ""
    kept = min(max(value, least), most)
    over = abs(value - kept)
    return kept, tr("{over} past {edge}", over=show_length(over, unit, rounding="up"), edge=edge) if over > 1e-9 else ""


# Pulling edges


def wall_handles(project: Project, shelf: str, pixel: float) -> tuple[Handle, ...]:
    """The handles of a shelf that hangs; none of one that does not. pixel: mm of the wall in a pixel."""
    at = index_of(project, shelf)
    mount = project.shelves[at].mount if at >= 0 else None
    if mount is None:
        return ()
    wanted = project.shelves[at]
    middle, right = mount.x + wanted.length / 2.0, mount.x + wanted.length
    beside, below = mount.top - wanted.height / 2.0, mount.top - wanted.height
    low = wanted.height < CLEAR * pixel  # too low for handles on both long edges
    found = [
        size_handle(project, shelf, "length", (right, beside), (1.0, 0.0)),
        size_handle(
            project,
            shelf,
            "length",
            (mount.x, beside),
            (-1.0, 0.0),
            key="length left",
            along=goes_with(shelf, mount, left=True),
        ),
        size_handle(project, shelf, "height", (middle, below), (0.0, -1.0), offset=(0.0, OUTSIDE if low else 0.0)),
    ]
    if not low:
        up = goes_with(shelf, mount, left=False)
        found.append(
            size_handle(project, shelf, "height", (middle, mount.top), (0.0, 1.0), key="height above", along=up)
        )
    return tuple(catching(project, handle, mount.x, right) for handle in found)


def goes_with(shelf: str, mount: Mount, *, left: bool) -> Along:
    """Pulled at the left the right end stays, pulled at the top the bottom stays."""

    def along(project: Project, grown: float) -> Project:
        moved = Mount(mount.x - grown, mount.top) if left else Mount(mount.x, mount.top + grown)
        return with_shelf(project, index_of(project, shelf), mount=moved)

    return along


def catching(project: Project, handle: Handle, left: float, right: float) -> Handle:
    """The handle of a length caught by what is on the wall, before the sizes of other shelves."""
    if handle.number.name != "length":
        return handle

    def catches() -> tuple[Catch, ...]:
        places = end_catches(project, handle.about)
        flipped = handle.key == "length left"
        ends = (Catch(right - c.value if flipped else c.value - left, c.words, c.reach) for c in places)
        return (*(catch for catch in ends if catch.value >= LEAST_DRAWN), *handle.catches())

    return replace(handle, catches=catches)


# Drawing a new one


class Drawing(Grip):
    """A new shelf drawn with a stroke: its length, and where the stroke is steep enough its height."""

    pull = "draw"

    def __init__(self, project: Project, start: Point, pixel: float) -> None:
        aim = Aim(pixel, Unit(project.units))
        self._project = project
        self._x, _ = rest(start[0], LENGTH, aim, 1.0, end_catches(project))
        self._y, _ = rest(start[1], LENGTH, aim, 1.0, top_catches(project))
        self._depth, self._height = common_sizes(project.units)
        self._fixed: Mount | None = None  # where it hangs once its size was typed or stepped
        self._last = Mount(self._x, self._y)
        self._name = free_name(tr("shelf"), {shelf.id for shelf in project.shelves})
        self.about = self._name
        self.label = tr("Draw {name}", name=self._name)
        limits = RANGES[Shelf]
        self._numbers = (
            Number("length", "length", LENGTH, 0.0, (1.0, 0.0), 1.0, limits["length"]),
            Number("height", "height", LENGTH, 0.0, (0.0, -1.0), 1.0, limits["height"]),
        )

    @property
    def numbers(self) -> tuple[Number, ...]:
        """Length and height."""
        return self._numbers

    def drop(self, wanted: Values, aim: Aim) -> Edit | None:
        """The shelf from where the stroke began to where the hand is; None while it is too short to be one."""
        wall = self._project.wall
        begin = self._fixed.x if self._fixed else self._x
        ends = _moved(end_catches(self._project), -begin)
        way, caught = rest(wanted[0], LENGTH, aim, 1.0, ends)
        way, stop = _kept(way, -begin, wall.width - begin, tr("the wall's end"), aim.unit)
        length = abs(way)
        if length < LEAST_DRAWN:
            return None
        height, top = self._upright(wanted, aim)
        self._last = Mount(begin + min(way, 0.0), top)
        return Edit(self._drawn(length, height, self._last), (length, height), "" if stop else caught, stop)

    def _upright(self, wanted: Values, aim: Aim) -> tuple[float, float]:
        """Height of the shelf and of its top from the floor."""
        step = step_size(LENGTH, aim)
        if self._fixed is not None:
            return max(on_step(wanted[1], step), step[0] / step[1]), self._fixed.top
        rise = abs(wanted[1])
        steep = rise >= max(TALL * aim.pixel, STEEP * abs(wanted[0]), TALLER * self._height)
        height = on_step(rise, step) if steep else self._height
        top = self._y + height if steep and wanted[1] < 0.0 else self._y
        return height, min(max(top, height), self._project.wall.height)

    def put(self, values: Values) -> Edit:
        """With exactly this length and height, its left end where it is."""
        length = values[0] or LEAST_DRAWN
        height = values[1] or self._height
        self._fixed = self._last
        return Edit(self._drawn(length, height, self._last), (length, height))

    def _drawn(self, length: float, height: float, mount: Mount) -> Project:
        shelf = Shelf(self._name, length, self._depth, height, mount=mount)
        return msgspec.structs.replace(self._project, shelves=(*self._project.shelves, shelf))
