"""Ribs: laws, and proof against exhaustive search and linear programs."""

from __future__ import annotations

from itertools import combinations_with_replacement, pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from core.frame import RibPlan, RibRefusal, place_ribs, spread
from core.frame.spread import Span, spread_ribs
from tests.conftest import examples

Ways = tuple[tuple[float, float], ...]
TOL = 1e-6


def gaps(ribs: tuple[float, ...]) -> list[float]:
    return [b - a for a, b in pairwise(ribs)]


def planned(length: float, thickness: float, layers: int, spacing: float, ways: Ways = ()) -> RibPlan:
    plan = place_ribs(length, thickness, layers, spacing, ways)
    assert isinstance(plan, RibPlan)
    return plan


def test_ends_are_doubled_and_the_rest_is_even():
    plan = planned(1000.0, 18.0, 2, 250.0)
    assert plan.ribs[:2] == pytest.approx((9.0, 27.0))
    assert plan.ribs[-2:] == pytest.approx((973.0, 991.0))
    assert gaps(plan.ribs[1:-1]) == pytest.approx([946.0 / 4] * 4)  # 946 / 250 is a little less than 4
    assert [plan.is_end(n) for n in range(len(plan.ribs))] == [True, True, False, False, False, True, True]


def test_a_span_of_whole_spacings_takes_no_rib_more():
    """The sum 27.3 + 5 x 228.6 is not exact in binary: float noise must not buy a rib."""
    for count in range(1, 40):
        plan = planned(2 * 27.3 + count * 228.6, 18.2, 2, 228.6)
        assert len(plan.ribs) == 4 + count - 1


def test_a_rib_in_a_drivers_way_moves_to_its_nearer_side():
    """End ribs at 5 and 395; the only rib's even place is 200, and 205 is just in reach of both."""
    plan = planned(400.0, 10.0, 1, 200.0, ((170.0, 205.0),))
    assert plan.ribs == pytest.approx((5.0, 205.0, 395.0))
    assert plan.shifts == pytest.approx((0.0, 5.0, 0.0))
    assert plan.extra == 0


def test_a_rib_that_moves_takes_its_neighbours_only_as_far_as_the_spacing_needs():
    """Gaps of 98 may grow to 100: a rib held 20 to the left holds those right of it by 18, 16, 14 ... mm."""
    plan = planned(10.0 + 40 * 98.0, 10.0, 1, 100.0, ((5.0 + 20 * 98.0 - 20.0, 5.0 + 20 * 98.0 + 25.0),))
    left = plan.shifts[20]
    assert left == pytest.approx(-20.0)
    assert plan.shifts[20:31] == pytest.approx([-20.0 + 2.0 * n for n in range(11)])
    assert plan.shifts[:20] == pytest.approx([0.0] * 20)  # they may stand closer


def test_one_rib_more_where_the_spacing_would_break():
    plan = planned(400.0, 10.0, 1, 200.0, ((170.0, 215.0),))
    assert len(plan.ribs) == 4
    assert plan.extra == 1
    assert max(gaps(plan.ribs)) <= 200.0 + TOL


def test_a_way_wider_than_the_spacing_is_told():
    plan = planned(400.0, 10.0, 1, 50.0, ((170.0, 230.0),))
    assert plan.wide == ((170.0, 230.0),)
    assert [gap for gap in gaps(plan.ribs) if gap > 50.0 + TOL] == pytest.approx([60.0])


@pytest.mark.parametrize(
    ("length", "thickness", "layers", "spacing", "reason"),
    [
        (72.0, 18.0, 2, 228.6, "meet"),  # four ribs side by side fill it
        (-5.0, 18.0, 1, 228.6, "meet"),
        (1000.0, 18.0, 2, 17.0, "thin"),
        (100_000.0, 0.2, 2, 0.4, "many"),
    ],
)
def test_what_no_frame_can_have_is_refused(length, thickness, layers, spacing, reason):
    refusal = place_ribs(length, thickness, layers, spacing)
    assert isinstance(refusal, RibRefusal)
    assert refusal.reason == reason


# --- against exhaustive search -------------------------------------------------------------------------------

WAYS = st.lists(st.tuples(st.integers(0, 110), st.integers(1, 14)), max_size=4).map(
    lambda pairs: tuple((float(low), float(low + width)) for low, width in pairs)
)


@st.composite
def small_case(draw: st.DrawFn) -> tuple[float, float, float, Ways]:
    """Whole numbers: length, even thickness (so that centre lines are whole), spacing, ways; one rib at each end."""
    thickness = 2 * draw(st.integers(1, 4))
    spacing = draw(st.integers(thickness, 40))
    length = draw(st.integers(2 * thickness + 1, 110))
    return float(length), float(thickness), float(spacing), draw(WAYS)


def fewest_by_search(length: float, thickness: float, spacing: float, ways: Ways) -> int | None:
    """Ribs between the ends, trying every whole place.

    Whole places are enough: with the ways' edges, thickness and spacing whole, rounding down every rib of an answer
    gives an answer (gaps stay between the same whole numbers, and no whole edge is crossed).
    """
    start, end = int(thickness / 2), int(length - thickness / 2)
    free = [x for x in range(start, end) if not any(low < x < high for low, high in ways)]
    reach = {start}
    for count in range(end - start + 1):
        if any(thickness <= end - x <= spacing for x in reach):
            return count
        reach = {y for y in free if any(thickness <= y - x <= spacing for x in reach)}
    return None


def least_moved_by_lp(start: float, end: float, case: tuple[float, float, float, Ways], count: int) -> float:
    """Least sum of shifts of `count` ribs: a linear program for each way to share the ribs out to the windows."""
    from scipy.optimize import linprog

    _, thickness, spacing, ways = case
    edges = sorted({start, end, *(x for way in ways for x in way if start < x < end)})
    windows = [(x, x) for x in edges] + list(pairwise(edges))
    windows = sorted((a, b) for a, b in windows if not any(low < (a + b) / 2 < high for low, high in ways))
    even = [start + n * (end - start) / (count + 1) for n in range(1, count + 1)]
    rows, limits = [], []
    for n in range(count):
        for sign in (1.0, -1.0):  # sign (x - even) <= moved
            rows.append([sign * (m == n) for m in range(count)] + [-1.0 * (m == n) for m in range(count)])
            limits.append(sign * even[n])
    for n in range(count - 1):
        for sign, limit in ((1.0, spacing), (-1.0, -thickness)):
            row = [sign * ((m == n + 1) - (m == n)) for m in range(count)]
            rows.append([*row, *[0.0] * count])
            limits.append(limit)
    best = float("inf")
    for choice in combinations_with_replacement(windows, count):
        bounds = [list(window) for window in choice]
        bounds[0] = [max(bounds[0][0], start + thickness), min(bounds[0][1], start + spacing)]
        bounds[-1] = [max(bounds[-1][0], end - spacing), min(bounds[-1][1], end - thickness)]
        if any(low > high for low, high in bounds):
            continue
        cost = [0.0] * count + [1.0] * count
        answer = linprog(cost, rows, limits, bounds=[*bounds, *[(0, None)] * count])
        if answer.status == 0:
            best = min(best, answer.fun)
    return best


@settings(max_examples=examples(150, 3000))
@given(small_case())
def test_fewest_ribs_as_by_exhaustive_search(case):
    length, thickness, spacing, ways = case
    plan = planned(length, thickness, 1, spacing, ways)
    fewest = fewest_by_search(length, thickness, spacing, ways)
    assert bool(plan.wide) == (fewest is None)
    if fewest is not None:
        assert len(plan.ribs) - 2 == fewest


@settings(max_examples=examples(40, 1000), suppress_health_check=list(HealthCheck))
@given(small_case())
def test_least_shifts_as_by_linear_programs(case):
    length, thickness, spacing, ways = case
    plan = planned(length, thickness, 1, spacing, ways)
    count = len(plan.ribs) - 2
    assume(not plan.wide and count <= 4 and any(plan.shifts))
    least = least_moved_by_lp(thickness / 2, length - thickness / 2, case, count)
    assert sum(map(abs, plan.shifts)) == pytest.approx(least, abs=1e-6)


@pytest.mark.parametrize(
    "case",
    [
        (87.0, 6.0, 20.0, ((58.0, 60.0), (29.0, 41.0), (56.0, 59.0), (49.0, 62.0))),
        (50.0, 2.0, 15.0, ((3.0, 16.0), (20.0, 31.0))),
        (84.0, 8.0, 18.0, ((17.0, 28.0), (64.0, 69.0), (1.0, 14.0), (46.0, 53.0))),
        (79.0, 8.0, 17.0, ((43.0, 50.0), (78.0, 80.0), (18.0, 26.0), (59.0, 67.0))),
    ],
)
def test_the_sum_of_shifts_is_least_not_the_largest_or_the_sum_of_squares(case):
    """Cases found by search where those have other answers."""
    length, thickness, spacing, ways = case
    plan = planned(length, thickness, 1, spacing, ways)
    least = least_moved_by_lp(thickness / 2, length - thickness / 2, case, len(plan.ribs) - 2)
    assert sum(map(abs, plan.shifts)) == pytest.approx(least, abs=1e-6)


def test_the_linear_programs_find_the_nearer_side():
    """One rib at 200 in a way from 170 to 205: 5 to the right, 30 to the left."""
    case = (400.0, 10.0, 200.0, ((170.0, 205.0),))
    assert least_moved_by_lp(5.0, 395.0, case, 1) == pytest.approx(5.0)


def test_one_rib_more_where_ribs_would_touch():
    """Found by search: spacing alone would do with 6 ribs, but two of them would stand less than 6 apart."""
    ways = ((1.0, 4.0), (5.0, 7.0), (10.0, 13.0), (19.0, 24.0), (30.0, 38.0), (42.0, 50.0), (55.0, 56.0), (58.0, 59.0))
    moved = tuple((low + 3.0, high + 3.0) for low, high in ways)  # the first rib stands at 3
    plan = planned(68.0, 6.0, 1, 10.0, moved)
    assert len(plan.ribs) - 2 == fewest_by_search(68.0, 6.0, 10.0, moved) == 7
    assert min(gaps(plan.ribs)) >= 6.0 - TOL


# --- laws ----------------------------------------------------------------------------------------------------


@st.composite
def real_case(draw: st.DrawFn) -> tuple[float, float, int, float, Ways]:
    thickness = draw(st.floats(9.0, 25.0))
    layers = draw(st.integers(1, 3))
    length = draw(st.floats(2 * layers * thickness + 1.0, 3000.0))
    spacing = draw(st.floats(thickness, 450.0))
    way = draw(st.floats(thickness / 2, 60.0))
    studs = draw(st.lists(st.floats(0.0, 3000.0), max_size=8))
    return length, thickness, layers, spacing, tuple((stud - way, stud + way) for stud in studs)


@settings(max_examples=examples(150, 3000))
@given(real_case())
def test_laws_of_ribs(case):
    length, thickness, layers, spacing, ways = case
    plan = place_ribs(length, thickness, layers, spacing, ways)
    assert isinstance(plan, RibPlan)
    assert plan.ribs[0] == pytest.approx(thickness / 2)
    assert plan.ribs[-1] == pytest.approx(length - thickness / 2)
    between = gaps(plan.ribs[layers - 1 : len(plan.ribs) - layers + 1])
    assert all(gap >= thickness - TOL for gap in gaps(plan.ribs))
    wide = {(round(a, 6), round(b, 6)) for a, b in plan.wide}
    for a, b in pairwise(plan.ribs[layers - 1 : len(plan.ribs) - layers + 1]):
        assert b - a <= spacing + TOL or (round(a, 6), round(b, 6)) in wide
    assert len(between) >= 1
    inner = plan.ribs[layers : len(plan.ribs) - layers]
    assert not any(low + TOL < x < high - TOL for x in inner for low, high in ways)
    assert len(plan.shifts) == len(plan.ribs)


@settings(max_examples=examples(50, 1000))
@given(real_case())
def test_ribs_do_not_care_which_end_is_called_left(case):
    length, thickness, layers, spacing, ways = case
    plan = planned(length, thickness, layers, spacing, ways)
    mirrored = planned(length, thickness, layers, spacing, tuple((length - high, length - low) for low, high in ways))
    if not plan.wide and not mirrored.wide:
        assert len(plan.ribs) == len(mirrored.ribs)
        assert sum(map(abs, plan.shifts)) == pytest.approx(sum(map(abs, mirrored.shifts)), abs=1e-5)


@settings(max_examples=examples(50, 1000))
@given(real_case())
def test_a_driver_in_the_way_never_saves_a_rib(case):
    length, thickness, layers, spacing, ways = case
    free, held = (planned(length, thickness, layers, spacing, w) for w in ((), ways))
    if not held.wide and not free.wide:
        assert len(held.ribs) >= len(free.ribs)
        assert held.extra == len(held.ribs) - len(free.ribs)


def test_places_to_try_grow_with_the_ribs_and_no_faster():
    """Spacing 228.6 against studs every 406.4: nearly every rib has to move, and some are added."""
    tried = []
    for bays in (100, 1000):
        end = bays * 228.6
        span = Span(0.0, end, 18.2, 228.6, tuple((x - 27.8, x + 27.8) for x in arange(300.0, end - 60.0, 406.4)))
        ribs = spread_ribs(span)
        assert ribs is not None
        latest = spread._latest_of(span, len(ribs))
        tried.append(sum(map(len, spread._candidates(span, span.even(len(ribs)), latest))))
    assert tried[1] < 11 * tried[0]


def arange(first: float, last: float, step: float) -> list[float]:
    return [first + n * step for n in range(int((last - first) / step) + 1)]
