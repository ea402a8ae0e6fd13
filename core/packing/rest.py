"""The longest single rest of bars, at no more than the least cost."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from core.packing.clock import Clock
from core.packing.cover import Cover, Pattern
from core.packing.knapsack import maximal
from core.packing.least import Least
from core.packing.lp import solve_whole

LISTED = 8_000  # full patterns that HiGHS is given at most
LIST_SECONDS = 1.0


class Rested(NamedTuple):
    """Patterns, the longest rest any of them leaves, and the longest thinkable. [steps, kerf included]"""

    patterns: list[Pattern]
    rest: int
    bound: float


def longest_rest(cover: Cover, best: Least, step: float, clock: Clock) -> Rested:
    """Patterns no dearer than `best` with the longest single rest. `step` is the length of a step in mm."""
    rest = max((cover.waste(p) for p in best.patterns), default=0)
    contents = last_contents(cover, best.cost)
    thinkable = max((room - least for room, least in zip(cover.rooms, contents, strict=True)), default=0)
    result = Rested(best.patterns, rest, max(rest, thinkable))
    if result.rest >= result.bound or clock.over():
        return result
    full = maximal(cover.sizes, cover.demand, cover.rooms, LISTED, clock.part(LIST_SECONDS))
    found = _choose(cover, best.cost, full or best.pool, step, clock)
    if full and found.bound < result.bound:
        result = result._replace(bound=max(result.rest, found.bound))
    if found.rest > result.rest and not any(cover.missing(found.patterns)):
        result = Rested(found.patterns, found.rest, max(result.bound, found.rest))
    return result


def last_contents(cover: Cover, cost: int) -> list[int]:
    """For each stock: the least one of it must hold, whatever else the cost buys holding the rest.

    The whole room where the stock cannot be had.
    """
    content = sum(size * n for size, n in zip(cover.sizes, cover.demand, strict=True))
    result = []
    for stock, room in enumerate(cover.rooms):
        if cover.limits[stock] == 0 or cover.costs[stock] > cost:
            result.append(room)
        else:
            others = _room(cover, cost - cover.costs[stock], stock)
            result.append(min(room, max(0, content - others, min(cover.sizes, default=0))))
    return result


def _room(cover: Cover, budget: int, taken: int) -> int:
    """The most room the budget buys beside one of stock `taken`, the last of it perhaps in part."""
    total = 0
    for stock in sorted(range(len(cover.rooms)), key=lambda s: cover.costs[s] / max(1, cover.rooms[s])):
        limit, cost, room = cover.limits[stock], cover.costs[stock], cover.rooms[stock]
        if limit is not None:
            limit -= stock == taken
        if not cost:
            total += room * (sum(cover.demand) if limit is None else limit)
            continue
        count = budget // cost if limit is None else min(limit, budget // cost)
        total += room * count
        budget -= count * cost
        if count != limit:
            total += room * budget // cost
            break
    return total


def _choose(cover: Cover, cost: int, patterns: Sequence[Pattern], step: float, clock: Clock) -> Rested:
    """Full bars from `patterns` and one last bar with anything in it.

    Columns: each pattern's times, each part's times in the last bar, whether the last bar is of each stock.
    Rows: each part, each stock, the cost, one last bar, its room.
    """
    lengths, bars = cover.sizes, cover.rooms
    parts, kinds = len(cover.demand), len(bars)
    budget, last, room = parts + kinds, parts + kinds + 1, parts + kinds + 2
    columns: list[tuple[list[int], list[float]]] = []
    for stock, counts in patterns:
        times = [float(n) for _, n in counts]
        columns.append(
            ([*(part for part, _ in counts), parts + stock, budget], [*times, 1.0, float(cover.costs[stock])])
        )
    columns += [([part, room], [1.0, length * step]) for part, length in enumerate(lengths)]
    for stock, bar in enumerate(bars):
        columns.append(([parts + stock, budget, last, room], [1.0, float(cover.costs[stock]), 1.0, -bar * step]))
    values = [*[0.0] * len(patterns), *(length * step for length in lengths), *(-bar * step for bar in bars)]
    pieces = float(sum(cover.demand))
    most = [*[pieces] * len(patterns), *map(float, cover.demand), *[1.0] * kinds]
    low = [*map(float, cover.demand), *[-np.inf] * kinds, 0.0, 1.0, -np.inf]
    high = [*[np.inf] * parts, *(np.inf if q is None else float(q) for q in cover.limits), float(cost), 1.0, 0.0]
    outcome = solve_whole(columns, values, most, low, high, clock)
    bound = -outcome.bound / step if np.isfinite(outcome.bound) else np.inf
    if outcome.values is None:
        return Rested([], 0, bound)
    whole = [round(value) for value in outcome.values]
    at = len(patterns)
    chosen = [p for p, n in zip(patterns, whole, strict=False) for _ in range(n)]
    counts = tuple((part, n) for part, n in enumerate(whole[at : at + parts]) if n)
    stock = max(range(kinds), key=lambda s: whole[at + parts + s])
    chosen = cover.trimmed([*chosen, Pattern(stock, counts)])
    if any(cover.waste(p) < 0 for p in chosen):
        return Rested([], 0, bound)
    rest = max((cover.waste(p) for p in chosen), default=0)
    return Rested(chosen, rest, bound)
