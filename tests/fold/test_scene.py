"""Laws of the arrays that are drawn: the figure is the sheet's less the seam's loss, solids stay whole."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.fold import scene as scene_module
from app.fold.meshes import GROUPS
from app.fold.pose import Pose
from app.fold.scene import Batch, Scene, build_scene
from app.fold.standing import Home, Standing, standing
from core.document.model import Project
from core.geometry.fold import net_toes
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.fold.scenes import PROJECT, SHELVES, plan_of
from tests.strategies import projects

LAW = settings(max_examples=examples(50, 1000))
FOLDS = st.floats(0.0, 1.0)
CLOSED = Pose()
SINGLE = 2e-3  # single precision on coordinates of some metres [mm]


def one(plan: Plan, shelf: str, pose: Pose = CLOSED) -> Standing:
    (found,) = standing(plan, pose, shelf)
    return found


def triangles(scene: Scene, batch: Batch) -> np.ndarray:
    return scene.rows[batch.start : batch.start + batch.length].reshape(-1, 3, 8).astype(float)


def sheet_points(scene: Scene) -> dict[str, np.ndarray]:
    """Corners of the show faces: where each is on its sheet and in space, (N, 5), by sheet. [mm]"""
    found: dict[str, list[np.ndarray]] = {}
    for batch in scene.batches:
        if batch.group == "show" and batch.role == "shell":
            assert isinstance(batch.picture, str)
            rows, sheet = triangles(scene, batch).reshape(-1, 8), scene.sheets[batch.picture]
            places = np.column_stack([rows[:, 6] * sheet.length, (1.0 - rows[:, 7]) * sheet.width])
            found.setdefault(sheet.id, []).append(np.column_stack([places, rows[:, :3]]))
    return {sheet: np.concatenate(points) for sheet, points in found.items()}


def home_of(shown: Standing, role: str) -> Home:
    """Where a panel comes from."""
    apart = shown.net.apart
    return shown.homes[1 + apart.index(role) if role in apart else 0]


def at_sheet_point(points: np.ndarray, wanted: np.ndarray) -> np.ndarray:
    off = np.hypot(points[:, 0] - wanted[0], points[:, 1] - wanted[1])
    assert off.min() < SINGLE, "no corner of a show face has that point of the sheet"
    return points[off.argmin(), 2:]


@LAW
@given(projects(), FOLDS, st.data())
def test_across_a_wrapping_seam_the_figure_is_the_sheets_less_the_loss(
    project: Project, fold: float, data: st.DataObject
) -> None:
    plan = make_plan(project)
    shown = one(plan, data.draw(st.sampled_from(project.shelves)).id)
    scene = build_scene((shown,), fold)
    points = sheet_points(scene)[shown.sheet.id]
    seams = {seam.id: seam for seam in plan.seams}
    for joint in shown.net.joints:
        if not joint.wraps:
            continue
        first, second = (toes[:, :2] + shown.origin for toes in net_toes(shown.net, joint))
        gap = second - first
        assert np.hypot(*gap.T) == pytest.approx(seams[f"{shown.shelf.id}/{joint.name}"].show_loss, abs=1e-6)
        run = first[1] - first[0]
        assert np.abs(gap @ run).max() / np.hypot(*run) < 1e-6, "the two sides are not in line"
        ends = [(at_sheet_point(points, a), at_sheet_point(points, b)) for a, b in zip(first, second, strict=True)]
        if fold == 1.0 and not shown.outside_gap:
            assert all(np.abs(a - b).max() < SINGLE for a, b in ends), "closed, the toes do not meet"


@LAW
@given(projects(max_shelves=1))
def test_closed_the_toes_of_every_seam_meet(project: Project) -> None:
    plan = make_plan(project)
    shown = one(plan, project.shelves[0].id)
    assume(not shown.outside_gap)
    assume(not shown.apart or not any(home.is_over for home in shown.homes))  # what has no room has no one place
    points = sheet_points(build_scene((shown,), 1.0))
    for joint in shown.net.joints:
        homes = [home_of(shown, role) for role in joint.panels]
        toes = net_toes(shown.net, joint)
        first, second = (ends[:, :2] + home.origin for ends, home in zip(toes, homes, strict=True))
        for a, b in zip(first, second, strict=True):
            here, there = (at_sheet_point(points[home.sheet.id], end) for home, end in zip(homes, (a, b), strict=True))
            assert np.abs(here - there).max() < SINGLE


@LAW
@given(projects(max_shelves=1), FOLDS)
def test_solids_keep_their_volume_and_look_outwards(project: Project, fold: float) -> None:
    plan = make_plan(project)
    shown = one(plan, project.shelves[0].id)

    def volume(scene: Scene) -> float:
        corners = np.concatenate([triangles(scene, batch) for batch in scene.batches])
        a, b, c = (corners[:, i, :3] for i in range(3))
        normal = np.cross(b - a, c - a)
        size = np.linalg.norm(normal, axis=1)
        big = size > 1.0
        assert (np.einsum("ij,ij->i", normal, corners[:, 0, 3:6])[big] > 0.99 * size[big]).all()
        return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)

    assert volume(build_scene((shown,), fold)) == pytest.approx(volume(build_scene((shown,), 0.0)), rel=1e-4)


def test_left_is_left_flat_and_closed() -> None:
    plan = plan_of(SHELVES[1])  # open at the left, mitred at the right
    for fold in (0.0, 0.4, 1.0):
        shown = one(plan, "lower")
        points = sheet_points(build_scene((shown,), fold))[shown.sheet.id]
        right = shown.net.panel("right")
        places = [at_sheet_point(points, np.array([x, right.y]) + shown.origin) for x in (right.x, right.box[2])]
        assert min(place[0] for place in places) >= SHELVES[1].length - SINGLE


def test_an_edge_shows_its_whole_thickness_and_which_way_it_runs() -> None:
    plan = plan_of(SHELVES[0])
    scene = build_scene((one(plan, "upper"),), 1.0)
    assert {batch.group for batch in scene.batches} == set(GROUPS)
    for batch in scene.batches:
        if batch.group in ("long", "cross"):
            depth = triangles(scene, batch)[:, :, 7]
            assert depth.min() == 0.0
            assert depth.max() == pytest.approx(1.0)
            assert not isinstance(batch.picture, str)
            assert batch.picture.crosswise == (batch.group == "cross")


def test_the_frame_stands_in_the_shell_and_the_shell_slides_off_it() -> None:
    plan = make_plan(PROJECT)
    home = one(plan, "upper", Pose(frame=True))
    off = one(plan, "upper", Pose(frame=True, slip=1.0))
    assert home.frame is not None

    def box(shown: Standing, role: str) -> np.ndarray:
        scene = build_scene((shown,), 1.0)
        places = np.concatenate([triangles(scene, b) for b in scene.batches if b.role == role])[:, :, :3].reshape(-1, 3)
        return np.array([places.min(axis=0), places.max(axis=0)])

    frame, shell = box(home, "frame"), box(home, "shell")
    assert (frame[0] >= shell[0] - SINGLE).all()
    assert (frame[1] <= shell[1] + SINGLE).all()
    assert box(off, "frame") == pytest.approx(frame)
    assert box(off, "shell")[0, 2] > frame[1, 2], "off, the shell still touches its frame"
    assert box(off, "shell")[:, :2] == pytest.approx(shell[:, :2])


def test_the_sticks_are_whole_and_look_outwards() -> None:
    plan = make_plan(PROJECT)
    shown = one(plan, "upper", Pose(frame=True))
    assert shown.frame is not None
    scene = build_scene((shown,), 1.0)
    corners = np.concatenate([triangles(scene, b) for b in scene.batches if b.role == "frame"])
    a, b, c = (corners[:, i, :3] for i in range(3))
    wanted = sum(part.length * part.width * part.thickness for part in shown.frame.parts)
    assert np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0 == pytest.approx(wanted, rel=1e-4)
    normal = np.cross(b - a, c - a)
    assert (np.einsum("ij,ij->i", normal, corners[:, 0, 3:6]) > 0.99 * np.linalg.norm(normal, axis=1)).all()
    show = np.concatenate([triangles(scene, b) for b in scene.batches if b.role == "frame" and b.group == "show"])
    x = show[:, :, 6] * shown.sheet.length
    spans = {round(float(s), 3) for s in x.max(axis=1) - x.min(axis=1)}
    assert spans == {round(part.length, 3) for part in shown.frame.parts}, (
        "a stick's face is not its piece of the sheet"
    )


def test_on_the_wall_shelves_hang_where_they_are_mounted() -> None:
    plan = make_plan(PROJECT)
    shelves = standing(plan, Pose(wall=True), "")
    assert {shown.shelf.id for shown in shelves} == {"upper", "lower"}
    for shown in shelves:
        points = build_scene((shown,), 1.0).points
        mount = shown.shelf.mount
        assert mount is not None
        assert points.min(axis=0) == pytest.approx([mount.x, mount.top - shown.shelf.height, 0.0], abs=SINGLE)
        assert points.max(axis=0) == pytest.approx(
            [mount.x + shown.shelf.length, mount.top, shown.shelf.depth], abs=SINGLE
        )


def test_a_shelf_that_stays_the_same_is_not_built_again() -> None:
    plan = make_plan(PROJECT)
    first = build_scene(standing(plan, Pose(wall=True), ""), 1.0)
    before = scene_module._shell_at.cache_info()
    again = build_scene(standing(make_plan(PROJECT), Pose(wall=True), ""), 1.0)
    after = scene_module._shell_at.cache_info()
    assert after.misses == before.misses
    assert after.hits == before.hits + len(SHELVES)
    assert (first.rows == again.rows).all()
