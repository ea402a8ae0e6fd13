"""The cheapest choice of patterns: relaxation, dives, then every pattern that can still matter."""

from __future__ import annotations

import random
from collections.abc import Sequence

import msgspec

from core.packing.clock import Clock
from core.packing.columns import Bounded, generate
from core.packing.cover import Costs, Cover, Pattern, Pricer
from core.packing.diving import Mender, dive
from core.packing.lp import Master, choose

# dives, then the most patterns HiGHS is given to choose from and for how long [s]; over 12,000 it seldom masters
ROUNDS = ((8, 1_500, 1e9), (40, 12_000, 3.0), (1_000_000, 12_000, 1e9))
FEW_SECONDS = 1.0  # for a choice among the patterns met
SLACK = 1e-7  # of a pattern's worth: rounding in the prices


class Least(msgspec.Struct):
    """The best choice so far. bound: no choice costs less."""

    patterns: list[Pattern]
    cost: int
    bound: int
    pool: list[Pattern]  # every pattern met on the way

    @property
    def proven(self) -> bool:
        """Is nothing cheaper possible?"""
        return self.bound >= self.cost


class _Search:
    def __init__(self, cover: Cover, pricer: Pricer, best: Least, clock: Clock) -> None:
        self.cover, self.pricer, self.best, self.clock = cover, pricer, best, clock
        self.costs = Costs(cover, min(best.cost, min(cover.penalties, default=1) - 1))
        self.chance = random.Random(1)
        self.mend = Mender(cover, pricer, self.chance, clock)
        self.master = Master(cover)
        for pattern in best.patterns:
            self.master.add(pattern)

    def take(self, patterns: Sequence[Pattern] | None) -> bool:
        """Keep a choice that is cheaper."""
        if patterns is None:
            return False
        patterns = self.cover.trimmed(patterns)
        cost = self.cover.cost(patterns)
        if cost >= self.best.cost:
            return False
        self.best.patterns, self.best.cost = patterns, cost
        return True

    def raise_bound(self, bound: int) -> None:
        self.best.bound = min(max(self.best.bound, bound), self.best.cost)

    def goal(self) -> int:
        """The cost aimed at: the bound while it has not been refuted, so that one success ends the search."""
        return max(self.best.bound, self.costs.at_least(self.best.bound))

    def run(self) -> None:
        root = generate(self.master, self.pricer, self.cover.demand, self.cover.limits, self.clock)
        self.raise_bound(self.costs.at_least(root.bound))
        for dives, most, seconds in ROUNDS:
            if self._done(root):
                break
            self._dives(root, dives)
            if not self._done(root):
                self._list(root, most, self.clock.part(seconds))
        self.best.pool = self.master.patterns

    def _done(self, root: Bounded) -> bool:
        return self.best.proven or root.cost is None or self.clock.over()

    def _dives(self, root: Bounded, count: int) -> None:
        """Dives at the bound; every other one at the next cheaper cost, where that is not the same."""
        for number in range(count):
            if self._done(root):
                return
            goal = self.costs.below(self.best.cost) if number % 2 else self.costs.at_least(self.best.bound)
            fixed = dive(self.master, self.pricer, root, goal, self.chance, self.clock)
            if not self.take(fixed) and not self.clock.over():
                self.take(self.mend(fixed, goal))

    def _list(self, root: Bounded, most: int, clock: Clock) -> None:
        """Choose among all patterns that a cheaper choice can hold, or among those met where they are too many."""
        goal = self.costs.below(self.best.cost)
        gap = goal - root.bound + SLACK * max(1.0, goal)
        patterns = self.pricer.within(root.prices, root.need - gap, most, clock, self.cover.most_waste(goal))
        if patterns is None:
            few = clock.part(FEW_SECONDS)
            self.take(choose(self.cover, self.master.patterns, self.best.bound, goal, few, exactly=False).patterns)
            return
        choice = choose(self.cover, patterns, self.best.bound, goal, clock, exactly=True)
        self.take(choice.patterns)
        if choice.closed:
            self.best.bound = self.best.cost
        elif goal > self.best.bound and choice.bound > self.best.bound:
            self.raise_bound(self.costs.at_least(choice.bound))


def least_cost(
    cover: Cover,
    pricer: Pricer,
    start: Sequence[Pattern],
    bound: float,
    clock: Clock,
) -> Least:
    """The cheapest choice of patterns, as far as the time allows.

    start: a choice to begin with. bound: no choice costs less.
    """
    start = cover.trimmed(start)
    best = Least(start, cover.cost(start), 0, list(start))
    best.bound = min(Costs(cover, min(best.cost, min(cover.penalties, default=1) - 1)).at_least(bound), best.cost)
    if not best.proven and not clock.over():
        _Search(cover, pricer, best, clock).run()
    return best
