"""The buying list: every quantity again by hand, from the plan."""

import itertools
from math import ceil

import msgspec
import pytest

from core.document.model import Sheet
from core.leaves.buying import BLANK, buying_table
from core.lengths import Unit
from core.plan.make import make_plan
from core.plan.model import Plan
from core.steps.steps import steps_of
from core.supplies import rates
from core.supplies.buying import (
    Purchase,
    buying_list,
    gauge_sticks,
    seam_faces,
    seam_length,
    show_area,
    spacer_places,
)
from tests.drawing.plans import hallway, plan_of


def row(plan: Plan, start: str) -> Purchase:
    return next(item for item in buying_list(plan) if item.what.startswith(start))


def test_sheets_and_screws_are_those_of_the_plan() -> None:
    plan = plan_of("hallway")
    assert row(plan, "Sheet A").quantity == len(plan.sheets)
    assert row(plan, "Wood screws").quantity == sum(len(frame.screws) for frame in plan.frames)


def test_the_screws_length_says_where_it_comes_from() -> None:
    """Rail + board + thread in the stud: 0.717 + 1/2 + 1-1/2 = 2.717 in, so 2-3/4 in is the next one sold."""
    basis = row(plan_of("hallway"), "Wood screws").basis
    assert all(words in basis for words in ('0.717"', '1/2"', '1-1/2"', '2-3/4"'))


def test_tile_is_in_the_screws_length() -> None:
    project = hallway()
    tiled = msgspec.structs.replace(project, wall=msgspec.structs.replace(project.wall, tile=9.525))
    assert '3/8" of tile' in row(make_plan(tiled), "Wood screws").basis


def test_glue_goes_on_every_bevel_face() -> None:
    """Golden shelf, 60 x 10 x 2-1/2 in at 45 degrees: seams 2 x 60 + 2 x (2-1/2 + 2 x 10) = 165 in, on both sides faces
    0.719 x sqrt 2 wide."""
    plan = plan_of("golden")
    assert seam_length(plan) == pytest.approx(165.0 * 25.4)
    assert seam_faces(plan) == pytest.approx(2.0 * 165.0 * 0.719 * 2.0**0.5 * 25.4**2)
    litres = seam_faces(plan) / 1e6 * 0.2 * 2.0 / 1.1  # 200 g/m2, sized and glued, 1.1 kg in a litre: common practice
    assert row(plan, "Wood glue").quantity == ceil(litres * 33.814)


def test_tape_runs_along_and_across_every_seam_and_over_what_chips() -> None:
    plan = plan_of("golden")
    chips = sum(step.length for step in steps_of(plan) if step.chips is not None)
    assert row(plan, "Tape").quantity == ceil((seam_length(plan) * 3.0 + chips) / 304.8)


def test_faces_are_sanded_and_oiled() -> None:
    plan = plan_of("hallway")
    area = sum(p.show[0] * p.show[1] for p in plan.panels)
    assert show_area(plan) == pytest.approx(area)
    assert row(plan, "Abrasive, grits 80, 120, 180").quantity == ceil(area / 1e6)


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("length", [120.0, 500.0, 1523.8, 2400.0])
def test_spacers_stand_near_both_ends_and_close_enough(unit: Unit, length: float) -> None:
    places = spacer_places(length, unit)
    assert places[0] == pytest.approx(length - places[-1])
    assert places[0] <= rates.SPACER_END[unit]
    steps = [b - a for a, b in itertools.pairwise(places)]
    assert max(steps) <= rates.SPACER_STEP[unit] + 1e-9
    assert max(steps) == pytest.approx(min(steps))


def test_gauge_sticks_are_those_of_the_steps_each_once() -> None:
    plan = plan_of("hallway")
    sticks = gauge_sticks(plan)
    wanted = {step.set_by.stick for step in steps_of(plan) if step.set_by.stick is not None}
    assert set(sticks) <= wanted
    assert sorted(sticks) == list(sticks)
    assert all(min(abs(stick - other) for stick in sticks) < 0.2 for other in wanted)


def test_costs_are_blank_where_no_price_is_known() -> None:
    plan = plan_of("hallway")
    assert all(BLANK in cells for cells in buying_table(plan).rows)


def test_a_price_makes_a_cost_and_a_sum() -> None:
    stock = Sheet("A", 2438.4, 1219.2, 18.2, quantity=9, price=84.5)
    plan = make_plan(hallway(sheets=(stock,)))
    count = len(plan.sheets)
    first = buying_table(plan).rows[0]
    assert first[3:5] == ("84.50", f"{84.5 * count:.2f}")
    assert any(f"{84.5 * count:.2f}" in note for note in buying_table(plan).notes)


def test_sticks_that_find_no_room_are_to_be_bought() -> None:
    crowded = hallway(sheets=(msgspec.structs.replace(hallway().sheets[0], use="shell"),))
    plan = make_plan(crowded)
    lacking = [part for frame in plan.frames for part in frame.parts if part.sheet is None]
    assert lacking
    bought = [item for item in buying_list(plan) if item.what.startswith("Frame stock")]
    total = sum(part.length for part in lacking) / 304.8
    assert total <= sum(item.quantity for item in bought) < total + len(bought)


def test_nothing_to_build_is_nothing_to_buy() -> None:
    assert buying_list(make_plan(hallway(shelves=()))) == ()
