"""Sizes, strengths and equations that the screws of the load estimate rest on; the source beside each.

NDS: the North American design rules of 2018. "Transcribed": read in somebody's transcription of it; "computed": from
its equations, the cell itself was not read.
"""

from __future__ import annotations

from math import sqrt

import pytest

from core.lengths import INCH_MM
from core.strength import european, imperial
from core.strength.load import thread_in_stud
from core.strength.yielding import Dowel, yield_loads

POUND_PER_INCH = 0.175127  # N/mm
SIZES = {6: (0.138, 0.113), 8: (0.164, 0.131), 10: (0.190, 0.152), 12: (0.216, 0.171), 14: (0.242, 0.196)}
PER_MM = {  # 2850 G^2 D, computed [N/mm], Nos. 6 to 14
    0.35: (8.44, 10.03, 11.62, 13.21, 14.80),
    0.42: (12.15, 14.44, 16.73, 19.02, 21.31),
    0.50: (17.22, 20.46, 23.71, 26.95, 30.20),
}
LAGS = (1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4)  # [in]
LAG_PER_MM = {  # NDS Table 12.2A, read in a scan of its page 77 in pounds per inch, here in N/mm
    0.35: (23.12, 27.32, 31.35, 38.88, 45.88, 52.54),
    0.42: (30.30, 35.90, 41.15, 50.96, 60.24, 69.18),
    0.50: (39.40, 46.58, 53.41, 66.20, 78.28, 89.84),
}
TIPS = {1 / 4: 5 / 32, 5 / 16: 3 / 16, 3 / 8: 7 / 32, 1 / 2: 5 / 16}  # NDS Table L2, transcribed [in]
BENDING = {0.099: 1e5, 0.138: 1e5, 0.164: 9e4, 0.190: 8e4, 0.216: 8e4, 0.242: 7e4}  # NDS Appendix I, transcribed [psi]


def test_diameters_and_roots_of_wood_screws() -> None:
    """NDS Appendix L3, transcribed."""
    assert tuple(SIZES.values()) == imperial.ROOTS
    assert [imperial._root(d) for d, _ in SIZES.values()] == pytest.approx([root for _, root in SIZES.values()])


@pytest.mark.parametrize(("diameter", "psi"), BENDING.items())
def test_bending_yield_strength(diameter: float, psi: float) -> None:
    """0.099 to 0.142 in 100 ksi, to 0.177 in 90, to 0.236 in 80, to 0.273 in 70: NDS Appendix I, transcribed."""
    assert imperial._yields(diameter) == psi
    assert imperial._yields(0.273) == 7e4


def test_what_wood_bears_under_a_thin_dowel() -> None:
    """NDS Table 12.3.3: 16600 G^1.84, tabulated to 50 psi: 4650 for G 0.50, transcribed."""
    assert imperial.bearing(0.50) == 4650.0
    assert imperial.bearing(0.50) == pytest.approx(16600.0 * 0.50**1.84, abs=25.0)


@pytest.mark.parametrize("gravity", PER_MM)
def test_wood_screws_hold_for_each_millimetre(gravity: float) -> None:
    """Through the way the plan asks: for good (0.9), 2 in of thread, which is six diameters of each size."""
    for (d, _), each in zip(SIZES.values(), PER_MM[gravity], strict=True):
        held = imperial.withdrawal(gravity, d * INCH_MM, 2.0 * INCH_MM)
        assert held / (2.0 * INCH_MM) / 0.9 == pytest.approx(each, abs=0.006)


@pytest.mark.parametrize("gravity", LAG_PER_MM)
def test_lag_screws_hold_for_each_millimetre(gravity: float) -> None:
    for d, each in zip(LAGS, LAG_PER_MM[gravity], strict=True):
        held = imperial.lag_screw_withdrawal(gravity, d) * POUND_PER_INCH
        assert held == pytest.approx(each, abs=0.5 * POUND_PER_INCH)  # the table has whole pounds


def test_a_no_10_screw_step_by_step() -> None:
    """G 0.42: 95.5 lb/in (16.73 N/mm); 1.5 in of it for good 129.0 lb (574 N), computed."""
    assert imperial.wood_screw_withdrawal(0.42, 0.190) == pytest.approx(95.5, rel=5e-3)
    assert imperial.withdrawal(0.42, 0.190 * INCH_MM, 1.5 * INCH_MM) / imperial.POUND == pytest.approx(129.0, rel=5e-3)


def test_no_lag_screw_is_given_more_thread_than_its_tip_leaves() -> None:
    """Tapered tip E of NDS Table L2, transcribed: what is taken off is never less than it."""
    for d, tip in TIPS.items():
        assert imperial.TIP_SHARE * d >= tip - 1e-9
        assert imperial.TIP_SHARE * d <= 1.25 * tip


@pytest.mark.parametrize("length", [40.0, 70.0, 90.0, 120.0])
def test_two_thirds_of_a_screw_are_threaded(length: float) -> None:
    """NDS Appendix L3: thread is at least 2/3 of the length, transcribed; no more is ever counted on."""
    assert thread_in_stud(length, 0.0) == pytest.approx(2.0 * length / 3.0)
    assert thread_in_stud(length, length - 10.0) == pytest.approx(10.0)


@pytest.mark.parametrize("diameters", [6.0, 8.0, 9.5])
def test_a_screw_in_shear_that_is_not_deep_enough_holds_in_proportion(diameters: float) -> None:
    """NDS Table 12L footnote: p / 10 D between 6 D and 10 D, transcribed; mode IIIs does not change with depth."""
    d = 0.190 * INCH_MM

    def held(times: float) -> float:
        return imperial.lateral((0.5, 0.5), d, INCH_MM / 2.0, times * d, 0.0)

    assert held(diameters) == pytest.approx(held(10.0) * diameters / 10.0, rel=1e-6)
    assert held(5.9) == 0.0


@pytest.mark.parametrize("gravity", [0.35, 0.42, 0.50])
@pytest.mark.parametrize("diameter", [d for d, _ in SIZES.values()])
def test_design_values_keep_well_below_what_tears_out(gravity: float, diameter: float) -> None:
    """Ultimate withdrawal 15700 G^2 D (a wood handbook's chapter on fastenings, from memory, high certainty) is 5.509
    times the design value; 8100 G^1.5 D^0.75 of a lag screw 4.50 times, computed."""
    ultimate = 15_700.0 * gravity**2 * diameter
    assert ultimate / imperial.wood_screw_withdrawal(gravity, diameter) == pytest.approx(5.509, abs=0.001)
    lag = 8_100.0 * gravity**1.5 * diameter**0.75
    assert lag / imperial.lag_screw_withdrawal(gravity, diameter) == pytest.approx(4.50, abs=0.001)


@pytest.mark.parametrize(
    ("gravity", "diameter", "inches", "pounds", "newtons"),
    [(0.42, 0.190, 1.5, 789, 3511), (0.50, 0.164, 1.0, 644, 2863)],
)
def test_ultimate_withdrawal_worked(
    gravity: float, diameter: float, inches: float, pounds: float, newtons: float
) -> None:
    """Two examples of that handbook's equation, 108.25 G^2 D L in newtons, computed: from the design value, times
    15700 / 2850."""
    design = imperial.wood_screw_withdrawal(gravity, diameter) * inches
    assert design * 15_700.0 / 2_850.0 == pytest.approx(pounds, rel=2e-3)
    assert design * 15_700.0 / 2_850.0 * imperial.POUND == pytest.approx(newtons, rel=2e-3)


# Yield modes


def of_the_rules(dowel: Dowel, side: float, main: float) -> dict[str, float]:
    """The yield limit equations of NDS Table 12.3.1A (k1, k2, k3), transcribed; not reduced. Units as you like."""
    re, rt = dowel.main / dowel.side, main / side
    k1 = (sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    bend = 6.0 * dowel.moment  # F_yb D^3: so F_yb D^2 / F_em is bend / q_m
    k2 = -1 + sqrt(2 * (1 + re) + 2 * bend * (1 + 2 * re) / (3 * dowel.main * main**2))
    k3 = -1 + sqrt(2 * (1 + re) / re + 2 * bend * (2 + re) / (3 * dowel.main * side**2))
    return {
        "Im": dowel.main * main,
        "Is": dowel.side * side,
        "II": k1 * dowel.side * side,
        "IIIm": k2 * dowel.main * main / (1 + 2 * re),
        "IIIs": k3 * side * dowel.main / (2 + re),
        "IV": sqrt(2 * dowel.main * bend / (3 * (1 + re))),
    }


@pytest.mark.parametrize("side", [0.5, 0.75, 1.5])
@pytest.mark.parametrize("main", [1.2, 1.71, 2.5])
@pytest.mark.parametrize("bears", [(0.42, 0.42), (0.42, 0.50), (0.5, 0.42), (0.55, 0.36)])
def test_without_a_gap_the_general_equations_are_those_of_the_rules(
    side: float, main: float, bears: tuple[float, float]
) -> None:
    for no, (d, root) in SIZES.items():
        one, other = (imperial.bearing(g) * root for g in bears)
        dowel = Dowel(one, other, imperial._yields(d) * root**3 / 6.0)
        found, known = yield_loads(dowel, side, main, 0.0), of_the_rules(dowel, side, main)
        assert found == pytest.approx(known, rel=1e-9), no


@pytest.mark.parametrize(("no", "gap", "pounds"), [(10, 0.625, 46.7), (14, 0.625, 62.3)])
def test_thicker_wall_board_is_a_wider_gap(no: int, gap: float, pounds: float) -> None:
    """5/8 in board, G 0.42, side 3/4 in, the general dowel equations, computed."""
    d, root = SIZES[no]
    found = imperial.lateral_modes(0.75, 9.0 * d, gap, root, imperial._yields(d), (0.42, 0.42))
    assert found == pytest.approx(pounds, rel=0.005)


@pytest.mark.parametrize(("gap", "more"), [(0.5, 1.6), (0.625, 1.8)])
def test_to_leave_the_board_out_would_overstate_by_far(gap: float, more: float) -> None:
    """About 60% with 1/2 in board, 80% with 5/8 in: computed."""
    d, root = SIZES[10]
    touching, apart = (
        imperial.lateral_modes(0.75, 9.0 * d, g, root, imperial._yields(d), (0.42, 0.42)) for g in (0.0, gap)
    )
    assert touching / apart == pytest.approx(more, abs=0.05)


def test_european_factors() -> None:
    """EN 1995-1-1: n_ef = n^0.9 (8.41), k_d = min(d / 8, 1) (8.40), k_mod 0.6 for good indoors, gamma_M 1.3."""
    one = european.characteristic_withdrawal(8.0, 60.0, 350.0)
    assert european.characteristic_withdrawal(8.0, 60.0, 350.0, 4) / one == pytest.approx(4**0.9)
    thin, thick = (european.characteristic_withdrawal(d, 60.0, 350.0) for d in (6.0, 10.0))
    assert thin / (european.withdrawal_strength(6.0, 60.0, 350.0) * 6.0 * 60.0) == pytest.approx(0.75)
    assert thick / (european.withdrawal_strength(10.0, 60.0, 350.0) * 10.0 * 60.0) == pytest.approx(1.0)
    assert european.withdrawal(350.0, 8.0, 60.0) / one == pytest.approx(0.6 / 1.3)
