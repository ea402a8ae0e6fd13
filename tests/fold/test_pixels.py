"""Measured on pictures: a ruled face runs on over the seams with the stated loss, and left is left."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from app.fold.camera import Camera
from app.fold.pose import SIDES, Pose
from app.fold.render import View, scene_of
from app.fold.standing import Standing, standing
from app.theme.palette import LIGHT
from core.geometry.fold import fold_transforms, moved, net_toes
from core.plan.model import Plan
from tests.fold.conftest import Draw
from tests.fold.measure import is_on, line_places, on_panel
from tests.fold.scenes import SHELVES, STEP, plan_of, quarters, ruled, white

SIZE = (900, 640)
RED, BLUE = 0, 2
INKED = 450.0  # red, green and blue together: less is a line on white wood
PIXEL_TOL = 0.6  # how well the middle of a line can be read [px]


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_of(SHELVES[0])


def shown_in(plan: Plan) -> Standing:
    (shown,) = standing(plan, Pose(), plan.project.shelves[0].id)
    return shown


def near_seam(shown: Standing, name: str, fold: float, turn: float, tilt: float, distance: float = 420.0) -> Camera:
    """A camera that looks at the middle of a seam."""
    joint = next(joint for joint in shown.net.joints if joint.name == name)
    first, second = net_toes(shown.net, joint)
    transforms = fold_transforms(shown.net, fold, shown.outside_gap)
    ends = np.concatenate([moved(transforms[r], t) for r, t in zip(joint.panels, (first, second), strict=True)])
    x, y, z = (float(v) for v in ends.mean(axis=0))
    return Camera(turn, tilt, distance, (x, y, z))


def lines_over(
    picture: np.ndarray, camera: Camera, shown: Standing, panels: tuple[str, str], fold: float, axis: int, at: int
) -> tuple[np.ndarray, np.ndarray, float]:
    """Sheet coordinates of the lines that cross a seam's two panels along one column (axis 1) or row (axis 0).

    Gives them for the first and the second panel, and how much of the sheet a pixel spans there. [mm]
    """
    channel = RED if axis == 1 else BLUE
    run = picture[:, at] if axis == 1 else picture[at]
    found: dict[str, list[float]] = {role: [] for role in panels}
    for place in line_places(run, channel):
        pixel = (at + 0.5, place) if axis == 1 else (place, at + 0.5)
        for role in panels:
            point = on_panel(camera, SIZE, pixel, shown, role, fold)
            if is_on(shown, role, point, margin=1.0):
                found[role].append(float(point[axis]))
                break
    return np.array(found[panels[0]]), np.array(found[panels[1]]), camera.pixel(SIZE)


def free_of(picture: np.ndarray, axis: int) -> int:
    """A column (axis 1) or row half way between two lines that run along it, near the middle."""
    middle = SIZE[axis] // 2
    runs = [picture[middle - off] if axis == 1 else picture[:, middle - off] for off in range(50, 80, 5)]
    points = max((line_places(run, BLUE if axis == 1 else RED) for run in runs), key=len)
    nearest = int(np.abs(points[:-1] - points.mean()).argmin())
    return round((points[nearest] + points[nearest + 1]) / 2.0)


@pytest.mark.parametrize(
    ("seam", "panels", "axis", "fold", "turn", "tilt"),
    [
        ("top-front", ("top", "front"), 1, 0.0, 0.0, 0.0),
        ("front-bottom", ("front", "bottom"), 1, 0.0, 0.0, 0.0),
        ("top-front", ("top", "front"), 1, 0.5, 0.0, 22.5),
        ("top-front", ("top", "front"), 1, 1.0, 0.0, 45.0),
        ("front-bottom", ("front", "bottom"), 1, 1.0, 0.0, -45.0),
        ("front-right", ("front", "right"), 0, 0.0, 0.0, 0.0),
        ("front-right", ("front", "right"), 0, 1.0, 45.0, 0.0),
        ("front-left", ("front", "left"), 0, 0.5, -22.5, 0.0),
        ("front-left", ("front", "left"), 0, 1.0, -45.0, 0.0),
    ],
)
def test_ruled_lines_run_on_over_a_seam_less_its_loss(
    plan: Plan, draw: Draw, seam: str, panels: tuple[str, str], axis: int, fold: float, turn: float, tilt: float
) -> None:
    shown = shown_in(plan)
    camera = near_seam(shown, seam, fold, turn, tilt)
    picture = draw(plan, View(pose=Pose(fold=fold), camera=camera), SIZE, ruled)
    at = free_of(picture, axis)
    first, second, span = lines_over(picture, camera, shown, panels, fold, axis, at)
    assert min(len(first), len(second)) >= 4, "too few lines were seen on either side"
    tolerance = 2.5 * PIXEL_TOL * span  # a face is foreshortened to a half or more
    for places in (first, second):
        off = places - STEP * np.round(places / STEP)
        assert np.abs(off).max() < tolerance, "a line is not where the sheet has it"
    joint = next(joint for joint in shown.net.joints if joint.name == seam)
    loss = next(s.show_loss for s in plan.seams if s.id == f"upper/{seam}")
    assert loss is not None
    toes = {
        role: toe[0][axis] + shown.origin[axis]
        for role, toe in zip(joint.panels, net_toes(shown.net, joint), strict=True)
    }
    near = [np.abs(places - toes[role]).min() for places, role in ((first, panels[0]), (second, panels[1]))]
    whole = sum(near) + loss  # from the last line before the seam to the first one after it, on the sheet
    assert whole / STEP == pytest.approx(round(whole / STEP), abs=2.0 * tolerance / STEP)


@pytest.mark.parametrize(
    ("seam", "axis", "fold", "turn", "tilt"),
    [
        ("top-front", 0, 1.0, 0.0, 45.0),
        ("front-bottom", 0, 0.5, 0.0, -22.5),
        ("front-right", 1, 1.0, 45.0, 0.0),
        ("front-left", 1, 1.0, -45.0, 0.0),
    ],
)
def test_lines_that_cross_a_seam_do_not_step_aside(
    plan: Plan, draw: Draw, seam: str, axis: int, fold: float, turn: float, tilt: float
) -> None:
    """Lines square to a seam meet at it: read a little before and a little after, and carried on to the seam."""
    shown = shown_in(plan)
    camera = near_seam(shown, seam, fold, turn, tilt)
    picture = draw(plan, View(pose=Pose(fold=fold), camera=camera), SIZE, ruled)
    middle, channel = SIZE[1 - axis] // 2, BLUE if axis == 0 else RED

    def read(off: int) -> tuple[int, np.ndarray]:
        """The lines about so far from the seam, where no line of the other colour lies over them."""
        for place in range(off - 5, off + 6):
            found = line_places(picture[middle + place] if axis == 0 else picture[:, middle + place], channel)
            if len(found) >= 5:
                return place, found
        raise AssertionError("no lines cross there")

    def carried(near: int, far: int) -> np.ndarray:
        """Where the lines would be at the seam: each goes on straight from two readings."""
        (u, a), (v, b) = read(near), read(far)
        partner = b[np.abs(a[:, None] - b[None, :]).argmin(axis=1)]
        return a + (a - partner) * u / (v - u)

    before, after = carried(-14, -42), carried(14, 42)
    gap = np.abs(before[:, None] - after[None, :]).min(axis=1)
    inner = np.abs(before - SIZE[axis] / 2.0) < 0.3 * SIZE[axis]
    assert inner.sum() >= 5
    assert gap[inner].max() < 2.0 * PIXEL_TOL


def side_view(plan: Plan, name: str) -> View:
    side = next(side for side in SIDES if side.name == name)
    pose = Pose()
    scene, _ = scene_of(plan, View(pose=pose), SIZE)
    return View(pose=pose, camera=Camera(side.turn, side.tilt).fitted(scene.points, SIZE))


def test_left_is_left_and_up_is_up(draw: Draw) -> None:
    """A net laid over the middle of a sheet whose left half is green and whose upper half is bright."""
    base = plan_of(SHELVES[0]).shapes[0]
    at = ((1200.0 - base.length) / 2.0, (700.0 - base.width) / 2.0)
    plan = plan_of(replace(SHELVES[0], at=at))
    front = draw(plan, side_view(plan, "front"), SIZE, quarters)
    row = front[SIZE[1] // 2]
    assert greener(row[250]), "the left of the front is not the left of the sheet"
    assert not greener(row[650])
    seen_from_above = draw(plan, side_view(plan, "top"), SIZE, quarters)
    below = draw(plan, side_view(plan, "bottom"), SIZE, quarters)
    middle = SIZE[1] // 2
    assert greener(seen_from_above[middle, 250])
    assert not greener(seen_from_above[middle, 650])
    assert greener(below[middle, 250])
    assert seen_from_above[middle, 250].sum() > below[middle, 250].sum() + 100, "the top is not the sheet's upper part"
    left, right = (
        draw(plan, side_view(plan, name), SIZE, quarters)[middle, SIZE[0] // 2] for name in ("left", "right")
    )
    assert greener(left)
    assert not greener(right)


def greener(pixel: np.ndarray) -> bool:
    assert abs(pixel[1] - pixel[2]) > 20.0, "that is bare ground"
    return bool(pixel[1] > pixel[2])


@pytest.mark.parametrize(("seam", "is_dashed"), [("top-right", True), ("top-front", False)])
def test_a_turned_seam_is_dashed_and_a_wrapped_one_is_not(plan: Plan, draw: Draw, seam: str, is_dashed: bool) -> None:
    shown = shown_in(plan)
    camera = near_seam(shown, seam, 1.0, 40.0, 40.0)
    picture = draw(plan, View(camera=camera), SIZE, white)
    joint = next(joint for joint in shown.net.joints if joint.name == seam)
    toes = moved(fold_transforms(shown.net, 1.0)[joint.panels[0]], net_toes(shown.net, joint)[0])
    places = camera.project(toes[0] + np.linspace(0.2, 0.8, 400)[:, None] * (toes[1] - toes[0]), SIZE)
    inside = ((places > 2) & (places < np.array(SIZE) - 3)).all(axis=1)
    x, y = places[inside].astype(int).T
    dark = (
        np.array([picture[b - 1 : b + 2, a - 1 : a + 2].sum(axis=2).min() for a, b in zip(x, y, strict=True)]) < INKED
    )
    changes = int((dark[1:] != dark[:-1]).sum())
    if is_dashed:
        assert changes >= 10
        assert 0.3 < dark.mean() < 0.9
    else:
        assert dark.mean() > 0.98, "the hairline is not to be seen all along"


def chalk(picture: np.ndarray) -> int:
    wanted = np.array([int(LIGHT.wood_chalk[i : i + 2], 16) for i in (1, 3, 5)])
    return int((np.abs(picture - wanted).max(axis=2) < 30).sum())


@pytest.mark.parametrize("selected", ["upper/top", "upper/top-front", "upper/right"])
def test_what_is_selected_has_a_chalk_line(plan: Plan, draw: Draw, selected: str) -> None:
    assert chalk(draw(plan, View(selected=""), SIZE, white)) == 0
    assert chalk(draw(plan, View(selected=selected), SIZE, white)) > 60


def test_the_frame_is_seen_through_the_shell(plan: Plan, draw: Draw) -> None:
    """A rib's chalk line, when it is selected, is hidden by a whole shell and seen through a glass one."""
    rib = next(part.id for part in plan.frames[0].parts if "rib" in part.role)
    assert chalk(draw(plan, View(selected=rib), SIZE, white)) == 0
    assert chalk(draw(plan, View(pose=Pose(frame=True), selected=rib), SIZE, white)) > 60


def test_wood_beside_the_sheet_is_red(draw: Draw) -> None:
    def red(plan: Plan) -> int:
        picture = draw(plan, View(pose=Pose(fold=0.0)), SIZE, white)
        return int(((picture[:, :, 0] > 90) & (picture[:, :, 1] < 0.55 * picture[:, :, 0])).sum())

    assert red(plan_of(SHELVES[0])) == 0
    too_long = plan_of(replace(SHELVES[0], length=1100.0))
    assert too_long.overruns
    assert red(too_long) > 200
