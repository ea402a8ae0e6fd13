import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from core.drawing.hatch import clipped_lines, hatch_lines
from core.drawing.style import CROSSED, FRAME, KEPT, WASTE, Hatch

L_SHAPE = ((0.0, 0.0), (90.0, 0.0), (90.0, 30.0), (40.0, 30.0), (40.0, 70.0), (0.0, 70.0))


@given(st.floats(0.0, 180.0), st.floats(0.3, 1.5))
def test_lines_times_spacing_is_the_area(angle: float, spacing: float) -> None:
    """Cavalieri's principle: evenly spaced sections times their spacing approach the area."""
    length = sum(LineString(line).length for line in clipped_lines(L_SHAPE, angle, spacing))
    polygon = Polygon(L_SHAPE)
    assert length * spacing == pytest.approx(polygon.area, abs=polygon.length * spacing)


@given(st.floats(0.0, 180.0))
def test_lines_stay_inside(angle: float) -> None:
    polygon = Polygon(L_SHAPE).buffer(1e-6)
    assert all(polygon.contains(LineString(line)) for line in clipped_lines(L_SHAPE, angle, 4.0))


@pytest.mark.parametrize("hatch", [WASTE, FRAME, KEPT, CROSSED])
def test_neighbours_join_up(hatch: Hatch) -> None:
    """A square hatched whole and in two halves has the same length of lines."""

    def length(points: tuple[tuple[float, float], ...]) -> float:
        return sum(LineString(line).length for line in hatch_lines(points, hatch, 0.7))

    whole = length(((0, 0), (100, 0), (100, 100), (0, 100)))
    left = length(((0, 0), (37, 0), (37, 100), (0, 100)))
    right = length(((37, 0), (100, 0), (100, 100), (37, 100)))
    assert left + right == pytest.approx(whole)


def test_each_hatch_can_be_told_from_the_others() -> None:
    kinds = {(hatch.angles, bool(hatch.pair)) for hatch in (WASTE, FRAME, KEPT, CROSSED)}
    assert len(kinds) == 4
