"""The least layout in the window: it comes when the hand rests, is no step of undo, and leaves no process behind."""

import os
import time
from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import QPointF
from pytestqt.qtbot import QtBot

from app.planner import Planner
from app.window.window import Window
from core.document.model import Project, Sheet, Shelf
from core.plan.least import least_layout, rank
from core.plan.make import make_plan
from tests.hand.mouse import Mouse

SOON = 30_000  # ms: far more than anything here takes

# Length and depth of shelves for which the quick layout takes three sheets, while two will do.
SIZES = ((420.0, 220.0), (1170.0, 220.0), (990.0, 150.0), (1350.0, 150.0), (1260.0, 200.0), (930.0, 150.0))


def improvable() -> Project:
    """A job whose least layout is better than the quick one."""
    shelves = tuple(Shelf(f"s{n}", length, depth, 80.0) for n, (length, depth) in enumerate(SIZES))
    return Project((Sheet("A", 2440.0, 1220.0, 18.0, quantity=9),), shelves)


@pytest.fixture
def project() -> Project:
    return improvable()


def settled(qtbot: QtBot, window: Window) -> None:
    def is_settled() -> bool:
        return window.store.planner.settled and window.store.plan.proof is not None and not window.layouts.busy

    qtbot.waitUntil(is_settled, timeout=SOON)


def alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True


def test_the_least_layout_comes_when_the_hand_rests(qtbot: QtBot, window: Window) -> None:
    quick = make_plan(window.store.project)
    settled(qtbot, window)
    found = least_layout(window.store.project)
    plan = window.store.plan
    assert rank(plan) == found.rank[: len(rank(plan))] < rank(quick)
    assert plan.proof == found.proof
    assert window.store.undo_label == ""
    assert not window.store.unsaved


def test_the_line_says_what_is_proven(qtbot: QtBot, window: Window, find: Callable[[str], object]) -> None:
    settled(qtbot, window)
    assert window.store.plan.proof is not None
    assert find("proof").text() == window.store.plan.proof.words  # type: ignore[attr-defined]  # a label


def test_nothing_arrives_under_a_dragging_hand(qtbot: QtBot, window: Window) -> None:
    store = window.store
    held = store.take_hold().plan
    qtbot.wait(1500)
    qtbot.waitUntil(lambda: not window.layouts.busy, timeout=SOON)
    assert store.plan.layout == held.layout
    store.let_go()
    settled(qtbot, window)
    assert rank(store.plan) < rank(held)


def test_nothing_moves_away_from_under_a_hand_that_is_about_to_drag(qtbot: QtBot, window: Window) -> None:
    store = window.store
    store.select("s0")
    mouse = Mouse(window, window.sheet.canvas)
    mouse.hover(mouse.square("length", "s0"))
    quick = store.plan.layout
    qtbot.wait(2000)
    assert store.plan.layout == quick
    mouse.hover(QPointF(2.0, 2.0))
    settled(qtbot, window)
    assert store.plan.layout != quick


def test_an_answer_to_an_older_question_is_dropped(qtbot: QtBot, window: Window) -> None:
    store = window.store
    qtbot.waitUntil(lambda: window.layouts.process is not None, timeout=SOON)
    one = (msgspec.structs.replace(store.project.shelves[0], length=700.0),)
    store.apply("Only one", lambda project: msgspec.structs.replace(project, shelves=one))
    settled(qtbot, window)
    assert len(store.plan.nets) == 1
    store.undo()
    settled(qtbot, window)
    assert len(store.plan.nets) == len(SIZES)


def test_the_way_back_has_its_layout_at_once(qtbot: QtBot, window: Window) -> None:
    store = window.store
    settled(qtbot, window)
    before = store.plan
    store.apply("Name", lambda project: msgspec.structs.replace(project, name="Other"))
    store.undo()
    settled(qtbot, window)
    assert store.plan.layout == before.layout
    assert store.plan.proof == before.proof


def test_closing_the_window_ends_the_process(qtbot: QtBot, window: Window) -> None:
    qtbot.waitUntil(lambda: window.layouts.process is not None, timeout=SOON)
    process = window.layouts.process
    assert process is not None
    start = time.monotonic()
    window.close()
    assert not alive(process)
    assert time.monotonic() - start < SOON / 1000 / 10
    assert window.layouts.process is None
    qtbot.wait(400)
    assert window.layouts.process is None


def test_no_process_is_started_where_nothing_can_be_found(
    qtbot: QtBot, open_window: Callable[[Project], Window]
) -> None:
    window = open_window(Project((Sheet("A", 2440.0, 1220.0, 18.0),), (Shelf("s", 900.0, 200.0, 80.0),)))
    settled(qtbot, window)
    assert window.layouts.process is None


def test_a_layout_for_another_project_is_not_taken() -> None:
    project = improvable()
    planner = Planner(msgspec.structs.replace(project, name="Other"))
    before = planner.plan
    planner.adopt(project, least_layout(project))
    assert planner.plan is before
