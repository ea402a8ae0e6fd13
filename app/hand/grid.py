"""Whole fractions and catches: where a value that is dragged comes to rest. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from app.rule.reading import ANGLE, LENGTH, THICKNESS, Reading
from core.lengths import Unit

REACH: Final = 5.0  # pixels: how near a catch must be
LIGHT: Final = 2.5  # of a catch that must not be in the way

# Multiples of a reading's own step, finest first: zoomed out, a pixel is wider than 1/16 in.
_INCHES: Final = (1, 2, 4, 8, 16)
_TENS: Final = (1, 2, 5, 10, 20)
_LADDERS: Final[dict[tuple[Reading, Unit], tuple[int, ...]]] = {
    (LENGTH, Unit.INCH): _INCHES,
    (LENGTH, Unit.MM): _TENS,
    (THICKNESS, Unit.INCH): _TENS,
    (THICKNESS, Unit.MM): _TENS,
    (ANGLE, Unit.INCH): _TENS,
    (ANGLE, Unit.MM): _TENS,
}


@dataclass(frozen=True)
class Catch:
    """A value that holds what comes within `reach` pixels, and what it is: `as long as A`, `stud`."""

    value: float
    words: str
    reach: float = REACH


@dataclass(frozen=True)
class Aim:
    """How exactly the hand aims. pixel: board millimetres in a pixel; fine: slowly, and past all catches."""

    pixel: float
    unit: Unit
    fine: bool = False


def step_size(reading: Reading, aim: Aim, per: float = 1.0) -> tuple[int, int]:
    """The step a value rests on, as (numerator, denominator): the finest whole fraction that a pixel can tell apart.

    per: change of the value for a millimetre of the board.
    """
    top, bottom = reading.ratio(aim.unit, aim.fine)
    if aim.fine:
        return top, bottom
    ladder = _LADDERS.get((reading, aim.unit), (1,))
    pixel = abs(per) * aim.pixel
    times = next((n for n in ladder if n * top / bottom >= pixel), ladder[-1])
    return times * top, bottom


def on_step(value: float, step: tuple[int, int]) -> float:
    """The nearest whole step: the very float that typing it gives."""
    top, bottom = step
    return round(value * bottom / top) * top / bottom


def nearest(value: float, catches: Iterable[Catch], pixel: float) -> Catch | None:
    """The catch that holds a value best, None where all are out of reach. pixel: change of the value for a pixel."""
    near = ((abs(catch.value - value) / catch.reach, catch) for catch in catches)
    found = min(near, key=lambda pair: pair[0], default=None)
    return found[1] if found is not None and found[0] <= pixel else None


def rest(
    value: float, reading: Reading, aim: Aim, per: float = 1.0, catches: Iterable[Catch] = ()
) -> tuple[float, str]:
    """Where a value comes to rest, and the words of what caught it ('' for a whole fraction)."""
    caught = None if aim.fine else nearest(value, catches, abs(per) * aim.pixel)
    if caught is not None:
        return caught.value, caught.words
    return on_step(value, step_size(reading, aim, per)), ""
