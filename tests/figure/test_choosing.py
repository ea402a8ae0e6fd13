"""Nets turned end for end where they lie, and nets that swap places."""

from __future__ import annotations

import msgspec
import pytest

from core.document.model import KeepClear, Project, Sheet, Shelf
from core.figure.choosing import exchanged, no_exchange, turned_over
from core.figure.places import seam_places
from core.layout.pin import placed_net, rect_of
from core.plan.make import make_plan
from core.plan.model import Plan

SHEET = Sheet("A", 2440.0, 1220.0, quantity=2)
LONG, SHORT, THIRD = Shelf("long", 900.0, 200.0, 64.0), Shelf("short", 600.0, 200.0, 64.0), Shelf("third", 800, 150, 60)


def plan_of(*shelves: Shelf, sheet: Sheet = SHEET) -> Plan:
    return make_plan(Project((sheet,), shelves))


def places(plan: Plan) -> dict[str, tuple[str, float, float]]:
    return {net.shelf: (net.sheet, round(net.x, 6), round(net.y, 6)) for net in plan.nets}


def test_turned_over_every_net_stays_and_the_seams_lie_the_other_way_round() -> None:
    plan = plan_of(LONG, SHORT, THIRD)
    after = make_plan(turned_over(plan, ("long", "third")))
    assert places(after) == places(plan)
    assert [shelf.turned for shelf in after.project.shelves] == [True, False, True]
    assert [shelf.at for shelf in after.project.shelves] == [None] * 3, "nothing is pinned that need not be"
    net = placed_net(plan, "long")
    assert net is not None
    before, now = ({p.seam: p for p in seam_places(one, "long")} for one in (plan, after))
    for name, place in now.items():
        middle = 2.0 * (net.y if place.runs == "x" else net.x) + (net.width if place.runs == "x" else net.length)
        assert place.low == pytest.approx(middle - before[name].high)
        assert place.high == pytest.approx(middle - before[name].low)
    assert turned_over(after, ("long", "third")) == plan.project


def test_a_net_that_another_layout_would_move_is_pinned() -> None:
    """An area that only the front keeps out of: upright the net lies at the lower edge, turned it could not."""
    area = KeepClear(((0.0, 0.0), (180.0, 0.0), (180.0, 290.0), (0.0, 290.0)), "bruise", "faces")
    shelf = Shelf("one", 900.0, 200.0, 64.0, left="open", ends_from="top")
    plan = plan_of(shelf, sheet=msgspec.structs.replace(SHEET, keep_clear=(area,)))
    after = make_plan(turned_over(plan, ("one",)))
    assert places(after) == places(plan)


def test_two_in_one_band_swap_and_take_no_more_room() -> None:
    plan = plan_of(LONG, SHORT)
    assert placed_net(plan, "long").y == placed_net(plan, "short").y  # type: ignore[union-attr]
    after = make_plan(exchanged(plan, "long", "short"))
    assert not after.errors
    first, second = (rect_of(net) for shelf in ("short", "long") if (net := placed_net(after, shelf)))
    assert first[0] == pytest.approx(SHEET.trim)
    assert second[0] == pytest.approx(first[2] + plan.project.saw.kerf)
    assert second[2] == pytest.approx(max(net.x + net.length for net in plan.nets))
    again = make_plan(exchanged(after, "short", "long"))
    assert places(again) == places(plan)


def test_two_in_bands_one_over_the_other_swap_and_the_third_stays() -> None:
    plan = plan_of(LONG, SHORT, THIRD)
    after = make_plan(exchanged(plan, "third", "long"))
    assert not after.errors
    assert places(after)["short"] == places(plan)["short"]
    assert places(after)["third"][2] != places(plan)["third"][2]


def test_what_does_not_fit_is_told_not_hidden() -> None:
    """A long net and a short one beside others: the long one is laid there all the same, and the plan says why not."""
    wide = Shelf("wide", 1900.0, 150.0, 60.0)
    plan = plan_of(LONG, SHORT, wide, sheet=msgspec.structs.replace(SHEET, quantity=1))
    assert not plan.errors
    after = make_plan(exchanged(plan, "wide", "short"))
    assert {finding.about for finding in after.errors} & {"wide", "short", "long"}


def test_over_two_copies_one_is_pinned_and_the_other_left_free() -> None:
    deep = Shelf("deep", 1400.0, 480.0, 80.0)
    plan = plan_of(deep, msgspec.structs.replace(deep, id="other", length=1440.0))
    assert [sheet for sheet, _, _ in places(plan).values()] == ["A1", "A2"]
    after = make_plan(exchanged(plan, "deep", "other"))
    assert not after.errors
    assert {name: place[0] for name, place in places(after).items()} == {"deep": "A2", "other": "A1"}


def test_why_not_is_said() -> None:
    plan = plan_of(LONG, Shelf("huge", 4000.0, 200.0, 64.0))
    assert "huge" in no_exchange(plan, "long", "huge")
    with pytest.raises(ValueError, match="huge"):
        exchanged(plan, "long", "huge")
    with pytest.raises(KeyError):
        turned_over(plan, ("nobody",))
