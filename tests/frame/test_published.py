"""Worked examples, and what makers commonly do. Sources stand beside each."""

from __future__ import annotations

from itertools import pairwise

import pytest

from core.document.model import Shelf
from core.frame import cavity_of, driver_way
from core.frame.studs import sold_length
from core.lengths import Unit, show_length
from tests.frame.asked import INCH, asked, built, mounted


def test_cavity_inch_example():
    """Worked by hand from L - 2 t, D - t, H - 2 t: 60 x 10 x 2-1/2 in, sheet 0.719 in."""
    cavity = cavity_of(Shelf("s", 60 * INCH, 10 * INCH, 2.5 * INCH), 0.719 * INCH)
    assert cavity.height / INCH == pytest.approx(1.062, abs=1e-9)
    assert cavity.depth / INCH == pytest.approx(9.281, abs=1e-9)
    assert cavity.length / INCH == pytest.approx(58.562, abs=1e-9)


def test_cavity_metric_example():
    """Worked by hand: 1800 x 250 x 60, sheet 17.8."""
    cavity = cavity_of(Shelf("s", 1800.0, 250.0, 60.0), 17.8)
    assert (cavity.height, cavity.depth, cavity.length) == pytest.approx((24.4, 232.2, 1764.4), abs=1e-9)


def test_frame_inch_example():
    """The same shelf: 1/32 in less high, 3/16 less deep, 1/4 less long than its cavity, wall rail doubled, to 1/32."""
    project = asked(
        60 * INCH, 10 * INCH, 2.5 * INCH,
        sheet_thickness=0.719 * INCH, frame_back_layers=2,
        frame_height_play=INCH / 32, frame_front_play=3 * INCH / 16, frame_side_play=INCH / 8,
    )  # fmt: skip
    frame = built(project).frame
    assert frame is not None
    sizes = (frame.height, frame.depth, frame.length, frame.rib_length)
    shown = [show_length(size, Unit.INCH, marks=False) for size in sizes]
    assert shown == ['1-1/32"', '9-3/32"', '58-5/16"', '6-15/16"']


def test_the_sample_of_the_file_contract():
    """The sample plan that the file's description prints (to 0.1 mm)."""
    frame = built(mounted(1320.0, 210.0, 84.0, units="in")).frame
    assert frame is not None
    assert (frame.length, frame.depth, frame.height) == pytest.approx((1232.8, 188.8, 46.1))
    assert frame.ribs[:2] == pytest.approx((9.1, 27.3))
    assert frame.studs == pytest.approx((606.4, 1012.8, 1419.2))
    assert frame.screws[0].x == pytest.approx(262.8)
    assert frame.screws[0].height == pytest.approx(23.0, abs=0.06)
    assert frame.screws[0].length == 70.0
    back = frame.parts[0]
    assert (back.id, back.role) == ("ledge/back rail", "back rail")
    assert (back.length, back.width, back.thickness) == pytest.approx((1232.8, 46.1, 18.2))


@pytest.mark.parametrize("ply", [0.703, 0.719])
def test_a_3_in_shelf_in_3_4_ply_takes_strips_of_about_1_1_2_in(ply):
    """Common practice; 0.703 to 0.719 in is what sheets sold as 3/4 in measure."""
    frame = built(asked(60 * INCH, 9 * INCH, 3 * INCH, sheet_thickness=ply * INCH)).frame
    assert frame is not None
    assert frame.parts[0].width / INCH == pytest.approx(1.5, abs=1 / 16)


def test_ribs_every_8_to_9_in_and_ends_doubled():
    """Common practice, for shelves of 6 to 8 ft; shorter ones come out closer, never wider."""
    for feet in (6.0, 6.5, 7.0, 7.5, 8.0):
        frame = built(asked(feet * 12 * INCH, 9 * INCH, 3 * INCH)).frame
        assert frame is not None
        gaps = [(b - a) / INCH for a, b in pairwise(frame.ribs)]
        assert gaps[0] * INCH == pytest.approx(frame.thickness)  # side by side
        assert gaps[-1] * INCH == pytest.approx(frame.thickness)
        assert all(8.0 <= gap <= 9.0 + 1e-9 for gap in gaps[1:-1])


def test_about_1_in_of_play_at_each_side():
    """Common practice."""
    frame = built(asked(60 * INCH, 9 * INCH, 3 * INCH)).frame
    assert frame is not None
    assert (frame.cavity[0] - frame.length) / 2 == pytest.approx(1.0 * INCH)


def test_no_rib_within_1_3_4_in_of_a_stud_screw():
    """Common practice: half a driver's body (2-3/4 in) and half a rib (3/4 in)."""
    least = 1.75 * INCH
    for x in range(0, 420, 7):
        project = mounted(
            1600.0, 9 * INCH, 3 * INCH, float(x),
            sheet_thickness=0.75 * INCH, screw_access_hole=2.75 * INCH, screw_clear=0.0,
        )  # fmt: skip
        assert driver_way(project.screw, 0.75 * INCH) == pytest.approx(least)
        frame = built(project).frame
        assert frame is not None
        assert frame.screws
        assert min(abs(rib - screw.x) for rib in frame.ribs for screw in frame.screws) >= least - 1e-9


@pytest.mark.parametrize(
    ("rails", "board", "tile", "sold"),
    [
        (1.5, 0.5, 0.0, 3.5 * INCH),  # 1-1/2 + 1/2 + 1-1/2: a 3-1/2 in screw
        (1.5, 0.5, 0.375, 4.0 * INCH),  # 3-7/8: a 4 in screw
    ],
)
def test_screw_lengths_by_hand(rails, board, tile, sold):
    """Common practice: rails + board + tile + 1-1/2 in in the stud, the next length sold (to 2 mm: 4 in is 100 mm)."""
    assert sold_length((rails + board + tile + 1.5) * INCH, Unit.INCH) == pytest.approx(sold, abs=2.0)
