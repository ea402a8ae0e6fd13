"""One renderer for all pictures, and a fold board on a project of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np
import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.boards.fold import FoldBoard
from app.fold.gl.renderer import Renderer
from app.fold.render import FacePicture, View, render, started
from app.store import Store
from app.theme import Theme
from core.document.model import Project
from core.plan.model import Plan
from tests.fold.scenes import PROJECT

Picture = np.ndarray  # (rows, columns, 3) as red, green, blue
Draw = Callable[..., Picture]
START_MS = 30_000  # a slow machine starts OpenGL, and makes a face


@pytest.fixture
def renderer(qapp: QApplication) -> Iterator[Renderer]:
    made = started()
    yield made
    made.destroy()


@pytest.fixture
def draw(renderer: Renderer) -> Draw:
    def one(plan: Plan, view: View, size: tuple[int, int], faces: FacePicture) -> Picture:
        return pixels(render(plan, view, size, faces, renderer))

    return one


def pixels(image: QImage) -> Picture:
    converted = image.convertToFormat(QImage.Format.Format_RGB32)
    rows = np.frombuffer(converted.constBits(), np.uint8).reshape(converted.height(), converted.bytesPerLine())
    return rows[:, : 4 * converted.width()].reshape(converted.height(), -1, 4)[:, :, 2::-1].astype(float)


@pytest.fixture
def open_board(qtbot: QtBot) -> Callable[[Project], FoldBoard]:
    """A board as large as in a window of 1366 x 768, drawing solids, with nothing that moves by itself."""

    def make(project: Project = PROJECT) -> FoldBoard:
        board = FoldBoard(Store(project), Theme("light"))
        qtbot.addWidget(board)
        board.resize(539, 335)
        with qtbot.waitExposed(board):
            board.show()
        board.catch_up()
        qtbot.waitUntil(lambda: board.picture.stage is not None, timeout=START_MS)
        board.picture.touch()
        return board

    return make


@pytest.fixture
def board(open_board: Callable[..., FoldBoard]) -> FoldBoard:
    return open_board()
