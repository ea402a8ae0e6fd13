"""Lengths from bars: least cost first, then the largest single rest.

    answer = cut_bars(BarQuestion((Length(1232.8, 2), Length(170.6, 9)), (Bar(2430.0),), kerf=2.2))
    answer.bars[0].counts, answer.cost.proven, answer.rest.note

For small jobs every pattern is listed and HiGHS chooses; larger ones go through column generation, dives, and the
patterns that the relaxation's prices leave possible.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from core.packing.answer import Reach
from core.packing.bounds import bars_needed
from core.packing.clock import Clock, Stop, never
from core.packing.cover import Cover, Pattern
from core.packing.fill import quick
from core.packing.grid import whole, whole_costs
from core.packing.knapsack import BarPricer
from core.packing.least import Least, least_cost
from core.packing.rest import Rested, longest_rest

SAME = 1e-4  # mm: rests nearer than this are equal


class Length(msgspec.Struct, frozen=True):
    """A part: its length and how many are wanted. [mm]"""

    length: float
    count: int = 1


class Bar(msgspec.Struct, frozen=True):
    """A kind of stock: its length, what one costs (≥ 0), how many there are (None: as many as needed). [mm]"""

    length: float
    cost: float = 1.0
    count: int | None = None


class BarQuestion(msgspec.Struct, frozen=True):
    """Which parts from which bars, with a saw's kerf between them. [mm]"""

    parts: tuple[Length, ...]
    bars: tuple[Bar, ...]
    kerf: float = 0.0


class CutBar(msgspec.Struct, frozen=True):
    """One bar: which stock, how often each part (number, times), and the rest behind the last cut. [mm]"""

    bar: int
    counts: tuple[tuple[int, int], ...]
    rest: float


class BarAnswer(msgspec.Struct, frozen=True):
    """The bars, fullest first. missing: how many of each part found no room, all 0 unless stock is short."""

    bars: tuple[CutBar, ...]
    missing: tuple[int, ...]
    cost: Reach
    rest: Reach  # the longest single rest [mm]


def cut_bars(question: BarQuestion, seconds: float = 10.0, stop: Stop = never, *, rest: bool = True) -> BarAnswer:
    """Bars for all parts at least cost, and among those with the longest single rest, as far as the time allows.

    Sizes > 0, counts ≥ 0, kerf ≥ 0. Parts that fit no bar, and what limited stock cannot hold, come back as missing.
    Ends soon after `stop` says so or the time is up; HiGHS may overrun, see core.packing.process.
    rest: without it the rest is left as it falls.
    """
    clock = Clock(seconds, stop)
    lengths, bars, step = whole([p.length for p in question.parts], [b.length for b in question.bars], question.kerf)
    costs, _ = whole_costs([b.cost for b in question.bars])
    cover = _cover(question, lengths, bars, costs)
    best = _least(cover, clock)
    short = any(cover.missing(best.patterns))
    if rest and not short:
        rested = longest_rest(cover, best, step, clock)
    else:
        rested = Rested(best.patterns, 0, max(bars, default=0))
    cut = sorted((_cut(question, p) for p in rested.patterns), key=lambda bar: bar.rest)
    spent = sum(question.bars[bar.bar].cost for bar in cut)
    bound = spent if best.proven else spent * best.bound / best.cost if not short else 0.0
    longest = max((bar.rest for bar in cut), default=0.0)
    thinkable = max(longest, rested.bound * step - question.kerf)
    missing = [
        p.count - n + m for p, n, m in zip(question.parts, cover.demand, cover.missing(rested.patterns), strict=True)
    ]
    return BarAnswer(
        tuple(cut),
        tuple(missing),
        Reach(spent, bound, best.proven),
        Reach(longest, thinkable, best.proven and thinkable - longest < SAME),
    )


def _cover(question: BarQuestion, lengths: Sequence[int], bars: Sequence[int], costs: Sequence[int]) -> Cover:
    """The question in whole steps; parts that fit no bar are not asked for."""
    limits = tuple(bar.count for bar in question.bars)
    usable = [bar for bar, limit in zip(bars, limits, strict=True) if limit != 0]
    longest = max(usable, default=0)
    demand = tuple(p.count if length <= longest else 0 for p, length in zip(question.parts, lengths, strict=True))
    return Cover.of(demand, costs, limits, lengths, bars)


def _least(cover: Cover, clock: Clock) -> Least:
    bound = 0
    if cover.alike and any(cover.demand):
        bound = bars_needed(cover.sizes, cover.demand, cover.rooms[0]) * cover.costs[0]
    start: list[Pattern] | None = None
    for patterns in quick(cover):
        if start is None or cover.cost(patterns) < cover.cost(start):
            start = patterns
        if cover.cost(start) <= bound or clock.over():
            break
    return least_cost(cover, BarPricer(cover), start or [], bound, clock)


def _cut(question: BarQuestion, pattern: Pattern) -> CutBar:
    taken = sum((question.parts[part].length + question.kerf) * times for part, times in pattern.counts)
    return CutBar(pattern.stock, pattern.counts, max(0.0, question.bars[pattern.stock].length - taken))
