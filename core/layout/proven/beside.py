"""How much of the long frame parts can lie on one sheet beside some nets: an upper bound, and where the nets lie.

A free room of a by b holds sticks of at most g(a) · h(b), where g is the greatest sum of stick lengths up to a and h
the same of widths: both are conservative scales. Source: Fekete, Schepers, Math. Methods Oper. Res. 60 (2004). All
sizes here are a kerf longer each way than the wood, so that cuts have no width.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence

from core.packing.clock import Clock

Place = tuple[int, float, float]  # net, lower left corner

EPS = 1e-6
STEPS = 40  # of g and of h, at most
LOOK = 8  # states between two looks at the clock
NEVER = float("-inf")


class Steps:
    """The greatest sum of some sizes, each as often as one likes, up to a length: a function in steps.

    Where there are too many sums, steps of even width that are never lower.
    """

    def __init__(self, sizes: Sequence[float], most: float) -> None:
        sums = {0.0}
        pending = [0.0]
        while pending and len(sums) <= STEPS:
            start = pending.pop()
            totals = {round(start + size, 6) for size in sizes} - sums
            fresh = [total for total in totals if total <= most + EPS]
            sums.update(fresh)
            pending += fresh
        self.starts = self.values = sorted(sums)
        if len(sums) > STEPS:
            step = most / STEPS
            first = int(min(sizes) / step)
            self.starts = [0.0, *(round(n * step, 6) for n in range(max(1, first), STEPS + 1))]
            self.values = [0.0 if first else step, *(start + step for start in self.starts[1:])]

    def __call__(self, length: float) -> float:
        """The value at a length."""
        if length < -EPS:
            return NEVER
        return self.values[bisect_right(self.starts, length + EPS) - 1]

    def between(self, low: float, high: float) -> Sequence[float]:
        """Where it steps up, both ends included."""
        return self.starts[bisect_right(self.starts, low - EPS) : bisect_right(self.starts, high + EPS)]


class Beside:
    """One kind of sheet. nets: sizes of all; room: of the sheet; sticks: what may lie beside them.

    Once the clock is over, or more states than `effort` have been looked at, the bounds are of areas only.
    """

    def __init__(
        self,
        nets: Sequence[tuple[float, float]],
        room: tuple[float, float],
        sticks: Sequence[tuple[float, float]],
        effort: int,
        clock: Clock,
    ) -> None:
        self.nets, self.room, self.left, self.clock = nets, room, effort, clock
        self.along = Steps(sorted({x for x, _ in sticks}), room[0])
        self.across = Steps(sorted({y for _, y in sticks}), room[1])
        self._sized: dict[int, tuple[float, float, float]] = {}
        self._summed: dict[tuple[int, int], list[float]] = {}
        self.known: dict[tuple[int, float, float], tuple[float, tuple[str, int, float] | None]] = {}

    def most(self, some: int) -> float:
        """The most area of sticks beside the nets whose bits are set, NEVER where these do not fit. An upper bound."""
        return self._most(some, round(self.room[0], 6), round(self.room[1], 6))

    def _most(self, some: int, w: float, h: float) -> float:
        if not some:
            return self.along(w) * self.across(h)
        key = (some, w, h)
        if key in self.known:
            return self.known[key][0]
        self.left = -1 if self.left % LOOK == 0 and self.clock.over() else self.left - 1
        content, longest, widest = self._sizes(some)
        top = w * h - content
        if longest > w + EPS or widest > h + EPS or top < -EPS * w:
            found: tuple[float, tuple[str, int, float] | None] = (NEVER, None)
        elif self.left < 0:
            return max(0.0, top)
        else:
            found = (0.0, None) if some & (some - 1) == 0 else (NEVER, None)
            for axis, low, at in self._cuts(some, w, h):
                if axis == "x":
                    value = self._most(low, at, h) + self._most(some ^ low, round(w - at, 6), h)
                else:
                    value = self._most(low, w, at) + self._most(some ^ low, w, round(h - at, 6))
                if self.left < 0:
                    return max(0.0, top)
                if value > found[0]:
                    found = (value, (axis, low, at))
                    if value >= top - EPS * w:
                        break
        self.known[key] = found
        return found[0]

    def _sizes(self, some: int) -> tuple[float, float, float]:
        """Their area together, the longest and the widest."""
        if some not in self._sized:
            xs, ys = zip(*(size for i, size in enumerate(self.nets) if some >> i & 1), strict=True)
            self._sized[some] = sum(x * y for x, y in zip(xs, ys, strict=True)), max(xs), max(ys)
        return self._sized[some]

    def _cuts(self, some: int, w: float, h: float) -> Iterator[tuple[str, int, float]]:
        """Cuts worth trying: which nets lie on the low side, and where that ends."""
        _, longest, widest = self._sizes(some)
        first = some & -some
        rest = some ^ first
        part = rest
        while part:
            part = (part - 1) & rest
            low, high = first | part, some ^ first ^ part
            _, low_x, low_y = self._sizes(low)
            _, high_x, high_y = self._sizes(high)
            for at in self._places(low, 0, low_x, w - high_x):
                yield "x", low, at
            for at in self._places(low, 1, low_y, h - high_y):
                yield "y", low, at
        for room in self.across.between(EPS, h - widest):
            if room > EPS:
                yield "y", some, round(h - room, 6)
        for room in self.along.between(EPS, w - longest):
            if room > EPS:
                yield "x", some, round(w - room, 6)

    def _places(self, low: int, axis: int, least: float, most: float) -> list[float]:
        """Where the low side of a cut may end: sums of its nets' sizes and of sticks."""
        if least > most + EPS:
            return []
        steps = (self.along, self.across)[axis]
        sums = self._sums(low, axis)
        return sorted({round(s + a, 6) for s in sums if s <= most + EPS for a in steps.between(least - s, most - s)})

    def _sums(self, some: int, axis: int) -> list[float]:
        """Every sum of their sizes along an axis, that of none included."""
        key = (some, axis)
        if key not in self._summed:
            sums = {0.0}
            for i, size in enumerate(self.nets):
                if some >> i & 1:
                    sums |= {round(s + size[axis], 6) for s in sums if s + size[axis] <= self.room[axis] + EPS}
            self._summed[key] = sorted(sums)
        return self._summed[key]

    def places(self, some: int) -> list[Place] | None:
        """Where the nets lie in the best of the cuttings found, None where none was looked for to the end."""
        found: list[Place] = []
        pending = [(some, round(self.room[0], 6), round(self.room[1], 6), 0.0, 0.0)]
        while pending:
            nets, w, h, x, y = pending.pop()
            if not nets:
                continue
            _, cut = self.known.get((nets, w, h), (0.0, None))
            if cut is None:
                if nets & (nets - 1):
                    return None
                found.append((nets.bit_length() - 1, x, y))
                continue
            axis, low, at = cut
            if axis == "x":
                pending += [(low, at, h, x, y), (nets ^ low, round(w - at, 6), h, x + at, y)]
            else:
                pending += [(low, w, at, x, y), (nets ^ low, w, round(h - at, 6), x, y + at)]
        return found
