"""Whether given parts can be cut at a given cost, from a complete list of patterns."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.packing.clock import Clock
from core.packing.cover import Cover, Pattern

Key = tuple[tuple[int, ...], tuple[int | None, ...], int]


class Remainder:
    """The patterns as a table. Every part of a listed pattern must be listed too, as far as it matters."""

    def __init__(self, cover: Cover, listed: Sequence[Pattern], clock: Clock) -> None:
        self.cover, self.clock = cover, clock
        order = sorted(listed, key=cover.content, reverse=True)
        self.patterns = order
        self.table = np.zeros((len(order), len(cover.demand)), dtype=np.int64)
        for row, pattern in zip(self.table, order, strict=True):
            for part, times in pattern.counts:
                row[part] = times
        self.stocks = np.array([p.stock for p in order], dtype=np.int64)
        self.by_size = sorted(range(len(cover.demand)), key=lambda part: -cover.sizes[part])
        self.failed: set[Key] = set()

    def cut(self, left: Sequence[int], taken: int | None, budget: int) -> list[Pattern] | None:
        """Patterns that cut exactly what is left, with one of stock `taken` used elsewhere; None if there are none.

        None as well where the time ran out.
        """
        limits = tuple(
            None if limit is None else limit - (stock == taken) for stock, limit in enumerate(self.cover.limits)
        )
        return self._cut(tuple(left), limits, budget)

    def _cut(self, left: tuple[int, ...], limits: tuple[int | None, ...], budget: int) -> list[Pattern] | None:
        if not any(left):
            return []
        key = (left, limits, budget)
        if key in self.failed or self.clock.over() or not self._roomy(left, limits, budget):
            return None
        part = next(part for part in self.by_size if left[part])
        usable = [
            (limit is None or limit > 0) and cost <= budget
            for limit, cost in zip(limits, self.cover.costs, strict=True)
        ]
        rows = np.nonzero(
            (self.table[:, part] > 0) & np.array(usable)[self.stocks] & (self.table <= np.array(left)).all(axis=1)
        )[0]
        kept: list[int] = []
        for row in rows.tolist():
            stock = int(self.stocks[row])
            if any(self.stocks[k] == stock and (self.table[k] >= self.table[row]).all() for k in kept):
                continue
            kept.append(row)
            limit = limits[stock]
            less = limits if limit is None else (*limits[:stock], limit - 1, *limits[stock + 1 :])
            rest = tuple((np.array(left) - self.table[row]).tolist())
            others = self._cut(rest, less, budget - self.cover.costs[stock])
            if others is not None:
                return [self.patterns[row], *others]
        if not self.clock.over():
            self.failed.add(key)
        return None

    def _roomy(self, left: Sequence[int], limits: Sequence[int | None], budget: int) -> bool:
        """Does the budget buy sheets of enough area?"""
        need = sum(size * n for size, n in zip(self.cover.sizes, left, strict=True))
        room = 0.0
        order = sorted(range(len(limits)), key=lambda s: self.cover.costs[s] / max(1, self.cover.rooms[s]))
        for stock in order:
            limit, cost = limits[stock], self.cover.costs[stock]
            many = budget / cost if cost else float(sum(left))
            many = many if limit is None else min(many, limit)
            room += many * self.cover.rooms[stock]
            budget -= int(many * cost)
            if room >= need:
                return True
        return False
