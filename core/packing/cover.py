"""The question behind all cutting: which patterns, how often, so that every part is cut at least cost.

A pattern says how often each part is cut from one bar or sheet of a kind of stock.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple, Protocol

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.packing.clock import Clock

Floats = NDArray[np.float64]
Counts = tuple[tuple[int, int], ...]  # (part, how often), parts ascending

EPS = 1e-6  # costs nearer than this are equal
MOST_STEPS = 1_000_000  # above this many steps of cost the gaps between reachable costs are not looked at


class Pattern(NamedTuple):
    """What one bar or sheet gives."""

    stock: int
    counts: Counts


class Priced(NamedTuple):
    """Patterns worth more than they cost, and at each stock the most any pattern is worth (None: not known)."""

    patterns: list[Pattern]
    tops: Floats | None


class Pricer(Protocol):
    """Knows which patterns a stock can give."""

    def best(self, prices: Floats, worth: Floats, demand: Sequence[int], open_stock: Sequence[bool]) -> Priced:
        """Patterns for which the prices of their parts exceed `worth` of their stock by most."""
        ...

    def within(self, prices: Floats, need: Floats, limit: int, clock: Clock, waste: int | None) -> list[Pattern] | None:
        """Every pattern worth at least `need` of its stock; None if there are more than `limit`.

        waste: only patterns that leave at most so much of their stock, where it is given.
        """
        ...

    def every(self, demand: Sequence[int], limit: int, clock: Clock) -> list[Pattern] | None:
        """Every pattern of a demand to which nothing can be added; None if there are more than `limit`."""
        ...


class Cover(msgspec.Struct, frozen=True):
    """Parts wanted, stock to cut them from.

    limits: most bars of each stock, None without limit. penalties: cost of leaving a part uncut, above all others.
    sizes, rooms: length or area of each part and of each stock; all stock together holds no more than its rooms.
    """

    demand: tuple[int, ...]
    costs: tuple[int, ...]
    limits: tuple[int | None, ...]
    sizes: tuple[int, ...]
    rooms: tuple[int, ...]
    penalties: tuple[int, ...]

    @classmethod
    def of(
        cls,
        demand: Sequence[int],
        costs: Sequence[int],
        limits: Sequence[int | None],
        sizes: Sequence[int],
        rooms: Sequence[int],
    ) -> Cover:
        """A cover whose uncut parts cost more than any stock, and more the larger they are, in hundredths."""
        pieces = sum(demand)
        counts = [pieces if limit is None else min(limit, pieces) for limit in limits]
        base = 1 + sum(cost * count for cost, count in zip(costs, counts, strict=True))
        largest = max(sizes, default=1)
        dear = tuple(base * max(1, -(-100 * size // largest)) for size in sizes)
        return cls(tuple(demand), tuple(costs), tuple(limits), tuple(sizes), tuple(rooms), dear)

    @property
    def alike(self) -> bool:
        """Is there one kind of stock, as much as is needed, that costs something?"""
        return len(self.costs) == 1 and self.limits[0] is None and self.costs[0] > 0

    def content(self, pattern: Pattern) -> int:
        """Size of all a pattern holds."""
        return sum(self.sizes[part] * times for part, times in pattern.counts)

    def waste(self, pattern: Pattern) -> int:
        """Size of what a pattern leaves of its stock."""
        return self.rooms[pattern.stock] - self.content(pattern)

    def most_waste(self, cost: int) -> int | None:
        """The most one pattern can waste in a choice of that cost; known where all stock is alike."""
        if not self.alike:
            return None
        content = sum(size * n for size, n in zip(self.sizes, self.demand, strict=True))
        return cost // self.costs[0] * self.rooms[0] - content

    def cost(self, patterns: Iterable[Pattern]) -> int:
        """Cost of some patterns with the penalties for what they do not cut."""
        missing = self.missing(patterns := list(patterns))
        return sum(self.costs[p.stock] for p in patterns) + sum(
            n * penalty for n, penalty in zip(missing, self.penalties, strict=True)
        )

    def missing(self, patterns: Iterable[Pattern]) -> list[int]:
        """How many of each part some patterns leave uncut."""
        left = list(self.demand)
        for pattern in patterns:
            for part, times in pattern.counts:
                left[part] = max(0, left[part] - times)
        return left

    def trimmed(self, patterns: Iterable[Pattern]) -> list[Pattern]:
        """The patterns without what they cut too much, and without empty ones."""
        left = list(self.demand)
        result = []
        for pattern in patterns:
            counts = []
            for part, times in pattern.counts:
                used = min(times, left[part])
                left[part] -= used
                if used:
                    counts.append((part, used))
            if counts:
                result.append(Pattern(pattern.stock, tuple(counts)))
        return result


class Costs:
    """The sums that whole numbers of bars can cost."""

    def __init__(self, cover: Cover, most: int) -> None:
        kinds = sorted({cost for cost in cover.costs if cost})
        self.most = most
        self.step = kinds[0] if len(kinds) == 1 else 1
        self.sums = 0
        if len(kinds) > 1 and most <= MOST_STEPS:
            self.sums = _sums(cover, most)

    def at_least(self, bound: float) -> int:
        """The least sum that is no smaller."""
        low = max(0, -int(-(bound - EPS) // 1))
        if self.sums:
            above = self.sums >> low
            return low + (above & -above).bit_length() - 1 if above else low
        return -(-low // self.step) * self.step

    def below(self, cost: int) -> int:
        """The greatest sum that is smaller, −1 if there is none."""
        if cost > self.most + 1:  # it holds penalties
            return cost - 1
        if self.sums:
            return (self.sums & ((1 << cost) - 1)).bit_length() - 1
        return (cost - 1) // self.step * self.step if cost > 0 else -1


def _sums(cover: Cover, most: int) -> int:
    mask, sums, pieces = (1 << (most + 1)) - 1, 1, sum(cover.demand)
    for cost, limit in zip(cover.costs, cover.limits, strict=True):
        times = min(pieces if limit is None else limit, most // cost if cost else 0)
        for _ in range(times):
            grown = (sums | sums << cost) & mask
            if grown == sums:
                break
            sums = grown
    return sums
