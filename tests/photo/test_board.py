"""The board of a sheet's photographs, as a hand uses it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.hand.reach import name_of
from app.photo.board import PhotoBoard
from app.window.window import Window
from core.document.model import Project, Sheet, Shelf
from core.photo.lens import Lens
from tests.photo.synthetic import bent
from tests.photo.test_document import DATA, SEEN, SHARES, SIZE
from tests.photo.test_opening import BAD

WAIT_MS = 30_000
NONE, LEFT = Qt.KeyboardModifier.NoModifier, Qt.MouseButton.LeftButton


@pytest.fixture
def window(open_window: Callable[[Project], Window]) -> Window:
    return open_window(Project((Sheet("A", 2440.0, 1220.0),), (Shelf("ledge", 1320.0, 210.0, 84.0),), "Oak"))


@pytest.fixture
def board(window: Window) -> PhotoBoard:
    window.actions_["photo"].trigger()
    found = window.guests.get("photo")
    assert isinstance(found, PhotoBoard)
    return found


@pytest.fixture
def taken(qtbot: QtBot, board: PhotoBoard, tmp_path: Path) -> PhotoBoard:
    path = tmp_path / "sheet.jpg"
    path.write_bytes(DATA)
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path))])
    assert board.take_mime(mime, "dropped")
    qtbot.waitUntil(lambda: not board.opening.is_busy, timeout=WAIT_MS)
    return board


def corners(board: PhotoBoard) -> np.ndarray:
    assert board.photo is not None
    return np.array(board.photo.corners)


def test_a_dropped_picture_becomes_the_sheets_with_its_corners_found(taken: PhotoBoard) -> None:
    assert np.abs(corners(taken) - SHARES).max() < 0.004
    assert taken.canvas.size_shown == SIZE
    assert len(taken._handles()) == 8
    taken.store.undo()
    assert taken.photo is None
    assert taken.canvas.size_shown == (0, 0)


def test_a_picture_of_pixels_is_taken_and_kept(qtbot: QtBot, board: PhotoBoard) -> None:
    image = QImage.fromData(DATA)
    mime = QMimeData()
    mime.setImageData(image)
    assert board.take_mime(mime, "pasted")
    qtbot.waitUntil(lambda: not board.opening.is_busy, timeout=WAIT_MS)
    assert board.photo is not None
    path = board.store.pictures.where(board.photo)
    assert QImage(path).convertToFormat(QImage.Format.Format_RGB888) == image.convertToFormat(
        QImage.Format.Format_RGB888
    )


def test_what_is_no_picture_is_said_and_nothing_has_changed(qtbot: QtBot, board: PhotoBoard, tmp_path: Path) -> None:
    before = board.store.project
    (tmp_path / "words.jpg").write_bytes(b"three shelves")
    board.take(str(tmp_path / "words.jpg"), "words.jpg")
    qtbot.waitUntil(lambda: not board.opening.is_busy, timeout=WAIT_MS)
    assert "words.jpg is no JPEG" in board.subtitle.words
    assert not board.take_mime(QMimeData(), "pasted")
    assert board.store.project is before


def test_hostile_pictures_leave_the_project_unharmed(qtbot: QtBot, board: PhotoBoard, tmp_path: Path) -> None:
    before = board.store.project
    for kind, (data, word) in BAD.items():
        path = tmp_path / f"{kind}.jpg"
        path.write_bytes(data)
        board.take(str(path), path.name)
        qtbot.waitUntil(lambda: not board.opening.is_busy, timeout=WAIT_MS)
        assert path.name in board.subtitle.words, kind
        assert word in board.subtitle.words, kind
        assert board.store.project is before, kind


def test_a_picture_that_is_given_up_does_not_come(qtbot: QtBot, board: PhotoBoard, tmp_path: Path) -> None:
    (tmp_path / "sheet.jpg").write_bytes(DATA)
    board.take(str(tmp_path / "sheet.jpg"), "sheet.jpg")
    QTest.keyClick(board, Qt.Key.Key_Escape)
    qtbot.wait(400)
    assert not board.opening.is_busy
    assert board.photo is None


def test_a_corner_is_dragged_stepped_and_put_back(taken: PhotoBoard) -> None:
    canvas = taken.canvas
    before = corners(taken)
    handle = taken._handles()[2]
    at = canvas.to_pixel(handle.at).toPoint()
    QTest.mousePress(canvas, LEFT, NONE, at)
    for step in range(1, 6):
        QTest.mouseMove(canvas, at.__class__(at.x() + 2 * step, at.y() + step))
    QTest.mouseRelease(canvas, LEFT, NONE, at.__class__(at.x() + 10, at.y() + 5))
    moved = (corners(taken)[2] - before[2]) * SIZE
    assert moved == pytest.approx(np.array((10.0, 5.0)) * canvas.pixel(), abs=1.5 * canvas.pixel())
    assert (corners(taken)[[0, 1, 3]] == before[[0, 1, 3]]).all()
    dragged = corners(taken)[2] * SIZE
    canvas.hand.choose(taken._handles()[2])
    QTest.keyClick(canvas, Qt.Key.Key_Right)
    assert corners(taken)[2][0] * SIZE[0] == pytest.approx(np.floor(dragged[0] + 1e-6) + 1.0)
    QTest.keyClick(canvas, Qt.Key.Key_Up)
    assert corners(taken)[2][1] * SIZE[1] == pytest.approx(np.ceil(dragged[1] - 1e-6) - 1.0)
    taken.store.undo()
    taken.store.undo()
    assert (corners(taken) == before).all()


def test_sides_that_would_cross_are_refused(taken: PhotoBoard) -> None:
    canvas, before = taken.canvas, corners(taken)
    handle = taken._handles()[2]
    at, other = (canvas.to_pixel(place).toPoint() for place in (handle.at, (SEEN[0][0] + 40.0, -SEEN[0][1] + 20.0)))
    QTest.mousePress(canvas, LEFT, NONE, at)
    for share in (0.3, 1.0):
        QTest.mouseMove(canvas, at + (other - at) * share)
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    QTest.mouseRelease(canvas, LEFT, NONE, other)
    assert (corners(taken) == before).all()


def test_the_middle_of_an_edge_tells_the_lens(taken: PhotoBoard) -> None:
    """An edge bent by OpenCV's own lens is given the bow that it has there."""
    term, size = -0.03, (float(SIZE[0]), float(SIZE[1]))
    photo = taken.photo
    assert photo is not None
    lens = Lens(term, size)
    ends = lens.unbent(np.array(photo.corners[:2]) * SIZE)
    shown = bent([tuple(ends[0]), tuple(ends.mean(axis=0)), tuple(ends[1])], SIZE, term)
    handle = next(h for h in taken._handles() if name_of(h) == ("", "edge 0"))
    chord = (shown[0] + shown[2]) / 2.0
    way = (shown[2] - shown[0]) / np.hypot(*(shown[2] - shown[0]))
    bow = float((shown[1] - chord) @ (-way[1], way[0]))
    found = handle.put((bow,)).project.sheets[0].photos[0].lens
    assert found == pytest.approx(term, abs=0.002)


def test_it_is_turned_over_evened_and_shown_as_a_part(taken: PhotoBoard) -> None:
    side = taken.side
    side.mirror_set.emit("across")
    side.even_set.emit(0.5)
    side.part_set.emit("left")
    photo = taken.photo
    assert photo is not None
    assert (photo.mirror, photo.even, photo.part) == ("across", 0.5, (0.0, 0.0, 1220.0, 1220.0))
    first = corners(taken)
    side.turn_asked.emit()
    assert (corners(taken) == np.roll(first, -1, axis=0)).all()
    side.remove_asked.emit()
    assert taken.photo is None


def test_the_face_comes_to_the_sheet_board_and_goes(qtbot: QtBot, window: Window, taken: PhotoBoard) -> None:
    taken.close_asked.emit()
    qtbot.waitUntil(lambda: window.sheet._face.face is not None, timeout=WAIT_MS)
    window.store.undo()
    assert window.sheet._face.face is None
