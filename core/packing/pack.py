"""All rectangles on the fewest or cheapest sheets by straight cuts from edge to edge, then the largest single offcut.

answer = pack_all(PackQuestion((Rectangle(1746.3, 510.3, count=3), ...), (SheetKind(2430, 1210),), kerf=2.2))
answer.cost.proven, answer.sheets[0].tree, answer.sheets[-1].offcut
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import msgspec

from core.packing.answer import Reach
from core.packing.bounds import sheets_needed
from core.packing.clock import Clock, Stop, never
from core.packing.cover import EPS, Costs, Pattern
from core.packing.job import Job, PackQuestion, SheetKind
from core.packing.last import LastSheet
from core.packing.layouts import Layouts
from core.packing.least import least_cost
from core.packing.lp import choose
from core.packing.remainder import Remainder
from core.packing.tree import Node, rest_of

__all__ = ["PackAnswer", "PackQuestion", "PackedSheet", "SheetKind", "pack_all"]

PLAIN_SHARE = 0.1  # of the time, for plain layouts
LISTED_PIECES, LISTED, LIST_SECONDS = (
    24,
    4_000,
    0.5,
)  # when all sets of parts a sheet can hold are listed, up to how many
ANNEAL_SHARE = 0.2  # of the time left, for a lower cost by changing layouts
SHORT_SECONDS = 0.1  # by hand
FEW_ON_A_SHEET = 7  # parts: up to here column generation is worth its while
COST_SHARE = 0.6  # of the time left after that, for a lower cost by column generation


class PackedSheet(msgspec.Struct, frozen=True):
    """One sheet: its kind, how it is cut, and on the last one the offcut: corner and size. [mm]"""

    sheet: int
    tree: Node
    offcut: tuple[float, float, float, float] | None = None


class PackAnswer(msgspec.Struct, frozen=True):
    """The sheets, the one with the offcut last. missing: how many of each part found no room on limited sheets."""

    sheets: tuple[PackedSheet, ...]
    missing: tuple[int, ...]
    cost: Reach
    offcut: Reach  # area of the largest rectangle left of one sheet [mm²]


Report = Callable[[PackAnswer], None]


def pack_all(
    question: PackQuestion, seconds: float = 10.0, stop: Stop = never, report: Report | None = None
) -> PackAnswer:
    """Sheets for all parts at least cost, and among those with the largest single offcut, as far as the time allows.

    Sizes > 0, counts ≥ 0, kerf ≥ 0. Parts too large for every sheet they may come from, and what limited sheets cannot
    hold, come back as missing. Ends soon after `stop` says so or the time is up. report: is told better answers on
    the way.
    """
    return _Packing(Job(question), Clock(seconds, stop), report).run()


class _Packing:
    """One question being answered."""

    def __init__(self, job: Job, clock: Clock, report: Report | None) -> None:
        self.job, self.clock, self.report = job, clock, report
        self.layouts = Layouts(job)
        self.bound = cost_bound(job)
        self.costs = Costs(job.cover, sum(job.cover.costs) * sum(job.cover.demand))
        self.listed: list[Pattern] | None = None
        self.last = LastSheet(job, self.layouts, clock)

    def run(self) -> PackAnswer:
        """See pack_all."""
        layouts, clock = self.layouts, self.clock
        layouts.plain(clock.part(PLAIN_SHARE * clock.left()))
        self._tell()
        cover = self.job.cover
        if not clock.over() and (layouts.cost > self.bound or sum(cover.demand) <= LISTED_PIECES):
            self.listed = self.job.pricer.every(cover.demand, LISTED, clock.part(LIST_SECONDS))
        if layouts.cost > self.bound and not clock.over():
            self._lower_cost()
            self._tell()
        if layouts.patterns and not any(cover.missing(layouts.patterns)):
            self.last = LastSheet(self.job, layouts, clock)
            self.last.improve(self.listed)
        return self._answer()

    def _tell(self) -> None:
        if self.report is not None:
            self.report(self._answer())

    def _lower_cost(self) -> None:
        """From the list of all sets of parts where there is one; else by changing layouts, then by least_cost."""
        layouts, cover, clock = self.layouts, self.job.cover, self.clock
        if self.listed is not None and any(cover.missing(layouts.patterns)):
            choice = choose(cover, self.listed, self.bound, layouts.cost - 1, clock, exactly=True)
            if choice.patterns:
                self._offer(cover.trimmed(choice.patterns))
            self.bound = layouts.cost if choice.closed else self.bound
            return
        if self.listed is not None:
            while self.bound < layouts.cost and self._settle(self.costs.at_least(self.bound), self.listed, clock):
                pass
            return
        layouts.anneal(clock.part(ANNEAL_SHARE * clock.left()))
        self._fill_tightly()
        sheets = max(1, len(layouts.patterns))
        if layouts.cost > self.bound and not clock.over() and sum(cover.demand) <= FEW_ON_A_SHEET * sheets:
            part = clock.part(COST_SHARE * clock.left())
            best = least_cost(cover, self.job.pricer, layouts.patterns, self.bound, part)
            self.bound = max(self.bound, best.bound)
            if best.cost < layouts.cost:
                self._offer(best.patterns)

    def _fill_tightly(self) -> None:
        """Settle whether less will do, where so little would be wasted that few patterns come into question."""
        cover, goal = self.job.cover, self.costs.at_least(self.bound)
        waste = cover.most_waste(goal)
        if waste is None or goal >= self.layouts.cost or self.clock.over():
            return
        dense = self.job.pricer.dense(waste, LISTED, self.clock.part(ANNEAL_SHARE * self.clock.left()))
        if dense is None:
            return
        self._settle(goal, dense, self.clock.part(ANNEAL_SHARE * self.clock.left()))

    def _settle(self, goal: int, patterns: Sequence[Pattern], clock: Clock) -> bool:
        """Find out whether the parts can be cut at a cost of `goal`, given every pattern of use; False if time ran out.

        A short search by hand first, then HiGHS.
        """
        cover, short = self.job.cover, clock.part(SHORT_SECONDS)
        chosen = Remainder(cover, patterns, short).cut(cover.demand, None, goal)
        closed = not short.over()
        if chosen is None and not closed:
            choice = choose(cover, patterns, goal, goal, clock, exactly=True)
            chosen, closed = choice.patterns, choice.closed
        if chosen is not None:
            self._offer(cover.trimmed(chosen))
            self.bound = max(self.bound, goal)
        elif closed:
            self.bound = self.costs.at_least(goal + 1)
        return chosen is not None or closed

    def _offer(self, patterns: list[Pattern]) -> None:
        last = min(patterns, key=self.job.cover.content)
        self.layouts.offer(self.job.cover.cost(patterns), patterns, last, 0.0, self.job.tree(last))

    def _answer(self) -> PackAnswer:
        job, layouts, parts = self.job, self.layouts, self.job.question.parts
        short = job.cover.missing(layouts.patterns)
        missing = [part.count - d + n for part, d, n in zip(parts, job.cover.demand, short, strict=True)]
        others = list(layouts.patterns)
        sheets = []
        if layouts.last is not None and layouts.tree is not None:
            others.remove(layouts.last)
            offcut = rest_of(layouts.tree, job.question.kerf)
            sheets.append(PackedSheet(layouts.last.stock, layouts.tree, offcut))
        full = sorted(others, key=job.cover.waste)
        sheets = [*(PackedSheet(pattern.stock, job.tree(pattern)) for pattern in full), *sheets]
        spent = sum(job.question.sheets[sheet.sheet].cost for sheet in sheets)
        proven = layouts.cost <= self.bound
        bound = spent if proven else self.bound * job.cost_step if not any(short) else 0.0
        square = job.step**2
        area = max(0.0, layouts.area) * square
        most = max(area, self.last.bound * square)
        return PackAnswer(
            tuple(sheets), tuple(missing), Reach(spent, bound, proven), Reach(area, most, proven and most <= area)
        )


def cost_bound(job: Job) -> int:
    """A cost no layout can beat, from areas and from dual feasible functions."""
    cover = job.cover
    if not cover.costs or not any(cover.demand):
        return 0
    need = sum(size * n for size, n in zip(cover.sizes, cover.demand, strict=True))
    by_area = 0.0
    for stock in sorted(range(len(cover.costs)), key=lambda s: cover.costs[s] / max(1, cover.rooms[s])):
        limit, room = cover.limits[stock], cover.rooms[stock]
        many = need / max(1, room) if limit is None else min(limit, need / max(1, room))
        by_area += many * cover.costs[stock]
        need -= int(many * room)
    largest = (max(w for w, _ in job.sheets), max(h for _, h in job.sheets))
    fixed = [(s.x, s.y) for s in job.lying()]
    demand = [cover.demand[s.part] for s in job.lying()]
    count = sheets_needed(fixed, demand, largest) if fixed else 0
    return max(-int(-(by_area - EPS) // 1), count * min(cover.costs))
