"""The kinds of number the rule reads and shows, and how each is stepped. No Qt here."""

from __future__ import annotations

from abc import ABC, abstractmethod
from math import ceil, floor
from typing import Final

from core.language import decimal, tr
from core.lengths import Unit, parse_length, show_angle, show_exact, show_length, show_thickness

TOL: Final = 1e-9  # float noise only: a value this near to a step is on it


class Reading(ABC):
    """How one kind of number is read, shown and stepped."""

    @abstractmethod
    def read(self, text: str, unit: Unit) -> float | int | None:
        """The value typed. Raises ValueError with one sentence saying what is read."""

    @abstractmethod
    def show(self, value: float | int | None, unit: Unit) -> str:
        """The value as it stands in a field."""

    @abstractmethod
    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        """Size of a step as (numerator, denominator) in the stored unit."""

    def step(self, value: float | int | None, unit: Unit, steps: int, fine: bool = False) -> float | int | None:
        """The value `steps` up (or down): the first lands on a whole step, so that numbers become round."""
        top, bottom = self.ratio(unit, fine)
        at = float(value or 0.0) * bottom / top
        count = floor(at + TOL) + steps if steps > 0 else ceil(at - TOL) + steps
        return count * top / bottom


class Length(Reading):
    """A length; steps are 1/16 in or 1 mm, fine ones 1/64 in or 0.1 mm."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        return parse_length(text, unit)

    def show(self, value: float | int | None, unit: Unit) -> str:
        exact = show_exact(float(value or 0.0), unit)
        short = len(exact) <= 12 and exact.endswith('"' if unit is Unit.INCH else "mm")
        return exact if short else show_length(float(value or 0.0), unit, 64)

    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        if unit is Unit.INCH:
            return (127, 5 * (64 if fine else 16))
        return (1, 10) if fine else (1, 1)


class Thickness(Length):
    """A thickness or kerf, as a caliper shows it; steps are 0.001 in or 0.05 mm."""

    def show(self, value: float | int | None, unit: Unit) -> str:
        return show_thickness(float(value or 0.0), unit)

    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        return (127, 5000) if unit is Unit.INCH else (1, 20)


class OptionalLength(Length):
    """A length that may be left empty; an empty field shows its placeholder."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        return super().read(text, unit) if text.strip() else None

    def show(self, value: float | int | None, unit: Unit) -> str:
        return "" if value is None else super().show(value, unit)


class Angle(Reading):
    """Degrees; steps are 0.1°, fine ones 0.01°."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        plain = text.strip().lower().removesuffix("degrees").removesuffix("deg").removesuffix("°").strip()
        return _decimal(plain, text, tr("an angle: type degrees, like 0.5"))

    def show(self, value: float | int | None, unit: Unit) -> str:
        return show_angle(float(value or 0.0), 2)

    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        return (1, 100) if fine else (1, 10)


class Count(Reading):
    """A whole number."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        if not text.strip().lstrip("+-").isdecimal():
            raise ValueError(f'"{text.strip()}" is not a whole number.')
        return int(text)

    def show(self, value: float | int | None, unit: Unit) -> str:
        return str(int(value or 0))

    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        return (1, 1)

    def step(self, value: float | int | None, unit: Unit, steps: int, fine: bool = False) -> float | int | None:
        return max(0, int(value or 0) + steps)


class Price(Reading):
    """An amount of money, whatever the currency, that may be left empty; steps are 1, fine ones 0.1."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        return _decimal(text.strip(), text, tr("a price: type a number, like 84.50")) if text.strip() else None

    def show(self, value: float | int | None, unit: Unit) -> str:
        return "" if value is None else decimal(f"{value:.12g}")

    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        return (1, 10) if fine else (1, 1)


class Ratio(Reading):
    """A plain number, such as a specific gravity; steps are 0.01, fine ones 0.001."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        return _decimal(text.strip(), text, tr("a number: type it plainly, like 0.42"))

    def show(self, value: float | int | None, unit: Unit) -> str:
        return decimal(f"{float(value or 0.0):.12g}")

    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        return (1, 1000) if fine else (1, 100)


def _decimal(plain: str, typed: str, what: str) -> float:
    try:
        value = float(plain.replace(",", ".").replace("−", "-"))
    except ValueError:
        value = float("nan")
    if not -1e6 < value < 1e6:  # false for nan too
        raise ValueError(f'"{typed.strip()}" is not {what}.')
    return value


LENGTH: Final = Length()
THICKNESS: Final = Thickness()
OPTIONAL_LENGTH: Final = OptionalLength()
ANGLE: Final = Angle()
COUNT: Final = Count()
PRICE: Final = Price()
RATIO: Final = Ratio()
