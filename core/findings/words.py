"""Numbers as the project shows them."""

from __future__ import annotations

from math import ceil
from typing import Final

from core.document.model import Project
from core.lengths import Unit, show_length, show_thickness, snap_down, snap_up
from core.plan.shapes import Shape

UNITS: Final = {unit.value: unit for unit in Unit}  # quicker than calling `Unit`


def spoken(shape: Shape) -> str:
    """What a shelf, or a panel that is cut apart from it, is called in a sentence."""
    return shape.name.replace("/", ", ")


def length(project: Project, mm: float) -> str:
    """A length in the project's unit."""
    return show_length(mm, UNITS[project.units])


def thickness(project: Project, mm: float) -> str:
    """A sheet's thickness, finer than other lengths."""
    return show_thickness(mm, UNITS[project.units])


def need(project: Project, mm: float) -> str:
    """A length that must not be less: rounded up."""
    return show_length(mm, UNITS[project.units], rounding="up")


def limit(project: Project, mm: float) -> str:
    """A length that must not be more: rounded down."""
    return show_length(mm, UNITS[project.units], rounding="down")


def floor(project: Project, mm: float) -> float:
    """The next size a maker would choose at or below a limit: whole 1/16 in or whole mm."""
    if project.units == "mm":
        return float(int(mm + 1e-9))
    return snap_down(mm, Unit.INCH, 16)


def ceiling(project: Project, mm: float) -> float:
    """The next size a maker would choose at or above a need: whole 1/16 in or whole mm."""
    if project.units == "mm":
        return float(-int(-(mm - 1e-9) // 1))
    return snap_up(mm, Unit.INCH, 16)


def sizes_below(project: Project, mm: float, least: float) -> list[float]:
    """The sizes a maker would choose from `least` up to less than `mm`, ascending: whole 1/16 in or whole mm."""
    top, bottom = (127, 80) if project.units == "in" else (1, 1)  # a step in mm
    first, last = ceil(least * bottom / top - 1e-9), ceil(mm * bottom / top - 1e-9)
    return [n * top / bottom for n in range(first, last)]


def floor_angle(angle: float) -> float:
    """The next hundredth of a degree at or below. [deg]"""
    return int((angle + 1e-9) * 100.0 // 1) / 100.0


def ceiling_angle(angle: float) -> float:
    """The next hundredth of a degree at or above. [deg]"""
    return -int(-(angle - 1e-9) * 100.0 // 1) / 100.0
