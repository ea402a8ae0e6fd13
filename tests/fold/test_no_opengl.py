"""Where there is no OpenGL: a still picture, and one sentence that says why."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.boards.fold import FoldBoard
from app.fold.gl import context
from app.fold.gl.context import NoOpenGLError
from app.store import Store
from app.theme import Theme
from tests.fold.scenes import PROJECT

HOME = Path(__file__).parents[2]
PROGRAM = """
from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QApplication
app = QApplication([])
from app.boards.fold import FoldBoard
from app.store import Store
from app.theme import Theme
from tests.fold.scenes import PROJECT
board = FoldBoard(Store(PROJECT), Theme("light"))
board.resize(539, 335)
board.show()
empty = FoldBoard(Store(PROJECT), Theme("light"))
for _ in range(20):
    app.processEvents()
image = board.picture.grab().toImage()
colours = {image.pixel(x, y) for x in range(0, 539, 3) for y in range(40, 250, 3)}
print(board.picture.sentence)
print(board.picture.stage, board.controls.fold.isEnabled(), len(colours) > 3)
print(board.picture.thing_at(QPointF(250.0, 150.0)) in {p.id for p in board.store.plan.panels})
"""


def test_the_offscreen_platform_shows_a_still_picture_and_says_why() -> None:
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        cwd=HOME,
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    assert "OpenGL" not in done.stderr  # Qt's own complaint of a context that is not one
    sentence, state, picks = done.stdout.splitlines()
    assert sentence.startswith("A still picture, because")
    assert sentence.endswith("OpenGL.")
    assert state == "None False True"
    assert picks == "True"


def test_a_context_that_cannot_be_had_is_told(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    class Refused:
        def __init__(self) -> None:
            raise NoOpenGLError("it needs OpenGL 2.1 and the display has 1.4")

    monkeypatch.setattr("app.fold.gl.renderer.GlContext", Refused)
    board = FoldBoard(Store(PROJECT), Theme("light"))
    qtbot.addWidget(board)
    board.resize(539, 335)
    board.show()
    qtbot.waitUntil(lambda: bool(board.picture.reason), timeout=30_000)
    assert board.picture.sentence == "A still picture, because it needs OpenGL 2.1 and the display has 1.4."
    assert board.picture.stage is None
    assert not board.controls.fold.isEnabled()
    assert board.picture.accessibleDescription() == board.picture.sentence


def test_a_context_that_is_lost_leaves_the_still_picture(
    qtbot: QtBot, board: FoldBoard, monkeypatch: pytest.MonkeyPatch
) -> None:
    def lost(*_: object) -> object:
        raise NoOpenGLError("the display took its OpenGL context back")

    stage = board.picture.stage
    assert stage is not None
    monkeypatch.setattr("app.fold.gl.renderer.Renderer.begin", lost)
    stage.redraw()
    board.picture.repaint()
    assert board.picture.stage is None
    assert "took its OpenGL context back" in board.picture.sentence
    assert context.LEAST >= (2, 0)


@pytest.mark.parametrize(("display", "is_loaded"), [(True, "True"), (False, "False")])
def test_the_driver_is_loaded_beforehand_where_there_is_a_display(display: bool, is_loaded: str) -> None:
    code = (
        "import sys\n"
        "from app.fold.gl.driver import load_driver\n"
        "print(load_driver(), any('PySide6' in name for name in sys.modules))"
    )
    surroundings = {name: value for name, value in os.environ.items() if display or name != "DISPLAY"}
    done = subprocess.run(
        [sys.executable, "-c", code], env=surroundings, cwd=HOME, capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.split() == [is_loaded, "False"]


def test_the_board_loads_no_opengl_before_it_is_painted() -> None:
    code = (
        "import sys\n"
        "import app.window.window\n"
        "assert not {'PySide6.QtOpenGL', 'OpenGL', 'pyqtgraph', 'app.fold.stage'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], cwd=HOME, check=True, timeout=60)
