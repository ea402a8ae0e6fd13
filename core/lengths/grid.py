"""The grid of lengths that can be printed: 1/16, 1/32 or 1/64 in, or 0.1 mm.

A place on the grid is counted in whole steps, and a step is a ratio of two whole numbers of mm (1 in is
127/5 mm), so a grid length made here is the very float that parsing its printed form gives.
"""

from typing import Final, Literal

from core.lengths.unit import Unit

Denominator = Literal[16, 32, 64]
Rounding = Literal["nearest", "down", "up"]

# mm: float noise only, far below anything cut. A limit computed a hair under 1/32 in is still that 1/32 in.
FLOAT_TOL: Final = 1e-9


def step_ratio(unit: Unit, fraction: Denominator) -> tuple[int, int]:
    """Size of one printable step as (numerator, denominator). [mm]"""
    return (127, 5 * fraction) if unit is Unit.INCH else (1, 10)


def steps_down(mm: float, ratio: tuple[int, int]) -> int:
    """Number of whole steps at or below `mm`, towards minus infinity; FLOAT_TOL above counts as at.

    ratio: see `step_ratio`.
    Raises ValueError or OverflowError if mm is not finite.
    """
    top, bottom = ratio
    steps = round(mm * bottom / top)
    return steps if steps * top / bottom <= mm + FLOAT_TOL else steps - 1


def snap_down(mm: float, unit: Unit, fraction: Denominator = 32) -> float:
    """The largest printable length that is at most `mm` (within FLOAT_TOL); use it for limits. [mm]

    fraction: finest fraction of an inch; millimetres always print to 0.1.
    Raises ValueError or OverflowError if mm is not finite.
    """
    top, bottom = step_ratio(unit, fraction)
    return steps_down(mm, (top, bottom)) * top / bottom


def snap_up(mm: float, unit: Unit, fraction: Denominator = 32) -> float:
    """The smallest printable length that is at least `mm` (within FLOAT_TOL); use it for needs. [mm]

    fraction: finest fraction of an inch; millimetres always print to 0.1.
    Raises ValueError or OverflowError if mm is not finite.
    """
    top, bottom = step_ratio(unit, fraction)
    return -steps_down(-mm, (top, bottom)) * top / bottom
