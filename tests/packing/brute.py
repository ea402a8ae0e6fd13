"""Answers by trying everything, straight from what a cut from edge to edge is; whole millimetres, small sizes only."""

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import product

Sizes = tuple[tuple[int, int], ...]


class Cutting:
    """All ways to cut rectangles (none turned unless told) from a sheet with a kerf of whole millimetres."""

    def __init__(self, sizes: Sizes, kerf: int, turn: bool = False) -> None:
        self.sizes, self.kerf, self.turn = sizes, kerf, turn
        self.fits = cache(self._fits)
        self.left = cache(self._left)

    def _fits(self, some: int, w: int, h: int) -> bool:
        """Can the parts whose bits are set in `some` be cut from w by h?"""
        if some == 0:
            return True
        if w <= 0 or h <= 0:
            return False
        if some & (some - 1) == 0:
            x, y = self.sizes[some.bit_length() - 1]
            return (x <= w and y <= h) or (self.turn and y <= w and x <= h)
        return any(self.fits(a, *low) and self.fits(some ^ a, *high) for a, low, high in self._cuts(some, w, h))

    def _left(self, some: int, w: int, h: int) -> int:
        """The largest rectangle left of w by h when those parts are cut from it; −1 if they do not fit."""
        if w <= 0 or h <= 0:
            return 0 if some == 0 else -1
        if some == 0:
            return w * h
        best = 0 if self.fits(some, w, h) else -1
        for a, low, high in self._cuts(some, w, h):
            if self.fits(a, *low):
                best = max(best, self.left(some ^ a, *high))
        return best

    def _cuts(self, some: int, w: int, h: int) -> Iterator[tuple[int, tuple[int, int], tuple[int, int]]]:
        """Every cut and every way to share the parts between its two sides."""
        a = some
        while True:
            for at in range(1, w):
                yield a, (at, h), (w - at - self.kerf, h)
            for at in range(1, h):
                yield a, (w, at), (w, h - at - self.kerf)
            if a == 0:
                return
            a = (a - 1) & some

    def best_value(self, values: Sequence[int], w: int, h: int) -> int:
        """The most value that can be cut from one sheet."""
        return max(
            sum(value for i, value in enumerate(values) if some >> i & 1)
            for some in range(1 << len(values))
            if self.fits(some, w, h)
        )

    def cheapest(self, sheets: Sequence[tuple[int, int, int, int]]) -> tuple[int, int] | None:
        """The least cost of sheets (length, width, cost, how many) for all parts, and the largest rectangle one leaves.

        None if they do not hold all parts.
        """
        best: tuple[int, int] | None = None
        for groups in partitions((1 << len(self.sizes)) - 1):
            for kinds in product(range(len(sheets)), repeat=len(groups)):
                if any(kinds.count(kind) > sheets[kind][3] for kind in kinds):
                    continue
                chosen = [(group, *sheets[kind][:2]) for group, kind in zip(groups, kinds, strict=True)]
                if all(self.fits(*each) for each in chosen):
                    found = sum(sheets[kind][2] for kind in kinds), -max(self.left(*each) for each in chosen)
                    best = min(best or found, found)
        return best and (best[0], -best[1])


def partitions(some: int) -> Iterator[list[int]]:
    """Every way to share a set, given as bits, among groups."""
    if some == 0:
        yield []
        return
    first = some & -some
    rest = some ^ first
    group = rest
    while True:
        for others in partitions(rest ^ group):
            yield [first | group, *others]
        if group == 0:
            return
        group = (group - 1) & rest


def least_bars(lengths: Sequence[int], bars: Sequence[tuple[int, int, int]], kerf: int) -> tuple[int, int] | None:
    """The least cost of bars (length, cost, how many) for all lengths, and the longest rest at that cost."""
    best: tuple[int, int] | None = None
    for groups in partitions((1 << len(lengths)) - 1):
        needs = [sum(length + kerf for i, length in enumerate(lengths) if group >> i & 1) - kerf for group in groups]
        for cost, rest in _chosen(needs, [list(bar) for bar in bars], kerf):
            if best is None or (cost, -rest) < (best[0], -best[1]):
                best = (cost, rest)
    return best


def _chosen(needs: Sequence[int], bars: list[list[int]], kerf: int) -> Iterator[tuple[int, int]]:
    """Every choice of a bar for each need: cost and longest rest."""
    if not needs:
        yield 0, 0
        return
    for bar in bars:
        if bar[2] > 0 and bar[0] >= needs[0]:
            bar[2] -= 1
            for cost, rest in _chosen(needs[1:], bars, kerf):
                yield cost + bar[1], max(rest, bar[0] - needs[0] - kerf)
            bar[2] += 1
