"""Lengths into bars, quickly: first fit, best fit, and bars filled as full as they go, one after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from core.packing.cover import Cover, Pattern

STEPS = 2_000  # looked at in filling one bar


class _Bars:
    """Bars being filled."""

    def __init__(self, cover: Cover) -> None:
        self.cover, self.lengths, self.bars = cover, cover.sizes, cover.rooms
        self.stock: list[int] = []
        self.rooms: list[int] = []
        self.counts: list[dict[int, int]] = []

    def open_bar(self, part: int, order: Sequence[int]) -> bool:
        """A new bar of the first stock in the order that takes the part."""
        for stock in order:
            limit = self.cover.limits[stock]
            if self.bars[stock] >= self.lengths[part] and (limit is None or self.stock.count(stock) < limit):
                self.stock.append(stock)
                self.rooms.append(self.bars[stock])
                self.counts.append({})
                return True
        return False

    def put(self, bar: int, part: int) -> None:
        self.rooms[bar] -= self.lengths[part]
        self.counts[bar][part] = self.counts[bar].get(part, 0) + 1

    def patterns(self) -> list[Pattern]:
        """The bars as patterns, each on the cheapest stock still free that takes what is in it."""
        used = [self.stock.count(stock) for stock in range(len(self.bars))]
        result = []
        for stock, room, counts in zip(self.stock, self.rooms, self.counts, strict=True):
            content = self.bars[stock] - room
            best = stock
            for other, limit in enumerate(self.cover.limits):
                free = limit is None or used[other] < limit
                if free and self.bars[other] >= content and self.cover.costs[other] < self.cover.costs[best]:
                    best = other
            used[stock] -= 1
            used[best] += 1
            if counts:
                result.append(Pattern(best, tuple(sorted(counts.items()))))
        return result


def _fit(bars: _Bars, order: Sequence[int], choose: Callable[[list[int]], int]) -> list[Pattern]:
    """Longest part first, each into the open bar `choose` takes among those with room (their rooms are given)."""
    for part in sorted(range(len(bars.lengths)), key=lambda i: -bars.lengths[i]):
        for _ in range(bars.cover.demand[part]):
            fitting = [i for i, room in enumerate(bars.rooms) if room >= bars.lengths[part]]
            if fitting:
                bars.put(fitting[choose([bars.rooms[i] for i in fitting])], part)
            elif bars.open_bar(part, order):
                bars.put(len(bars.rooms) - 1, part)
            else:
                break
    return bars.patterns()


def fullest(lengths: Sequence[int], left: Sequence[int], order: Sequence[int], room: int) -> dict[int, int]:
    """Parts that leave as little of the room as a short search finds, the longest of those left among them."""
    best: dict[int, int] = {}
    least, steps = room + 1, 0
    stack: list[tuple[int, int, dict[int, int]]] = [(0, room, {})]
    while stack and least and steps < STEPS:
        place, rest, taken = stack.pop()
        steps += 1
        if rest < least:
            best, least = taken, rest
        while place < len(order) and (lengths[order[place]] > rest or not left[order[place]]):
            place += 1
        if place == len(order):
            continue
        part = order[place]
        most = min(left[part], rest // lengths[part])
        for times in range(0 if taken else 1, most + 1):
            stack.append((place + 1, rest - times * lengths[part], {**taken, part: times} if times else taken))
    return best


def _one_by_one(bars: _Bars, order: Sequence[int]) -> list[Pattern]:
    """Bars filled as full as they go, one after the other."""
    left = list(bars.cover.demand)
    by_length = sorted(range(len(left)), key=lambda i: -bars.lengths[i])
    while any(left):
        part = next((i for i in by_length if left[i] and bars.open_bar(i, order)), None)
        if part is None:
            break
        bar = len(bars.rooms) - 1
        left_here = [n if bars.lengths[i] <= bars.lengths[part] else 0 for i, n in enumerate(left)]
        for taken, times in fullest(bars.lengths, left_here, by_length, bars.rooms[bar]).items():
            left[taken] -= times
            for _ in range(times):
                bars.put(bar, taken)
    return bars.patterns()


def quick(cover: Cover) -> Iterator[list[Pattern]]:
    """Fair choices of patterns, each made in a moment. Whatever finds no room is left uncut."""
    kinds = range(len(cover.rooms))
    orders = {
        tuple(sorted(kinds, key=lambda s: (cover.costs[s] / max(1, cover.rooms[s]), -cover.rooms[s]))),
        tuple(sorted(kinds, key=lambda s: (-cover.rooms[s], cover.costs[s]))),
        tuple(sorted(kinds, key=lambda s: (cover.costs[s], -cover.rooms[s]))),
    }
    for order in sorted(orders):
        yield _fit(_Bars(cover), order, lambda rooms: 0)
        yield _fit(_Bars(cover), order, lambda rooms: rooms.index(min(rooms)))
        yield _one_by_one(_Bars(cover), order)
