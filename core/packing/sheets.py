"""Patterns of rectangles on sheets: the best for given prices, and every one worth a given amount."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.packing.builds import Builds, Hope, Search, build_all
from core.packing.clock import Clock
from core.packing.cover import Cover, Floats, Pattern, Priced
from core.packing.multiset import Ints
from core.packing.relax import Relaxation, Shape

PLACES = 60  # along each side, for the bounds
PRICING_BUILDS = 1_500  # in the search for one pattern
ROUNDS = 4  # patterns with no part in common from one set of prices
GAIN = 1e-7  # a pattern worth less than this above its cost does not count
BLUR = 1e-9  # of a sheet's area: areas in floating point err by less
BUILDS_PER_PATTERN = 6  # before a list of patterns is given up as too long


class SheetPricer:
    """See Pricer. Remembers how each pattern it has given is built."""

    def __init__(self, cover: Cover, shapes: Sequence[Sequence[Shape]], sheets: Sequence[tuple[int, int]]) -> None:
        """shapes: for each kind of sheet the ways its parts may lie on it."""
        self.cover, self.shapes, self.sheets = cover, [list(s) for s in shapes], list(sheets)
        self.known: dict[Pattern, tuple[Builds, int]] = {}
        self._relaxed: dict[int, Relaxation] = {}

    def relaxation(self, stock: int) -> Relaxation:
        """The bounds for a kind of sheet, made when first asked for."""
        if stock not in self._relaxed:
            self._relaxed[stock] = Relaxation(self.shapes[stock], self.cover.demand, self.sheets[stock], PLACES)
        return self._relaxed[stock]

    def best(self, prices: Floats, worth: Floats, demand: Sequence[int], open_stock: Sequence[bool]) -> Priced:
        """See Pricer."""
        found: list[Pattern] = []
        tops = np.array(worth, dtype=np.float64)
        values = prices.tolist()
        for stock, is_open in enumerate(open_stock):
            left = list(demand)
            for turn in range(ROUNDS):
                if not is_open or not any(left):
                    break
                search = self.search(stock, values, left, float(worth[stock]) + GAIN)
                result = search.run(PRICING_BUILDS, Clock(60.0))
                if turn == 0:
                    tops[stock] = max(worth[stock], result.bound)
                if search.best is None:
                    break
                pattern = self.note(stock, search.builds, search.builds.take(search.best))
                found.append(pattern)
                for part, times in pattern.counts:
                    left[part] -= times
        return Priced(found, tops)

    def search(
        self, stock: int, values: Sequence[float], demand: Sequence[int], least: float, eager: float = 0.0
    ) -> Search:
        """A search for the pattern of most value on a kind of sheet."""
        relaxation = self.relaxation(stock)
        hope = Hope(relaxation.x, relaxation.y, relaxation.tables(values, demand))
        builds = Builds(self.shapes[stock], demand, self.sheets[stock])
        return Search(builds, values, hope, least, 0.0, eager)

    def note(self, stock: int, builds: Builds, number: int) -> Pattern:
        """A build as a pattern, remembered."""
        pattern = Pattern(stock, builds.packing.unpack(builds.multisets[number]))
        self.known.setdefault(pattern, (builds, number))
        return pattern

    def within(self, prices: Floats, need: Floats, limit: int, clock: Clock, waste: int | None) -> list[Pattern] | None:
        """See Pricer; `waste` is not made use of."""
        found: list[Pattern] = []
        values = prices.tolist()
        for stock in range(len(self.sheets)):
            relaxation = self.relaxation(stock)
            hope = Hope(relaxation.x, relaxation.y, relaxation.tables(values, self.cover.demand))
            builds = Builds(self.shapes[stock], self.cover.demand, self.sheets[stock])
            least = float(need[stock]) - GAIN
            if not build_all(builds, values, least, hope, BUILDS_PER_PATTERN * limit, clock):
                return None
            found += self._patterns(stock, builds, least)
            if len(found) > limit:
                return None
        return found

    def dense(self, waste: int, limit: int, clock: Clock) -> list[Pattern] | None:
        """Every pattern that leaves at most `waste` of the one kind of sheet; None if they are too many."""
        sizes, room, demand = [float(size) for size in self.cover.sizes], self.cover.rooms[0], self.cover.demand
        blur = BLUR * room
        relaxation = self.relaxation(0)
        hope = Hope(relaxation.x, relaxation.y, relaxation.tables(sizes, demand))

        def promise(xs: Ints, ys: Ints, values: Floats) -> Floats:
            empty = xs.astype(np.float64) * ys - values
            return np.minimum(waste - empty, hope(xs, ys, values) - (room - waste))

        builds = Builds(self.shapes[0], demand, self.sheets[0])
        if not build_all(builds, sizes, -blur, promise, BUILDS_PER_PATTERN * limit, clock):
            return None
        return self._patterns(0, builds, room - waste - blur)

    def every(self, demand: Sequence[int], limit: int, clock: Clock) -> list[Pattern] | None:
        """See Pricer; gives the patterns to which something can be added too."""
        found: list[Pattern] = []
        for stock in range(len(self.sheets)):
            builds = Builds(self.shapes[stock], demand, self.sheets[stock])
            if not build_all(builds, self.cover.sizes, 0.0, _any, BUILDS_PER_PATTERN * limit, clock):
                return None
            found += self._patterns(stock, builds, 0.0)
            if len(found) > limit:
                return None
        return found

    def _patterns(self, stock: int, builds: Builds, least: float) -> list[Pattern]:
        """The builds' patterns worth more than `least`, each once."""
        worthy = np.nonzero(builds.values[: builds.count] > least)[0]
        return list(dict.fromkeys(self.note(stock, builds, number) for number in worthy.tolist()))


def _any(xs: Ints, ys: Ints, values: Floats) -> Floats:
    return values
