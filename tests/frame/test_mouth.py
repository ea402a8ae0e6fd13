"""Tilted corners and the mouth, against polygons that are really turned."""

from __future__ import annotations

from math import cos, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely.affinity import rotate

from core.frame import clamped_tilt, held_tilt, mouth_closing
from core.frame.mouth import passing_share, worst_closing

# Section axes: wall at high x, up is y; the corner's toes meet at the origin.


def top_panel(depth: float, thickness: float, bevel: float) -> Polygon:
    setback = thickness * tan(radians(bevel))
    return Polygon([(0, 0), (depth, 0), (depth, -thickness), (setback, -thickness)])


def front_panel(height: float, thickness: float, bevel: float) -> Polygon:
    setback = thickness * tan(radians(bevel))
    return Polygon([(0, 0), (0, -height), (thickness, -height), (thickness, -setback)])


def clamp_shut(top: Polygon, front: Polygon) -> Polygon:
    """The top turned about the toe until its bevel face lies along the front's: by bisection on what overlaps.

    Turning down (clockwise) pushes the panels into each other sooner or later, turning up parts them.
    """
    down, up = -30.0, 30.0
    for _ in range(60):
        middle = (down + up) / 2
        if rotate(top, middle, origin=(0, 0)).intersection(front).area > 1e-12:
            down = middle
        else:
            up = middle
    return rotate(top, up, origin=(0, 0))


@pytest.mark.parametrize("overcut", [-1.0, -0.4, 0.5, 1.5, 3.0])
def test_clamped_shut_turns_the_top_by_twice_the_overcut(overcut):
    depth, thickness, bevel = 210.0, 18.2, 45.0 + overcut
    top, front = top_panel(depth, thickness, bevel), front_panel(84.0, thickness, bevel)
    shut = clamp_shut(top, front)
    back_edge = list(shut.exterior.coords)[1]
    drop = -back_edge[1]
    assert 2.0 * drop == pytest.approx(mouth_closing(depth, clamped_tilt(overcut)), abs=1e-4)
    assert (drop > 0.0) == (overcut > 0.0)  # an overcut closes the mouth, an undercut opens it
    # and the bevel faces do lie together, all the way
    face = thickness / cos(radians(bevel))
    heel = list(shut.exterior.coords)[3]
    front_face = LineString([(0, 0), list(front.exterior.coords)[3]])
    assert front_face.length == pytest.approx(face)
    assert LineString([(0, 0), heel]).hausdorff_distance(front_face) == pytest.approx(0.0, abs=1e-4)


@given(st.floats(90.0, 400.0), st.floats(-3.0, 3.0))
def test_a_tilted_top_and_bottom_close_the_mouth_by_twice_their_drop(depth, tilt):
    top = rotate(LineString([(0, 0), (depth, 0)]), -tilt, origin=(0, 0))
    bottom = rotate(LineString([(0, -84), (depth, -84)]), tilt, origin=(0, -84))
    mouth = top.coords[1][1] - bottom.coords[1][1]
    assert 84.0 - mouth == pytest.approx(mouth_closing(depth, tilt), abs=1e-9)


def test_a_corner_held_true_is_off_by_the_spread_of_two_bevels():
    """The spread of a sum of two independent errors is the root of the sum of their squares."""
    import numpy as np

    errors = np.random.default_rng(7).normal(0.0, 0.2, (2, 200_000))
    assert held_tilt(0.2) == pytest.approx(float(errors.sum(axis=0).std()), rel=0.01)


def test_example_by_hand():
    """Depth 210, spread 0.2 deg: 420 x sin(0.2828 deg) = 2.07 mm."""
    assert mouth_closing(210.0, held_tilt(0.2)) == pytest.approx(420.0 * sin(radians(0.2 * sqrt(2.0))))
    assert mouth_closing(210.0, held_tilt(0.2)) == pytest.approx(2.07, abs=0.005)


@pytest.mark.parametrize("depth", [150.0, 210.0, 320.0])
@pytest.mark.parametrize("spread", [0.1, 0.2, 0.5])
@pytest.mark.parametrize("play", [0.0, 0.8, 1.5, 3.0])
def test_how_many_shells_let_their_frame_pass(depth: float, spread: float, play: float) -> None:
    """Four bevels drawn 200,000 times with numpy, each corner off by what its two are; the worst beyond nearly all."""
    bevels = np.random.default_rng(7).normal(0.0, spread, (200_000, 4))
    tilts = np.radians(bevels[:, :2].sum(axis=1)), np.radians(bevels[:, 2:].sum(axis=1))
    closing = depth * (np.sin(tilts[0]) + np.sin(tilts[1]))
    assert passing_share(depth, play, spread) == pytest.approx(float((closing <= play).mean()), abs=0.005)
    assert float((closing > worst_closing(depth, spread)).mean()) < 1e-4


def test_a_saw_without_spread_lets_every_frame_pass() -> None:
    assert passing_share(210.0, 0.0, 0.0) == 1.0
    assert worst_closing(210.0, 0.0) == 0.0
