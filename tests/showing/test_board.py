"""The board of pictures to show, and writing from it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import pytest
from PIL import Image
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.showing import turntable
from app.showing.board import ShowingBoard
from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf

WAIT_MS = 60_000
SHELVES = (Shelf("hall", 500.0, 150.0, 60.0, mount=Mount(100.0, 1400.0)), Shelf("nook", 300.0, 120.0, 60.0))


@pytest.fixture
def board(qtbot: QtBot, open_window: Callable[[Project], Window]) -> ShowingBoard:
    window = open_window(Project((Sheet("ply", 1400.0, 900.0),), SHELVES, "Job"))
    window.actions_["showing"].trigger()
    found = window.guests.get("showing")
    assert isinstance(found, ShowingBoard)
    drawn(qtbot, found)
    return found


def drawn(qtbot: QtBot, board: ShowingBoard) -> None:
    """Wait until what is shown is what is wished."""

    def is_there() -> bool:
        shown = board._shown
        return shown is not None and shown[:2] == (board.store.plan, board.wish) and not board.working.is_busy

    qtbot.waitUntil(is_there, timeout=WAIT_MS)


def test_what_is_set_is_drawn(qtbot: QtBot, board: ShowingBoard) -> None:
    assert board.wish.is_wall
    first = board.canvas._image.copy()
    assert not first.isNull()
    for name, value in (("finish", "oiled"), ("clear", True), ("shelf", "shelf")):
        board.side.changed.emit(name, value)
    drawn(qtbot, board)
    assert (board.wish.shelf, board.wish.finish, board.wish.clear) == ("hall", "oiled", True)
    assert board.canvas._image.pixelColor(0, 0).alpha() == 0
    board.canvas.turned.emit(50.0, 0.0)
    assert board.wish.view is not None
    board.store.select("nook")
    drawn(qtbot, board)
    assert board.wish.shelf == "nook"


def test_a_shelf_that_is_gone_is_not_shown(qtbot: QtBot, board: ShowingBoard) -> None:
    board.store.select("nook")
    board.side.changed.emit("shelf", "shelf")
    assert board.wish.shelf == "nook"
    board.store.apply("Remove", lambda p: type(p)(p.sheets, p.shelves[:1], p.name))
    assert board.wish.is_wall
    drawn(qtbot, board)


def written(qtbot: QtBot, board: ShowingBoard) -> None:
    qtbot.waitUntil(lambda: not board.writing.working.is_busy, timeout=WAIT_MS)


def test_files_are_written_while_the_window_lives(
    qtbot: QtBot, board: ShowingBoard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(turntable, "FRAMES", 3)
    beats: list[float] = []
    beat = QTimer(board, interval=5)
    beat.timeout.connect(lambda: beats.append(perf_counter()))
    beat.start()
    for kind, name in (("picture", "a.png"), ("turntable", "a.webp"), ("model", "a.glb")):
        board.writing.write(kind, board.wish, tmp_path / name)  # type: ignore[arg-type]
        written(qtbot, board)
    assert len(beats) > 20, "the window was never held for long"
    with Image.open(tmp_path / "a.png") as image:
        assert image.size == (1920, 1080)
    with Image.open(tmp_path / "a.webp") as image:
        assert image.n_frames == 3
    assert (tmp_path / "a.glb").read_bytes()[:4] == b"glTF"
    assert {path.name for path in tmp_path.iterdir()} >= {"a.png", "a.webp", "a.glb"}
    assert not list(tmp_path.glob("*.part")) + list(tmp_path.glob(".*.part"))


def test_called_off_nothing_is_written(qtbot: QtBot, board: ShowingBoard, tmp_path: Path) -> None:
    target = tmp_path / "a.webp"
    target.write_bytes(b"mine")
    board.writing.write("turntable", board.wish, target)
    stop = board.window().findChild(QPushButton, "answer_cancel")
    assert stop is not None
    stop.click()
    assert not board.writing.working.is_busy
    qtbot.wait(300)
    assert target.read_bytes() == b"mine"
    assert [path.name for path in tmp_path.glob("*.webp")] == ["a.webp"]


def test_what_cannot_be_written_is_said(qtbot: QtBot, board: ShowingBoard, tmp_path: Path) -> None:
    board.writing.write("model", board.wish, tmp_path / "none" / "a.glb")
    written(qtbot, board)
    line = board.window().line  # type: ignore[attr-defined]
    assert "Not written" in line._message[1]
