"""Picking against a plain loop over triangles, written another way, and against points that are known."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Shelf
from core.geometry.fold import fold_transforms, moved, toe_lines
from core.solid.mesh import FACES, panel_mesh
from core.solid.ray import Target, pick, pick_seam, target
from tests.conftest import examples
from tests.solid.shelves import Case, case, cases


def folded_target(c: Case, fraction: float) -> Target:
    meshes = {p.role: panel_mesh(p, c.section.thickness) for p in c.net.panels}
    return target(meshes, fold_transforms(c.net, fraction))


def plain_pick(origin: np.ndarray, direction: np.ndarray, solids: Target) -> tuple[float, int] | None:
    """Each triangle's plane met first, then the side of each of its lines asked: slow and obvious."""
    best: tuple[float, int] | None = None
    for index, (a, b, c) in enumerate(solids.corners):
        normal = np.cross(b - a, c - a)
        facing = normal @ direction
        if abs(facing) < 1e-12 * np.linalg.norm(normal):
            continue
        distance = normal @ (a - origin) / facing
        point = origin + distance * direction
        sides = [np.cross(q - p, point - p) @ normal for p, q in ((a, b), (b, c), (c, a))]
        if distance >= 0.0 and min(sides) >= 0.0 and (best is None or distance < best[0]):
            best = (float(distance), index)
    return best


@settings(max_examples=examples(25, 500))
@given(cases(), st.floats(0.0, 1.0), st.integers(0, 2**32 - 1))
def test_the_nearest_triangle_is_the_one_a_plain_loop_finds(c: Case, fraction: float, seed: int) -> None:
    solids = folded_target(c, fraction)
    random = np.random.default_rng(seed)
    low, high = solids.corners.min(axis=(0, 1)) - 50.0, solids.corners.max(axis=(0, 1)) + 50.0
    for _ in range(6):
        origin = random.uniform(low - 300.0, high + 300.0)
        aim = random.uniform(low, high)
        direction = (aim - origin) / np.linalg.norm(aim - origin)
        hit, plain = pick(origin, direction, solids), plain_pick(origin, direction, solids)
        assert (hit is None) == (plain is None)
        if hit is not None and plain is not None:
            assert hit.distance == pytest.approx(plain[0], rel=1e-9, abs=1e-9)
            assert hit.point == pytest.approx(tuple(origin + plain[0] * direction), abs=1e-6)


@given(cases(), st.floats(0.0, 1.0), st.data())
def test_a_point_shown_is_picked_as_itself(c: Case, fraction: float, data: st.DataObject) -> None:
    """Looking straight at a show face: the panel, the face and the place in the net come back."""
    panel = data.draw(st.sampled_from(c.net.panels))
    x = panel.x + panel.length * data.draw(st.floats(0.05, 0.95))
    y = panel.y + panel.width * data.draw(st.floats(0.05, 0.95))
    matrix = fold_transforms(c.net, fraction)[panel.role]
    place, outward = moved(matrix, np.array([x, y, 0.0])), matrix[:3, 2]
    hit = pick(place + 1.0 * outward, -3.0 * outward, folded_target(c, fraction))
    assert hit is not None
    assert (hit.name, hit.face) == (panel.role, "show")
    assert hit.net_point == pytest.approx((x, y, 0.0), abs=1e-6)
    assert hit.distance == pytest.approx(1.0)


def test_the_inside_and_the_edges_are_picked_too() -> None:
    """Flat and seen from behind, from below and from the left end."""
    c = case(Shelf("s", 1000.0, 200.0, 80.0))
    solids = folded_target(c, 0.0)
    behind = pick((500.0, 40.0, -400.0), (0.0, 0.0, 1.0), solids)
    assert behind is not None
    assert (behind.name, behind.face) == ("front", "inside")
    assert behind.net_point[2] == pytest.approx(-c.section.thickness)
    below = pick((500.0, -2000.0, -5.0), (0.0, 1.0, 0.0), solids)
    assert below is not None
    assert (below.name, below.face) == ("bottom", "low_y")
    left = pick((-2000.0, 40.0, -5.0), (1.0, 0.0, 0.0), solids)
    assert left is not None
    assert (left.name, left.face) == ("left", "low_x")
    assert all(tag in FACES for tag in (behind.face, below.face, left.face))


@pytest.mark.parametrize("line", ["top-front", "front-bottom", "front-left", "top-left", "bottom-right"])
def test_a_seam_is_picked_from_near_its_line_and_not_from_far(line: str) -> None:
    c = case(Shelf("s", 1000.0, 200.0, 80.0))
    lines = toe_lines(c.net, fold_transforms(c.net, 1.0))
    toes = next(t for t in lines if t.joint.name == line)
    middle = toes.first.mean(axis=0)
    eye = np.array([500.0, 40.0, -100.0]) + 3.0 * (middle - (500.0, 40.0, -100.0)) + (7.0, 11.0, 13.0)
    hit = pick_seam(eye, middle - eye, lines, 2.0)
    assert hit is not None
    assert hit.name == line
    assert lines[hit.index].joint.name == line
    assert hit.off == pytest.approx(0.0, abs=1e-9)
    assert hit.along == pytest.approx(0.5)
    assert hit.distance == pytest.approx(np.linalg.norm(middle - eye))
    assert pick_seam(eye, middle - eye, lines, 2.0, within=hit.distance - 1.0) is None
    assert pick_seam(eye, eye - middle, lines, 2.0) is None


@given(st.integers(0, 2**32 - 1))
def test_the_gap_between_ray_and_seam_is_the_least_there_is(seed: int) -> None:
    """Against a fine search along the seam."""
    c = case(Shelf("s", 1000.0, 200.0, 80.0, "open", "open"))
    lines = toe_lines(c.net, fold_transforms(c.net, 1.0))[:1]
    random = np.random.default_rng(seed)
    origin, direction = random.uniform(-500, 1500, 3), random.normal(size=3)
    direction /= np.linalg.norm(direction)
    hit = pick_seam(origin, direction, lines, np.inf)
    assert hit is not None
    points = lines[0].first[0] + np.linspace(0.0, 1.0, 20001)[:, None] * (lines[0].first[1] - lines[0].first[0])
    ahead = np.maximum(0.0, (points - origin) @ direction)
    gaps = np.linalg.norm(points - origin - ahead[:, None] * direction, axis=1)
    assert hit.off == pytest.approx(gaps.min(), abs=1e-3)


def test_nothing_there_is_no_hit_and_a_direction_of_no_length_is_refused() -> None:
    assert pick((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), target({}, {})) is None
    solids = folded_target(case(Shelf("s", 1000.0, 200.0, 80.0)), 1.0)
    assert pick((500.0, 40.0, 500.0), (0.0, 0.0, 1.0), solids) is None
    with pytest.raises(ValueError, match="direction"):
        pick((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), solids)
