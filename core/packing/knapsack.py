"""Patterns of lengths: the best for given prices, and every one worth a given amount.

Best patterns come from a table over all fillings of the stock. Stock of more than `CELLS` steps is looked at in
coarser cells: parts rounded up give patterns that fit, parts rounded down a bound on what any pattern is worth.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.packing.clock import Clock
from core.packing.cover import Cover, Floats, Pattern, Priced

CELLS = 10_000
ENUM_CELLS = 4_000  # the table for finding every pattern is read entry by entry: kept small
ROUNDS = 10  # patterns with no part in common taken from one set of prices
GAIN = 1e-9  # a pattern worth less than this above its cost does not count


class BarPricer:
    """Patterns of parts in bars. Lengths in whole steps, kerf included."""

    def __init__(self, cover: Cover) -> None:
        self.lengths, self.demand, self.bars = list(cover.sizes), list(cover.demand), list(cover.rooms)
        self.cell = max(1, -(-max(self.bars, default=0) // CELLS))
        self.up = [-(-length // self.cell) for length in self.lengths]
        self.down = [length // self.cell for length in self.lengths]
        self.ends = [bar // self.cell for bar in self.bars]
        self._table = np.zeros((0, max(self.ends, default=0) + 1))

    def best(self, prices: Floats, worth: Floats, demand: Sequence[int], open_stock: Sequence[bool]) -> Priced:
        """See Pricer."""
        usable = [stock for stock, is_open in enumerate(open_stock) if is_open]
        values, stages = self._fill(prices, demand, self.up)
        found: list[Pattern] = []
        left = list(demand)
        tops = np.array([values[end] for end in self.ends]) if self.cell == 1 else None
        for _ in range(ROUNDS):
            if not usable:
                break
            stock = max(usable, key=lambda s: values[self.ends[s]] - worth[s])
            if values[self.ends[stock]] - worth[stock] <= GAIN:
                break
            pattern = self._walk(stock, values, stages, self.up)
            found.append(pattern)
            for part, times in pattern.counts:
                left[part] -= times
            values, stages = self._fill(prices, left, self.up)
        if not found and self.cell > 1:
            return self._rounded_down(prices, worth, demand, usable)
        return Priced(found, tops)

    def _rounded_down(self, prices: Floats, worth: Floats, demand: Sequence[int], usable: Sequence[int]) -> Priced:
        """Bounds from parts rounded down; patterns found so count where they really fit."""
        values, stages = self._fill(prices, demand, self.down)
        tops = np.array([values[end] for end in self.ends])
        found = []
        for stock in usable:
            if tops[stock] - worth[stock] > GAIN:
                pattern = self._walk(stock, values, stages, self.down)
                if sum(self.lengths[part] * times for part, times in pattern.counts) <= self.bars[stock]:
                    found.append(pattern)
        return Priced(found, tops)

    def _fill(self, prices: Floats, demand: Sequence[int], cells: Sequence[int]) -> tuple[Floats, list[int]]:
        """The most value in each number of cells; the part each stage of the table adds."""
        end = self._table.shape[1] - 1
        stages = [
            part
            for part, times in enumerate(demand)
            if prices[part] > GAIN
            for _ in range(min(times, end // cells[part] if cells[part] else times))
        ]
        if len(stages) > len(self._table):
            self._table = np.empty((len(stages), end + 1))
        values = np.zeros(end + 1)
        for row, part in zip(self._table, stages, strict=False):
            row[:] = values
            size = cells[part]
            np.maximum(values[size:], row[: end + 1 - size] + prices[part], out=values[size:])
        return values, stages

    def _walk(self, stock: int, values: Floats, stages: Sequence[int], cells: Sequence[int]) -> Pattern:
        """The pattern behind a stock's value."""
        place = self.ends[stock]
        value = values[place]
        times: dict[int, int] = {}
        for number in range(len(stages) - 1, -1, -1):
            before = self._table[number, place]
            if before < value - 1e-12:
                part = stages[number]
                times[part] = times.get(part, 0) + 1
                place -= cells[part]
                value = self._table[number, place]
        return Pattern(stock, tuple(sorted(times.items())))

    def within(self, prices: Floats, need: Floats, limit: int, clock: Clock, waste: int | None) -> list[Pattern] | None:
        """See Pricer."""
        found: list[Pattern] = []
        cell = max(1, -(-max(self.bars, default=0) // ENUM_CELLS))
        order = sorted(range(len(self.lengths)), key=lambda part: -self.lengths[part])
        tops = self._tops(prices, order, cell)
        for stock, bar in enumerate(self.bars):
            least = bar - waste if waste is not None else 0
            if not self._walk_all(
                stock, float(need[stock]), least, limit, order, prices.tolist(), tops, cell, found, clock
            ):
                return None
        return found

    def every(self, demand: Sequence[int], limit: int, clock: Clock) -> list[Pattern] | None:
        """See Pricer."""
        return maximal(self.lengths, demand, self.bars, limit, clock)

    def _tops(self, prices: Floats, order: Sequence[int], cell: int) -> list[list[float]]:
        """For each place in the order: the most the parts from there on are worth in each number of cells."""
        end = max(self.bars, default=0) // cell
        values = np.zeros(end + 1)
        tops = [values.tolist()]
        for part in reversed(order):
            size = self.lengths[part] // cell
            for _ in range(min(self.demand[part], end // size if size else self.demand[part])):
                values = np.maximum(values, np.concatenate((np.zeros(size), values[: end + 1 - size] + prices[part])))
            tops.append(values.tolist())
        return tops[::-1]

    def _walk_all(
        self,
        stock: int,
        need: float,
        least: int,
        limit: int,
        order: Sequence[int],
        prices: Sequence[float],
        tops: Sequence[Sequence[float]],
        cell: int,
        found: list[Pattern],
        clock: Clock,
    ) -> bool:
        """Add every pattern of a stock to `found`; False if they became too many."""
        bar = self.bars[stock]
        stack: list[tuple[int, int, float, tuple[tuple[int, int], ...]]] = [(0, bar, 0.0, ())]
        steps = 0
        while stack:
            place, room, value, counts = stack.pop()
            steps += 1
            if steps % 4096 == 0 and clock.over():
                return False
            if place == len(order):
                if counts and bar - room >= least:
                    found.append(Pattern(stock, tuple(sorted(counts))))
                    if len(found) > limit:
                        return False
                continue
            part = order[place]
            length, price, rest = self.lengths[part], prices[part], tops[place + 1]
            for times in range(min(self.demand[part], room // length) + 1):
                left = room - times * length
                worth = value + times * price
                if worth + rest[left // cell] >= need:
                    stack.append((place + 1, left, worth, (*counts, (part, times)) if times else counts))
        return True


def maximal(
    lengths: Sequence[int], demand: Sequence[int], bars: Sequence[int], limit: int, clock: Clock
) -> list[Pattern] | None:
    """Every pattern to which no part can be added; None if there are more than `limit`."""
    order = sorted((part for part in range(len(lengths)) if demand[part]), key=lambda part: -lengths[part])
    after = [0]  # length of all the parts from a place on
    for part in reversed(order):
        after.append(after[-1] + lengths[part] * demand[part])
    after.reverse()
    found: list[Pattern] = []
    for stock, bar in enumerate(bars):
        # place in the order, room left, shortest part left out so far, counts
        stack: list[tuple[int, int, int, tuple[tuple[int, int], ...]]] = [(0, bar, bar + 1, ())]
        steps = 0
        while stack:
            place, room, spare, counts = stack.pop()
            steps += 1
            if steps % 4096 == 0 and clock.over():
                return None
            if room - after[place] >= spare:
                continue
            if place == len(order):
                if counts:
                    found.append(Pattern(stock, tuple(sorted(counts))))
                if len(found) > limit:
                    return None
                continue
            part = order[place]
            length = lengths[part]
            for times in range(min(demand[part], room // length) + 1):
                left_out = min(spare, length) if times < demand[part] else spare
                taken = (*counts, (part, times)) if times else counts
                stack.append((place + 1, room - times * length, left_out, taken))
    return found
