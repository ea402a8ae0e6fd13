"""Plywood thickness and weight against published tables."""

import pytest

from core.stock.panel import BIRCH_DENSITY, category_range, panel_mass, sanded_range

INCH = 25.4


@pytest.mark.parametrize(
    ("category", "least", "most"),
    [
        (15 / 32, 0.438, 0.500),
        (1 / 2, 0.469, 0.531),
        (19 / 32, 0.563, 0.625),
        (5 / 8, 0.594, 0.656),
        (23 / 32, 0.688, 0.750),
        (3 / 4, 0.719, 0.781),
        (1, 0.950, 1.050),
    ],
)
def test_performance_categories(category: float, least: float, most: float) -> None:
    """PS 1 thickness limits as summarised by the publisher of the standard's trademark (unsanded), in inches."""
    low, high = category_range(category * INCH)
    assert low / INCH == pytest.approx(least, abs=0.0006)  # printed to three decimals
    assert high / INCH == pytest.approx(most, abs=0.0006)


@pytest.mark.parametrize(
    ("nominal", "plus", "minus"),
    [(12, 0.56, 0.76), (15, 0.65, 0.85), (18, 0.74, 0.94), (21, 0.83, 1.03), (24, 0.92, 1.12)],
)
def test_sanded_plywood(nominal: float, plus: float, minus: float) -> None:
    """The form of EN 315 as printed in a summary of GB/T 9846; a birch mill's own table rounds it to 0.1 mm."""
    low, high = sanded_range(nominal)
    assert high - nominal == pytest.approx(plus, abs=0.005)
    assert nominal - low == pytest.approx(minus, abs=0.005)


@pytest.mark.parametrize(("length", "width", "mass"), [(2440, 1220, 36.7), (3050, 1525, 57.3)])
def test_a_sheet_of_birch_weighs_what_its_data_sheet_says(length: float, width: float, mass: float) -> None:
    """18 mm birch plywood, data sheet: 685 kg/m3, masses of two sheet sizes printed to 0.1 kg."""
    assert panel_mass(length, width, 18.0, BIRCH_DENSITY) == pytest.approx(mass, abs=0.1)
