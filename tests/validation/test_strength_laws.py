"""Laws of the load estimate: what helps never lowers it, what hurts never raises it."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Mount, Project, Screw, Sheet, Shelf
from core.frame.studs import screw_heights
from core.plan.make import make_plan
from core.strength import statics
from core.strength.estimate import STRIP, Case, Place, allowed, capacities, estimate, limits, together
from core.strength.load import shown
from tests.conftest import examples

CLOSE = 1e-6  # kg: what the search for the load leaves
PLACES: tuple[Place, ...] = ("spread", "front")


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Frames on walls, of every sensible size."""

    def size(low: float, high: float) -> float:
        return draw(st.floats(low, high))

    length, depth, rail, t = size(500, 2400), size(2.0 * STRIP, 400), size(20, 120), size(12, 25)
    studs, ribs, diameter = draw(st.integers(1, 6)), draw(st.integers(2, 12)), size(3.5, 8.0)
    count = draw(st.integers(1, 4))
    return Case(
        rules=draw(st.sampled_from(("imperial", "european"))),
        length=length,
        depth=depth,
        height=rail + 2.0 * t,
        shell=t,
        own=size(1, 30),
        own_reach=depth / 2.0,
        rail=(t, draw(st.integers(1, 3)), rail),
        rib=(depth - 2.0 * t, t),
        ribs=tuple(length * (n + 0.3) / ribs for n in range(ribs)),
        studs=tuple(length * (n + 0.5) / studs for n in range(studs)),
        heights=screw_heights(rail, diameter, count),
        diameter=diameter,
        thread=size(0, 60),
        board=size(0, 16),
        gravity=size(0.31, 0.73),
    )


def never_lower(better: Case, worse: Case) -> None:
    """Both loads of the one are at least those of the other, under the usual limit too."""
    one, other = estimate(better), estimate(worse)
    assert one.spread >= other.spread - CLOSE
    assert one.front >= other.front - CLOSE
    for a, b in zip(shown(better)[:2], shown(worse)[:2], strict=True):
        assert a >= b - CLOSE


@settings(max_examples=examples(60, 2000))
@given(cases())
def test_more_screws_to_a_stud(case: Case) -> None:
    more = screw_heights(case.rail[2], case.diameter, len(case.heights) + 1)
    never_lower(msgspec.structs.replace(case, heights=more), case)


@settings(max_examples=examples(60, 2000))
@given(cases(), st.floats(1.0, 60.0))
def test_a_higher_rail_of_the_same_weight(case: Case, more: float) -> None:
    rail = (*case.rail[:2], case.rail[2] + more)
    heights = screw_heights(rail[2], case.diameter, len(case.heights))
    never_lower(msgspec.structs.replace(case, rail=rail, heights=heights, height=case.height + more), case)


@settings(max_examples=examples(60, 2000))
@given(cases(), st.floats(0.5, 0.99))
def test_a_shorter_depth(case: Case, share: float) -> None:
    depth = max(STRIP, case.depth * share)
    rib = (max(1.0, depth - (case.depth - case.rib[0])), case.rib[1])
    shorter = msgspec.structs.replace(
        case, depth=depth, own_reach=depth / 2.0, own=case.own * depth / case.depth, rib=rib
    )
    if depth <= case.rail[0] * case.rail[1] + 1.0:
        return  # no room behind the rail
    never_lower(shorter, case)
    for place in PLACES:
        before, after = limits(case, place), limits(shorter, place)
        assert all(after[what] >= before[what] - CLOSE for what in before)


@settings(max_examples=examples(60, 2000))
@given(cases(), st.floats(0.1, 20.0))
def test_a_heavier_shell(case: Case, more: float) -> None:
    never_lower(case, msgspec.structs.replace(case, own=case.own + more))


@settings(max_examples=examples(60, 2000))
@given(cases())
def test_the_front_edge_never_carries_more_than_the_whole_depth(case: Case) -> None:
    spread, front, _ = shown(case)
    assert 0.0 <= front <= spread + CLOSE


def project(**changes: Any) -> Project:
    shelf = Shelf(id="ledge", length=1320.0, depth=210.0, height=84.0, mount=Mount(x=300.0, top=1400.0))
    sheet = Sheet(id="A", length=2440.0, width=1220.0)
    return Project(sheets=(sheet,), shelves=(msgspec.structs.replace(shelf, **changes),))


def test_a_plan_has_the_estimate_and_says_so() -> None:
    plan = make_plan(project())
    (load,) = plan.loads
    assert load.shelf == "ledge"
    assert load.spread_kg > load.front_edge_kg > 0.0
    assert load.factor > 1.0
    assert [(f.severity, f.about) for f in plan.findings if f.code == "load"] == [("note", "ledge")]


def test_nothing_is_said_of_a_shelf_without_a_place_or_without_studs() -> None:
    for plan in (make_plan(project(mount=None)), make_plan(project(length=300.0, mount=Mount(x=230.0, top=1400.0)))):
        assert not plan.loads
        assert {"not-mounted", "no-stud"} & {f.code for f in plan.findings}
        assert "load" not in {f.code for f in plan.findings}


def test_screws_with_too_little_thread_carry_nothing() -> None:
    """NDS 12.1.5.6 and EN 1995-1-1 8.7.2 (3): six diameters at least, from transcriptions."""
    short = msgspec.structs.replace(project(), screw=Screw(length=45.0))
    assert [load.spread_kg for load in make_plan(short).loads] == [0.0]


@pytest.mark.parametrize(("x", "far"), [(300.0, False), (580.0, True)])
def test_an_end_far_past_the_last_stud_is_told(x: float, far: bool) -> None:
    """At most 16 in and a quarter of the length: common practice."""
    plan = make_plan(project(mount=Mount(x=x, top=1400.0), length=1320.0 if not far else 1000.0))
    first, last = plan.frames[0].studs[0], plan.frames[0].studs[-1]
    length = plan.project.shelves[0].length
    beyond = max(first - x, x + length - last)
    told = [f.amount for f in plan.findings if f.code == "overhang"]
    assert bool(told) is (beyond > min(406.4, length / 4.0)) is far
    if far:
        assert told == [pytest.approx(beyond - min(406.4, length / 4.0))]


@settings(max_examples=examples(60, 2000))
@given(cases(), st.sampled_from(PLACES))
def test_what_governs_is_the_least_of_all_limits(case: Case, place: Place) -> None:
    """Looked for in two ways: each limit by itself, and no farther than where another one is used up before."""
    every = limits(case, place)
    load, governs = allowed(case, place)
    assert load == pytest.approx(min(every.values()), rel=1e-6, abs=CLOSE)
    assert every[governs] == pytest.approx(load, rel=1e-6, abs=CLOSE)
    stopped, _ = allowed(case, place, over=load)
    assert stopped >= load - CLOSE  # nothing alone allows less
    assert allowed(case, place, over=load / 2.0)[0] == load


@settings(max_examples=examples(60, 2000))
@given(cases(), st.sampled_from(PLACES))
def test_pull_and_shear_together_use_up_a_screw_at_their_limit(case: Case, place: Place) -> None:
    """At the limit all of a screw is used up, under it less, unless pull or shear alone end it before."""
    every = limits(case, place)
    together_kg = every["screws, pull and shear together"]
    alone = min(every["screw withdrawal"], every["screw shear"])
    assert together_kg <= alone + CLOSE
    if 0.0 < together_kg < alone - CLOSE:
        at = [used_up(case, place, share * together_kg) for share in (0.5, 0.99, 1.0)]
        assert at[2] == pytest.approx(1.0, abs=1e-6)
        assert max(at[:2]) < 1.0


def used_up(case: Case, place: Place, kilograms: float) -> float:
    """Share of its busiest screw that a load uses up, from the parts: levers, shares, both ways of a screw."""
    load, own = kilograms * 2.0 * 9.80665, case.own * 9.80665
    reach = case.depth / 2.0 if place == "spread" else case.depth
    moment = (own * case.own_reach + load * reach) * case.stud_share
    pulled = statics.pulls(moment, case.heights)[-1] / 0.85
    sheared = (own + load) * case.weight_share / len(case.heights)
    return together(case.rules, pulled, sheared, *capacities(case))
