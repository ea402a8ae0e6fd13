"""The camera: pixels and rays are each other's way back, what is fitted fits, and left is left."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.fold.camera import Camera, between
from app.fold.eye import Eye
from app.fold.pose import SIDES

SIZE = (540.0, 300.0)
SHELF = np.array([(x, y, z) for x in (0.0, 1400.0) for y in (0.0, 70.0) for z in (-210.0, 0.0)])
TURNS, TILTS = st.floats(-180.0, 180.0), st.floats(-89.0, 89.0)
CAMERAS = st.builds(
    Camera, TURNS, TILTS, st.floats(200.0, 9000.0), st.tuples(*[st.floats(-900.0, 900.0) for _ in range(3)])
)
PIXELS = st.tuples(st.floats(0.0, SIZE[0]), st.floats(0.0, SIZE[1]))


def side(name: str) -> Camera:
    chosen = next(side for side in SIDES if side.name == name)
    return Camera(chosen.turn, chosen.tilt).fitted(SHELF, SIZE)


@given(CAMERAS, PIXELS, st.floats(100.0, 5000.0))
def test_a_point_on_a_pixels_ray_is_seen_at_that_pixel(
    camera: Camera, at: tuple[float, float], distance: float
) -> None:
    start, way = camera.ray(at, SIZE)
    assert np.linalg.norm(way) == pytest.approx(1.0)
    assert camera.project(start + distance * way, SIZE) == pytest.approx(at, abs=1e-6)


@given(CAMERAS, PIXELS)
def test_clip_space_is_the_projection(camera: Camera, at: tuple[float, float]) -> None:
    """What OpenGL is given and what the pointer is measured with are one camera."""
    start, way = camera.ray(at, SIZE)
    point = start + camera.distance * way
    clip = camera.clip_matrix(SIZE, *camera.range(1000.0)) @ [*point, 1.0]
    shown = (clip[:2] / clip[3] + 1.0) / 2.0 * SIZE
    assert shown == pytest.approx(at, abs=1e-6)


@given(TURNS, TILTS)
def test_what_is_fitted_fills_the_picture_and_no_more(turn: float, tilt: float) -> None:
    seen = Camera(turn, tilt).fitted(SHELF, SIZE, fill=1.0).project(SHELF, SIZE)
    low, high = seen.min(axis=0), seen.max(axis=0)
    assert (low >= -1e-6).all()
    assert (high <= np.array(SIZE) + 1e-6).all()
    touching = np.abs(high - low - SIZE).min()
    assert touching == pytest.approx(0.0, abs=1e-6)


@given(CAMERAS, PIXELS, st.floats(0.5, 2.0))
def test_zooming_keeps_what_is_under_the_pointer(camera: Camera, at: tuple[float, float], factor: float) -> None:
    start, way = camera.ray(at, SIZE)
    forward = -camera.rotation[2]
    point = start + way * camera.distance / float(way @ forward)  # as far away as the target
    assert camera.zoomed(factor, at, SIZE).project(point, SIZE) == pytest.approx(at, abs=1e-6)


@given(CAMERAS, PIXELS, st.floats(0.05, 3.0))
def test_zooming_in_never_goes_past_what_is_under_the_pointer(
    camera: Camera, at: tuple[float, float], share: float
) -> None:
    """However near it is, and however often the wheel turns."""
    start, way = camera.ray(at, SIZE)
    point, near = start + share * camera.distance * way, camera
    for _ in range(20):
        far = float(np.linalg.norm(point - near.eye))
        near = near.zoomed(1.2, at, SIZE, far)
        assert near.project(point, SIZE) == pytest.approx(at, abs=1e-3)
    assert float(np.linalg.norm(point - near.eye)) <= max(0.9 * share * camera.distance, share * 60.0)


@pytest.mark.parametrize(
    ("name", "right", "up"),
    [
        ("front", (1, 0, 0), (0, 1, 0)),
        ("inside", (-1, 0, 0), (0, 1, 0)),
        ("top", (1, 0, 0), (0, 0, -1)),
        ("bottom", (1, 0, 0), (0, 0, 1)),
        ("left", (0, 0, 1), (0, 1, 0)),
        ("right", (0, 0, -1), (0, 1, 0)),
    ],
)
def test_a_named_side_is_seen_the_way_one_would_walk_to_it(
    name: str, right: tuple[int, int, int], up: tuple[int, int, int]
) -> None:
    camera = side(name)
    middle = np.array(camera.target)
    at, aside, above = camera.project(np.stack([middle, middle + right, middle + up]), SIZE)
    assert aside[0] > at[0]
    assert above[1] < at[1]


def test_the_way_between_two_cameras_is_the_shorter_one_round() -> None:
    halfway = between(Camera(170.0), Camera(-170.0), 0.5)
    assert halfway.turn == pytest.approx(180.0)
    assert between(Camera(170.0), Camera(-170.0), 1.0).turn % 360.0 == pytest.approx(190.0)


@given(TURNS, st.sampled_from((SIZE, (540.0, 90.0))))
def test_an_orbit_keeps_the_shelf_in_the_picture(turn: float, size: tuple[float, float]) -> None:
    eye = Eye()
    eye.orbit(turn - eye.camera.turn, 0.0)
    eye.keep_up(SHELF, size)
    seen = eye.project(SHELF, size)
    assert (seen >= 0.0).all()
    assert (seen <= np.array(size)).all()


def test_the_hand_keeps_the_camera_where_it_put_it() -> None:
    eye = Eye()
    eye.keep_up(SHELF, SIZE)
    eye.zoom(1.5, (100.0, 100.0), SIZE)
    put = eye.camera
    eye.keep_up(SHELF * 2.0, SIZE)
    assert eye.camera == put
    eye.go_home()
    eye.keep_up(SHELF * 2.0, SIZE)
    assert eye.camera.distance > put.distance
