"""Stepping through the cuts: by keys and buttons, following the plan, one selection, nothing while a hand drags."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import QPoint, QPointF, QRect, Qt
from PySide6.QtWidgets import QLabel, QListWidget, QPushButton
from pytestqt.qtbot import QtBot

from app.steps.board import EMPTY, WAITING, StepsBoard
from app.steps.said import said_of, setups
from app.steps.walk import follow, marks_of, step_about
from app.window.window import Window
from core.document.model import Project, Saw
from core.drawing.cutstep import lay_out
from core.plan.make import make_plan
from core.steps.steps import steps_of
from tests.window.conftest import Find
from tests.window.fit_child import contrast

Click = Callable[[str], None]
Key = Qt.Key


@pytest.fixture
def board(window: Window, qtbot: QtBot) -> StepsBoard:
    window.actions_["cut_steps"].trigger()
    board = window.boards.occupant("sheet")
    assert isinstance(board, StepsBoard)
    qtbot.waitUntil(board.canvas.hasFocus)
    return board


def press(qtbot: QtBot, board: StepsBoard, *keys: Key) -> int:
    for key in keys:
        qtbot.keyClick(board.canvas, key)
    return board.number


def test_it_opens_in_the_sheets_place_and_closes(window: Window, click: Click, find: Find) -> None:
    click("sheet_steps")
    board = window.boards.occupant("sheet")
    assert isinstance(board, StepsBoard)
    assert window.actions_["cut_steps"].isChecked()
    assert board.number == 1
    click("steps_close")
    assert window.boards.occupant("sheet") is window.sheet
    assert not window.actions_["cut_steps"].isChecked()


def test_keys_step_on_and_back_first_and_last(board: StepsBoard, qtbot: QtBot) -> None:
    last = len(board.steps)
    assert press(qtbot, board, Key.Key_Right, Key.Key_Down, Key.Key_Space) == 4
    assert press(qtbot, board, Key.Key_Left, Key.Key_Up) == 2
    assert press(qtbot, board, Key.Key_End) == last
    assert press(qtbot, board, Key.Key_Right) == last
    assert press(qtbot, board, Key.Key_Home) == 1
    assert press(qtbot, board, Key.Key_Left) == 1
    qtbot.keyClick(board.canvas, Key.Key_Space)
    qtbot.keyClick(board.canvas, Key.Key_Space, Qt.KeyboardModifier.ShiftModifier)
    assert board.number == 1


def test_buttons_step_and_end_where_there_is_no_more(board: StepsBoard, click: Click, find: Find) -> None:
    assert not find("steps_back").isEnabled()
    click("steps_next")
    assert board.number == 2
    click("steps_last")
    assert board.number == len(board.steps)
    assert not find("steps_next").isEnabled()
    click("steps_first")
    assert board.number == 1


def test_every_step_shows_its_number_its_section_and_its_bench(board: StepsBoard, find: Find, qtbot: QtBot) -> None:
    plan = board.store.plan
    for step in board.steps:
        board.show_step(step.number)
        said = said_of(plan, board.steps, step.number)
        number = board.words.findChild(QLabel, "steps_number")
        assert number.text() == said.number != ""
        assert board.canvas.drawing is not None
        assert board.canvas.drawing.name == f"step {step.number}"
        assert board.section._drawing is not None
        assert board.section._drawing.name == f"cut section {step.number}"
        lines = [line.words.text() for some in board.words._lists.values() for line in some if line.words.text()]
        assert set(said.do + said.falls + said.dangers + said.care) == set(lines)


def test_a_number_beyond_the_sheet_stays_when_the_picture_is_painted_again(
    window: Window, board: StepsBoard, qtbot: QtBot
) -> None:
    """Painted the same twice, a picture may be kept: with all that stands in it."""
    for number in range(1, min(20, len(board.steps)) + 1):
        board.show_step(number)
        first = board.canvas.grab().toImage()
        assert [board.canvas.grab().toImage() == first for _ in range(2)] == [True, True], number


def test_set_ups_are_listed_and_jumped_by(window: Window, board: StepsBoard) -> None:
    window.boards.fill("sheet")
    listed = board.findChild(QListWidget, "steps_setups")
    found = setups(board.steps)
    assert listed.isVisible()
    assert [listed.item(row).text() for row in range(listed.count())] == [setup.words for setup in found]
    listed.setCurrentRow(2)
    assert board.number == found[2].first
    board.show_step(found[1].first)
    assert listed.currentRow() == 1


def test_it_is_small_beside_another_board(window: Window, board: StepsBoard) -> None:
    window.boards.fill("wall")
    assert board.small
    assert not board.words.isVisible()
    assert board.canvas.drawing is not None
    window.boards.fill("")
    assert board.words.isVisible()


# One selection


def test_a_click_on_a_piece_selects_its_panel_and_the_step_stays(
    window: Window, board: StepsBoard, qtbot: QtBot
) -> None:
    plan = window.store.plan
    panel = next(panel for panel in plan.panels if panel.role == "top")
    number = next(step.number for step in board.steps if panel.id in step.parts)
    board.show_step(number)
    one = next(one for one in lay_out(plan, number) if one.piece.name in board.steps[number - 1].under)
    board.canvas.fit()
    assert panel.x is not None
    assert panel.y is not None
    place = (panel.x + 0.93 * panel.show[0] + one.aside[0], panel.y + 0.4 * panel.show[1] + one.aside[1])
    at = board.canvas.to_pixel(place)
    qtbot.mouseClick(board.canvas, Qt.MouseButton.LeftButton, pos=QPointF(at).toPoint())
    assert window.store.selected == panel.id
    assert board.number == number
    assert board.canvas.lines is not None
    assert board.canvas.lines(panel.id)


def test_a_panel_selected_elsewhere_moves_the_step(window: Window, board: StepsBoard) -> None:
    for panel in window.store.plan.panels:
        window.store.select(panel.id)
        assert panel.id in board.steps[board.number - 1].abouts
    before = board.number
    window.store.select("upper")  # a whole shelf is nothing to go to
    assert board.number == before


def test_a_seam_and_a_piece_are_gone_to_as_well(window: Window, board: StepsBoard) -> None:
    plan = window.store.plan
    seam = next(seam for seam in plan.seams if seam.id == "upper/front-bottom")
    window.store.select(seam.id)
    step = board.steps[board.number - 1]
    assert step.bevel
    assert step.about in seam.between
    offcut = plan.offcuts[-1]
    window.store.select(offcut.piece)
    cuts = {cut.n: cut for cut in plan.cuts}
    assert any(offcut.piece in cuts[n].makes for n in board.steps[board.number - 1].cuts)


def test_what_was_selected_while_it_was_hidden_is_gone_to(window: Window, board: StepsBoard) -> None:
    window.actions_["cut_steps"].trigger()
    assert not board.isVisible()
    window.store.select("lower/front")
    assert board.number == 1
    window.actions_["cut_steps"].trigger()
    assert board.steps[board.number - 1].about == "lower/front"


# Following the plan


def test_an_edit_keeps_the_same_cut(window: Window, board: StepsBoard) -> None:
    window.store.select("lower/top")
    step = board.steps[board.number - 1]
    deeper = msgspec.structs.replace(window.store.project.shelves[0], depth=210.0)
    window.store.apply("Depth", lambda p: msgspec.structs.replace(p, shelves=(deeper, *p.shelves[1:])))
    now = board.steps[board.number - 1]
    assert (now.about, now.kind, now.keep, now.second) == (step.about, step.kind, step.keep, step.second)
    assert board.canvas.drawing is not None
    assert board.canvas.drawing.name == f"step {now.number}"


def test_fewer_steps_keep_the_last_there_is(window: Window, board: StepsBoard) -> None:
    board.show_step(len(board.steps))
    window.store.apply("Remove", lambda p: msgspec.structs.replace(p, shelves=p.shelves[:1]))
    assert 0 < board.number <= len(board.steps)


def test_nothing_to_cut_is_said(window: Window, board: StepsBoard) -> None:
    window.store.apply("Remove", lambda p: msgspec.structs.replace(p, shelves=()))
    assert board.number == 0
    assert board.subtitle.words == EMPTY
    assert not board.words.isVisible()
    board.go(1)
    assert board.number == 0
    window.store.undo()
    assert board.number == 1
    assert board.words.isVisible()


def test_while_a_hand_drags_it_waits_and_says_so(
    window: Window, board: StepsBoard, monkeypatch: pytest.MonkeyPatch
) -> None:
    board.show_step(5)
    made = []
    monkeypatch.setattr("app.steps.board.draw_step", lambda *of: made.append(of) or draw(*of))
    window.store.take_hold()
    shelf = msgspec.structs.replace(window.store.project.shelves[0], depth=205.0)
    window.store.apply("Depth", lambda p: msgspec.structs.replace(p, shelves=(shelf, *p.shelves[1:])))
    assert board.subtitle.words == WAITING
    board.go(1)
    assert made == []
    window.store.let_go()
    assert len(made) >= 1
    assert board.subtitle.words != WAITING
    assert board.number == 5


def test_hidden_it_costs_nothing(window: Window, board: StepsBoard, monkeypatch: pytest.MonkeyPatch) -> None:
    window.actions_["cut_steps"].trigger()
    asked = []
    monkeypatch.setattr("app.steps.board.day_of", lambda plan: asked.append(plan))
    shelf = msgspec.structs.replace(window.store.project.shelves[0], depth=205.0)
    window.store.apply("Depth", lambda p: msgspec.structs.replace(p, shelves=(shelf, *p.shelves[1:])))
    window.store.select("lower/top")
    assert asked == []


def test_the_wood_is_turned_about_on_a_table_saw(window: Window, board: StepsBoard) -> None:
    window.store.apply("Saw", lambda p: msgspec.structs.replace(p, saw=Saw(kind="table", guide_length=900.0)))
    plan = window.store.plan
    for step in board.steps:
        board.show_step(step.number)
        if step.kind == "rip" and step.guide == "high":
            shown = {one.piece.name: one for one in lay_out(plan, step.number)}
            panel = next(
                (p for p in plan.panels if p.piece in shown and p.x is not None and shown[p.piece].box[2] > 0), None
            )
            if panel is not None and panel.piece is not None:
                x0, y0, x1, y1 = shown[panel.piece].box
                assert board._find((x0 + x1) / 2.0, y0 + 0.45 * (y1 - y0), 0.0).startswith(panel.shelf)


# The walk itself


def test_marks_tell_steps_apart_and_find_them_again(project: Project) -> None:
    steps = steps_of(make_plan(project))
    marks = marks_of(steps)
    assert len(set(marks)) == len(steps)
    for step, mark in zip(steps, marks, strict=True):
        assert follow(mark, 1, steps) == step.number
    assert follow(None, 7, steps) == 7
    assert follow(None, 0, steps) == 1
    assert follow(None, 10_000, steps) == len(steps)
    assert follow(marks[3], 4, ()) == 0


def test_the_step_shown_stays_if_it_is_about_what_is_selected(project: Project) -> None:
    plan = make_plan(project)
    steps = steps_of(plan)
    mine = [step.number for step in steps if "upper/top" in step.abouts]
    assert len(mine) > 1
    assert step_about(plan, steps, "upper/top", mine[1]) == mine[1]
    assert step_about(plan, steps, "upper/top", 1) == mine[0]
    assert step_about(plan, steps, "upper", 3) == 0
    assert step_about(plan, steps, "", 3) == 0
    assert step_about(plan, steps, plan.sheets[0].id, 3) == 3


def draw(*of: object) -> object:
    from core.drawing.cutstep import draw_step

    return draw_step(*of)  # type: ignore[arg-type]  # what the board asked for


def test_it_has_a_button_in_the_sheets_heading_and_a_row_in_the_menu(window: Window) -> None:
    assert window.sheet.findChild(QPushButton, "sheet_steps") is not None
    assert window.actions_["cut_steps"] in window.top_bar.boards_menu.actions()


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_arrows_can_be_read_as_they_are_painted(window: Window, qtbot: QtBot, theme: str) -> None:
    """WCAG 2.2, 1.4.3: 4.5 : 1, of the pixels at scale 1, where thin strokes never reach their own colour."""
    window.theme.set_mode(theme)
    window.actions_["cut_steps"].trigger()
    board = window.guests.get("cut_steps")
    assert isinstance(board, StepsBoard)
    board.go(3)
    picture = window.grab()
    for name in ("first", "back", "next", "last"):
        button = board.findChild(QPushButton, f"steps_{name}")
        assert button is not None
        box = QRect(button.mapTo(window, QPoint(0, 0)), button.size()).adjusted(3, 3, -3, -3)
        assert contrast(picture.toImage(), box) >= 4.5, name
