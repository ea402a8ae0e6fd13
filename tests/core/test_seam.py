"""The seam's formulas against polygons cut by polygons (shapely), and against trade figures."""

from math import cos, pi, radians, sin, tan

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Polygon, box

from core.geometry.seam import (
    SeamSection,
    blade_footprint,
    grain_step,
    least_overcut,
    seam_section,
)
from tests.conftest import examples

WIDE = 400.0  # mm: half the strip the section is cut in

thicknesses = st.floats(6.0, 40.0)
kerfs = st.floats(0.8, 5.0)
overcuts = st.floats(-1.0, 2.0)
allowances = st.floats(0.0, 1.5)


def slab(toe: float, side: int, t: float, kerf: float, bevel: float) -> Polygon:
    """A blade as a long strip of width `kerf`, its edge through the toe (toe, 0), tilted so that the part kept at
    `side` (-1 left, 1 right) has its toe at the show face z = 0; the inside face is at z = -t."""
    long = LineString([(0, 4 * t), (0, -8 * t)])
    strip = long.buffer(kerf / 2, cap_style="flat")
    strip = affinity.translate(strip, xoff=-side * kerf / 2)
    # the kept part gets narrower towards the inside, so below the toe the blade leans over its wood
    strip = affinity.rotate(strip, side * bevel, origin=(0, 0))
    return affinity.translate(strip, xoff=toe)


def cut_section(t: float, kerf: float, bevel: float, loss: float) -> tuple[Polygon, Polygon, Polygon]:
    """The strip's section after both cuts: the left part, the right part, and everything the V has lost."""
    strip = box(-WIDE, -t, WIDE, 0)
    left_toe, right_toe = -loss / 2, loss / 2
    wood = strip.difference(slab(left_toe, -1, t, kerf, bevel)).difference(slab(right_toe, 1, t, kerf, bevel))
    parts = sorted(shapely.get_parts(wood), key=lambda p: p.bounds[0])
    left, right = parts[0], parts[-1]
    return left, right, strip.difference(left).difference(right)


def width_along(shape: Polygon, z: float) -> float:
    return float(shape.intersection(LineString([(-WIDE, z), (WIDE, z)])).length)


@settings(max_examples=examples(60, 1000))
@given(thicknesses, kerfs, overcuts, allowances)
def test_the_v_on_the_sheet(t: float, kerf: float, overcut: float, allowance: float) -> None:
    s: SeamSection = seam_section(t, kerf, overcut, allowance)
    left, _, void = cut_section(t, kerf, s.bevel, s.loss)
    eps = 1e-7
    assert width_along(void, -eps) == pytest.approx(s.loss, abs=1e-4)
    assert width_along(void, -t + eps) == pytest.approx(s.void_width, abs=1e-4)
    assert void.area == pytest.approx(s.void_area, rel=1e-9)
    assert left.bounds[2] == pytest.approx(-s.loss / 2, abs=1e-9)  # the toe is where the cut was set
    assert width_along(left, -eps) - width_along(left, -t + eps) == pytest.approx(s.setback, abs=1e-4)
    faces = [LineString(e) for e in zip(left.exterior.coords, left.exterior.coords[1:], strict=False)]
    sloping = [f for f in faces if abs(f.xy[0][0] - f.xy[0][1]) > 1e-9 and abs(f.xy[1][0] - f.xy[1][1]) > 1e-9]
    assert [f.length for f in sloping] == [pytest.approx(s.bevel_face, rel=1e-9)]


@settings(max_examples=examples(60, 1000))
@given(thicknesses, kerfs, overcuts)
def test_no_seam_can_lose_less(t: float, kerf: float, overcut: float) -> None:
    """Toes nearer than k / cos bevel: then the second blade takes the first part's toe away."""
    s = seam_section(t, kerf, overcut)
    left, right, _ = cut_section(t, kerf, s.bevel, s.loss * 0.98)
    assert left.bounds[2] < -s.loss * 0.49 - 1e-6
    assert right.bounds[0] > s.loss * 0.49 + 1e-6


@settings(max_examples=examples(60, 1000))
@given(thicknesses, kerfs, st.floats(0.01, 2.0), st.floats(0.02, 0.5))
def test_the_closed_corner_overcut(t: float, kerf: float, overcut: float, glue: float) -> None:
    """One part stays, the other is turned up to a true corner about the common toe; the rest is the wedge."""
    s = seam_section(t, kerf, overcut, 0.0, glue)
    bevel = radians(s.bevel)
    flat = Polygon([(0, 0), (-WIDE, 0), (-WIDE, -t), (-t * tan(bevel), -t)])
    up = affinity.rotate(Polygon([(0, 0), (WIDE, 0), (WIDE, -t), (t * tan(bevel), -t)]), -90, origin=(0, 0))
    corner = box(-t, -t, 0, 0)
    wedge = corner.difference(flat).difference(up)
    assert flat.intersection(up).area == pytest.approx(0.0, abs=1e-9)
    heel_a, heel_b = (-t * tan(bevel), -t), (-t, -t * tan(bevel))
    gap = LineString([heel_a, heel_b]).length
    assert gap == pytest.approx(s.inside_gap, rel=1e-9)
    triangle = Polygon([(0, 0), heel_a, heel_b])
    assert triangle.area == pytest.approx(s.wedge_area, rel=1e-9)
    assert wedge.difference(triangle).area < t * t * 0.01  # beside the triangle only the heels' own corner is open
    reach = min(s.bevel_face, s.glue_band)
    a = (-reach * sin(bevel), -reach * cos(bevel))
    b = (-reach * cos(bevel), -reach * sin(bevel))
    assert LineString([a, b]).length == pytest.approx(min(glue, s.inside_gap), rel=1e-6)


@settings(max_examples=examples(60, 1000))
@given(thicknesses, kerfs, st.floats(-1.0, -0.01))
def test_the_closed_corner_undercut(t: float, kerf: float, overcut: float) -> None:
    """Heels touch first; the toes of a true corner stay apart by the outside gap."""
    s = seam_section(t, kerf, overcut)
    bevel = radians(s.bevel)
    toe_a = (t * tan(bevel), t)  # from the common heel, show face up
    toe_b = (t, t * tan(bevel))
    assert LineString([toe_a, toe_b]).length == pytest.approx(s.outside_gap, rel=1e-9)
    assert (s.inside_gap, s.wedge_area) == (0.0, 0.0)


def test_a_45_degree_seam_has_neither_gap_nor_wedge() -> None:
    s = seam_section(18.2, 2.2)
    assert (s.inside_gap, s.outside_gap, s.wedge_area) == (0.0, 0.0, 0.0)
    assert s.glue_band == s.bevel_face == pytest.approx(18.2 * 2**0.5)


def test_a_saw_turned_to_a_47_degree_stop_closes_outside_and_stays_open_inside() -> None:
    """Common practice: many bevel saws stop at 47 degrees; what is left open inside follows from 2 l sin(delta)."""
    s = seam_section(18.0, 2.2, 2.0)
    assert s.bevel == 47.0
    assert s.outside_gap == 0.0
    face = 18.0 / cos(47.0 * pi / 180.0)
    assert s.inside_gap == pytest.approx(2.0 * face * sin(2.0 * pi / 180.0))
    assert 1.7 < s.inside_gap < 1.9


@pytest.mark.parametrize(
    ("error", "inch"), [(0.25, 0.009), (0.5, 0.019)], ids=["a quarter degree each", "half a degree each"]
)
def test_what_an_undertilted_bevel_leaves_open(error: float, inch: float) -> None:
    """Common practice: 3/4 in plywood undercut a quarter degree each opens 0.009 in, half a degree each 0.019 in."""
    gap = seam_section(0.75 * 25.4, 3.175, -error).outside_gap / 25.4
    assert gap == pytest.approx(inch, abs=0.001)  # printed to a thousandth, from tan for sin


@pytest.mark.parametrize(
    ("kerf", "loss"),
    [(3.175, 0.177 * 25.4), (1.8, 2.55), (2.2, 3.1)],
    ids=["1/8 in: 0.177 in", "1.8 mm: 2.55 mm", "2.2 mm: 3.1 mm"],
)
def test_figure_lost_at_45_degrees(kerf: float, loss: float) -> None:
    """Common practice: a V at 45 degrees costs one footprint, 1.41 kerfs."""
    assert seam_section(18.0, kerf).loss == pytest.approx(loss, abs=0.015)
    assert blade_footprint(kerf, 45.0) == pytest.approx(kerf * 2**0.5)


@settings(max_examples=20)
@given(st.floats(0.02, 0.6), st.floats(0.0, 3.0), st.integers(0, 2**32 - 1))
def test_least_overcut_closes_the_share_of_corners_it_says(sd: float, z: float, seed: int) -> None:
    """Counted over 40,000 random corners: the share that closes is the normal distribution's at z."""
    from statistics import NormalDist

    import numpy as np

    off = np.random.default_rng(seed).normal(0.0, sd, (40_000, 2)).sum(axis=1)
    share = float(np.mean(2 * least_overcut(sd, z) + off >= 0))
    assert share == pytest.approx(NormalDist().cdf(z), abs=0.015)  # 5 standard errors of the count


def test_grain_steps_sideways_by_loss_times_slope() -> None:
    """A line crossing the lost strip at an angle, cut out of the plane and closed up."""
    loss, slope = 3.1, 12.0
    line = LineString([(0, 0), (cos(radians(slope)) * 100, sin(radians(slope)) * 100)])
    y = [line.intersection(LineString([(x, -50), (x, 50)])).y for x in (40.0, 40.0 + loss)]
    assert grain_step(loss, slope) == pytest.approx(y[1] - y[0])
