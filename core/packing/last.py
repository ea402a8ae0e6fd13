"""The last sheet: which parts lie on it, so that the largest single rectangle is left of it.

Small jobs: every set of parts a sheet can hold is listed, the one that may leave most is tried first, and the rest
must fit the other sheets. Larger ones: the other sheets are filled as full as they go, again and again.
"""

from __future__ import annotations

from collections.abc import Sequence

from core.packing.clock import Clock
from core.packing.cover import Pattern
from core.packing.job import OFFCUT, Job
from core.packing.layouts import Layouts
from core.packing.relax import Shape
from core.packing.remainder import Remainder
from core.packing.rest import last_contents

EXACT_PIECES = 9  # on the last sheet: up to here all builds are looked at
EXACT_SECONDS = 3.0
WISHES = 14  # widths and heights of an offcut tried
HALVINGS = 6
PROVEN_PIECES = 20  # up to here the proof is tried first
TRIED_SHARE = 0.6  # of the time left, before the proof is tried
ANNEAL_SHARE = 0.6  # of the time left, in each round
EAGER, FILL_BUILDS, FILL_SECONDS = 0.2, 1_000, 0.5  # in filling one sheet better


class LastSheet:
    """Looks for last sheets that leave more. bound: no last sheet leaves more, at the layouts' cost [steps²]."""

    def __init__(self, job: Job, layouts: Layouts, clock: Clock) -> None:
        self.job, self.layouts, self.clock = job, layouts, clock
        self.bound = layouts.thinkable()
        self._squeezed: set[Pattern] = set()

    def improve(self, listed: Sequence[Pattern] | None) -> None:
        """Look for a larger offcut while there is time and one is thinkable.

        listed: every set of parts a sheet can hold, where they are few enough.
        """
        patterns = self.layouts.patterns
        for pattern in sorted(dict.fromkeys(patterns), key=self.job.cover.content)[:2]:
            bound = self.try_last(_without(patterns, pattern), pattern)
        if len(patterns) == 1:
            self.bound = min(self.bound, max(self.layouts.area, bound))
        few = sum(self.job.cover.demand) <= PROVEN_PIECES
        if listed is not None and few:
            self.try_all(listed)
        end = self.clock.part((1.0 if listed is None or few else TRIED_SHARE) * self.clock.left())
        seed = 0
        while not self.done() and not end.over() and (not few or listed is None or len(patterns) == 1):
            seed += 1
            self.layouts.anneal(end.part(max(0.2, ANNEAL_SHARE * end.left())), seed)
            if self.layouts.last is not None:
                best = self.layouts.last
                self.squeeze(_without(self.layouts.patterns, best), best)
            for last, (_, others) in sorted(self.layouts.roomiest.items(), key=lambda item: -item[1][0]):
                self.squeeze(others, last)
        if listed is not None and not few and not self.done():
            self.try_all(listed)

    def done(self) -> bool:
        """Is nothing better thinkable, or no time left?"""
        return self.layouts.area >= self.bound or self.clock.over()

    def try_last(self, others: Sequence[Pattern], last: Pattern) -> float:
        """Lay the last sheet's parts out anew; returns a bound on what it can leave."""
        job, layouts = self.job, self.layouts
        bound = layouts.hope(last.stock, job.cover.content(last))
        if bound <= layouts.area or self.clock.over():
            return bound
        pieces = sum(times for _, times in last.counts)
        if pieces > EXACT_PIECES:
            self.wish(others, last)
            return bound
        found, bound = job.cutter(last.stock).best(last.counts, layouts.area, self.clock.part(EXACT_SECONDS))
        if found is not None:
            tree = job.tree_of_offcut(found, [part for part, _ in last.counts])
            layouts.offer(layouts.cost, [*others, last], last, found.area, tree)
        return bound

    def squeeze(self, others: Sequence[Pattern], last: Pattern) -> None:
        """Take more of the last sheet's parts onto the others, one by one, then lay the last out anew."""
        cover, others = self.job.cover, list(others)
        for number, pattern in enumerate(others):
            if self.done() or last in self._squeezed:
                return
            here = self._fuller(pattern, last)
            if here is not None:
                left = cover.missing([*others[:number], here, *others[number + 1 :]])
                others[number] = here
                last = Pattern(last.stock, tuple((part, times) for part, times in enumerate(left) if times))
        self._squeezed.add(last)
        if last.counts:
            self.try_last(others, last)

    def _fuller(self, pattern: Pattern, last: Pattern) -> Pattern | None:
        """Parts of two sheets that fill the first of them better, all others being allowed on the second."""
        cover, pricer = self.job.cover, self.job.pricer
        demand = [0] * len(cover.demand)
        for part, times in (*pattern.counts, *last.counts):
            demand[part] += times
        allowed = {shape.part for shape in self.job.shapes[last.stock]}
        if any(part not in allowed for part, _ in pattern.counts):
            return None
        values = [float(size) for size in cover.sizes]
        search = pricer.search(pattern.stock, values, demand, float(cover.content(pattern)), EAGER)
        search.run(FILL_BUILDS, self.clock.part(FILL_SECONDS))
        if search.best is None:
            return None
        return pricer.note(pattern.stock, search.builds, search.builds.take(search.best))

    def wish(self, others: Sequence[Pattern], last: Pattern) -> None:
        """Put an offcut of many sizes into a corner first and see whether all parts find room beside it."""
        w, h = self.job.sheets[last.stock]
        for share in range(WISHES, 0, -1):
            self._stretch(others, last, w * share // WISHES, h, along=True)
            self._stretch(others, last, h * share // WISHES, w, along=False)

    def _stretch(self, others: Sequence[Pattern], last: Pattern, fixed: int, high: int, *, along: bool) -> None:
        """The longest offcut of a width, up to `high`. along: is the width along the sheet's length?"""
        low = self._least_side(fixed)
        for _ in range(HALVINGS):
            if low > high or self.clock.over():
                return
            x, y = (fixed, low) if along else (low, fixed)
            filled = self.job.greedy.beside(last.counts, last.stock, Shape(OFFCUT, x, y))
            if filled is None:
                return
            tree = self.job.tree_of_room(filled.root)
            assert tree is not None
            self.layouts.offer(self.layouts.cost, [*others, last], last, self.job.area(x, y), tree)
            low = max(self._least_side(fixed), (low + high + 1) // 2)

    def _least_side(self, fixed: int) -> int:
        """How long an offcut of a given width must be to be larger than the best."""
        kerf = self.job.kerf
        return int(self.layouts.area / (fixed - kerf) + kerf) + 1 if fixed > kerf else 1 << 60

    def try_all(self, listed: Sequence[Pattern]) -> None:
        """Every set of parts as the last sheet, the one that may leave most first: proves the best."""
        cover, layouts = self.job.cover, self.layouts
        contents = last_contents(cover, layouts.cost)
        remainder = Remainder(cover, listed, self.clock)
        fitting = [p for p in listed if cover.content(p) >= contents[p.stock]]
        hopes = sorted(((layouts.hope(p.stock, cover.content(p)), p) for p in fitting), reverse=True)
        bound = 0.0
        for hope, last in hopes:
            if hope <= layouts.area or self.clock.over():
                bound = max(bound, min(hope, layouts.area) if hope <= layouts.area else hope)
                break
            others = remainder.cut(cover.missing([last]), last.stock, layouts.cost - cover.costs[last.stock])
            if others is not None:
                bound = max(bound, self.try_last(others, last))
            elif self.clock.over():
                bound = max(bound, hope)
        self.bound = min(self.bound, max(bound, layouts.area))


def _without(patterns: Sequence[Pattern], one: Pattern) -> list[Pattern]:
    rest = list(patterns)
    rest.remove(one)
    return rest
