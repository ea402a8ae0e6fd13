"""The largest that fits beside a number: worked out in slices, never in the way of a hand, set with one click."""

from __future__ import annotations

from collections.abc import Callable
from time import sleep

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.rule.most import Most
from app.slices import Slices
from app.window.window import Window
from core.document.patch import apply_pointers
from core.layout.largest import largest
from core.lengths import parse_length
from core.packing.clock import Stop

Find = Callable[[str], QWidget]


@pytest.fixture
def most(window: Window, qtbot: QtBot) -> Most:
    found = window.findChild(Most)
    qtbot.waitUntil(lambda: found.settled, timeout=20_000)
    return found


def hint(find: Find, what: str) -> str:
    return find(f"shelf_{what}_most").text()


@pytest.mark.parametrize("what", ["length", "depth", "height"])
def test_it_says_what_fits_and_sets_it(qtbot: QtBot, window: Window, most: Most, find: Find, what: str) -> None:
    before = window.store.project
    answer = largest(before, what, 0)
    assert answer is not None
    assert hint(find, what) == f"up to {answer.text.removesuffix(chr(34))}"
    qtbot.mouseClick(find(f"shelf_{what}_most"), Qt.MouseButton.LeftButton)
    size = getattr(window.store.project.shelves[0], what)
    assert size == parse_length(answer.text, window.store.unit)
    assert not window.store.plan.errors
    window.store.undo()
    assert window.store.project == before
    assert not window.store.undo_label


def test_nothing_is_said_where_it_is_there_already(qtbot: QtBot, window: Window, most: Most, find: Find) -> None:
    qtbot.keyClick(find("shelf_length"), Qt.Key.Key_Up, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: most.settled, timeout=20_000)
    names = [w.objectName() for w in window.findChildren(QWidget) if w.isVisible()]
    assert "shelf_length_most" not in names


def test_all_together_get_one_depth(qtbot: QtBot, window: Window, most: Most, find: Find) -> None:
    qtbot.mouseClick(find("shelf_all_deep"), Qt.MouseButton.LeftButton)
    depths = {shelf.depth for shelf in window.store.project.shelves}
    assert len(depths) == 1
    assert not window.store.plan.errors
    window.store.undo()
    assert not window.store.undo_label


def test_an_edit_drops_what_was_asked(qtbot: QtBot, window: Window, most: Most) -> None:
    window.store.apply("Depth", lambda p: apply_pointers(p, {"/shelves/0/depth": 180.0}))
    assert not most.settled
    assert not [h for h in most._hints.values() if h.isVisible()]
    qtbot.waitUntil(lambda: most.settled, timeout=20_000)
    answer = largest(window.store.project, "length", 0)
    assert answer is not None
    assert most._hints["length"].text() == f"up to {answer.text.removesuffix(chr(34))}"


def test_slices_give_an_outcome_and_let_the_window_live(qtbot: QtBot) -> None:
    slices, outcomes, asked = Slices(), [], 0

    def job(stop: Stop) -> int:
        nonlocal asked
        while asked < 100 and not stop():
            asked += 1
            sleep(0.001)
        return asked

    slices.ask(job, outcomes.append)
    qtbot.waitUntil(lambda: 0 < asked < 100)  # the window lives between two slices
    qtbot.waitUntil(lambda: not slices.busy)
    assert outcomes == [100]


def test_a_dropped_question_has_no_outcome_and_ends(qtbot: QtBot) -> None:
    slices, outcomes, ended = Slices(), [], []

    def job(stop: Stop) -> str:
        while not stop():
            sleep(0.001)
        ended.append(True)
        return "late"

    slices.ask(job, outcomes.append)
    qtbot.wait(40)
    slices.ask(lambda stop: "new", outcomes.append)
    qtbot.waitUntil(lambda: bool(ended) and not slices.busy)
    assert outcomes == ["new"]


def test_a_job_that_fails_has_none_for_an_outcome(qtbot: QtBot) -> None:
    slices, outcomes = Slices(), []

    def job(stop: Stop) -> str:
        raise ValueError("no")

    slices.ask(job, outcomes.append)
    qtbot.waitUntil(lambda: not slices.busy)
    assert outcomes == [None]
