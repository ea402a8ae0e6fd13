"""Screws, brackets, beams and panels of the load estimate against published numbers; the source beside each.

NDS: the North American design rules of 2018, as transcribed where it is said so; "computed" values come from the
equations named beside them, not from a printed cell.
"""

from __future__ import annotations

import pytest

from core.lengths import INCH_MM
from core.stock.panel import BIRCH_DENSITY, panel_mass
from core.strength import european, imperial, statics
from core.strength.load import FOOT
from core.strength.yielding import Dowel, yield_loads

SCREWS = {6: 0.138, 8: 0.164, 10: 0.190, 12: 0.216, 14: 0.242}  # NDS Appendix L3, nominal diameters [in]
PER_INCH = {  # 2850 G^2 D, NDS eq. 12.2-2, computed [lb/in]
    0.35: (48, 57, 66, 75, 84),
    0.42: (69, 82, 96, 109, 122),
    0.50: (98, 117, 135, 154, 172),
}
LAGS = (1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4)  # [in]
LAG_PER_INCH = {  # NDS Table 12.2A, read in a scan of its page 77 [lb/in]
    0.35: (132, 156, 179, 222, 262, 300),
    0.42: (173, 205, 235, 291, 344, 395),
    0.50: (225, 266, 305, 378, 447, 513),
}
SHEARS = {  # NDS 12.3.1, computed; side member 0.5, 0.75, 1.5 in, penetration 10 D, both members of one wood
    (0.50, 0.5): (59, 73, 90, 110, 120),
    (0.50, 0.75): (72, 88, 107, 126, 135),
    (0.50, 1.5): (72, 92, 117, 147, 163),
    (0.42, 0.5): (48, 59, 73, 91, 99),
    (0.42, 0.75): (56, 69, 83, 100, 108),
    (0.42, 1.5): (61, 78, 99, 125, 138),
}
# They are whole pounds, with bearing strengths to 50 psi as the rules' table has them (unrounded ones come out up to
# 0.7 lb off). Two No. 6 cells of G 0.42 come out a little past the half: 47.46 for 48 and 56.53 for 56.
WHOLE_POUND = 0.55
ROOTS = {6: 0.113, 8: 0.131, 10: 0.152, 12: 0.171, 14: 0.196}  # NDS Appendix L3 [in]
YIELDS = {6: 1e5, 8: 9e4, 10: 8e4, 12: 8e4, 14: 7e4}  # NDS Appendix I, by nominal diameter [psi]


@pytest.mark.parametrize("gravity", PER_INCH)
def test_withdrawal_of_wood_screws(gravity: float) -> None:
    for d, pounds in zip(SCREWS.values(), PER_INCH[gravity], strict=True):
        assert imperial.wood_screw_withdrawal(gravity, d) == pytest.approx(pounds, abs=0.51)


@pytest.mark.parametrize("gravity", LAG_PER_INCH)
def test_withdrawal_of_lag_screws(gravity: float) -> None:
    for d, pounds in zip(LAGS, LAG_PER_INCH[gravity], strict=True):
        assert imperial.lag_screw_withdrawal(gravity, d) == pytest.approx(pounds, abs=0.5)


def test_a_lag_screw_of_a_solved_example() -> None:
    """American Wood Council solved example E2.3, as reproduced by an open finite-element library's checks."""
    per_inch = imperial.lag_screw_withdrawal(0.55, 0.5)
    assert per_inch == pytest.approx(436.6, rel=1e-3)
    assert per_inch * 2.1875 * imperial.POUND == pytest.approx(4247.94, rel=1e-3)
    in_stud = (4.0 - 1.5) * INCH_MM  # 4 in long through 1-1/2 in; its tip of 5/16 in (Table L2) holds nothing
    assert imperial.withdrawal(0.55, 0.5 * INCH_MM, in_stud) == pytest.approx(0.9 * 4247.94, rel=1e-3)


def test_a_screw_for_good_is_pulled_with_nine_tenths() -> None:
    """No. 10, G 0.42, 1.5 in of thread: 574 N with the duration factor 0.9 of NDS Table 2.3.2, computed."""
    assert imperial.withdrawal(0.42, 0.190 * INCH_MM, 1.5 * INCH_MM) == pytest.approx(574.0, rel=5e-3)
    assert tuple(imperial.DURATIONS.values()) == (0.9, 1.0, 1.15, 1.25, 1.6)  # NDS Table 2.3.2, transcribed


def test_wood_screws_hold_nothing_in_end_grain_and_lag_screws_three_quarters() -> None:
    """NDS 12.2.2.3 and Table 11.3.1 (end grain 0.75), transcribed; penetration of 6 D at least."""
    d = 0.190 * INCH_MM
    assert imperial.withdrawal(0.42, d, 40.0, end_grain=True) == 0.0
    lag = [imperial.withdrawal(0.42, 12.7, 90.0, end_grain=end) for end in (True, False)]
    assert lag[0] == pytest.approx(0.75 * lag[1])
    assert imperial.withdrawal(0.42, d, 5.9 * d) == 0.0 < imperial.withdrawal(0.42, d, 6.0 * d)


@pytest.mark.parametrize(("gravity", "side"), SHEARS)
def test_lateral_values(gravity: float, side: float) -> None:
    for no, pounds in zip(SCREWS, SHEARS[gravity, side], strict=True):
        main = 10.0 * SCREWS[no] - SCREWS[no]
        found = imperial.lateral_modes(side, main, 0.0, ROOTS[no], YIELDS[no], (gravity, gravity))
        assert found == pytest.approx(pounds, abs=WHOLE_POUND)


def test_the_lateral_value_that_is_printed() -> None:
    """NDS Table 12L: No. 10, G 0.50, side 1/2 in: 90 lb, mode IIIs; transcribed."""
    found = imperial.lateral_modes(0.5, 1.71, 0.0, 0.152, 8e4, (0.5, 0.5))
    assert found == pytest.approx(90.0, abs=0.5)
    dowel = Dowel(imperial.bearing(0.5) * 0.152, imperial.bearing(0.5) * 0.152, 8e4 * 0.152**3 / 6.0)
    modes = yield_loads(dowel, 0.5, 1.71, 0.0)
    assert min(modes, key=lambda mode: modes[mode]) == "IIIs"


def test_a_nail_by_the_same_equations() -> None:
    """0.148 in, side 3/4 in, G 0.50, 3 in long: 105 lb, NDS Table 12N, read in two transcriptions."""
    assert imperial.lateral_modes(0.75, 2.25, 0.0, 0.148, 9e4, (0.5, 0.5)) == pytest.approx(105.1, abs=0.5)


@pytest.mark.parametrize(("no", "gap", "pounds"), [(10, 0.0, 83.4), (10, 0.5, 51.6), (14, 0.0, 108.0), (14, 0.5, 68.6)])
def test_wall_board_is_a_gap(no: int, gap: float, pounds: float) -> None:
    """The general dowel equations with a gap, computed for G 0.42, side 3/4 in."""
    found = imperial.lateral_modes(0.75, 9.0 * SCREWS[no], gap, ROOTS[no], YIELDS[no], (0.42, 0.42))
    assert found == pytest.approx(pounds, rel=0.005)


@pytest.mark.parametrize(("angle", "pounds"), [(0, 80.0), (45, 102.7), (90, 143.3)])
def test_combined_loading(angle: float, pounds: float) -> None:
    """NDS eq. 12.4-1 with W'p 143.3 lb and Z' 80 lb, computed."""
    assert imperial.combined(143.3, 80.0, angle) == pytest.approx(pounds, abs=0.1)


@pytest.mark.parametrize(
    ("d", "thread", "strength", "force", "design"),
    [
        (6, 40, 15.921, 2866, 1323),
        (6, 60, 15.289, 4128, 1905),
        (8, 60, 13.240, 6355, 2933),
        (8, 80, 12.865, 8234, 3800),
    ],
)
def test_european_withdrawal(d: float, thread: float, strength: float, force: float, design: float) -> None:
    """EN 1995-1-1 (8.38) to (8.40), density 350, computed; no printed example could be read."""
    assert european.withdrawal_strength(d, thread, 350.0) == pytest.approx(strength, abs=0.001)
    assert european.characteristic_withdrawal(d, thread, 350.0) == pytest.approx(force, abs=0.6)
    assert european.withdrawal(350.0, d, thread) == pytest.approx(design, abs=0.6)


def test_bolts_of_a_bracket() -> None:
    """A textbook of machine component design, sample problem 10.4: 144 kN, highest bolt 87.27 kN."""
    low, *high = statics.pulls(144.0 * 500.0, (100.0, 400.0, 400.0))
    assert low == pytest.approx(21.82, rel=1e-3)
    assert high == pytest.approx([87.27, 87.27], rel=1e-3)
    assert statics.pulls(12.0 * 400.0, (50.0, 50.0, 375.0, 375.0))[-1] == pytest.approx(6.288, rel=1e-3)  # computed


def test_books_on_one_row_of_screws() -> None:
    """25 lb a foot (a state programme's book load), 250 mm deep, studs at 16 in, screws 60 mm up: 308.9 N, statics."""
    load = 25.0 * FOOT * 9.80665 * 0.4064
    books = 25.0 * FOOT
    assert books == pytest.approx(37.20, rel=1e-3)
    assert load == pytest.approx(148.3, rel=2e-3)
    assert statics.pulls(load * 125.0, (60.0,))[0] == pytest.approx(308.9, rel=2e-3)
    assert statics.pulls(1.0, (60.0,))[0] == 2.0 * statics.pulls(1.0, (120.0,))[0]


def test_worked_beams() -> None:
    """Formula sheets: 6 m, 2 kN/m, 200 GPa, 8e-6 m4 sags 21 mm (printed); a 5 m cantilever, 25 MN m2, 4.06 mm."""
    assert statics.span_sag(2.0, 6000.0, 200e3 * 8e6) == pytest.approx(21.094, abs=0.01)
    tip = statics.overhang_sag(0.5, 5000.0, 25e12) + statics.tip_sag(1500.0, 5000.0, 25e12)
    assert tip == pytest.approx(4.0625, rel=1e-3)
    assert statics.overhang_moment(0.5, 5000.0) + 1500.0 * 5000.0 == pytest.approx(13.75e6, rel=1e-3)
    more = statics.overhang_sag(0.4, 6000.0, 81.6e12) + statics.tip_sag(800.0, 6000.0, 81.6e12)
    assert more == pytest.approx(1.5, rel=1e-3)  # an exercise of the same tutorial, its answer recomputed


@pytest.mark.parametrize(("stiffness", "sag"), [(10048.0, 1.168), (7452.0, 1.575)])
def test_sag_of_a_strip_of_birch_plywood(stiffness: float, sag: float) -> None:
    """300 x 17.6 mm over 800 mm under 0.3 N/mm, mean stiffness of a data sheet after the Finnish handbook; computed."""
    assert statics.span_sag(0.3, 800.0, stiffness * 300.0 * 17.6**3 / 12.0) == pytest.approx(sag, rel=2e-3)


def test_weight_of_a_sheet() -> None:
    """The same data sheet: 36.7 kg for 18 x 1220 x 2440 mm, 57.3 kg for 3050 x 1525 mm."""
    assert panel_mass(2440.0, 1220.0, 18.0, BIRCH_DENSITY) == pytest.approx(36.7, abs=0.05)
    assert panel_mass(3050.0, 1525.0, 18.0, BIRCH_DENSITY) == pytest.approx(57.3, abs=0.1)
