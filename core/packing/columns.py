"""Column generation: the relaxation over all patterns, without ever listing them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from core.packing.clock import Clock
from core.packing.cover import EPS, Floats, Pricer
from core.packing.lp import Master


class Bounded(NamedTuple):
    """What column generation came to.

    cost: of the relaxation over the patterns found, None where none was solved. bound: no choice costs less.
    prices, need: prices of the parts and what a pattern of each stock is worth at most under them.
    """

    cost: float | None
    times: Floats
    bound: float
    prices: Floats
    need: Floats


def generate(
    master: Master,
    pricer: Pricer,
    demand: Sequence[int],
    limits: Sequence[int | None],
    clock: Clock,
    goal: float | None = None,
) -> Bounded:
    """Add patterns to the master until none helps.

    goal: stop as soon as the relaxation costs no more, or is known to cost more.
    """
    costs = np.array(master.cover.costs, dtype=np.float64)
    open_stock = [limit is None or limit > 0 for limit in limits]
    result = Bounded(None, np.zeros(0), 0.0, np.zeros(len(demand)), costs)
    while True:
        relaxed = master.solve()
        if relaxed is None:
            return result
        result = result._replace(cost=relaxed.cost, times=relaxed.times)
        if goal is not None and relaxed.cost <= goal + EPS:
            return result
        priced = pricer.best(relaxed.prices, costs - relaxed.charges, demand, open_stock)
        if priced.tops is not None:
            result = _better(result, relaxed.prices, priced.tops, costs, demand, limits)
            if goal is not None and result.bound > goal + EPS:
                return result
        added = [master.add(pattern) for pattern in priced.patterns]
        if not any(added) or clock.over():
            return result


def _better(
    result: Bounded,
    prices: Floats,
    tops: Floats,
    costs: Floats,
    demand: Sequence[int],
    limits: Sequence[int | None],
) -> Bounded:
    """The bound these prices prove, if it is the best so far.

    Weak duality: prices scaled until no pattern of an unlimited stock is worth more than it costs; a limited stock
    is charged the difference, once for each bar there is. Source: Farley, Oper. Res. 38 (1990).
    """
    scale = 1.0
    for top, cost, limit in zip(tops, costs, limits, strict=True):
        if limit is None and top > cost:
            scale = max(scale, top / cost if cost > 0 else np.inf)
    bound = float(prices @ np.array(demand, dtype=np.float64)) / scale
    need = costs.copy()
    for stock, limit in enumerate(limits):
        if limit is not None and tops[stock] / scale > costs[stock]:
            need[stock] = tops[stock] / scale
            bound -= limit * (need[stock] - costs[stock])
    if bound <= result.bound:
        return result
    return result._replace(bound=bound, prices=prices / scale, need=need)
