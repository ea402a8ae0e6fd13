"""The safety of the work through the window: recovered, asked, said in the bottom line, always with a way out."""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication
from PySide6.QtWidgets import QApplication, QListWidget, QWidget
from pytestqt.qtbot import QtBot

from app.safe.places import new_lonely, own_folder, rescue_beside
from app.safe.report import report
from app.window.window import Window
from core.document.load import load_project
from core.document.model import Project
from core.document.rescue import Rescue, rescue_bytes
from core.document.revisions import revision_words
from core.document.save import save_project
from core.export.atomic import write_atomically
from tests.safe.conftest import deeper

Find = Callable[[str], QWidget]
Click = Callable[[str], None]
Enter = Callable[[str, str], None]
Choose = Callable[[Path | str], None]


@pytest.fixture
def file(project: Project, tmp_path: Path) -> Path:
    path = tmp_path / "study.grainfold"
    save_project(project, path)
    return path


def left_behind(path: Path, project: Project) -> None:
    """As a window that was killed leaves it."""
    write_atomically(
        rescue_beside(path), rescue_bytes(Rescue(project, path.name, "", "2026-05-17T14:32:05", ("Depth",)))
    )


def test_work_left_behind_is_recovered_and_told_with_what_differs(
    window: Window, file: Path, project: Project, click: Click
) -> None:
    left_behind(file, deeper(180.0)(project))
    assert window.files.open_path(file)
    assert window.store.project.shelves[0].depth == 180.0
    assert window.store.unsaved
    assert window.line.asking
    for words in ("14:32", "Depth of upper", '7-3/32"', '8"'):
        assert words in window.line.text
    click("answer_differs")
    differs = window.findChild(QListWidget, "history_differences")
    assert differs.count() == 1
    assert "Depth of upper" in differs.item(0).text()
    window.files.save()
    assert load_project(file) == window.store.project
    assert not rescue_beside(file).exists()


def test_as_it_was_saved_is_one_answer_and_redo_brings_the_work_back(
    window: Window, file: Path, project: Project, click: Click
) -> None:
    left_behind(file, deeper(180.0)(project))
    window.files.open_path(file)
    click("answer_saved")
    assert window.store.project == project
    assert not window.store.unsaved
    window.store.redo()
    assert window.store.project.shelves[0].depth == 180.0


def test_a_rescue_that_says_nothing_new_or_is_broken_is_passed_over(
    window: Window, file: Path, project: Project
) -> None:
    left_behind(file, project)
    window.files.open_path(file)
    assert not window.line.asking
    assert not rescue_beside(file).exists()
    rescue_beside(file).write_bytes(b"{")
    window.files.open_path(file)
    assert not window.store.unsaved


def test_work_that_never_had_a_file_is_offered_at_the_next_start(window: Window, project: Project) -> None:
    lonely = new_lonely(own_folder())
    lonely.parent.mkdir(parents=True, exist_ok=True)
    write_atomically(lonely, rescue_bytes(Rescue(deeper(181.0)(project), "", "", "2026-05-17T14:32:05", ())))
    window.open_at_start(None, None)
    assert window.store.project.shelves[0].depth == 181.0
    assert "2 shelves" in window.line.text
    window.files.keeper.write_now()
    assert not lonely.exists()  # kept under this window's own number from now on


def test_closing_keeps_what_is_not_saved_when_nobody_can_be_asked(window: Window, file: Path) -> None:
    window.files.open_path(file)
    window.store.apply("Depth", deeper(180.0))
    window.leave_kept()
    assert not window.isVisible()
    assert rescue_beside(file).exists()


def test_leaving_without_saving_leaves_nothing_behind(window: Window, file: Path, click: Click) -> None:
    window.files.open_path(file)
    window.store.apply("Depth", deeper(180.0))
    window.files.keeper.write_now()
    window.close()
    click("answer_without")
    assert not window.isVisible()
    assert sorted(path.name for path in file.parent.glob("*study*")) == ["study.grainfold"]


# The file is changed by something else


def test_a_file_changed_on_the_disk_is_noticed_and_can_be_taken(
    window: Window, file: Path, project: Project, click: Click
) -> None:
    window.files.open_path(file)
    save_project(deeper(150.0)(project), file)
    window.files.watch.look()
    assert "Depth of upper" in window.line.text
    click("answer_take")
    assert window.store.project.shelves[0].depth == 150.0
    assert not window.store.unsaved
    window.store.undo()
    assert window.store.project == project


def test_keeping_mine_saves_over_it_without_asking_again(
    window: Window, file: Path, project: Project, click: Click
) -> None:
    window.files.open_path(file)
    save_project(deeper(150.0)(project), file)
    window.files.watch.look()
    click("answer_mine")
    assert window.store.unsaved
    assert window.files.save()
    assert load_project(file) == project


def test_saving_over_what_something_else_wrote_is_asked_first(
    window: Window, file: Path, project: Project, click: Click
) -> None:
    window.files.open_path(file)
    window.store.apply("Depth", deeper(180.0))
    save_project(deeper(150.0)(project), file)
    assert not window.files.save()
    click("answer_stay")
    assert load_project(file).shelves[0].depth == 150.0
    assert not window.files.save()
    click("answer_over")
    assert load_project(file).shelves[0].depth == 180.0


def test_a_file_written_again_with_the_same_is_no_change(window: Window, file: Path, project: Project) -> None:
    window.files.open_path(file)
    save_project(project, file)
    os.utime(file, (1.0, 1.0))
    window.files.watch.look()
    assert not window.line.asking
    assert window.files.save()


def test_a_file_that_is_gone_is_said_once_and_saved_again(window: Window, file: Path, find: Find, click: Click) -> None:
    window.files.open_path(file)
    file.unlink()
    window.files.watch.look()
    assert window.line.tone == "warning"
    assert window.store.unsaved
    window.line.clear_message()
    window.files.watch.look()
    assert window.line.tone != "warning" or "no longer" not in window.line.text
    assert window.files.save()
    assert file.exists()


def test_a_file_that_became_something_else_is_said(window: Window, file: Path, project: Project) -> None:
    window.files.open_path(file)
    file.write_bytes(b"shopping list")
    window.files.watch.look()
    assert "no project any more" in window.line.text
    assert window.store.project == project
    assert window.store.unsaved


def test_a_file_that_is_open_twice_is_noticed(
    window: Window, open_window: Callable[[Project], Window], file: Path, project: Project
) -> None:
    window.files.open_path(file)
    other = open_window(project)
    other.files.open_path(file)
    assert "another window" in other.line.text
    other.findChild(QWidget, "answer_copy").click()
    assert other.store.path is None
    window.files.open_path(file)
    assert not window.line.asking


# Places that cannot be written


@pytest.mark.parametrize("reason", [errno.ENOSPC, errno.EROFS, errno.EACCES, errno.ENOENT])
def test_what_cannot_be_saved_is_said_with_a_way_out(
    window: Window,
    file: Path,
    click: Click,
    choose: Choose,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    reason: int,
) -> None:
    window.files.open_path(file)
    before = file.read_bytes()
    window.store.apply("Depth", deeper(180.0))

    def refused(*_: object) -> None:
        raise OSError(reason, os.strerror(reason))

    with monkeypatch.context() as broken:
        broken.setattr("core.document.save.write_atomically", refused)
        assert not window.files.save()
        assert window.line.tone == "error"
        assert file.read_bytes() == before
        click("answer_again")
        assert window.store.unsaved
    choose(tmp_path / "other.grainfold")
    click("answer_elsewhere")
    assert not window.store.unsaved
    assert load_project(tmp_path / "other.grainfold") == window.store.project


# Recent files, files dropped


def test_recent_files_are_in_the_menu(window: Window, file: Path, tmp_path: Path) -> None:
    window.files.open_path(file)
    save_project(window.store.project, tmp_path / "other.grainfold")
    window.files.open_path(tmp_path / "other.grainfold")
    window.top_bar.recent_menu.aboutToShow.emit()
    shown = window.top_bar.recent_menu.actions()
    assert [action.text().split()[0] for action in shown] == ["other", "study"]
    shown[1].trigger()
    assert window.store.path == file
    file.unlink()
    window.files.open_path(file)
    assert file not in window.preferences.recent


def test_a_project_dropped_on_the_window_is_opened(window: Window, file: Path, click: Click) -> None:
    window.store.apply("Depth", deeper(180.0))
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(file))])
    buttons, keys, copy = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, Qt.DropAction.CopyAction
    enter = QDragEnterEvent(QPointF(20, 20).toPoint(), copy, data, buttons, keys)
    QApplication.sendEvent(window, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(window, QDropEvent(QPointF(20, 20), copy, data, buttons, keys))
    assert window.line.asking  # there were changes
    click("answer_without")
    assert window.store.path == file
    data.setUrls([QUrl.fromLocalFile(str(file.with_suffix(".txt")))])
    other = QDragEnterEvent(QPointF(20, 20).toPoint(), copy, data, buttons, keys)
    other.ignore()
    QApplication.sendEvent(window, other)
    assert not other.isAccepted()


# History


def test_steps_are_named_and_walked_to(window: Window, qtbot: QtBot) -> None:
    for depth in (180.0, 181.0, 182.0):
        window.store.apply(f"Depth {depth}", deeper(depth))
    window.actions_["history"].trigger()
    steps = window.findChild(QListWidget, "history_steps")
    assert [steps.item(n).text() for n in range(1, 4)] == ["Depth 180.0", "Depth 181.0", "Depth 182.0"]
    assert steps.currentRow() == 3
    steps.setCurrentRow(1)
    steps.itemActivated.emit(steps.item(1))
    assert window.store.project.shelves[0].depth == 180.0
    assert "taken back" in steps.item(2).text()
    steps.setCurrentRow(3)
    steps.itemActivated.emit(steps.item(3))
    assert window.store.project.shelves[0].depth == 182.0


def test_a_revision_is_kept_compared_and_restored(window: Window, enter: Enter, click: Click) -> None:
    window.actions_["history"].trigger()
    enter("revision_name", "as drawn")
    assert revision_words(window.store.project) == "1, as drawn"
    window.store.apply("Depth", deeper(180.0))
    differs = window.findChild(QListWidget, "history_differences")
    assert [differs.item(n).text().partition(":")[0] for n in range(differs.count())] == ["Depth of upper"]
    enter("revision_name", "as drawn")
    assert "name of another" in window.findChild(QWidget, "revision_reason").text()
    click("revision_restore")
    assert revision_words(window.store.project) == "1, as drawn"
    click("revision_remove")
    assert window.store.project.revisions == ()
    window.store.undo()
    assert len(window.store.project.revisions) == 1


# Errors nobody caught


def broken(secret: str) -> None:
    raise RuntimeError(f"no such shelf: {secret}")


def test_an_error_saves_the_work_says_one_sentence_and_goes_on(
    window: Window,
    file: Path,
    find: Find,
    click: Click,
    choose: Choose,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    from app.safe.errors import catch

    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr("threading.excepthook", None)
    catch(window.errors.tell)
    window.files.open_path(file)
    window.store.apply("Depth", deeper(180.0))
    for _ in range(3):
        try:
            broken("Ann's bedroom")
        except RuntimeError as error:
            sys.excepthook(RuntimeError, error, error.__traceback__)
    assert rescue_beside(file).exists()
    assert window.line.tone == "error"
    assert window.line.text.count(".") == 2
    assert "RuntimeError" in capsys.readouterr().err
    click("answer_report")
    text = QGuiApplication.clipboard().text()
    assert "tests/safe/test_window.py" in text
    assert "broken" in text
    for private in ("Ann", "bedroom", str(tmp_path), os.path.expanduser("~"), str(Path(__file__).parents[2])):
        assert private not in text
    window.store.apply("Depth", deeper(181.0))  # it goes on
    assert window.store.project.shelves[0].depth == 181.0


def test_an_error_in_a_thread_is_told_too(window: Window, qtbot: QtBot, capsys: pytest.CaptureFixture[str]) -> None:
    import threading

    def run() -> None:
        try:
            broken("x")
        except RuntimeError as error:
            window.errors.tell(error)

    thread = threading.Thread(target=run)
    thread.start()
    thread.join()
    qtbot.waitUntil(lambda: window.line.tone == "error")


def test_a_report_has_the_causes_but_none_of_their_words() -> None:
    try:
        try:
            broken("secret")
        except RuntimeError as error:
            raise ValueError("/home/ann/x") from error
    except ValueError as error:
        text = report(error)
    assert "ValueError" in text
    assert "RuntimeError" in text
    assert "secret" not in text
    assert "/home" not in text
