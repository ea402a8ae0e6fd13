"""Writing lengths, angles and masses for people.

Inches are a whole number, a hyphen and a reduced fraction (`10-3/16"`): one way on screen and on paper, and
one that cannot be read as two numbers. What is printed is the nearest 1/16, 1/32 or 1/64; where the true
length lies nearer to the halfway mark than to the printed one, a ` +` or ` −` after it says which way.
At 1/32 that is the 64th more or less a maker works to. Millimetres are to 0.1, whole ones without a point.

Limits and needs are rounded the safe way with `rounding="down"` and `"up"` (towards minus and plus infinity);
these carry no + or −, since what is printed is itself the number to keep to.
"""

from decimal import Decimal
from math import gcd
from typing import Final

from core.language import POINT, decimal
from core.lengths.grid import Denominator, Rounding, step_ratio, steps_down
from core.lengths.unit import INCH_MM, POUND_KG, Unit

# Beyond this the steps of a float are wider than what is printed.
MAX_SHOWN_MM: Final = 1e15

_MM: Final = Unit.MM  # looking a member up costs more than the rest of the choice

# Each step is split in 1024, so that float noise cannot move a length across a halfway or a quarter mark.
# At 1/32 in one part is 0.8 µm.
_PARTS: Final = 1024
_PARTS_PER_MM: Final = {f: _PARTS * f / INCH_MM for f in (16, 32, 64)}


def _fraction_text(top: int, bottom: int) -> str:
    common = gcd(top, bottom)
    return f"{top // common}/{bottom // common}" if top else ""


_FRACTIONS: Final = {f: tuple(_fraction_text(top, f) for top in range(f)) for f in (16, 32, 64)}


def show_length(
    mm: float,
    unit: Unit,
    fraction: Denominator = 32,
    *,
    marks: bool = True,
    unit_mark: bool = True,
    rounding: Rounding = "nearest",
) -> str:
    """A length as text: `10-3/16"`, `10-3/16" +`, `-3/4"`, `258.8 mm`, `1200 mm`; zero is `0"` or `0 mm`.

    mm: any sign. [mm]
    fraction: finest fraction of an inch. A length halfway between two takes the simpler fraction.
    marks: add ` +` (true length larger than printed) or ` −` (smaller) from 1/4 of a fraction off.
    unit_mark: False where a heading names the unit.
    rounding: "down" for limits, "up" for needs; see the module.
    Raises ValueError if mm is not finite or beyond 1e15.
    """
    if unit is _MM:
        text = _decimal(_tenths(mm, rounding), 1)
        return text + " mm" if unit_mark else text
    steps, mark = _inch_steps(mm, fraction, rounding)
    text = _inches(steps, fraction) if steps >= 0 else "-" + _inches(-steps, fraction)
    if unit_mark:
        text += '"'
    return text + mark if marks else text


def show_both(mm: float, unit: Unit = Unit.INCH, fraction: Denominator = 32) -> str:
    """A length in both units, the one shown first: `10-3/16" (258.8 mm)`. Raises like `show_length`."""
    other = Unit.MM if unit is Unit.INCH else Unit.INCH
    return f"{show_length(mm, unit, fraction)} ({show_length(mm, other, fraction)})"


def show_feet(mm: float, fraction: Denominator = 32, *, marks: bool = True, rounding: Rounding = "nearest") -> str:
    """A length in feet and inches, for walls only: `6' 3-1/2"`, `6'`, `3-1/2"`.

    Arguments and errors like `show_length`.
    """
    steps, mark = _inch_steps(mm, fraction, rounding)
    feet, rest = divmod(abs(steps), 12 * fraction)
    words = [f"{feet}'"] if feet else []
    if rest or not feet:
        words.append(_inches(rest, fraction) + '"')
    return ("-" if steps < 0 else "") + " ".join(words) + (mark if marks else "")


def show_exact(mm: float, unit: Unit) -> str:
    """Text for an entry field: parsing it gives exactly `mm` again, so what was typed comes back.

    The first that is exact of: a short number in the unit shown (inch fractions to 1/64, decimals to
    0.0001 in; 0.001 mm), a short number in the other unit, all the digits in mm.
    mm: 0, or between 1e-9 and 1e6, any sign. [mm]
    """
    ways = [_exact_fraction(mm), _exact_decimal(mm, (127, 50_000), 4, '"')]
    metric = _exact_decimal(mm, (1, 1000), 3, " mm")
    ways = [*ways, metric] if unit is Unit.INCH else [metric, *ways]
    return next((text for text in ways if text), decimal(f"{Decimal(repr(float(mm))):f} mm"))


def show_thickness(mm: float, unit: Unit) -> str:
    """A sheet's thickness or a kerf, as fine as a caliper shows it: `0.703"` or, to 0.05, `18.2 mm`.

    Raises like `show_length`.
    """
    _check(mm)
    if unit is Unit.INCH:
        return decimal(f"{round(mm * 1000 / INCH_MM) / 1000:.3f}") + '"'
    return _decimal(round(mm * 20) * 5, 2) + " mm"


def show_angle(deg: float, decimals: int = 1) -> str:
    """An angle, by default to the 0.1° a tilt gauge shows: `45.5°`, `45°`. Raises like `show_length`."""
    _check(deg)
    return _decimal(round(deg * 10**decimals), decimals) + "°"


def show_mass(kg: float, unit: Unit) -> str:
    """A mass to 0.1: `5.4 kg`, or `12 lb` where inches are shown. Raises like `show_length`."""
    _check(kg)
    if unit is Unit.INCH:
        return _decimal(round(kg * 10 / POUND_KG), 1) + " lb"
    return _decimal(round(kg * 10), 1) + " kg"


def _check(value: float) -> None:
    if not -MAX_SHOWN_MM < value < MAX_SHOWN_MM:  # false for nan too
        raise ValueError(f"{value} cannot be shown: it is not finite or beyond 1e15")


def _inch_steps(mm: float, fraction: Denominator, rounding: Rounding) -> tuple[int, str]:
    """The printed length in steps of 1/fraction in, with its sign, and the mark that belongs after it."""
    _check(mm)
    if rounding != "nearest":
        return _steps_one_way(mm, step_ratio(Unit.INCH, fraction), rounding), ""
    steps, rest = divmod(int(abs(mm) * _PARTS_PER_MM[fraction] + 0.5), _PARTS)
    up = rest > _PARTS // 2 or (rest == _PARTS // 2 and steps & 1)  # a tie goes to the even, simpler fraction
    mark = ""
    if _PARTS // 4 <= rest <= _PARTS * 3 // 4:
        mark = " −" if up != (mm < 0) else " +"
    if up:
        steps += 1
    return (-steps if mm < 0 else steps), mark


def _tenths(mm: float, rounding: Rounding) -> int:
    _check(mm)
    if rounding != "nearest":
        return _steps_one_way(mm, (1, 10), rounding)
    return -int(0.5 - mm * 10) if mm < 0 else int(mm * 10 + 0.5)  # halves away from zero, as by hand


def _steps_one_way(mm: float, ratio: tuple[int, int], rounding: Rounding) -> int:
    return steps_down(mm, ratio) if rounding == "down" else -steps_down(-mm, ratio)


def _inches(steps: int, fraction: Denominator) -> str:
    """Whole and reduced fraction of steps >= 0: '10-3/16', '3/16', '0'."""
    whole, top = divmod(steps, fraction)
    if not top:
        return str(whole)
    return f"{whole}-{_FRACTIONS[fraction][top]}" if whole else _FRACTIONS[fraction][top]


def _decimal(count: int, places: int) -> str:
    """count / 10**places with its sign and without idle zeros."""
    whole, rest = divmod(abs(count), 10**places)
    sign = "-" if count < 0 else ""
    return f"{sign}{whole}{POINT}{rest:0{places}}".rstrip("0") if rest else f"{sign}{whole}"


def _exact_fraction(mm: float) -> str:
    steps = round(mm * 320 / 127)
    return show_length(mm, Unit.INCH, 64) if steps * 127 / 320 == mm else ""


def _exact_decimal(mm: float, ratio: tuple[int, int], places: int, unit_mark: str) -> str:
    """`mm` in steps of ratio mm, as a decimal with `places`; empty unless that is exactly `mm`."""
    top, bottom = ratio
    steps = round(mm * bottom / top)
    return _decimal(steps, places) + unit_mark if steps * top / bottom == mm else ""
