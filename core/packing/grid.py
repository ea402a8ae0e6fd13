"""Lengths as whole numbers, so that sums of them compare exactly."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, gcd

STEP = 1e-8  # mm: finer than any length is known; a thousand parts err by less than the layout's own tolerance


def whole(parts: Sequence[float], rooms: Sequence[float], kerf: float) -> tuple[list[int], list[int], float]:
    """Parts and rooms, each a kerf longer, in whole steps; and the length of a step. [mm]

    Adding the kerf to both makes it exact: n parts in a row need their lengths and n − 1 kerfs. Parts are rounded
    down and rooms up, so that parts which fit a room exactly still do after rounding.
    """
    small = [max(1, _steps(part + kerf, 0.01)) for part in parts]
    large = [max(0, _steps(room + kerf, 0.99)) for room in rooms]
    step = gcd(*small, *large) or 1
    return [part // step for part in small], [room // step for room in large], step * STEP


def _steps(length: float, up: float) -> int:
    return floor(length / STEP + up)


def whole_costs(costs: Sequence[float]) -> tuple[list[int], float]:
    """Costs in whole steps of at most 1/10,000, and the step."""
    steps = [round(cost * 10_000) for cost in costs]
    step = gcd(*steps) or 1
    return [cost // step for cost in steps], step / 10_000
