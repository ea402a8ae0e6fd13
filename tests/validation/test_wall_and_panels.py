"""What the plan reads of walls, beams, brackets and panels, against published numbers; the source beside each."""

from __future__ import annotations

from itertools import pairwise

import pytest
from msgspec.structs import replace

from core.document.model import Mount, Project, Screw, Sheet, Shelf, Studs, Wall
from core.frame.remarks import WIDEST_SPACING
from core.frame.studs import stud_lines
from core.lengths import INCH_MM
from core.plan.make import make_plan
from core.stock import panel
from core.stock.stud import STUD_DEPTH
from core.strength import statics
from core.strength.estimate import ARM
from core.strength.load import DISHES, FOOT, STUD_PITCH
from core.wall.services import CABLE_DEPTH
from tests.frame.asked import mounted

PSI = 0.00689476  # MPa


# The wall


def test_a_stud_is_a_two_by_four() -> None:
    """1-1/2 x 3-1/2 in, sold in millimetres as 38 x 89 (a course note, transcribed)."""
    assert Wall().stud_width == pytest.approx(1.5 * INCH_MM, abs=0.15)
    assert pytest.approx(3.5 * INCH_MM, abs=0.15) == STUD_DEPTH


def test_studs_stand_at_16_inches() -> None:
    """16 in, 406.4 mm, is the widest for bearing walls of 2 x 4 under a floor (a trade journal's figure after a code
    table, transcribed; codes print 406): the file's own studs, and what counts as close ones."""
    lines = stud_lines(Wall(), 0.0, 3000.0)
    assert {round(b - a, 6) for a, b in pairwise(lines)} == {406.4}
    assert Studs().spacing == STUD_PITCH == WIDEST_SPACING == 16.0 * INCH_MM


@pytest.mark.parametrize(("board", "deep"), [(1 / 2, 44.45), (5 / 8, 47.625)])
def test_a_screw_warns_from_the_depth_at_which_cables_may_lie(board: float, deep: float) -> None:
    """Board + 1-1/4 in: 1-3/4 and 1-7/8 in behind the wall's face. The 1-1/4 in (31.75 mm, printed 31.8) is that of
    the National Electrical Code 300.4(A)(1), read in a trade magazine's text of it."""
    assert CABLE_DEPTH == 31.75
    assert pytest.approx(board * INCH_MM + 31.75, abs=0.005) == deep
    for more, told in ((0.0, False), (0.1, True)):
        length = 18.2 + board * INCH_MM + 31.75 + more  # through a back rail of 18.2
        job = mounted(1320.0, 210.0, 84.0, units="mm", screw=Screw(length=length))
        job = replace(job, wall=replace(job.wall, board=board * INCH_MM))
        assert ("cable-line" in {f.code for f in make_plan(job).findings}) is told


# Brackets and beams


def test_books_on_one_row_of_screws_step_by_step() -> None:
    """25 lb a foot over 250 mm, studs at 16 in: 18.53 N m at each; 60 mm of arm: 69.4 lb of pull. Statics."""
    moment = 25.0 * FOOT * 9.80665 * 0.4064 * 125.0
    assert moment == pytest.approx(18.53e3, rel=2e-3)
    assert statics.pulls(moment, (60.0,))[0] / 4.44822 == pytest.approx(69.4, rel=2e-3)


def test_such_a_shelf_is_never_for_books() -> None:
    """A state programme's load of books is 25 lb a foot of shelf (an engineer's posting): no ceiling comes near."""
    assert 25.0 * FOOT > 2.0 * DISHES


def test_the_arm_is_taken_shorter_than_it_is() -> None:
    """0.85 of it: the edge that it turns about crushes. From geometry, no number is published."""
    assert ARM == 0.85


def test_a_cantilever_with_both_loads() -> None:
    """7.5 m, 25,000 kN m2, 6.5 kN/m and 15 kN at the end (an open textbook's exercise): 187.2 mm and 295.3 kN m,
    computed."""
    sag = statics.overhang_sag(6.5, 7500.0, 25e12) + statics.tip_sag(15e3, 7500.0, 25e12)
    assert sag == pytest.approx(187.2, rel=1e-3)
    assert statics.overhang_moment(6.5, 7500.0) + 15e3 * 7500.0 == pytest.approx(295.3e6, rel=1e-3)


def test_a_timber_joist() -> None:
    """2 x 10 of Southern pine over 16 ft under 77.3 lb/ft: 20.843 mm in an open finite element library's own checks,
    20.90 by the formula with E 1.4e6 psi, I 98.93 in4."""
    stiffness = 1.4e6 * PSI * 98.93 * INCH_MM**4
    sag = statics.span_sag(77.3 * 14.5939 / 1000.0, 16.0 * 12.0 * INCH_MM, stiffness)
    assert sag == pytest.approx(20.90, abs=0.01)
    assert sag == pytest.approx(20.843, rel=4e-3)


def test_the_greatest_moment_of_a_span() -> None:
    """w L^2 / 8, formula sheets: 2 kN/m over 6 m is 9 kN m."""
    assert statics.span_moment(2.0, 6000.0) == pytest.approx(9e6)


# Panels

BIRCH = {  # nominal mm: plies, kg/m2, E along, E across, f across [MPa]; a data sheet after the Finnish handbook
    9: (7, 6.1, 11395, 6105, 32.1),
    12: (9, 8.2, 10719, 6781, 33.2),
    15: (11, 10.2, 10316, 7184, 33.8),
    18: (13, 12.2, 10048, 7452, 34.1),
    21: (15, 14.3, 9858, 7642, 34.3),
}


def laminated(plies: int) -> tuple[float, float]:
    """E in bending along and across: 17,500 along each veneer, nothing across, 1.4 mm inside, sanded faces 1.1."""
    layers = [1.1, *([1.4] * (plies - 2)), 1.1]
    total, low, along = sum(layers), -sum(layers) / 2.0, 0.0
    for n, thick in enumerate(layers):
        along += ((low + thick) ** 3 - low**3) / 3.0 if n % 2 == 0 else 0.0
        low += thick
    share = along / (total**3 / 12.0)
    return 17_500.0 * share, 17_500.0 * (1.0 - share)


@pytest.mark.parametrize("nominal", BIRCH)
def test_the_published_stiffness_is_that_of_its_veneers(nominal: int) -> None:
    """All ten values of the table to the printed integer; and what the estimate counts on is less than any along."""
    plies, _, along, across, _ = BIRCH[nominal]
    assert laminated(plies) == pytest.approx((along, across), abs=1.0)
    assert along + across == 17_500
    assert along > panel.PLYWOOD_STIFFNESS


@pytest.mark.parametrize("nominal", BIRCH)
def test_panels_are_never_reckoned_lighter_than_the_table(nominal: int) -> None:
    published = BIRCH[nominal][1]
    mass = panel.panel_mass(1000.0, 1000.0, float(nominal), panel.BIRCH_DENSITY)
    assert published <= mass <= 1.015 * published


def test_the_strength_is_that_of_18_mm_the_weak_way_for_good() -> None:
    """34.1 N/mm2, k_mod 0.6 and gamma_M 1.2 (EN 1995-1-1)."""
    assert pytest.approx(BIRCH[18][4] * 0.6 / 1.2) == panel.PLYWOOD_STRENGTH


def test_plywood_is_reckoned_to_hold_a_screw_no_better_than_the_lightest() -> None:
    """400 to 700 kg/m3 in general (a supplier, transcribed)."""
    assert panel.PLYWOOD_DENSITY == 400.0
    assert pytest.approx(0.42, abs=0.02) == panel.PLYWOOD_GRAVITY
    assert panel.BIRCH_DENSITY == 685.0


def test_own_weight_is_that_of_birch() -> None:
    """The demo of the file's description, by hand: whole show faces of 18.2 mm at 685 kg/m3, and the frame's parts."""
    shelf = Shelf("ledge", 1320.0, 210.0, 84.0, mount=Mount(300.0, 1400.0))
    plan = make_plan(Project((Sheet("A", 2440.0, 1220.0),), (shelf,)))
    faces = 2.0 * 1320.0 * 210.0 + 1320.0 * 84.0 + 2.0 * 210.0 * 84.0
    parts = sum(part.length * part.width * part.thickness for part in plan.frames[0].parts)
    assert plan.loads[0].own_kg == pytest.approx((faces * 18.2 + parts) * 685e-9, rel=1e-9)
