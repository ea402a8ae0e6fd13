"""Pictures drawn without a screen: the wood where the plan has it, what is behind, sizes, and stopping."""

from __future__ import annotations

import numpy as np
import pytest

from app.fold.camera import Camera
from app.fold.pose import Pose
from app.fold.standing import standing
from app.showing.still import Stand, png_bytes, still
from app.showing.turntable import FRAMES, frame_size, turns
from app.showing.wish import Showing, first_showing
from core.face import StoppedError
from core.face.finish import finished
from core.geometry.fold import fold_transforms, moved
from core.plan.model import Plan, StockSheet
from tests.fold.scenes import SHELVES, plan_of, white

SIZE = (480, 300)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_of(*SHELVES)


def spots(sheet: StockSheet) -> np.ndarray:
    """A face whose every place has a colour of its own, and which is smooth."""
    rows, columns = np.mgrid[:350, :600]
    face = np.stack([60 + columns * 0.3, 60 + rows * 0.5, 140 + 40 * np.sin(columns / 40.0)], axis=2)
    return face.astype(np.uint8)


@pytest.mark.parametrize(("turn", "tilt"), [(25.0, 20.0), (-30.0, -25.0), (0.0, 60.0), (50.0, 5.0)])
def test_each_face_shows_the_wood_it_is_cut_from(plan: Plan, turn: float, tilt: float) -> None:
    """Points of the show faces by the folding of the net, projected: there the picture has the sheet's colour, as
    light or dark as the face is turned."""
    stand = Stand(plan, Showing("upper", view=(turn, tilt)), spots)
    camera = stand.camera(turn, tilt, SIZE)
    picture = stand.picture(camera, SIZE).astype(float)
    (shown,) = standing(plan, Pose(), "upper")
    face = spots(shown.sheet).astype(float)
    transforms = fold_transforms(shown.net, 1.0, shown.outside_gap)
    seen = 0
    for panel in shown.net.panels:
        normal = transforms[panel.role][:3, :3] @ (0.0, 0.0, 1.0)
        shares = np.stack(np.meshgrid([0.2, 0.4, 0.6, 0.8], [0.25, 0.5, 0.75]), axis=-1).reshape(-1, 2)
        net = np.column_stack([shares * (panel.length, panel.width) + (panel.x, panel.y), np.zeros(len(shares))])
        world = moved(transforms[panel.role], net)
        if normal @ (camera.eye - world[0]) < 0.2 * np.linalg.norm(camera.eye - world[0]):
            continue  # turned away, or seen nearly edge on
        pixels = np.floor(camera.project(world, (float(SIZE[0]), float(SIZE[1])))).astype(int)
        x, y = (net[:, :2] + shown.origin).T
        rows = ((1.0 - y / shown.sheet.width) * face.shape[0]).astype(int)
        wood = face[rows, (x / shown.sheet.length * face.shape[1]).astype(int)]
        ratio = picture[pixels[:, 1], pixels[:, 0], :3] / wood
        assert ratio.std() / ratio.mean() < 0.03, panel.role
        seen += 1
    assert seen >= 2


def test_nearer_wood_hides_what_lies_behind(plan: Plan) -> None:
    """From straight before it only the front is seen, whichever way the faces are laid down."""
    stand = Stand(plan, Showing("upper"), lambda sheet: white(sheet))
    picture = stand.picture(stand.camera(0.0, 0.0, SIZE), SIZE)
    middle = picture[SIZE[1] // 2, SIZE[0] // 4 : -SIZE[0] // 4, :3]
    assert (middle == middle[0]).all()


def test_the_ground_is_paper_or_see_through(plan: Plan) -> None:
    paper = still(plan, Showing("upper", size=SIZE), white)
    clear = still(plan, Showing("upper", size=SIZE, clear=True), white)
    assert (paper[..., 3] == 255).all()
    assert clear[0, 0, 3] == 0
    assert 0 < np.median(clear[..., 3][(clear[..., 3] > 0) & (clear[..., 3] < 255)]) < 128, "its shadow is left"
    solid = clear[..., 3] == 255
    assert 0.05 < solid.mean() < 0.6
    assert np.array_equal(paper[solid], clear[solid])


def test_a_see_through_picture_laid_over_paper_is_the_one_on_paper(plan: Plan) -> None:
    """Laid over by the rule of Porter and Duff 1984: own x alpha + what is behind x (1 - alpha)."""
    paper = still(plan, Showing("upper", size=SIZE), white).astype(float)
    clear = still(plan, Showing("upper", size=SIZE, clear=True), white).astype(float)
    alpha = clear[..., 3:] / 255.0
    over = clear[..., :3] * alpha + paper[0, 0, :3] * (1.0 - alpha)
    assert np.abs(over - paper[..., :3]).max() <= 2.0


def test_on_the_wall_all_hang_where_the_plan_has_them(plan: Plan) -> None:
    wish = Showing(size=(640, 400), clear=True, view=(0.0, 0.0))
    stand = Stand(plan, wish, white)
    camera = stand.camera(0.0, 0.0, wish.size)
    solid = stand.picture(camera, wish.size)[..., 3] == 255
    for shelf in plan.project.shelves:
        assert shelf.mount is not None
        front = np.array([(shelf.mount.x + shelf.length / 2.0, shelf.mount.top - shelf.height / 2.0, shelf.depth)])
        x, y = camera.project(front, (640.0, 400.0))[0]
        assert solid[int(y), int(x)]
    between = np.array([(800.0, 1250.0, 100.0)])
    x, y = camera.project(between, (640.0, 400.0))[0]
    assert not solid[int(y), int(x)]


def test_oil_makes_wood_darker_warmer_and_fuller() -> None:
    wood = np.array([[(216, 181, 133), (146, 105, 66), (255, 255, 255)]], np.uint8)
    oiled = finished(wood, "oiled").astype(int)
    assert finished(wood, "raw") is wood
    assert (oiled[0, :2] < wood[0, :2]).all()
    assert (oiled[0, 2] == 255).all()
    assert (oiled[0, :2, 0] / oiled[0, :2, 2] > wood[0, :2, 0] / wood[0, :2, 2]).all()


@pytest.mark.parametrize("size", [(64, 64), (101, 67), (200, 333)])
def test_any_size(plan: Plan, size: tuple[int, int]) -> None:
    picture = still(plan, Showing("lower", size=size, clear=True), white)
    assert picture.shape == (size[1], size[0], 4)
    assert (picture[..., 3] == 255).any()
    assert png_bytes(picture).startswith(b"\x89PNG")


def test_it_is_told_of_and_can_be_stopped(plan: Plan) -> None:
    told: list[float] = []
    still(plan, Showing("upper", size=(64, 400)), white, told=told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0
    with pytest.raises(StoppedError):
        still(plan, Showing("upper", size=SIZE), white, stop=lambda: True)


def test_a_turntable_goes_once_round_and_sways_on_the_wall() -> None:
    alone, wall = turns(Showing("upper")), turns(Showing())
    assert len(alone) == len(wall) == FRAMES
    assert np.allclose(np.diff(alone), 360.0 / FRAMES)
    assert max(np.abs(wall)) < 40.0
    assert wall[0] == pytest.approx(0.0)
    assert frame_size((3840, 2160)) == (1280, 720)
    assert frame_size((640, 480)) == (640, 480)


def test_what_is_shown_at_first(plan: Plan) -> None:
    assert first_showing(plan).is_wall
    bare = plan_of(*(type(s)(s.id, s.length, s.depth, s.height) for s in SHELVES))
    assert first_showing(bare).shelf == "upper"
    assert Camera(*first_showing(bare).seen_from()).tilt > 10.0
