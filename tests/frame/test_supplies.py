"""What the frames need beside their wood, counted by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from core.document.model import Project, Screw
from core.frame.studs import SOLD_LENGTHS
from core.plan.make import make_plan
from core.plan.model import Supply
from tests.frame.asked import INCH, mounted


def needed(project: Project) -> dict[str, Supply]:
    return {supply.what: supply for supply in make_plan(project).supplies}


def test_screws_have_their_size_and_one_stands_at_each_mark() -> None:
    """Thickness 18.2 + board 12.7 + bite 38.1 = 69.0: sold as 70 mm, or 2-3/4 in; the shelf catches three studs."""
    assert needed(mounted(1320.0, 210.0, 84.0))["screw 4.83 × 70 mm"].quantity == 3
    thick = mounted(1320.0, 210.0, 84.0, units="in", screw=Screw(diameter=INCH / 4, per_stud=2))
    assert needed(thick)['screw 1/4" × 2-3/4"'].quantity == 6


def test_lock_screws_have_a_length_that_is_sold() -> None:
    """Sheet 18.2 + play 1.5 + bite 12 = 31.7: 35 mm, or 1-3/8 in. Three for each shelf, through its own sheet."""
    plain = mounted(1320.0, 210.0, 84.0, units="mm")
    assert needed(plain)["lock screw 4 × 35 mm"].quantity == 3
    assert "31.7 mm" in needed(plain)["lock screw 4 × 35 mm"].basis
    assert needed(replace(plain, units="in"))['lock screw No. 8 × 1-3/8"'].quantity == 3
    thick = replace(plain.sheets[0], id="thick", thickness=25.0)
    shelves = (plain.shelves[0], replace(plain.shelves[0], id="b", height=98.0, sheet="thick"))
    shelves += (replace(shelves[1], id="c"),)
    two = replace(plain, sheets=(replace(plain.sheets[0], quantity=3), replace(thick, quantity=3)), shelves=shelves)
    assert needed(two)["lock screw 4 × 35 mm"].quantity == 3
    assert needed(two)["lock screw 4 × 40 mm"].quantity == 6


@given(st.floats(9.0, 40.0), st.floats(0.0, 6.0), st.sampled_from(("in", "mm")))
def test_no_lock_screw_is_too_short_or_comes_through_the_frame(sheet: float, play: float, units: str) -> None:
    """Every one is named as the shop names it, holds 12 mm, and ends inside a frame of 20 mm and more."""
    inches = {name: min(mm or inch, inch) for mm, name, inch in SOLD_LENGTHS}
    names = inches if units == "in" else {f"{mm:g} mm": mm for mm, _, _ in SOLD_LENGTHS if mm is not None}
    job = mounted(1320.0, 250.0, 2.0 * sheet + 30.0, units=units, sheet_thickness=sheet, frame_height_play=play)
    plan = make_plan(job)
    (lock,) = (s.what for s in plan.supplies if s.what.startswith("lock"))
    length = names[lock.rpartition(" × ")[2]]
    assert length >= sheet + play + 12.0 - 1e-3
    assert length < sheet + play + plan.frames[0].height


def test_brads_are_two_at_each_joint_and_long_enough() -> None:
    """A rib meets the back and the front rail: 4 brads each, 18.2 + 20 = 38.2 mm long at least: 1-5/8 in, 40 mm."""
    plan = make_plan(mounted(1320.0, 210.0, 84.0))
    ribs = len(plan.frames[0].ribs)
    assert {s.what: s.quantity for s in plan.supplies if s.what.startswith("brad")} == {"brad 40 mm": 4 * ribs}
    bare = mounted(1320.0, 210.0, 84.0, frame_front_layers=0)
    assert needed(bare)["brad 40 mm"].quantity == 2 * ribs


def test_glue_is_the_area_of_all_joints() -> None:
    """By hand, one end rib and single rails: each rib has two ends of 18.2 x the frame's height; 200 g/m2 and a tenth,
    rounded up to 5 g. A doubled back rail adds a face of the whole rail."""
    plain = make_plan(mounted(1320.0, 210.0, 84.0, frame_end_layers=1))
    frame = plan_frame = plain.frames[0]
    grams = 2 * len(frame.ribs) * 18.2 * frame.height * 1e-6 * 220.0
    glue = next(s for s in plain.supplies if "glue" in s.what)
    assert 0.0 <= glue.quantity * 1000.0 - grams <= 5.0
    doubled = next(
        s for s in make_plan(mounted(1320.0, 210.0, 84.0, frame_end_layers=1, frame_back_layers=2)).supplies
        if "glue" in s.what
    )  # fmt: skip
    more = plan_frame.length * plan_frame.height * 1e-6 * 220.0
    assert (doubled.quantity - glue.quantity) * 1000.0 == pytest.approx(more, abs=5.0)


def test_every_supply_has_its_basis_and_a_number() -> None:
    for units in ("mm", "in"):
        supplies = make_plan(mounted(1320.0, 210.0, 84.0, units=units)).supplies
        assert all(s.basis and s.quantity > 0 for s in supplies)
        assert {"screw", "lock", "brad", "glue"} <= {s.what.split()[0] for s in supplies}


def test_without_frames_nothing_is_needed_for_them() -> None:
    low = mounted(1320.0, 210.0, 50.0)
    assert all(s.what.startswith("sheet") for s in make_plan(low).supplies)
    off = replace(low, shelves=(replace(low.shelves[0], height=84.0, mount=None),))
    assert not any(what.startswith("screw") for what in needed(off))
