"""The fold board with mouse and keys, drawing solids."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QImage, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.boards.fold import FoldBoard
from app.fold.gl.context import GlError
from app.fold.gl.drawing import Drawing
from app.fold.gl.renderer import Renderer
from app.fold.levels import levels_of
from app.fold.picture import FoldPicture
from app.fold.pose import SIDES
from app.fold.stage import Stage
from core.document.model import Project
from tests.conftest import examples
from tests.fold.conftest import pixels
from tests.fold.scenes import PROJECT, SHELVES

LEFT = Qt.MouseButton.LeftButton
Open = Callable[[Project], FoldBoard]


def stage_of(board: FoldBoard) -> Stage:
    assert board.picture.stage is not None
    return board.picture.stage


def at(picture: FoldPicture, x: float, y: float, z: float) -> QPoint:
    found = picture.project_to_screen((x, y, z))
    assert found is not None
    return found.toPoint()


def shown(board: FoldBoard) -> QImage:
    return board.picture.grab().toImage()


def move(picture: FoldPicture, place: QPoint, buttons: Qt.MouseButton = Qt.MouseButton.NoButton) -> None:
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(place),
        QPointF(picture.mapToGlobal(place)),
        Qt.MouseButton.NoButton,
        buttons,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(picture, event)


def test_a_click_on_a_panel_selects_it(board: FoldBoard, qtbot: QtBot) -> None:
    shown(board)
    qtbot.mouseClick(board.picture, LEFT, pos=at(board.picture, 200.0, 90.0, -80.0))
    assert board.store.selected == "upper/top"
    qtbot.mouseClick(board.picture, LEFT, pos=at(board.picture, 200.0, 45.0, 0.0))
    assert board.store.selected == "upper/front"


def test_a_click_on_a_seam_selects_it(board: FoldBoard, qtbot: QtBot) -> None:
    shown(board)
    qtbot.mouseClick(board.picture, LEFT, pos=at(board.picture, 200.0, 90.0, 0.0))
    assert board.store.selected == "upper/top-front"
    qtbot.mouseClick(board.picture, LEFT, pos=at(board.picture, 420.0, 45.0, 0.0))
    assert board.store.selected == "upper/front-right"


def test_a_click_on_bare_ground_selects_nothing(board: FoldBoard, qtbot: QtBot) -> None:
    shown(board)
    qtbot.mouseClick(board.picture, LEFT, pos=QPoint(4, 4))
    assert board.store.selected == ""


def test_a_stick_is_picked_through_the_shell(board: FoldBoard, qtbot: QtBot) -> None:
    frame = board.store.plan.frames[0]
    board.picture.set_pose(board.picture.pose._replace(frame=True))
    shown(board)
    middle = SHELVES[0].length / 2.0
    qtbot.mouseClick(board.picture, LEFT, pos=at(board.picture, middle, 45.0, -(130.0 - frame.depth)))
    assert board.store.selected in {part.id for part in frame.parts}


def test_on_the_wall_a_click_selects_another_shelf(board: FoldBoard, qtbot: QtBot) -> None:
    qtbot.mouseClick(board.wall_button, LEFT)
    shown(board)
    assert "whole wall" in board.subtitle.words
    qtbot.mouseClick(board.picture, LEFT, pos=at(board.picture, 700.0 + 190.0, 1060.0, 120.0))
    assert board.store.selected == "lower/front"
    qtbot.mouseClick(board.wall_button, LEFT)
    assert stage_of(board).scene.sheets
    assert "shelf B" in board.subtitle.words


def test_pointing_at_a_seam_says_its_name_and_figure(board: FoldBoard, qtbot: QtBot) -> None:
    before = shown(board)
    move(board.picture, at(board.picture, 420.0, 90.0, -60.0))
    assert board.picture.hover == "upper/top-right"
    assert shown(board) != before
    move(board.picture, QPoint(3, 3))
    assert board.picture.hover == ""


def test_dragging_orbits_and_selects_nothing(board: FoldBoard, qtbot: QtBot) -> None:
    shown(board)
    chosen, before = board.store.selected, stage_of(board).eye.camera
    qtbot.mousePress(board.picture, LEFT, pos=QPoint(250, 140))
    for x in range(250, 350, 10):
        move(board.picture, QPoint(x, 120), LEFT)
    qtbot.mouseRelease(board.picture, LEFT, pos=QPoint(350, 120))
    after = stage_of(board).eye.camera
    assert after.turn < before.turn - 20.0  # the shelf follows the hand, so the eye goes the other way
    assert after.tilt < before.tilt
    assert board.store.selected == chosen


def test_the_wheel_zooms_and_0_brings_all_back(board: FoldBoard, qtbot: QtBot) -> None:
    shown(board)
    before = stage_of(board).eye.camera
    board.picture._mover.is_quiet = True
    event = QWheelEvent(
        QPointF(200, 120),
        QPointF(board.picture.mapToGlobal(QPoint(200, 120))),
        QPoint(),
        QPoint(0, 360),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(board.picture, event)
    assert stage_of(board).eye.camera.distance < 0.7 * before.distance
    qtbot.keyClick(board.picture, Qt.Key.Key_0)
    shown(board)
    assert stage_of(board).eye.camera.distance == pytest.approx(before.distance)


@pytest.mark.parametrize("side", SIDES, ids=lambda side: side.name)
def test_a_key_looks_from_each_named_side(board: FoldBoard, qtbot: QtBot, side: object) -> None:
    board.picture._mover.is_quiet = True
    chosen = next(known for known in SIDES if known is side)
    qtbot.keyClick(board.picture, getattr(Qt.Key, f"Key_{chosen.key}"))
    camera = stage_of(board).eye.camera
    assert (camera.turn % 360.0, camera.tilt) == (chosen.turn % 360.0, chosen.tilt)


def test_the_way_to_a_side_is_short_and_ends_there(board: FoldBoard, qtbot: QtBot) -> None:
    board.picture._mover.is_quiet = False
    qtbot.keyClick(board.picture, Qt.Key.Key_F)
    assert board.picture._mover._run.duration() < 300
    qtbot.waitUntil(lambda: not board.picture._mover.is_running, timeout=5000)
    assert stage_of(board).eye.camera.turn == pytest.approx(0.0)


def test_the_slider_folds_and_the_buttons_too(board: FoldBoard, qtbot: QtBot) -> None:
    board.picture._folder.is_quiet = True
    closed = shown(board)
    qtbot.mouseClick(board.controls.flat, LEFT)
    assert board.picture.pose.fold == 0.0
    assert board.controls.fold.share == 0.0
    flat = shown(board)
    assert flat != closed
    slider = board.controls.fold
    qtbot.mouseClick(slider, LEFT, pos=QPoint(slider.width() // 2, slider.height() // 2))
    assert board.picture.pose.fold == pytest.approx(0.5, abs=0.02)
    assert f"{round(100 * board.picture.pose.fold)} %" in board.subtitle.words
    qtbot.mouseClick(board.controls.closed, LEFT)
    assert "closed" in board.subtitle.words
    qtbot.keyClick(board.picture, Qt.Key.Key_Space)
    assert board.picture.pose.fold == 0.0


def test_the_slip_slider_is_there_with_the_frame_and_moves_the_shell(board: FoldBoard, qtbot: QtBot) -> None:
    assert not board.controls.slip.isVisible()
    qtbot.mouseClick(board.controls.frame, LEFT)
    assert board.controls.slip.isVisible()
    home = shown(board)
    board.controls.slip.setValue(700)
    assert board.picture.pose.slip == pytest.approx(0.7)
    assert shown(board) != home


def test_points_of_a_shelf_are_found_in_the_picture_on_the_wall_too(board: FoldBoard) -> None:
    assert board.picture.origin_of("upper") == (0.0, 0.0, 0.0)
    assert board.picture.origin_of("lower") is None
    board.picture.set_pose(board.picture.pose._replace(wall=True))
    shown(board)
    x, y, z = board.picture.origin_of("lower") or (0.0, 0.0, 0.0)
    assert board.picture.thing_at(QPointF(at(board.picture, x + 190.0, y + 40.0, z))) == "lower/front"
    ray = board.picture.ray_at(QPointF(at(board.picture, x + 190.0, y + 40.0, z)))
    assert ray is not None
    (ex, ey, ez), (wx, wy, wz) = ray
    far = (z - ez) / wz
    assert (ex + far * wx, ey + far * wy) == pytest.approx((x + 190.0, y + 40.0), abs=6.0)


def test_an_edit_is_drawn(board: FoldBoard) -> None:
    before = shown(board)
    deeper = replace(SHELVES[0], depth=190.0)
    board.store.apply("Depth", lambda project: replace(project, shelves=(deeper, *project.shelves[1:])))
    assert shown(board) != before


def test_at_rest_the_picture_becomes_smooth(board: FoldBoard, qtbot: QtBot) -> None:
    stage = stage_of(board)
    qtbot.waitUntil(lambda: not stage.live.faces.is_busy, timeout=30_000)
    qtbot.waitUntil(lambda: stage.is_at_rest, timeout=10_000)
    smooth = pixels(shown(board))
    stage.redraw()
    plain = pixels(shown(board))
    assert (smooth != plain).any()
    assert abs(smooth.mean() - plain.mean()) < 1.0  # the same picture, only finer


def test_it_turns_at_the_start_and_never_again_once_touched(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    from app.fold import mover
    from app.store import Store
    from app.theme import Theme

    monkeypatch.setattr(mover, "less_motion", lambda: False)
    board = FoldBoard(Store(PROJECT), Theme("light"))
    qtbot.addWidget(board)
    board.resize(539, 335)
    board.show()
    qtbot.waitUntil(lambda: board.picture.is_turning, timeout=30_000)
    start = stage_of(board).eye.camera.turn
    qtbot.waitUntil(lambda: stage_of(board).eye.camera.turn != start, timeout=5000)
    qtbot.keyClick(board.controls.frame, Qt.Key.Key_Shift)  # anywhere counts
    assert not board.picture.is_turning
    board.hide()
    board.show()
    board.store.select("upper/top")
    board.picture._turn.begin()
    assert not board.picture.is_turning


def test_nothing_turns_where_the_system_asks_for_less_motion(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    from app.fold import mover

    monkeypatch.setattr(mover, "less_motion", lambda: True)
    calls: list[float] = []
    mover_ = mover.Mover(QApplication.instance() or QApplication([]))
    mover_.go(calls.append)
    assert calls == [1.0]
    turn = mover.Turn(mover_, calls.append)
    turn.begin()
    assert not turn.is_running
    mover_.setParent(None)


def test_many_plans_leave_nothing_behind(board: FoldBoard, qtbot: QtBot) -> None:
    stage = stage_of(board)
    renderer = stage.live.renderer
    assert renderer is not None
    qtbot.waitUntil(lambda: not stage.live.faces.is_busy, timeout=30_000)
    shown(board)
    before = renderer.objects
    for step in range(examples(60, 2000)):
        changed = replace(SHELVES[0], length=420.0 - (step % 40), depth=130.0 + step % 7)
        board.store.apply("Size", lambda p, s=changed: replace(p, shelves=(s, *p.shelves[1:])), merge_key="size")
        board.picture.repaint()
    assert renderer.objects <= before
    qtbot.waitUntil(lambda: not stage.live.faces.is_busy, timeout=30_000)
    assert renderer.objects == before


def test_faces_of_sheets_that_are_gone_are_taken_off_the_card(renderer: Renderer) -> None:
    """But for the last few, so that going back to them is quick."""
    levels = levels_of(np.zeros((1024, 1024, 3), np.uint8))
    held = []
    for number in range(20):
        renderer.give(f"sheet {number}", levels)
        while renderer.feed(1000.0):
            pass
        renderer.keep({f"sheet {number}"})
        held.append(renderer.objects)
    assert held[-1] == held[-6], "it keeps growing"
    assert renderer.has("sheet 19")
    assert renderer.has("sheet 18")
    assert not renderer.has("sheet 0")


def test_an_error_while_painting_is_not_swallowed(
    board: FoldBoard, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_args: object) -> None:
        raise RuntimeError("a mistake in the drawing")

    with monkeypatch.context() as patched:  # only here: the picture is painted again before the test is taken down
        patched.setattr(Drawing, "paint", broken)
        stage_of(board).redraw()
        with qtbot.captureExceptions() as errors, pytest.raises(RuntimeError, match="a mistake in the drawing"):
            board.picture.repaint()
    assert not errors


def test_a_fault_that_opengl_reports_is_raised(renderer: Renderer, monkeypatch: pytest.MonkeyPatch) -> None:
    from app.fold.shot import blank

    monkeypatch.setattr(Drawing, "paint", lambda drawing: drawing._gl.glEnable(0xFFFF))
    with pytest.raises(GlError):
        renderer.draw(blank("solid"))


def test_small_beside_another_board_it_has_no_controls(board: FoldBoard) -> None:
    board.show_as(small=True, filling=False)
    assert not board.controls.isVisible()
    board.show_as(small=False, filling=False)
    assert board.controls.isVisible()
