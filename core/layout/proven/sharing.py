"""Whether nets and long frame parts fit some given sheets: every way to share the nets among them is looked at.

A way is ruled out where the sheets' upper bounds on the frame parts beside their nets (`beside`) come to less than
these take, in any of several views of the parts: all of them, only the longer ones, those as if they were of one
length. What is not ruled out is worth trying.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement

import msgspec

from core.layout.proven.beside import EPS, NEVER, Beside, Place
from core.layout.proven.demand import Demand, Group, Item, long_sticks
from core.packing.clock import Clock

EFFORT = 60_000  # states of all sheets together
NODES = 40_000  # of the search
MOST_CHOICES = 64  # of sheets
MOST_NETS = 14
SHARES = (0.0, 0.3, 0.6, 0.8)  # of the lengths, that are left out of a view

Shared = list[tuple[int, list[Place]]]  # kind; net (number in the demand) and its place inside the trim
Size = tuple[float, float]
Ways = Iterator[list[Shared]]


class View:
    """Some of the sticks, perhaps shortened: what they take, and each kind's bounds."""

    def __init__(
        self, demand: Demand, group: Group, nets: Sequence[Size], sticks: Sequence[Item], clock: Clock
    ) -> None:
        k = demand.kerf
        self.need = demand.area(sticks)
        self.beside: dict[int, Beside] = {}
        for kind in group.kinds:
            here = [(s.length + k, s.width + k) for s in sticks if kind in s.kinds]
            room = (demand.kinds[kind].length + k, demand.kinds[kind].width + k)
            self.beside[kind] = Beside(nets, room, here, EFFORT, clock)


class Sharing:
    """Nets and long frame parts of one group on sheets that cost less than a layout that is known."""

    def __init__(self, demand: Demand, group: Group, clock: Clock) -> None:
        self.demand, self.group, self.clock = demand, group, clock
        self.nodes = NODES
        k = demand.kerf
        nets = [demand.nets[n] for n in group.nets]
        sizes = [(net.length + k, net.width + k) for net in nets]
        self.views = [View(demand, group, sizes, sticks, clock) for sticks in _views(long_sticks(demand, group))]
        self.need, self.beside = self.views[0].need, self.views[0].beside
        self.areas = [x * y for x, y in sizes]
        self.allowed = {kind: sum(1 << i for i, net in enumerate(nets) if kind in net.kinds) for kind in group.kinds}

    def cheaper(self, bound: float, cost: float) -> Iterator[list[Shared] | None]:
        """What is not ruled out on sheets that cost at least `bound` and less than `cost`: each way in a few layouts.

        None is the last where time or effort ran out, so that more may be there.
        """
        if len(self.group.nets) > MOST_NETS:
            yield None
            return
        choices = self._choices(bound, cost)
        if choices is None:
            yield None
            return
        for kinds in choices:
            slack = sum(self._area(kind) for kind in kinds) - sum(self.areas) - self.need
            if slack >= -EPS * self.need:
                yield from self._share((1 << len(self.areas)) - 1, kinds, slack + EPS * self.need, [])
            if self.nodes < 0 or self.clock.over():
                yield None
                return

    def _area(self, kind: int) -> float:
        x, y = self.beside[kind].room
        return x * y

    def _choices(self, bound: float, cost: float) -> list[tuple[int, ...]] | None:
        """Sets of sheets with a cost from `bound` up to below `cost`, cheapest first; None where they are too many."""
        found = []
        kinds = [kind for kind in self.group.kinds if self.demand.kinds[kind].count]
        cheapest = min((self.demand.kinds[kind].cost for kind in kinds), default=0.0)
        if cheapest <= 0.0:
            return None
        for many in range(1, int((cost - EPS) / cheapest) + 1):
            for some in combinations_with_replacement(kinds, many):
                price = sum(self.demand.kinds[kind].cost for kind in some)
                there = all(some.count(kind) <= self.demand.kinds[kind].count for kind in set(some))
                if there and bound - EPS <= price < cost - EPS:
                    found.append((price, some))
                    if len(found) > MOST_CHOICES:
                        return None
        return [some for _, some in sorted(found)]

    def _share(self, left: int, kinds: Sequence[int], slack: float, done: list[tuple[int, int]]) -> Ways:
        """Give the nets that are left to the sheets that are left, wasting no more than `slack`."""
        self.nodes -= 1
        if self.nodes < 0 or self.clock.over():
            return
        if not left:
            chosen = [*done, *((kind, 0) for kind in kinds)]
            if all(self._enough(view, chosen) for view in self.views):
                yield self._placed(done)
            return
        first = left & -left
        for kind in sorted(set(kinds)):
            if not self.allowed[kind] & first:
                continue
            others = list(kinds)
            others.remove(kind)
            room = sum(self._area(other) for other in others)
            rest = (left ^ first) & self.allowed[kind]
            for part in self._parts(rest, left, first, self._area(kind), room):
                some = first | part
                most = self.beside[kind].most(some)
                waste = self._area(kind) - self._content(some) - most
                if most != NEVER and waste <= slack:
                    yield from self._share(left ^ some, others, slack - waste, [*done, (kind, some)])
                if self.nodes < 0:
                    return

    def _parts(self, rest: int, left: int, first: int, area: float, room: float) -> Iterator[int]:
        """Subsets of `rest` that may lie on a sheet with `first`, the others having room elsewhere; fullest first."""
        total, mine = self._content(left), self._content(first)
        found = []
        part = rest
        while True:
            content = mine + self._content(part)
            if content <= area * (1 + EPS) and total - content <= room * (1 + EPS):
                found.append((-content, part))
            if not part:
                break
            part = (part - 1) & rest
        for _, part in sorted(found):
            yield part

    def _content(self, some: int) -> float:
        return sum(area for i, area in enumerate(self.areas) if some >> i & 1)

    def _enough(self, view: View, chosen: Sequence[tuple[int, int]]) -> bool:
        """Is there room beside the nets for what is in view, as far as the bounds know?"""
        most = sum(view.beside[kind].most(some) for kind, some in chosen)
        return most >= view.need * (1 - EPS)

    def _placed(self, done: Sequence[tuple[int, int]]) -> list[Shared]:
        """Where the nets lie, as each view would have it."""
        found: list[Shared] = []
        for view in self.views:
            shared: Shared = []
            for kind, some in done:
                places = view.beside[kind].places(some)
                if places is not None:
                    shared.append((kind, [(self.group.nets[n], x, y) for n, x, y in places]))
            if len(shared) == len(done) and shared not in found:
                found.append(shared)
        return found


def _views(sticks: Sequence[Item]) -> list[list[Item]]:
    """All sticks; then the longer ones, as they are and as if all were as short as the shortest of them."""
    lengths = sorted({stick.length for stick in sticks})
    found = [list(sticks)]
    for share in SHARES:
        if lengths:
            least = lengths[int(share * len(lengths))]
            some = [stick for stick in sticks if stick.length >= least]
            found += [some] if share else []
            found.append([msgspec.structs.replace(stick, length=least) for stick in some])
    return found
