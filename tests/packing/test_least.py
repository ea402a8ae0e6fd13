"""Column generation, dives and lists of patterns, from a poor start so that all of them have work to do."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.packing.clock import Clock
from core.packing.columns import generate
from core.packing.cover import Costs, Cover, Pattern
from core.packing.job import Job, PackQuestion, SheetKind
from core.packing.knapsack import BarPricer, maximal
from core.packing.least import least_cost
from core.packing.lp import Master
from core.packing.two_d import Rectangle
from tests.conftest import examples
from tests.packing.brute import Cutting, least_bars

LENGTHS = st.lists(st.integers(2, 9), min_size=1, max_size=6)


def cover_of(lengths: list[int], bars: list[tuple[int, int, int | None]]) -> Cover:
    """Each length once from bars of a length, a cost and a number."""
    rooms, costs, limits = zip(*bars, strict=True)
    return Cover.of([1] * len(lengths), costs, limits, lengths, rooms)


def singles(cover: Cover) -> list[Pattern]:
    """Each part on a bar of its own: the poorest start."""
    stock = max(range(len(cover.rooms)), key=lambda s: cover.rooms[s])
    return [Pattern(stock, ((part, 1),)) for part, n in enumerate(cover.demand) for _ in range(n)]


@settings(max_examples=examples(40, 400))
@given(LENGTHS, st.integers(9, 16))
def test_one_kind_of_bar(lengths: list[int], room: int) -> None:
    cover = cover_of(lengths, [(room, 1, None)])
    best = least_cost(cover, BarPricer(cover), singles(cover), 0, Clock(10.0))
    expected = least_bars(lengths, [(room, 1, len(lengths))], 0)
    assert expected is not None
    assert best.proven
    assert best.cost == cover.cost(best.patterns) == expected[0]
    assert all(cover.waste(pattern) >= 0 for pattern in best.patterns)


@settings(max_examples=examples(30, 300))
@given(LENGTHS, st.tuples(st.integers(9, 12), st.integers(1, 4)), st.tuples(st.integers(6, 16), st.integers(1, 4)))
def test_two_kinds_one_of_them_limited(lengths: list[int], plenty: tuple[int, int], few: tuple[int, int]) -> None:
    cover = cover_of(lengths, [(*plenty, None), (*few, 2)])
    start = [Pattern(0, ((part, 1),)) for part in range(len(lengths))]
    best = least_cost(cover, BarPricer(cover), start, 0, Clock(10.0))
    expected = least_bars(lengths, [(*plenty, len(lengths)), (*few, 2)], 0)
    assert expected is not None
    assert best.proven
    assert best.cost == expected[0]


@settings(max_examples=examples(20, 200))
@given(
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 5)), min_size=1, max_size=5),
    st.integers(6, 8),
    st.integers(5, 7),
)
def test_sheets(parts: list[tuple[int, int]], length: int, width: int) -> None:
    rectangles = tuple(Rectangle(float(x), float(y)) for x, y in parts)
    job = Job(PackQuestion(rectangles, (SheetKind(float(length), float(width)),)))
    best = least_cost(job.cover, job.pricer, singles(job.cover), 0, Clock(10.0))
    expected = Cutting(tuple(parts), 0).cheapest([(length, width, 1, len(parts))])
    assert expected is not None
    assert best.proven
    assert best.cost == expected[0]


@settings(max_examples=examples(40, 400))
@given(LENGTHS, st.integers(9, 30))
def test_the_relaxation_bounds_every_choice(lengths: list[int], room: int) -> None:
    cover = cover_of(lengths, [(room, 1, None)])
    master = Master(cover)
    for pattern in singles(cover):
        master.add(pattern)
    bounded = generate(master, BarPricer(cover), cover.demand, cover.limits, Clock(10.0))
    expected = least_bars(lengths, [(room, 1, len(lengths))], 0)
    assert expected is not None
    assert bounded.cost is not None
    assert bounded.bound <= bounded.cost + 1e-6
    assert sum(lengths) / room - 1e-6 <= bounded.bound <= expected[0] + 1e-6


@settings(max_examples=examples(40, 400))
@given(LENGTHS, st.integers(9, 30), st.floats(0.0, 1.2), st.data())
def test_every_pattern_of_worth_is_listed(lengths: list[int], room: int, need: float, data: st.DataObject) -> None:
    cover = cover_of(lengths, [(room, 1, None)])
    prices = np.array([data.draw(st.floats(0.0, 0.6)) for _ in lengths])
    listed = BarPricer(cover).within(prices, np.array([need]), 10_000, Clock(10.0), None)
    assert listed is not None
    found = {pattern.counts for pattern in listed}
    assert len(found) == len(listed)
    for times in product((0, 1), repeat=len(lengths)):
        counts = tuple((part, n) for part, n in enumerate(times) if n)
        worth = float(prices @ np.array(times))
        if counts and sum(lengths[part] for part, _ in counts) <= room and abs(worth - need) > 1e-9:
            assert (counts in found) == (worth >= need)


@settings(max_examples=examples(40, 400))
@given(LENGTHS, st.integers(9, 30))
def test_full_patterns_are_those_that_nothing_can_be_added_to(lengths: list[int], room: int) -> None:
    demand = [1] * len(lengths)
    listed = maximal(lengths, demand, [room], 10_000, Clock(10.0))
    assert listed is not None
    found = {pattern.counts for pattern in listed}
    for times in product((0, 1), repeat=len(lengths)):
        left = room - sum(length for length, n in zip(lengths, times, strict=True) if n)
        counts = tuple((part, n) for part, n in enumerate(times) if n)
        full = left >= 0 and all(n or length > left for length, n in zip(lengths, times, strict=True))
        assert (counts in found) == (full and bool(counts))


@given(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 3)), min_size=1, max_size=3), st.integers(0, 25))
def test_sums_of_costs(kinds: list[tuple[int, int]], cost: int) -> None:
    costs, limits = zip(*kinds, strict=True)
    cover = Cover.of([10], costs, limits, [1], [1] * len(kinds))
    sums = {sum(c * n for c, n in zip(costs, times, strict=True)) for times in product(*(range(n + 1) for n in limits))}
    most = max(sums)
    reckoned = Costs(cover, most)
    if cost <= most:
        least = reckoned.at_least(cost)
        assert cost <= least
        assert not any(cost <= s < least for s in sums)
    if 0 < cost <= most:
        below = reckoned.below(cost)
        assert below < cost
        assert not any(below < s < cost for s in sums)


@pytest.mark.parametrize("most", [0, 3])
def test_a_list_that_would_be_too_long_is_none(most: int) -> None:
    cover = cover_of([3, 4, 5, 6], [(12, 1, None)])
    assert BarPricer(cover).within(np.zeros(4), np.zeros(1), most, Clock(10.0), None) is None
    assert maximal([3, 4, 5, 6], [1] * 4, [12], most - 3, Clock(10.0)) is None
