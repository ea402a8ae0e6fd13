"""A dowel in shear between two members with a gap: the general yield equations. Units: N, mm, MPa.

With no gap they are the yield limit equations of both the imperial and the European rules. Wall board between rail and
stud is such a gap: to leave it out would count more than half as much again as there is.
"""

from __future__ import annotations

from math import sqrt

import msgspec


class Dowel(msgspec.Struct, frozen=True):
    """side, main: what the wood of each member bears for each mm of depth [N/mm]; moment: of the dowel [N mm]."""

    side: float
    main: float
    moment: float


def yield_loads(dowel: Dowel, side: float, main: float, gap: float) -> dict[str, float]:
    """The load at which each mode yields, by the mode's name. [N]

    side, main: how deep the dowel stands in each member; gap between them. [mm]
    """
    qs, qm, bend = dowel.side, dowel.main, dowel.moment
    quarter_s, quarter_m = qs * side * side / 4.0, qm * main * main / 4.0
    middle = gap + (side + main) / 2.0
    return {
        "Im": qm * main,
        "Is": qs * side,
        "II": _root(0.25 / qs + 0.25 / qm, middle, quarter_s + quarter_m),
        "IIIm": _root(0.5 / qs + 0.25 / qm, gap + main / 2.0, bend + quarter_m),
        "IIIs": _root(0.25 / qs + 0.5 / qm, gap + side / 2.0, bend + quarter_s),
        "IV": _root(0.5 / qs + 0.5 / qm, gap, 2.0 * bend),
    }


def _root(a: float, b: float, c: float) -> float:
    """The positive root of a P^2 + b P - c = 0."""
    return (sqrt(b * b + 4.0 * a * c) - b) / (2.0 * a)
