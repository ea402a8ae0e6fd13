"""Studs the frame covers, drivers' ways, screws."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.document.model import FrameWish, Mount, Screw, Shelf, Studs, Wall
from core.frame import driver_way, frame_left, sold_name, stud_lines
from core.frame.studs import (
    least_slide,
    reachable_room,
    screw_heights,
    screws_that_fit,
    sold_length,
)
from core.lengths import Unit
from tests.frame.asked import INCH, built, mounted

EVEN = Wall(width=3000.0, studs=Studs(200.0, 400.0))


def test_even_studs_go_from_the_first_to_the_walls_end():
    assert stud_lines(EVEN, -1000.0, 9000.0) == (200.0, 600.0, 1000.0, 1400.0, 1800.0, 2200.0, 2600.0, 3000.0)
    assert stud_lines(EVEN, 600.0, 1000.0) == (600.0, 1000.0)
    assert stud_lines(EVEN, 601.0, 999.0) == ()


def test_a_list_of_studs_may_be_in_any_order():
    wall = Wall(studs=(900.0, 100.0, 500.0, 500.0))
    assert stud_lines(wall, 0.0, 3000.0) == (100.0, 500.0, 900.0)


def test_no_studs_where_the_room_is_turned_round():
    assert stud_lines(EVEN, 1000.0, 600.0) == ()
    assert stud_lines(Wall(studs=(700.0,)), 1000.0, 600.0) == ()


def test_the_frame_starts_at_the_mount_where_an_end_is_open():
    mount = Mount(300.0, 1400.0)
    assert frame_left(Shelf("s", 1000.0, 200.0, 80.0), mount, 18.0, 25.0) == 343.0
    assert frame_left(Shelf("s", 1000.0, 200.0, 80.0, left="open"), mount, 18.0, 25.0) == 325.0


def test_studs_used_clear_the_end_ribs_by_the_drivers_way():
    """One rib of 20 at each end, way 10 + 12 + 5 = 27: studs from 10 + 27 to as much from the other end."""
    screw, wish = Screw(access_hole=24.0, clear=5.0), FrameWish(end_layers=1)
    assert driver_way(screw, 20.0) == 27.0
    assert reachable_room(500.0, 20.0, wish, screw) == (37.0, 463.0)


@given(st.lists(st.floats(0.0, 3000.0), max_size=12, unique=True), st.floats(0.0, 1500.0))
def test_every_stud_with_its_way_clear_is_used_and_no_other(studs, x):
    project = mounted(1320.0, 210.0, 84.0, x, wall_studs=tuple(studs))
    frame = built(project).frame
    assert frame is not None
    left, way = x + 18.2 + 25.4, driver_way(project.screw, 18.2)
    ends = (frame.ribs[1], frame.ribs[-2])  # innermost of the doubled ends
    inside = {s for s in studs if ends[0] + way <= s - left <= ends[1] - way}
    near = {s for s in studs if min(abs(ends[0] + way - s + left), abs(ends[1] - way - s + left)) < 1e-6}
    assert inside - near <= set(frame.studs) <= inside | near
    assert [screw.x + left for screw in frame.screws] == pytest.approx(list(frame.studs))


def test_one_screw_at_half_height_more_of_them_high_and_low():
    assert screw_heights(46.0, 5.0, 1) == (23.0,)
    assert screw_heights(46.0, 5.0, 2) == (10.0, 36.0)
    assert screw_heights(46.0, 5.0, 3) == (10.0, 23.0, 36.0)


@given(st.floats(20.0, 200.0), st.floats(3.0, 10.0), st.integers(1, 10))
def test_screws_stay_off_the_edges(height, diameter, count):
    heights = screw_heights(height, diameter, count)
    assert len(heights) == count
    assert list(heights) == sorted(set(heights))
    assert heights[0] >= min(2 * diameter, height / 4) - 1e-9
    assert heights[0] == pytest.approx(height - heights[-1])
    if 1 < count <= screws_that_fit(height, diameter):
        assert min(b - a for a, b in pairwise(heights)) >= 3 * diameter - 1e-6


def test_two_quarter_inch_screws_from_a_rail_of_1_3_4_on():
    """Common practice."""
    assert screws_that_fit(1.75 * INCH, INCH / 4) == 2
    assert screws_that_fit(1.70 * INCH, INCH / 4) == 1


@pytest.mark.parametrize(
    ("least", "unit", "sold"),
    [
        (69.0, Unit.MM, 70.0),
        (69.0, Unit.INCH, 70.0),  # sold as 2-3/4 in, which is 69.85
        (69.9, Unit.INCH, 3.0 * INCH),  # ... and too short now
        (70.0, Unit.MM, 70.0),
        (70.1, Unit.MM, 80.0),  # 3 in is not a metric size
        (301.0, Unit.MM, None),
    ],
)
def test_screws_are_rounded_up_to_what_is_sold(least, unit, sold):
    assert sold_length(least, unit) == sold


def test_what_the_shop_calls_a_screw():
    assert (sold_name(70.0, Unit.INCH), sold_name(70.0, Unit.MM)) == ('2-3/4"', "70 mm")
    assert sold_name(71.0, Unit.INCH) is None


@given(st.floats(10.0, 299.0), st.sampled_from(Unit))
def test_a_sold_screw_is_long_enough_by_either_name(least, unit):
    sold = sold_length(least, unit)
    assert sold is not None
    assert sold >= least - 1e-6
    name = sold_name(sold, unit)
    assert name is not None


def test_a_slide_brings_two_studs_into_the_room():
    """Room 500 to 950: the studs at 600 and 1000 come in after 50 to the right; 200 and 600 after 300 to the left."""
    assert least_slide(EVEN, (500.0, 950.0), (-500.0, 500.0)) == (50.0, 100.0)
    assert least_slide(EVEN, (500.0, 950.0), (-500.0, 40.0)) == (-350.0, -300.0)
    assert least_slide(EVEN, (500.0, 899.0), (-500.0, 500.0)) is None  # narrower than the studs are apart
