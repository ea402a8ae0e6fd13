"""What a hand can take hold of, and what comes of moving it. No Qt here."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from app.hand.grid import Aim, Catch, on_step, rest
from app.rule.reading import Reading
from core.document.model import Project
from core.document.ranges import Range
from core.language import tr
from core.lengths import Unit

Point = tuple[float, float]
Values = tuple[float, ...]
STRAIGHT: Final = 0.9  # cosine from which a line counts as running with the key's way
Pull = Literal["line", "move", "draw"]  # along one line, any way about, or drawing something new


@dataclass(frozen=True)
class Number:
    """One number under the hand.

    name: what it is for the program; words: what it is called beside the pointer.
    axis: direction on the board along which the hand changes it, of length 1 (y up).
    per: by how much for a millimetre along it. limits: what the document allows.
    """

    name: str
    words: str
    reading: Reading
    value: float
    axis: Point
    per: float = 1.0
    limits: Range | None = None

    def after(self, travel: Point) -> float:
        """The value when the hand has moved by `travel` board millimetres."""
        return self.value + self.per * (self.axis[0] * travel[0] + self.axis[1] * travel[1])

    def show(self, value: float, unit: Unit) -> str:
        """The value exactly, as it stands beside the pointer."""
        return self.reading.show(value, unit)


@dataclass(frozen=True)
class Edit:
    """What a hand does: the project it makes, the values, what caught them and what stopped them, in words."""

    project: Project
    values: Values
    caught: str = ""
    stop: str = ""


class Grip(ABC):
    """Something held: `label` names the undo step, `about` is selected while it is held ('' leaves it)."""

    label: str
    about: str
    pull: Pull = "line"

    @property
    @abstractmethod
    def numbers(self) -> tuple[Number, ...]:
        """The numbers it changes."""

    @property
    def values(self) -> Values:
        """The numbers as they were when it was taken hold of."""
        return tuple(number.value for number in self.numbers)

    def after(self, travel: Point) -> Values:
        """The values the hand asks for when it has moved by `travel` board millimetres."""
        return tuple(number.after(travel) for number in self.numbers)

    @abstractmethod
    def drop(self, wanted: Values, aim: Aim) -> Edit | None:
        """What comes of asking for these values with the pointer: whole fractions and catches. None: nothing yet."""

    @abstractmethod
    def put(self, values: Values) -> Edit:
        """What comes of asking for exactly these values, typed or stepped."""

    def stepped(self, values: Values, way: Point, unit: Unit, fine: bool) -> Values:
        """The values one step further in the direction `way` of the board, as an arrow key asks for."""
        moved = []
        for number, value in zip(self.numbers, values, strict=True):
            along = number.per * (number.axis[0] * way[0] + number.axis[1] * way[1])
            moved.append(_one_step(number, value, along, unit, fine))
        return tuple(moved)


def _one_step(number: Number, value: float, along: float, unit: Unit, fine: bool) -> float:
    """One step up or down, as `along` says; 0 leaves it."""
    if abs(along) < 1e-9:
        return value
    stepped = number.reading.step(value, unit, 1 if along > 0.0 else -1, fine)
    return float(stepped or 0.0)


@dataclass(frozen=True)
class Handle(Grip):
    """A small square that changes one number along a line.

    key: the handle's own name on its board; letter: the key that chooses it; at: where it is on the board [mm].
    change: the project with the number set, made from the project as it was when the handle was taken.
    catches: what holds the value, found only once the handle is dragged.
    line: the value asked for by a travel, where the handle's line is not one of the board but runs through space.
    is_still: the pointer cannot move it, as its line points at the viewer; keys and typing can.
    """

    key: str
    label: str
    about: str
    at: Point
    number: Number
    change: Callable[[float], Project]
    letter: str = ""
    catches: Callable[[], Sequence[Catch]] = tuple
    offset: Point = (0.0, 0.0)  # where the square is painted, in pixels from `at`
    line: Callable[[Point], float] | None = None
    is_still: bool = False

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The one number."""
        return (self.number,)

    def after(self, travel: Point) -> Values:
        """The value the hand asks for when it has moved by `travel`."""
        return super().after(travel) if self.line is None else (self.line(travel),)

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """At the nearest catch or whole fraction, within what the document allows."""
        number = self.number
        value, caught = rest(wanted[0], number.reading, aim, number.per, self.catches())
        stop = ""
        if number.limits is not None and number.limits.complaint(value):
            value, stop = self._limited(value, aim)
            caught = ""
        return Edit(self.change(value), (value,), caught, stop)

    def _limited(self, value: float, aim: Aim) -> tuple[float, str]:
        """The nearest value that is allowed, and the words for it."""
        limits = self.number.limits
        assert limits is not None
        top, bottom = self.number.reading.ratio(aim.unit, aim.fine)
        if value > limits.most:
            return limits.most, tr("at most {most}", most=self.number.show(limits.most, aim.unit))
        least = on_step(limits.least, (top, bottom))
        if limits.above and least <= limits.least:
            least += top / bottom
        return least, tr("at least {least}", least=self.number.show(least, aim.unit))

    def stepped(self, values: Values, way: Point, unit: Unit, fine: bool) -> Values:
        """Along its line as the edge goes; where the line is aslant or square to the key, up and right are more."""
        x, y = self.number.axis
        straight = abs(x * way[0] + y * way[1]) > STRAIGHT
        along = self.number.per * (x * way[0] + y * way[1]) if straight else way[0] + way[1]
        return (_one_step(self.number, values[0], along, unit, fine),)

    def put(self, values: Values) -> Edit:
        """Exactly this."""
        return Edit(self.change(values[0]), values)
