"""Pulling a shelf's sizes on the fold board, with a real mouse."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import QPointF, Qt
from pytestqt.qtbot import QtBot

from app.fold.camera import Camera
from app.fold.picture import FoldPicture
from app.fold.pose import SIDES
from app.fold.stage import Stage
from app.hand.grid import Aim, step_size
from app.window.window import Window
from core.document.model import Project, Shelf
from core.lengths import INCH_MM
from core.plan.make import make_plan
from tests.hand.mouse import MIDDLE, SHIFT, Mouse
from tests.hand.test_sizes import places, shelf, steps

Open = Callable[[Project], Window]
SIXTEENTH = INCH_MM / 16.0
START_MS = 30_000  # a slow machine starts OpenGL
KEYS = ["length", "depth", "height"]


@pytest.fixture
def window(open_window: Open, project: Project, qtbot: QtBot) -> Window:
    """With solids on its fold board, nothing that moves by itself, and `lower` selected, whose left end is mitred."""
    made = open_window(project)
    qtbot.waitUntil(lambda: made.fold.picture.stage is not None, timeout=START_MS)
    made.fold.picture.touch()
    made.store.select("lower")
    settle(made.fold.picture)
    return made


@pytest.fixture
def mouse(window: Window) -> Mouse:
    return Mouse(window, window.fold.picture)


def settle(picture: FoldPicture) -> None:
    """Painted: the eye is fitted when a picture is begun."""
    picture.repaint()


def stage_of(window: Window) -> Stage:
    stage = window.fold.picture.stage
    assert stage is not None
    return stage


def camera(window: Window) -> Camera:
    return stage_of(window).eye.camera


def look(window: Window, turn: float, tilt: float) -> None:
    eye = stage_of(window).eye
    eye.camera = eye.camera._replace(turn=turn, tilt=tilt)
    stage_of(window).redraw()
    settle(window.fold.picture)


def pull(mouse: Mouse, key: str, pixels: float, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Press the handle and move outward along its line; the button stays down."""
    x, y = mouse.handle(key).number.axis
    mouse.press(mouse.square(key))
    mouse.move(pixels * x, -pixels * y, keys=keys)
    settle(mouse.window.fold.picture)


@pytest.mark.parametrize(("turn", "tilt"), [(30.0, 24.0), (-35.0, 20.0), (30.0, -25.0)])
@pytest.mark.parametrize("fold", [1.0, 0.8])
def test_every_handle_stays_under_the_pointer(
    window: Window, mouse: Mouse, turn: float, tilt: float, fold: float
) -> None:
    window.fold.picture.set_pose(window.fold.picture.pose._replace(fold=fold))
    look(window, turn, tilt)
    before = window.store.project
    found = mouse.hand.reach.handles()
    assert [handle.number.name for handle in found] == KEYS
    for key in [handle.key for handle in found]:
        handle = mouse.handle(key)
        size = handle.number.name
        pull(mouse, key, 12.0)
        value = getattr(shelf(window, "lower"), size)
        assert value > handle.number.value, key
        assert value / SIXTEENTH == pytest.approx(round(value / SIXTEENTH), abs=1e-6)
        off = mouse.square(key) - mouse.at
        step = step_size(handle.number.reading, Aim(1.0, window.store.unit), handle.number.per)
        assert off.manhattanLength() <= 1.0 + step[0] / step[1] / handle.number.per, key
        assert window.store.undo_label == f"{size.capitalize()} of lower"
        mouse.release()
        assert window.store.plan == make_plan(window.store.project)
        assert steps(window) == 1
        window.store.undo()
        mouse.settle()
        assert window.store.project == before
        settle(window.fold.picture)


def test_the_eye_stays_while_a_size_is_pulled_and_is_fitted_after_it(window: Window, mouse: Mouse) -> None:
    before, eye = camera(window), stage_of(window).eye
    pull(mouse, "length", 20.0)
    assert camera(window) == before
    mouse.release()
    settle(window.fold.picture)
    assert eye.fit == "round"
    assert camera(window).distance > before.distance
    assert (camera(window).turn, camera(window).tilt) == (before.turn, before.tilt)


def test_an_eye_that_the_hand_has_put_somewhere_stays_there(window: Window, mouse: Mouse) -> None:
    stage_of(window).eye.zoom(1.2, (200.0, 120.0), stage_of(window).size)
    settle(window.fold.picture)
    before = camera(window)
    pull(mouse, "depth", 16.0)
    mouse.release()
    settle(window.fold.picture)
    moved = camera(window)
    assert moved._replace(target=before.target) == before
    assert before.target[2] - moved.target[2] == pytest.approx(shelf(window, "lower").depth - 203.2)
    window.store.undo()


def test_while_it_is_pulled_nothing_moves_but_what_must(window: Window, mouse: Mouse) -> None:
    was = places(window.store.plan)
    pull(mouse, "length", 8.0)
    now = places(window.store.plan)
    assert now["lower"] == was["lower"]
    row = {name for name, place in was.items() if place[1] == was["lower"][1] and place[0] > was["lower"][0]}
    assert {name for name in was if now.get(name) != was[name]} <= row
    mouse.release()
    assert window.store.plan == make_plan(window.store.project)


def test_what_is_too_long_is_said_with_its_amount(window: Window, mouse: Mouse) -> None:
    pull(mouse, "length", 10.0)
    mouse.type("110")
    mouse.enter()
    mouse.release()
    pull(mouse, "length", 4.0)
    readout = mouse.hand.readout
    assert readout is not None
    assert next(over for over in window.store.plan.overruns if over.shelf == "lower").over_x > 0.0
    assert "too long" in readout.trouble
    assert '"' in readout.trouble
    mouse.release()


def test_escape_puts_everything_back(window: Window, mouse: Mouse) -> None:
    store = window.store
    store.select("lower/top")
    settle(window.fold.picture)
    before, eye = store.project, camera(window)
    for key in KEYS:
        pull(mouse, key, 14.0)
        assert store.held is not None
        plan = store.held.plan
        assert store.project != before
        mouse.key(Qt.Key.Key_Escape)
        assert store.project is before
        assert store.plan is plan
        assert (store.selected, store.undo_label) == ("lower/top", "")
        mouse.move(10.0, 10.0)  # the button is still down
        mouse.release()
        assert store.project is before
        settle(window.fold.picture)
        assert camera(window) == eye


def test_a_digit_replaces_the_value(window: Window, mouse: Mouse) -> None:
    before = window.store.project
    pull(mouse, "depth", 10.0)
    mouse.type("7 3/16")
    mouse.move(20.0, 20.0)  # while it is typed the pointer changes nothing
    mouse.enter()
    mouse.move(20.0, 20.0)
    mouse.release()
    assert shelf(window, "lower").depth == pytest.approx(7.1875 * INCH_MM)
    assert steps(window) == 1
    window.store.undo()
    assert window.store.project == before


def test_letters_choose_digits_type_and_arrows_step_without_the_mouse(window: Window, mouse: Mouse) -> None:
    window.fold.picture.setFocus()
    eye = camera(window)
    mouse.key(Qt.Key.Key_D)
    mouse.type("7.5")
    mouse.enter()
    assert shelf(window, "lower").depth == pytest.approx(7.5 * INCH_MM)
    mouse.key(Qt.Key.Key_L)
    long = shelf(window, "lower").length
    for _ in range(3):
        mouse.key(Qt.Key.Key_Right)
    assert shelf(window, "lower").length == pytest.approx(long + 3 * SIXTEENTH)
    mouse.key(Qt.Key.Key_Left, SHIFT)
    assert shelf(window, "lower").length == pytest.approx(long + 2.75 * SIXTEENTH)
    settle(window.fold.picture)
    assert camera(window).turn == eye.turn
    mouse.key(Qt.Key.Key_Escape)  # no handle is chosen any more: arrow keys turn the shelf
    mouse.key(Qt.Key.Key_Left)
    assert camera(window).turn != eye.turn
    assert shelf(window, "lower").length == pytest.approx(long + 2.75 * SIXTEENTH)
    assert steps(window) == 2


def test_millimetres_step_by_millimetres(window: Window, mouse: Mouse) -> None:
    window.store.apply("Units", lambda p: msgspec.structs.replace(p, units="mm"))
    settle(window.fold.picture)
    mouse.click(mouse.square("height"))
    mouse.key(Qt.Key.Key_Up)
    assert shelf(window, "lower").height == 64.0
    mouse.key(Qt.Key.Key_Down, SHIFT)
    assert shelf(window, "lower").height == pytest.approx(63.9)


def test_shift_drags_a_tenth_of_the_way(window: Window, mouse: Mouse) -> None:
    start = shelf(window, "lower").length
    pull(mouse, "length", 40.0)
    far = shelf(window, "lower").length - start
    mouse.key(Qt.Key.Key_Escape)
    mouse.release()
    settle(window.fold.picture)
    pull(mouse, "length", 40.0, SHIFT)
    fine = shelf(window, "lower").length - start
    assert 0.0 < fine < 0.15 * far
    mouse.release()


def test_the_same_size_of_another_shelf_catches(window: Window, mouse: Mouse) -> None:
    side = next(one for one in window.store.project.shelves if one.id == "side")
    per = mouse.handle("length").number.per
    handle = mouse.handle("length")
    pixels = next(
        far / 2.0
        for far in range(0, -800, -1)
        if abs(handle.after((far / 2.0 * handle.number.axis[0], far / 2.0 * handle.number.axis[1]))[0] - side.length)
        <= 1.5 * per
    )
    pull(mouse, "length", pixels)
    assert shelf(window, "lower").length == side.length
    readout = mouse.hand.readout
    assert readout is not None
    assert "as long as C" in readout.caught
    mouse.release()


def test_beside_the_handles_the_shelf_is_still_turned(window: Window, mouse: Mouse) -> None:
    before, project = camera(window), window.store.project
    at = window.fold.picture.project_to_screen((150.0, 30.0, 0.0))
    assert at is not None
    assert mouse.hand.reach.at(at) is None
    mouse.drag(at, 40.0, 10.0)
    assert camera(window).turn != before.turn
    assert window.store.project is project
    mouse.press(mouse.square("length"), MIDDLE)
    mouse.move(10.0, 0.0, button=MIDDLE)
    mouse.release(MIDDLE)
    assert window.store.project is project


def test_a_handle_whose_line_points_at_the_viewer_is_not_pulled(window: Window, mouse: Mouse) -> None:
    front = next(side for side in SIDES if side.name == "front")
    look(window, front.turn, front.tilt)
    project = window.store.project
    assert mouse.handle("depth").is_still
    mouse.hover(mouse.square("length"))
    assert not window.fold.picture.sizes.note
    mouse.hover(mouse.square("depth"))
    assert 'Depth 8"' in window.fold.picture.sizes.note
    mouse.drag(mouse.square("depth"), 12.0, 8.0)
    assert window.store.project is project
    look(window, front.turn, front.tilt)
    mouse.key(Qt.Key.Key_D)
    mouse.type("9")
    mouse.enter()
    assert shelf(window, "lower").depth == pytest.approx(9.0 * INCH_MM)


def test_handles_are_there_when_selected_or_pointed_at(window: Window, mouse: Mouse) -> None:
    window.store.select("")
    settle(window.fold.picture)
    assert not mouse.hand.reach.handles()
    at = window.fold.picture.project_to_screen((150.0, 30.0, 0.0))
    assert at is not None
    mouse.hover(at)
    assert len(mouse.hand.reach.handles()) == 3
    mouse.hover(mouse.square("length"))  # on the handle they stay
    assert len(mouse.hand.reach.handles()) == 3
    mouse.hover(QPointF(3.0, 3.0))
    assert not mouse.hand.reach.handles()


def test_flat_there_are_none_and_it_is_said(window: Window, mouse: Mouse) -> None:
    picture = window.fold.picture
    assert not picture.sizes.words
    picture.set_pose(picture.pose._replace(fold=0.2))
    assert not mouse.hand.reach.handles()
    assert picture.sizes.words


def test_on_the_wall_a_shelf_is_pulled_where_it_hangs(window: Window, mouse: Mouse) -> None:
    picture = window.fold.picture
    picture.set_pose(picture.pose._replace(wall=True))
    settle(picture)
    look(window, -30.0, 20.0)
    before, mount = shelf(window, "lower"), shelf(window, "lower").mount
    assert mount is not None
    pull(mouse, "length left", 10.0)
    grown = shelf(window, "lower").length - before.length
    now = shelf(window, "lower").mount
    assert grown > 0.0
    assert now is not None
    assert (now.x, now.top) == pytest.approx((mount.x - grown, mount.top))
    mouse.release()
    settle(picture)
    top = stage_top(window)
    pull(mouse, "height", 6.0)
    assert stage_top(window) > top
    mouse.release()


def stage_top(window: Window) -> float:
    hung: Shelf = shelf(window, "lower")
    assert hung.mount is not None
    return hung.mount.top


def test_while_another_board_is_dragged_the_picture_makes_no_handles(
    window: Window, mouse: Mouse, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[object] = []
    monkeypatch.setattr("app.fold.pulling.size_handles", lambda *given: made.append(given) or ())
    other = Mouse(window, window.sheet.canvas)
    other.press(other.square("length", "lower"))
    other.move(30.0, 0.0)
    settle(window.fold.picture)
    assert not made
    other.release()
    settle(window.fold.picture)
    assert made
