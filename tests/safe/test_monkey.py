"""A monkey at the real window: no error, and after it the window still is what it was.

The run's share is small; --long has 20,000 events. How long each event takes is measured by `tests.bench monkey`.
"""

from __future__ import annotations

import gc
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from pytestqt.qtbot import QtBot

from app.window.window import Window
from core.document.model import Project
from core.plan.make import make_plan
from tests.conftest import examples
from tests.safe.monkey import Monkey

EVENTS = examples(70, 20_000)
SEED = 3


def megabytes() -> float:
    """What the process has in memory now."""
    pages = Path("/proc/self/statm").read_text().split()[1]
    return int(pages) * 4096 / 2**20


def settle(window: Window) -> None:
    window.line.clear_message()
    window.store.planner.settle()
    for _ in range(3):
        QCoreApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    gc.collect()


@pytest.mark.qt_log_ignore("QXcb.*")
def test_nothing_a_monkey_does_breaks_the_window(
    window: Window, project: Project, tmp_path: Path, qtbot: QtBot
) -> None:
    monkey = Monkey(window, project, tmp_path, SEED)
    monkey.play(EVENTS)
    assert not window.errors.count
    assert window.isVisible()
    window.files._begin(project)  # the work of a maker goes on
    settle(window)
    assert window.store.planner.plan.nets == make_plan(project).nets or window.store.planner.plan.proof is not None
    window.store.apply("Name", lambda p: p)
    assert not window.store.undo_label


@pytest.mark.slow
@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="nothing there says how much memory is in use")
def test_memory_comes_back_after_a_monkey(window: Window, project: Project, tmp_path: Path) -> None:
    monkey = Monkey(window, project, tmp_path, SEED)
    monkey.play(9000)  # everything that is kept has been made: faces of every wood and cut among it
    window.files._begin(project)
    settle(window)
    before = megabytes()
    monkey.play(6000)
    window.files._begin(project)
    settle(window)
    assert megabytes() < 1.05 * before
