"""Handles on the faces of a folded shelf: where they are, which way they go, and what the pointer asks for."""

from __future__ import annotations

from itertools import combinations
from math import cos, radians

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from app.fold.camera import Camera
from app.fold.eye import Eye
from app.fold.pose import HOME_TILT, HOME_TURN, SIDES, Pose, Side
from app.fold.pulling import FACES, Seen, eye_shift, nearest_points, size_handles
from app.hand.grip import Handle
from core.document.model import EndsFrom, Shelf
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.fold.scenes import PROJECT, SHELVES, plan_of

LAW = settings(max_examples=examples(60, 1000))
SIZE = (539.0, 290.0)
TURNS, TILTS = st.floats(-180.0, 180.0), st.floats(-89.0, 89.0)
PLACES = st.tuples(*[st.floats(-500.0, 500.0)] * 3).map(np.array)
PLAN = make_plan(PROJECT)
UPPER = SHELVES[0]
CLOSED = Pose()


def corners(shelf: Shelf) -> np.ndarray:
    return np.array([(x, y, z) for x in (0.0, shelf.length) for y in (0.0, shelf.height) for z in (-shelf.depth, 0.0)])


def seen_from(turn: float, tilt: float, shelf: Shelf = UPPER) -> Seen:
    return Seen(Camera(turn, tilt).fitted(corners(shelf), SIZE), SIZE)


def handles(plan: Plan, seen: Seen, pose: Pose = CLOSED) -> dict[str, Handle]:
    return {handle.key: handle for handle in size_handles(plan, pose, "upper", seen)}


def unit(values: np.ndarray) -> np.ndarray:
    length = float(np.linalg.norm(values))
    return values / length if length > 1e-6 else np.array((1.0, 0.0, 0.0))


@LAW
@given(PLACES, PLACES.map(unit), PLACES, PLACES.map(unit))
def test_where_two_lines_are_nearest_the_way_between_them_is_square_to_both(
    place: np.ndarray, way: np.ndarray, eye: np.ndarray, ray: np.ndarray
) -> None:
    along, on_line, on_ray = nearest_points(place, way, eye, ray)
    if 1.0 - along * along < 1e-4:
        return
    between = place + on_line * way - (eye + on_ray * ray)
    assert abs(between @ way) < 1e-5 * (1.0 + abs(on_line) + abs(on_ray))
    assert abs(between @ ray) < 1e-5 * (1.0 + abs(on_line) + abs(on_ray))


@LAW
@given(TURNS, TILTS, st.floats(-60.0, 60.0), st.sampled_from(["front", "top", "bottom"]))
def test_the_size_asked_for_puts_the_face_under_the_pointer(
    turn: float, tilt: float, pixels: float, ends_from: EndsFrom
) -> None:
    plan = plan_of(replace(UPPER, ends_from=ends_from))
    seen = seen_from(turn, tilt)
    for handle in handles(plan, seen).values():
        if handle.is_still:
            continue
        x, y = handle.number.axis
        (asked,) = handle.after((pixels * x, pixels * y))
        grown = asked - handle.number.value
        if abs(grown) > 300.0:
            continue
        face = next(face for face in FACES.values() if face.key == handle.key)
        place = place_of(seen, handle)
        moved = seen.pixel(place + grown * np.array(face.way))
        assert moved == pytest.approx((handle.at[0] + pixels * x, handle.at[1] + pixels * y), abs=0.01)
        assert (grown >= 0.0) == (pixels >= 0.0) or abs(grown) < 1e-6


def place_of(seen: Seen, handle: Handle) -> np.ndarray:
    """Where a handle is in space: on the outside of the closed box, under its own pixel."""
    face = next(face for face in FACES.values() if face.key == handle.key)
    way = np.array(face.way)
    eye, ray = seen.camera.ray((handle.at[0], -handle.at[1]), seen.size)
    level = way @ corners(UPPER)[np.argmax(corners(UPPER) @ way)]
    place: np.ndarray = eye + ray * (level - way @ eye) / (way @ ray)
    return place


@LAW
@given(TURNS, TILTS)
def test_handles_are_in_the_picture_on_the_outside_of_the_shelf(turn: float, tilt: float) -> None:
    seen = seen_from(turn, tilt)
    found = handles(PLAN, seen)
    assert len(found) == 3
    assert {handle.number.name for handle in found.values()} == {"length", "depth", "height"}
    low, high = corners(UPPER).min(axis=0) - 2.0, corners(UPPER).max(axis=0) + 2.0
    for handle in found.values():
        assert 0.0 <= handle.at[0] <= SIZE[0]
        assert -SIZE[1] <= handle.at[1] <= 0.0
        if not handle.is_still:
            place = place_of(seen, handle)
            assert (low <= place).all()
            assert (place <= high).all()


@LAW
@given(TURNS, TILTS)
def test_a_handle_is_still_just_where_its_line_points_at_the_viewer(turn: float, tilt: float) -> None:
    seen = seen_from(turn, tilt)
    for handle in handles(PLAN, seen).values():
        way = np.array(next(face for face in FACES.values() if face.key == handle.key).way)
        _, ray = seen.camera.ray((handle.at[0], -handle.at[1]), seen.size)
        assert handle.is_still == (abs(way @ ray) > cos(radians(12.0)))
        assert abs(np.hypot(*handle.number.axis) - 1.0) < 1e-9
        assert handle.number.per > 0.0


@pytest.mark.parametrize(
    ("side", "still"), [("front", "depth"), ("top", "height"), ("bottom", "height below"), ("right", "length")]
)
def test_square_to_a_face_its_size_is_only_typed(side: str, still: str) -> None:
    chosen = next(known for known in SIDES if known.name == side)
    found = handles(PLAN, seen_from(chosen.turn, chosen.tilt))
    assert [key for key, handle in found.items() if handle.is_still] == [still]


@pytest.mark.parametrize(
    ("turn", "tilt", "keys"),
    [
        (HOME_TURN, HOME_TILT, {"length", "depth", "height"}),
        (-HOME_TURN, HOME_TILT, {"length left", "depth", "height"}),
        (HOME_TURN, -HOME_TILT, {"length", "depth", "height below"}),
    ],
)
def test_the_face_that_is_seen_is_pulled(turn: float, tilt: float, keys: set[str]) -> None:
    assert handles(PLAN, seen_from(turn, tilt)).keys() == keys


@pytest.mark.parametrize("side", SIDES, ids=lambda side: side.name)
def test_from_every_side_the_handles_lie_apart(side: Side) -> None:
    places = [handle.at for handle in handles(PLAN, seen_from(side.turn, side.tilt)).values()]
    assert len(places) == 3
    for first, second in combinations(places, 2):
        assert np.hypot(first[0] - second[0], first[1] - second[1]) >= 24.0


def test_where_the_line_vanishes_the_size_does_not_turn_round() -> None:
    seen = seen_from(HOME_TURN, HOME_TILT)
    for handle in handles(PLAN, seen).values():
        x, y = handle.number.axis
        for way in (1.0, -1.0):
            asked = [handle.after((way * far * x, way * far * y))[0] for far in range(0, 4000, 20)]
            assert asked == sorted(asked, reverse=way < 0.0)
            assert np.isfinite(asked).all()


def test_half_folded_the_handles_go_with_the_panels() -> None:
    seen = seen_from(HOME_TURN, HOME_TILT)
    closed, open_ = (handles(PLAN, seen, Pose(fold=fold)) for fold in (1.0, 0.7))
    assert open_["height"].at[1] > closed["height"].at[1] + 5.0
    assert open_["depth"].at == pytest.approx(closed["depth"].at)


def test_alone_the_eye_goes_with_the_faces_at_the_shelfs_own_origin() -> None:
    """The front, the left end and the bottom stay in the shelf's own axes (core.geometry.fold), so the eye moves."""
    eye = Eye()
    eye.camera, eye.fit = seen_from(-HOME_TURN, -HOME_TILT).camera, "own"
    for key, way in (("depth", (0.0, 0.0, 1.0)), ("length left", (-1.0, 0.0, 0.0)), ("height below", (0.0, -1.0, 0.0))):
        shift = eye_shift(key, 10.0, CLOSED)
        assert shift == pytest.approx(-10.0 * np.array(way))
        assert not eye_shift(key, 10.0, Pose(wall=True)).any()
    for key in ("length", "height"):
        assert not eye_shift(key, 10.0, CLOSED).any()


def test_on_the_wall_the_other_side_stays() -> None:
    pose = Pose(wall=True)
    mount = UPPER.mount
    assert mount is not None
    centre = np.array((mount.x, mount.top, 0.0))
    for turn, key, x, top in ((HOME_TURN, "height", 0.0, 10.0), (-HOME_TURN, "length left", -10.0, 0.0)):
        camera = Camera(turn, HOME_TILT, 2500.0, tuple(centre))
        handle = handles(PLAN, Seen(camera, SIZE), pose)[key]
        hung = handle.change(handle.number.value + 10.0).shelves[0].mount
        assert hung is not None
        assert (hung.x - mount.x, hung.top - mount.top) == pytest.approx((x, top))


def test_an_eye_among_the_faces_has_the_handles_that_lie_before_it() -> None:
    """Near one end, so that the middles of the long faces are behind the eye: a picture has no place for them."""
    plan = plan_of(UPPER)
    x, y, z = UPPER.length, UPPER.height, 0.0
    for turn, tilt, distance in ((-60.0, 20.0, 60.0), (80.0, 10.0, 80.0), (-89.0, 0.0, 61.0), (100.0, 45.0, 200.0)):
        near = Seen(Camera(turn, tilt, distance, (x + 40.0, y, z)), (900.0, 600.0))
        for handle in size_handles(plan, CLOSED, UPPER.id, near):
            assert np.isfinite(handle.at).all()
            assert np.isfinite(handle.number.axis).all()


def test_a_shelf_that_is_not_shown_has_no_handles() -> None:
    assert not size_handles(PLAN, CLOSED, "nobody", seen_from(HOME_TURN, HOME_TILT))
