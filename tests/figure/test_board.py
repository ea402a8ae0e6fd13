"""The board of the figure seam by seam."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.figure.board import FigureBoard
from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf
from core.figure.places import seam_places

WAIT_MS = 60_000


@pytest.fixture
def board(qtbot: QtBot, open_window: Callable[[Project], Window]) -> FigureBoard:
    shelf = Shelf("ledge", 600.0, 150.0, 60.0, mount=Mount(300.0, 1200.0))
    window = open_window(Project((Sheet("A", 1100.0, 600.0),), (shelf,), "Oak"))
    window.actions_["figure"].trigger()
    found = window.guests.get("figure")
    assert isinstance(found, FigureBoard)
    qtbot.waitUntil(lambda: bool(found._strips) and not found.reader.is_busy, timeout=WAIT_MS)
    return found


def test_every_wrapping_seam_is_there_with_both_its_sides(board: FigureBoard) -> None:
    places = {place.seam: place for place in seam_places(board.store.plan)}
    assert {strip.place.seam for strip in board._strips} == set(places)
    assert board.seams.count() == len(board.store.plan.seams)
    for strip in board._strips:
        place = places[strip.place.seam]
        assert strip.across * strip.pitch == pytest.approx(place.end - place.start, abs=1.5 * strip.pitch)
        assert len(strip.data) == 3 * strip.across * strip.down
    seen = [board._seen(strip.place.seam) for strip in board._strips]
    assert seen == sorted(seen, reverse=True), "the seams in sight come first"
    board.store.select(board._strips[1].place.seam)
    assert board.seams.currentRow() == 1


def test_a_better_place_is_found_taken_and_undone(qtbot: QtBot, board: FigureBoard) -> None:
    before = board.store.project
    board.search()
    assert board.reader.is_busy
    qtbot.waitUntil(lambda: not board.reader.is_busy, timeout=WAIT_MS)
    best = board._best
    assert best is not None
    if not board._is_better():
        pytest.fail("on this face there is a better place")
    board._move()
    assert board.store.project.shelves[0].at == pytest.approx((best.x, best.y), abs=0.001)
    board.store.undo()
    assert board.store.project == before


def test_nets_are_turned_and_swapped_as_steps_of_their_own(board: FigureBoard) -> None:
    """By the window's actions; the fold's shape is the turned one at once."""
    window = board.window()
    assert isinstance(window, Window)
    store = window.store
    assert not window.actions_["swap_nets"].isEnabled()
    window.actions_["turn_net"].trigger()
    assert store.undo_label == "Turn ledge end for end"
    assert store.plan.shapes[0].turned
    assert window.findChild(QPushButton, "shelf_turned_turned").isChecked()
    window.actions_["turn_net"].trigger()
    assert not store.plan.shapes[0].turned
    store.apply("Add", lambda p: type(p)(p.sheets, (*p.shelves, Shelf("low", 300.0, 70.0, 60.0)), p.name))
    before = {net.shelf: (net.x, net.y) for net in store.plan.nets}
    window.actions_["swap_nets"].trigger()
    assert store.undo_label == "Swap the places of ledge and low"
    assert {net.shelf: (net.x, net.y) for net in store.plan.nets} != before
    store.undo()
    store.apply("Add", lambda p: type(p)(p.sheets, (*p.shelves, Shelf("third", 250.0, 70.0, 60.0)), p.name))
    window.actions_["swap_nets"].trigger()
    assert "which" in window.line.text
    window.line.findChild(QPushButton, "swap_C").click()
    assert store.undo_label == "Swap the places of ledge and third"
    for _ in range(5):
        store.undo()


def test_the_search_can_be_stopped(qtbot: QtBot, board: FigureBoard) -> None:
    board.search()
    board._stop()
    assert not board.reader.is_busy
    qtbot.wait(200)
    assert board._best is None or not board.reader.is_busy
    assert not board.take_button.isVisible()


def test_the_match_is_marked_on_the_folds_seams(qtbot: QtBot, board: FigureBoard) -> None:
    """Each seam in sight has its number in its middle; none when the board is shut, or the plan is another one."""
    window = board.window()
    assert isinstance(window, Window)
    picture = window.fold.picture
    qtbot.waitUntil(lambda: picture.stage is not None, timeout=WAIT_MS)
    board.reader.measure(board.store.plan, "ledge")
    qtbot.waitUntil(lambda: bool(picture.matches()), timeout=WAIT_MS)
    marked = {seam: match for seam, _, match in picture.matches()}
    known = {strip.place.seam: strip.figure.match for strip in board._strips}
    assert "ledge/top-front" in marked
    assert all(match == known[seam] for seam, match in marked.items())
    for seam, at, _ in picture.matches():
        assert picture.thing_at(at) == seam
    plan = board.store.plan
    board.store.apply("Depth", lambda p: type(p)(p.sheets, (Shelf("ledge", 600.0, 140.0, 60.0),), p.name))
    assert board.store.plan is not plan
    assert not picture.matches()
    board.store.undo()
    board.close_asked.emit()
    assert not picture.matches()
