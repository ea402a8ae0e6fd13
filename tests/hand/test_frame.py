"""Ribs pulled along on the frame board with the mouse."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt

from app.boards.frame import FrameBoard
from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf
from tests.hand.mouse import Mouse
from tests.hand.test_sizes import steps

SHELF = Shelf("ledge", 1320.0, 210.0, 84.0, mount=Mount(300.0, 1400.0))
JOB = Project((Sheet("A", 2440.0, 1220.0),), (SHELF,), units="mm")


def test_a_rib_is_pulled_stays_and_is_let_go_again(open_window: Callable[[Project], Window]) -> None:
    window = open_window(JOB)
    window.actions_["frame"].trigger()
    board = window.findChild(FrameBoard)
    assert isinstance(board, FrameBoard)
    mouse = Mouse(window, board.canvas)
    before = window.store.plan.frames[0].ribs
    pixel = board.canvas.pixel()
    mouse.pull(f"at {before[3]:.4f}", -40.0 / pixel, 0.0)
    (put,) = window.store.project.shelves[0].ribs
    assert put == pytest.approx(before[3] - 40.0, abs=6.0)
    assert put in window.store.plan.frames[0].ribs
    assert steps(window) == 1
    assert board.canvas.hand.reach.chosen == ("ledge", "put 0")
    mouse.key(Qt.Key.Key_Right)
    (stepped,) = window.store.project.shelves[0].ribs
    assert put < stepped <= put + 2.0
    assert "1 put by hand" in board.subtitle.words
    board._let_be()
    window.store.planner.settle()
    assert window.store.plan.frames[0].ribs == before


def test_the_frame_is_slid_in_its_play_and_no_farther(open_window: Callable[[Project], Window]) -> None:
    window = open_window(JOB)
    window.actions_["frame"].trigger()
    board = window.findChild(FrameBoard)
    assert isinstance(board, FrameBoard)
    mouse, pixel = Mouse(window, board.canvas), board.canvas.pixel()
    sticks = window.store.plan.frames[0].parts
    mouse.pull("frame", 12.0 / pixel, 0.0)
    (shelf,) = window.store.project.shelves
    assert shelf.frame_shift == pytest.approx(12.0, abs=6.0)
    assert shelf.mount == SHELF.mount
    assert [part.length for part in window.store.plan.frames[0].parts] == [part.length for part in sticks]
    assert steps(window) == 1
    mouse.pull("frame right", -200.0 / pixel, 0.0)
    assert -25.4 <= window.store.project.shelves[0].frame_shift <= -25.0  # to the whole millimetre
    window.store.undo()
    window.store.undo()
    assert window.store.project.shelves == (SHELF,)
