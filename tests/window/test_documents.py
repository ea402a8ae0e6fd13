"""New, open, save, leave, export: through the window, the system's dialogs answered for the maker."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QElapsedTimer, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.window.exporting import MAKERS
from app.window.window import Window
from core.document.load import load_project
from core.document.model import Project
from core.document.save import save_project

Find = Callable[[str], QWidget]
Click = Callable[[str], None]
Enter = Callable[[str, str], None]


@pytest.fixture
def choose(monkeypatch: pytest.MonkeyPatch) -> Callable[[Path | str], None]:
    """The file the system's dialogs come back with."""

    def answer(path: Path | str) -> None:
        for name in ("getSaveFileName", "getOpenFileName"):
            monkeypatch.setattr(QFileDialog, name, lambda *_args, **_named: (str(path), ""))

    return answer


def press(window: Window, action: str) -> None:
    window.actions_[action].trigger()


def made(window: Window) -> None:
    """Wait until no pages are being made."""
    wait = QElapsedTimer()
    wait.start()
    while window.exporting.making.busy and wait.elapsed() < 60_000:
        QTest.qWait(5)


def test_saving_asks_for_a_file_once(
    window: Window, enter: Enter, click: Click, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    path = tmp_path / "study"
    choose(path)
    enter("shelf_depth", "7")
    assert window.store.unsaved
    click("button_save")
    saved = path.with_suffix(".grainfold")
    assert window.store.path == saved
    assert not window.store.unsaved
    assert load_project(saved) == window.store.project
    choose("")
    enter("shelf_depth", "7 1/4")
    click("button_save")
    assert load_project(saved) == window.store.project


def test_a_dialog_that_is_left_saves_nothing(window: Window, click: Click, choose: Callable[[str], None]) -> None:
    choose("")
    click("button_save")
    assert window.store.path is None


def test_opening_shows_the_project(
    window: Window, click: Click, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    other = Project(window.store.project.sheets, (), name="Other room", units="mm")
    save_project(other, tmp_path / "other.grainfold")
    choose(tmp_path / "other.grainfold")
    click("button_open")
    assert window.store.project == other
    name = window.findChild(QLineEdit, "project_name")
    assert name.text() == "Other room"
    assert not window.store.undo_label


def test_a_file_that_cannot_be_read_is_told_in_the_bottom_line(
    window: Window, click: Click, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    before = window.store.project
    (tmp_path / "bad.grainfold").write_text('{"format": "grainfold project", "version": 1, "sheets": []}')
    choose(tmp_path / "bad.grainfold")
    click("button_open")
    assert window.store.project == before
    assert window.line.tone == "error"
    assert "bad.grainfold" in window.line.text


def test_a_place_that_cannot_be_written_is_told_and_nothing_is_lost(
    window: Window, enter: Enter, click: Click, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    enter("shelf_depth", "7")
    choose(tmp_path / "no such folder" / "x.grainfold")
    click("button_save")
    assert window.line.tone == "error"
    assert window.store.unsaved
    choose(tmp_path / "x.grainfold")
    click("answer_elsewhere")
    assert not window.store.unsaved


def test_closing_with_changes_asks_in_the_bottom_line(window: Window, enter: Enter, click: Click) -> None:
    enter("shelf_depth", "7")
    window.close()
    assert window.isVisible()
    assert window.line.asking
    click("answer_stay")
    assert window.isVisible()
    assert not window.line.asking
    window.close()
    click("answer_without")
    assert not window.isVisible()


def test_escape_answers_stay(window: Window, find: Find, enter: Enter, qtbot: QtBot) -> None:
    enter("shelf_depth", "7")
    window.close()
    qtbot.keyClick(find("answer_save"), Qt.Key.Key_Escape)
    assert window.isVisible()
    assert not window.line.asking


def test_saving_before_closing(
    window: Window, enter: Enter, click: Click, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    choose(tmp_path / "study.grainfold")
    enter("shelf_depth", "7")
    window.close()
    click("answer_save")
    assert not window.isVisible()
    assert load_project(tmp_path / "study.grainfold").shelves[0].depth == pytest.approx(177.8)


def test_closing_without_changes_asks_nothing(window: Window) -> None:
    window.close()
    assert not window.isVisible()


def test_a_new_project_asks_first_when_there_are_changes(window: Window, enter: Enter, click: Click) -> None:
    enter("shelf_depth", "7")
    click("button_new")
    assert window.line.asking
    click("answer_without")
    assert window.store.project.shelves == ()
    assert not window.store.unsaved


def test_a_new_project_begins_on_the_three_boards(window: Window, find: Find, click: Click) -> None:
    click("button_pages")
    assert window.boards.filled == "sheet"
    click("button_new")
    assert find("board_sheet").isVisible()
    assert window.boards.filled == ""
    assert not window.actions_["pages"].isChecked()
    assert window.wall.picture.hasFocus()


def test_a_whole_job_from_a_new_project(
    window: Window, find: Find, enter: Enter, click: Click, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    click("button_new")
    assert find("board_sheet").isVisible()
    click("shelf_chips_add")
    enter("shelf_length", "52 3/8")
    enter("shelf_depth", "7 1/2")
    click("shelf_duplicate")
    enter("shelf_length", "30")
    assert len(window.store.plan.nets) == 2
    choose(tmp_path / "plan set.pdf")
    click("button_pages")
    click("pages_save")
    made(window)
    assert (tmp_path / "plan set.pdf").read_bytes().startswith(b"%PDF")
    assert "plan set.pdf" in window.line.text


@pytest.mark.parametrize("form", sorted(MAKERS))
def test_every_form_is_written(window: Window, choose: Callable[[Path], None], tmp_path: Path, form: str) -> None:
    choose(tmp_path / "plan")
    press(window, f"export_{form}")
    made(window)
    assert (tmp_path / f"plan.{form}").stat().st_size > 200
    assert window.line.tone == "fine"


def test_a_plan_with_errors_is_written_with_a_warning(
    window: Window, enter: Enter, choose: Callable[[Path], None], tmp_path: Path
) -> None:
    enter("shelf_length", "100")
    choose(tmp_path / "plan.json")
    press(window, "export_json")
    assert (tmp_path / "plan.json").exists()
    assert window.line.tone == "warning"
    assert "1 error" in window.line.text


def test_an_unwritable_target_is_told(window: Window, choose: Callable[[Path], None], tmp_path: Path) -> None:
    choose(tmp_path / "none" / "plan.csv")
    press(window, "export_csv")
    assert window.line.tone == "error"


def test_the_name_of_the_project_is_typed_in_the_bar(window: Window, enter: Enter, find: Find) -> None:
    enter("project_name", "Back room")
    assert window.store.project.name == "Back room"
    window.store.undo()
    assert window.store.project.name == "Study wall"


def test_at_the_start_a_file_is_opened_or_a_copy_of_a_demo(window: Window, tmp_path: Path) -> None:
    from app.window.start import first_demo

    demo = first_demo()
    assert demo is not None
    window.open_at_start(None, demo)
    assert window.store.project == load_project(demo)
    assert window.store.path is None  # saving must not write over the demo
    path = tmp_path / "mine.grainfold"
    save_project(window.store.project, path)
    window.open_at_start(path, demo)
    assert window.store.path == path
    window.open_at_start(tmp_path / "gone.grainfold", demo)
    assert window.store.path == path
    assert "gone.grainfold" in window.line.text
