"""Mitres against a published chart and Euclid."""

import pytest

from core.geometry.mitre import compound_mitre, polygon_corner
from core.geometry.seam import seam_bevel

# "Compound angle setting chart" in the owner's manual of a bench saw (public manual archive, item 276873, page 24):
# slope of the side -> (gauge angle, blade tilt) for 4, 5, 6, 8 and 10 sides, in degrees to 0.01.
CHART = {
    0: ((45.00, 0.00), (36.00, 0.00), (30.00, 0.00), (22.50, 0.00), (18.00, 0.00)),
    5: ((44.89, 3.53), (35.90, 2.94), (29.91, 2.50), (22.42, 1.91), (17.94, 1.54)),
    10: ((44.56, 7.05), (35.58, 5.86), (29.62, 4.98), (22.19, 3.81), (17.74, 3.08)),
    15: ((44.01, 10.55), (35.06, 8.75), (29.15, 7.44), (21.81, 5.68), (17.42, 4.59)),
    20: ((43.22, 14.00), (34.32, 11.60), (28.48, 9.85), (21.27, 7.52), (16.98, 6.07)),
    30: ((40.89, 20.70), (32.18, 17.09), (26.57, 14.48), (19.73, 11.03), (15.72, 8.89)),
    40: ((37.45, 27.03), (29.10, 22.20), (23.86, 18.75), (17.60, 14.24), (13.98, 11.46)),
    45: ((35.26, 30.00), (27.19, 24.56), (22.21, 20.70), (16.32, 15.70), (12.94, 12.62)),
    50: ((32.73, 32.80), (25.03, 26.76), (20.36, 22.52), (14.91, 17.05), (11.80, 13.69)),
}
SIDES = (4, 5, 6, 8, 10)


@pytest.mark.parametrize("slope", CHART)
def test_compound_mitres_match_the_chart(slope: int) -> None:
    for sides, (gauge, tilt) in zip(SIDES, CHART[slope], strict=True):
        mitre, bevel = compound_mitre(sides, slope)
        # 0.0105: the chart prints two decimals and rounds a few cells the other way
        assert mitre == pytest.approx(gauge, abs=0.0105)
        assert bevel == pytest.approx(tilt, abs=0.0105)


@pytest.mark.parametrize(("sides", "bevel"), [(3, 60), (4, 45), (5, 36), (6, 30), (8, 22.5), (12, 15)])
def test_bevel_of_a_regular_tube(sides: int, bevel: float) -> None:
    """Euclid, Elements I.32, corollary: a regular polygon of n sides has inner angles of 180 - 360/n degrees."""
    assert seam_bevel(polygon_corner(sides)) == pytest.approx(bevel, abs=1e-9)


def test_an_upright_box_needs_no_gauge_angle_and_45_degrees_of_tilt() -> None:
    """The corner of a shell: four upright sides (second source in words: divide 360 by the sides, then by 2)."""
    assert compound_mitre(4, 90) == (0.0, pytest.approx(45.0, abs=1e-12))
    assert seam_bevel(90.0) == 45.0


@pytest.mark.parametrize(("sides", "slope"), [(2, 10), (4, -1), (4, 91)])
def test_impossible_frames_are_refused(sides: int, slope: float) -> None:
    with pytest.raises(ValueError, match="no frame"):
        compound_mitre(sides, slope)


@pytest.mark.parametrize(("corner", "overcut"), [(0, 1), (180, -1), (10, 6)])
def test_corners_without_a_bevel_are_refused(corner: float, overcut: float) -> None:
    with pytest.raises(ValueError, match="tilt"):
        seam_bevel(corner, overcut)


def test_polygons_have_three_sides() -> None:
    with pytest.raises(ValueError, match="3 sides"):
        polygon_corner(2)
