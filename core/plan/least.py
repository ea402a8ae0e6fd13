"""The least layout of a project: few sheets, then few bands, then a large offcut; with what is proven of it.

    found = least_layout(project, seconds=10)
    plan = make_plan(project, found.layout, found.proof)
    found.proof.words                       "2 sheets, proven fewest"

Every candidate is made a whole plan, its frame parts cut, before it is preferred; the quick layout of
`make_plan(project)` is the first of them, so the result is never worse.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import msgspec

from core.document.model import Project
from core.layout.model import Layout
from core.layout.proven.aim import all_priced, bands, disorder, price_of
from core.layout.proven.demand import groups, wood_bound
from core.layout.proven.model import Proof
from core.layout.proven.orders import Orders
from core.packing.clock import Clock, Stop, never
from core.plan.demand import Wanted
from core.plan.make import best_plan, plan_of, shapes_of
from core.plan.model import Plan

Key = tuple[float, ...]
CLOSE = 1e-6  # costs nearer than this are equal
PLANS = 96  # shelves: so many are planned, over all candidates, in looking for fewer bands and larger offcuts
FIRST_PLANS = 4  # candidates without the exact bound
FEW_NETS = 12  # up to here sharing them among sheets finds what can be found
SHARE_SECONDS, SHARES = 0.6, 8  # for sharing nets among fewer sheets; layouts tried of it
LONG_SECONDS = 6.0  # for the same once more, at the end
STICK_SECONDS = 0.4  # for packing the frame parts along with the nets


class LeastLayout(msgspec.Struct, frozen=True):
    """A layout, what is known of it, and its rank: of two layouts of one project the lesser rank is better."""

    layout: Layout
    proof: Proof
    rank: Key


Report = Callable[[LeastLayout], None]


def rank(plan: Plan) -> Key:
    """How good a plan's layout is, less is better.

    Shelves without room, frame parts without room, other errors, cost of the sheets, bands, largest offcut [mm²].
    """
    homeless = plan.homeless
    misfits = plan.layout.lacking
    largest = plan.offcuts[0].length * plan.offcuts[0].width if plan.offcuts else 0.0
    cost = _cost(plan, all_priced(plan.project))
    sizes = [shape.size for shape in shapes_of(plan.project)]
    others = sum(f.code != "no-room" for f in plan.errors)
    return (misfits, homeless, others, round(cost, 6), bands(plan.layout, sizes), -round(largest))


def _cost(plan: Plan, priced: bool) -> float:
    return sum(price_of(sheet.source, priced) for sheet in plan.sheets)


def least_layout(
    project: Project, seconds: float = 10.0, stop: Stop = never, report: Report | None = None
) -> LeastLayout:
    """The best layout found in the time, by `rank`; ends sooner where nothing better is left to find.

    report: is told better ones, and what is known of them, on the way.
    """
    return _Search(project, Clock(seconds, stop), report).run()


def answer_layout(project: Project, seconds: float, stop: Stop, _report: Callable[[object], None]) -> LeastLayout:
    """The least layout, as `core.packing.process.Solver` asks for it."""
    return least_layout(project, seconds, stop)


def at_home(found: LeastLayout, project: Project) -> LeastLayout:
    """A layout that comes from another process, on the project's own sheets instead of equal ones."""
    own = {stock.id: stock for stock in project.sheets}
    layout = found.layout
    misfits = tuple(
        msgspec.structs.replace(misfit, stock=own[misfit.stock.id]) if misfit.stock else misfit
        for misfit in layout.misfits
    )
    stocks = tuple(own[stock.id] for stock in layout.stocks)
    return msgspec.structs.replace(found, layout=msgspec.structs.replace(layout, stocks=stocks, misfits=misfits))


def is_better(found: LeastLayout, plan: Plan) -> bool:
    """Is the layout better than a plan's own, by more than the order nets lie in?"""
    value = rank(plan)
    return found.rank[: len(value)] < value


def at_once(plan: Plan) -> Proof | None:
    """What is known of a plan's layout without any search, where no better one can be there; None elsewhere.

    One sheet with everything in one band: neither sheets nor bands can be fewer.
    """
    priced = all_priced(plan.project)
    value = rank(plan)
    if any(value[:2]) or len(plan.sheets) > 1 or value[4] > 1 or (priced and len(plan.project.sheets) > 1):
        return None
    cost = _cost(plan, priced)
    return Proof(len(plan.sheets), cost, cost, priced)


class _Search:
    """One project being laid out."""

    def __init__(self, project: Project, clock: Clock, report: Report | None) -> None:
        self.project, self.clock, self.report = project, clock, report
        self.priced = all_priced(project)
        self.shapes = shapes_of(project)
        self.sizes = [shape.size for shape in self.shapes]
        self.fixed = any(shelf.at is not None for shelf in project.shelves)
        self.seen: set[Layout] = set()
        self.best: Plan = best_plan(project)
        self.rank: Key = (*rank(self.best), disorder(self.best.layout))
        self.seen.add(self.best.layout)
        wanted = Wanted(project, self.shapes, self.priced)
        self.hopeless, self.demand = wanted.hopeless, wanted.demand
        self.orders = Orders(project, self.sizes, self.priced, wanted.frames)
        self.groups = groups(self.demand)
        self.bounds = [wood_bound(self.demand, group) for group in self.groups]
        self.short = any(bound == float("inf") for bound in self.bounds)

    def run(self) -> LeastLayout:
        """See least_layout."""
        self._tell()
        for step in (partial(self._try_bands, FIRST_PLANS), self._pack, self._share, self._climb, self._pack_sticks):
            if self._open():
                step()
        self._try_bands(max(1, PLANS // max(1, len(self.sizes))))
        if self._open():
            self._share(LONG_SECONDS)
        return self._found()

    # What is known

    @property
    def bound(self) -> float:
        """No layout of everything costs less."""
        return 0.0 if self.short else sum(self.bounds)

    @property
    def lacking(self) -> int:
        """Shelves and frame parts without room."""
        return int(self.rank[0] + self.rank[1])

    def _open(self) -> bool:
        """May a cheaper layout, or one in which more fits, be there, and is there time to look for it?"""
        if self.clock.over():
            return False
        if self.lacking:
            return self.lacking > self.hopeless and not self.short
        return self.rank[3] > self.bound + CLOSE

    def _found(self) -> LeastLayout:
        cost = float(self.rank[3])
        settled = not self.lacking or self.hopeless > 0 or self.short
        proof = Proof(len(self.best.sheets), cost, min(cost, self.bound), self.priced, self.lacking, settled)
        return LeastLayout(self.best.layout, proof, self.rank)

    def _tell(self) -> None:
        if self.report is not None:
            self.report(self._found())

    # Candidates

    def _try(self, layout: Layout) -> bool:
        """Make a plan of a layout and keep it if it is better. Returns whether it was."""
        if layout in self.seen:
            return False
        self.seen.add(layout)
        plan = plan_of(self.project, self.shapes, layout)
        value = (*rank(plan), disorder(layout))
        if value >= self.rank:
            return False
        self.best, self.rank = plan, value
        self._tell()
        return True

    def _try_bands(self, most: int) -> None:
        """Layouts in bands, the likeliest first."""
        for (missing, _, cost, *_), layout in self.orders.plain(self.clock)[:most]:
            if self.clock.over() or (missing, cost) > (self.rank[0], self.rank[3] + CLOSE):
                return
            self._try(layout)

    def _climb(self) -> None:
        """Layouts in bands with more and more room for frame parts; the last ones may have room for all of them.

        Only where sharing could not look at every layout.
        """
        if not (self.fixed or self.lacking or len(self.groups) > 1 or len(self.sizes) > FEW_NETS):
            return
        goal = self.bound if not self.lacking else float("inf")
        climbed = list(self.orders.climb(goal + CLOSE, self.clock))
        for _, layout in climbed[::-1][:FIRST_PLANS]:
            if self._open():
                self._try(layout)

    def _share(self, seconds: float = SHARE_SECONDS) -> None:
        """Every way to share nets and long frame parts among fewer sheets: rules them out, or finds a layout."""
        from core.layout.proven.packed import layout_of
        from core.layout.proven.sharing import Sharing

        clock = self.clock.part(seconds)
        for number, group in enumerate(self.groups):
            others = sum(self.bounds) - self.bounds[number]
            cost, failed = self.rank[3] - others, 0
            for ways in Sharing(self.demand, group, clock).cheaper(self.bounds[number], cost):
                failed += 1
                if ways is None or failed > SHARES or not self._open():
                    break
                for shared in ways if not self.fixed and len(self.groups) == 1 else ():
                    if self._open():
                        self._try(layout_of(self.project, self.sizes, self.demand, [shared], False))
            if not failed:
                self.bounds[number] = max(self.bounds[number], cost)
        self._tell()

    def _pack_sticks(self) -> None:
        """The same with all long frame parts packed too: the last resort."""
        self._pack(sticks=True)

    def _pack(self, sticks: bool = False) -> None:
        """An exact bound, and layouts, from packing the nets; sticks: from packing long frame parts along with them."""
        from core.layout.proven.packed import Packed, layout_of

        clock = self.clock.part(STICK_SECONDS if sticks else self.clock.left())
        packed = [Packed(self.demand, group) for group in self.groups]
        for number, one in enumerate(packed):
            one.pack(clock, sticks)
            if not sticks and not one.short:
                one.look()
            self.bounds[number] = max(self.bounds[number], one.bound)
            self.short = self.short or one.short
        self._tell()
        if self.fixed or not all(one.sheets for one in packed):
            return
        for number in range(1, 1 + max(len(one.sheets) for one in packed)):
            chosen = [one.sheets[-min(number, len(one.sheets))] for one in packed]
            for regain in (not sticks, sticks):
                if self._open():
                    self._try(layout_of(self.project, self.sizes, self.demand, chosen, regain))
