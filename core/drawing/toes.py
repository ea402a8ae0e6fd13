"""The ordinates of a sheet: every panel's show-face edges from the trued edge and the trued end.

The trued edge is the upper one, where the tops' backs lie; the trued end is the left one.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, Literal

from core.drawing.model import Ordinates
from core.drawing.triangle import show_box
from core.lengths import Unit, show_length
from core.plan.model import Panel, StockSheet

SAME: Final = 0.02  # mm: edges this close are one mark; no pencil line is finer
MANY_X: Final = 28  # as many numbers as stand along a sheet without running far past it
MANY_Y: Final = 18

Axis = Literal["x", "y"]


def sheet_ordinates(sheet: StockSheet, panels: Iterable[Panel], unit: Unit) -> tuple[Ordinates, ...]:
    """Ordinates round a sheet, all from the trued end (along x) and the trued edge (along y).

    Along x they stand below, along y at the left. Where there are too many for that (`MANY_X`, `MANY_Y`), those
    of panels in the upper half stand above, those of panels in the right half at the right, unless the low side
    has the place already.
    """
    end, edge = sheet.source.trim, upper_edge(sheet)
    boxes = [show_box(panel) for panel in panels]
    xs = [(x, y0 + y1 > sheet.width) for x0, y0, x1, y1 in boxes for x in (x0, x1)]
    ys = [(y, x0 + x1 > sheet.length) for x0, y0, x1, y1 in boxes for y in (y0, y1)]
    if len(_distinct([x for x, _ in xs], ())) <= MANY_X:
        xs = [(x, False) for x, _ in xs]
    if len(_distinct([y for y, _ in ys], ())) <= MANY_Y:
        ys = [(y, False) for y, _ in ys]
    axes: tuple[tuple[Axis, float, float, list[tuple[float, bool]]], ...] = (
        ("x", sheet.width, end, xs),
        ("y", sheet.length, edge, ys),
    )
    found: list[Ordinates] = []
    for axis, far, datum, places in axes:
        low = _distinct([datum, *(place for place, beyond in places if not beyond)], ())
        high = _distinct([place for place, beyond in places if beyond], low)
        found.append(Ordinates("dimension", axis, 0.0, "low", _marks(low, datum, unit)))
        if high:
            found.append(Ordinates("dimension", axis, far, "high", _marks(high, datum, unit)))
    return tuple(found)


def _distinct(places: Iterable[float], known: Iterable[float]) -> list[float]:
    """The places in order, without those that are close to one before them or to a known one."""
    taken = list(known)
    kept: list[float] = []
    for place in sorted(places):
        if (kept and place - kept[-1] < SAME) or any(abs(place - other) < SAME for other in taken):
            continue
        kept.append(place)
    return kept


def upper_edge(sheet: StockSheet) -> float:
    """Where the trued edge of a sheet lies, from which rips are measured. [mm]"""
    return sheet.width - sheet.source.trim


def _marks(places: Iterable[float], datum: float, unit: Unit) -> tuple[tuple[float, str], ...]:
    return tuple((place, show_length(abs(place - datum), unit)) for place in places)
