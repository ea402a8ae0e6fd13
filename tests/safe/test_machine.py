"""The window against the model of `tests.safe.machine`; nothing is left over after it.

python3 -m tests tests/safe/test_machine.py                 few steps
GRAINFOLD_STEPS=500 python3 -m tests tests/safe/test_machine.py
python3 -m tests --long                                     5,000
"""

from __future__ import annotations

import gc
import os
import threading
from collections import Counter
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test
from PySide6.QtCore import QCoreApplication, QEvent, QObject, QRegularExpression, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from app.fold.stage import Stage
from app.theme.marks import Mark
from app.window.window import Window
from core.document.model import Project
from tests.conftest import examples
from tests.safe.machine import Machine

AT_A_TIME = 50  # steps of one example
MOST_LINES = 20  # of one cut step's words
STEPS = int(os.environ.get("GRAINFOLD_STEPS") or examples(40, 5000))


def settle() -> None:
    for _ in range(3):
        QCoreApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    gc.collect()


def there(window: Window) -> Counter[str]:
    """How many objects of each kind the window has, and where. The lines of cut steps stay for the next step, as many
    as the wordiest one had."""
    lines = window.findChildren(QWidget, QRegularExpression("steps_words_(body|head)"))
    assert all(len(home.findChildren(Mark)) <= MOST_LINES for home in lines)
    found = (
        child
        for child in window.findChildren(QObject)
        if isinstance(child, QTimer | QWidget) and child.parent() not in lines
    )
    return Counter(f"{type(child).__name__} of {type(child.parent()).__name__}" for child in found)


def test_the_document_is_its_model_whatever_is_done(window: Window, project: Project, tmp_path: Path) -> None:
    def run(steps: int) -> None:
        run_state_machine_as_test(
            lambda: Machine(window, project, tmp_path),
            settings=settings(
                max_examples=max(1, steps // AT_A_TIME),
                stateful_step_count=min(steps, AT_A_TIME),
                deadline=None,
                database=None,
                derandomize=True,
                phases=(Phase.generate,),  # shrinking so many steps takes hours
                print_blob=False,
                suppress_health_check=list(HealthCheck),
            ),
        )

    def back() -> None:
        for name in ("history", "cut_list", "cut_steps", "section", "offcuts"):
            window.guests.toggle(name, True)  # each is made once
        window.guests.toggle("offcuts", False)
        window.boards.fill("")
        window.files._begin(project)
        for _ in range(1000):  # a better layout may come, with findings of its own
            if window.layouts.busy:
                QTest.qWait(20)
        window.store.planner.settle()
        window.line.clear_message()
        settle()

    back()
    for _ in range(100):  # the fold board's picture comes alive a little later, once
        if window.fold.findChild(Stage) is None:
            QTest.qWait(50)
    before = there(window)
    run(STEPS)
    back()
    assert there(window) == before


def test_cut_steps_come_back_small_after_there_were_none(window: Window, project: Project) -> None:
    window.actions_["cut_steps"].trigger()
    window.files._begin(Project(project.sheets, ()))
    window.actions_["cut_steps"].trigger()
    window.files._begin(project)
    window.store.planner.settle()
    window.boards.fill("wall")
    window.guests.toggle("cut_steps", True)
    assert window.boards.occupant("sheet").small


def test_a_closed_window_leaves_no_thread_and_no_timer(open_window: object, project: Project, tmp_path: Path) -> None:
    before = set(threading.enumerate())
    made = open_window(project)  # type: ignore[operator]
    made.store.apply("Name", lambda p: p)
    made.files._write(tmp_path / "hall.grainfold")
    timers = made.findChildren(QTimer)
    assert any(timer.isActive() for timer in timers)
    made.close()
    settle()
    assert not made.isVisible()
    assert [t.name for t in set(threading.enumerate()) - before if not t.daemon] == []
