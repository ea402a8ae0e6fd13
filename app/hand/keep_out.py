"""Keep-outs on the wall under the hand: moved about, and pulled by their edges. No Qt here."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Literal

import msgspec

from app.hand.grid import LIGHT, Aim, Catch, rest
from app.hand.grip import Edit, Grip, Handle, Number, Point, Values
from app.rule.reading import LENGTH
from core.document.model import KeepOut, Project
from core.document.ranges import RANGES, Range
from core.frame.studs import stud_lines
from core.language import tr

OUTSIDE: Final = 11.0  # pixels from an edge to its handle: the middle stays free to take it by
NEAR: Final = OUTSIDE + 12.0  # pixels beside a keep-out in which it shows its handles
Edge = Literal["left", "right", "low", "high"]
EDGES: Final[tuple[Edge, ...]] = ("right", "left", "high", "low")


def with_keep_out(project: Project, at: int, area: KeepOut) -> Project:
    """The project with one keep-out replaced."""
    areas = project.wall.keep_outs
    wall = msgspec.structs.replace(project.wall, keep_outs=(*areas[:at], area, *areas[at + 1 :]))
    return msgspec.structs.replace(project, wall=wall)


def keep_out_at(project: Project, place: Point, reach: float, only: int | None = None) -> int:
    """The keep-out at a place of the wall, the smallest of several, -1 for none.

    reach: mm beside it that still count; only: no other than this one is meant.
    """
    found = [
        (area.width * area.height, at)
        for at, area in enumerate(project.wall.keep_outs)
        if only in (None, at)
        and area.x - reach <= place[0] <= area.x + area.width + reach
        and area.y - reach <= place[1] <= area.y + area.height + reach
    ]
    return min(found)[1] if found else -1


class KeepOutMoved(Grip):
    """A socket, switch, pipe or tile edge moved about on the wall."""

    pull = "move"
    about = ""

    def __init__(self, project: Project, at: int) -> None:
        self._project, self._at = project, at
        self._area = area = project.wall.keep_outs[at]
        self.label = tr("Place of the {kind}", kind=area.kind)
        limits = RANGES[KeepOut]
        self._numbers = (
            Number("x", tr("from the left"), LENGTH, area.x, (1.0, 0.0), 1.0, limits["x"]),
            Number("y", tr("from the floor"), LENGTH, area.y, (0.0, 1.0), 1.0, limits["y"]),
        )

    @property
    def numbers(self) -> tuple[Number, ...]:
        """Its left and its lower side."""
        return self._numbers

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """At the nearest catch or whole fraction, kept on the wall."""
        area, wall = self._area, self._project.wall
        others = [one for at, one in enumerate(wall.keep_outs) if at != self._at]
        middle = area.width / 2.0
        across = [Catch(x - middle, tr("centred on a stud"), LIGHT) for x in stud_lines(wall, 0.0, wall.width)]
        across += [Catch(one.x, tr("in line with the {kind}", kind=one.kind), LIGHT) for one in others]
        level = [Catch(one.y, tr("level with the {kind}", kind=one.kind), LIGHT) for one in others]
        x, along = rest(wanted[0], LENGTH, aim, 1.0, across)
        y, up = rest(wanted[1], LENGTH, aim, 1.0, level)
        x = min(max(x, 0.0), max(0.0, wall.width - area.width))
        y = min(max(y, 0.0), max(0.0, wall.height - area.height))
        return Edit(self._placed(x, y), (x, y), ", ".join(words for words in (along, up) if words))

    def put(self, values: Values) -> Edit:
        """Exactly there."""
        return Edit(self._placed(*values), values)

    def _placed(self, x: float, y: float) -> Project:
        return with_keep_out(self._project, self._at, msgspec.structs.replace(self._area, x=x, y=y))


def keep_out_handles(project: Project, at: int) -> tuple[Handle, ...]:
    """A handle beside each edge of a keep-out: that edge is pulled, the opposite one stays; none for no such one."""
    if not 0 <= at < len(project.wall.keep_outs):
        return ()
    return tuple(_edge_handle(project, at, edge) for edge in EDGES)


def held_keep_out(key: str) -> int:
    """Which keep-out a handle belongs to, by the handle's key; -1 for another's."""
    name, _, rest_of_it = key.partition(" ")
    number = rest_of_it.partition(" ")[0]
    return int(number) if name == "hidden" and number.isdigit() else -1


def _edge_handle(project: Project, at: int, edge: Edge) -> Handle:
    area, wall = project.wall.keep_outs[at], project.wall
    middle = (area.x + area.width / 2.0, area.y + area.height / 2.0)
    if edge in ("left", "right"):
        grows = 1.0 if edge == "right" else -1.0
        place = (area.x + area.width if grows > 0.0 else area.x, middle[1])
        room = wall.width - area.x if grows > 0.0 else area.x + area.width
        number = Number("width", tr("width"), LENGTH, area.width, (grows, 0.0), 1.0, _within("width", room))
        return _handle(project, at, edge, place, number, (grows * OUTSIDE, 0.0))
    grows = 1.0 if edge == "high" else -1.0
    place = (middle[0], area.y + area.height if grows > 0.0 else area.y)
    room = wall.height - area.y if grows > 0.0 else area.y + area.height
    number = Number("height", tr("height"), LENGTH, area.height, (0.0, grows), 1.0, _within("height", room))
    return _handle(project, at, edge, place, number, (0.0, -grows * OUTSIDE))


def _within(name: str, room: float) -> Range:
    """What a size may be: no more than the wall has room for, where it lies on the wall."""
    limits = RANGES[KeepOut][name]
    return limits._replace(most=min(limits.most, room)) if room > 1.0 else limits


def _handle(project: Project, at: int, edge: Edge, place: Point, number: Number, offset: Point) -> Handle:
    area = project.wall.keep_outs[at]
    label = tr("Size of the {kind}", kind=area.kind)
    return Handle(f"hidden {at} {edge}", label, "", place, number, _change(project, at, edge), offset=offset)


def _change(project: Project, at: int, edge: Edge) -> Callable[[float], Project]:
    area = project.wall.keep_outs[at]

    def change(value: float) -> Project:
        if edge == "right":
            new = msgspec.structs.replace(area, width=value)
        elif edge == "left":
            new = msgspec.structs.replace(area, x=area.x + area.width - value, width=value)
        elif edge == "high":
            new = msgspec.structs.replace(area, height=value)
        else:
            new = msgspec.structs.replace(area, y=area.y + area.height - value, height=value)
        return with_keep_out(project, at, new)

    return change
