"""Shelves as a set: started from, edited together, put in order, carried from one project to another as text."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.rule.edits import new_project
from app.rule.several import SHARED, STARTERS, change_together, differing, move_all, paste, start_from
from app.window.window import Window
from core.document.check import check_project
from core.document.errors import ProjectError
from core.document.model import Alcove, Project
from core.document.shelves_text import parse_shelves, shelves_text
from core.plan.make import make_plan
from tests.conftest import examples
from tests.strategies import projects
from tests.window.conftest import STOCK

Find = Callable[[str], QWidget]
Click = Callable[[str], None]
Enter = Callable[[str, str], None]


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("name", [starter[0] for starter in STARTERS])
def test_every_shelf_to_start_from_can_be_cut_from_the_first_sheet(name: str, units: str) -> None:
    project, called = start_from(new_project(units), name)
    plan = make_plan(project)
    assert [net.shelf for net in plan.nets] == [called]
    assert not plan.errors
    twice, other = start_from(project, name)
    check_project(twice)
    assert other != called


def test_an_alcove_shelf_fills_the_alcove_that_was_measured() -> None:
    """6 mm in all to slide it in: common practice."""
    fresh, widths = new_project("mm"), (1124.0, 1124.0, 1124.0)
    wall = msgspec.structs.replace(fresh.wall, width=1124.0, alcove=Alcove(widths, widths))
    (shelf,) = start_from(msgspec.structs.replace(fresh, wall=wall), "alcove shelf")[0].shelves
    assert (shelf.length, shelf.left, shelf.right) == (1118.0, "open", "open")
    assert shelf.mount is not None
    assert shelf.mount.x == 3.0


@settings(max_examples=examples(40, 1000))
@given(projects(max_shelves=4), st.data())
def test_a_change_of_several_is_a_change_of_each(project: Project, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(project.shelves) - 1))
    others = data.draw(st.sets(st.sampled_from([shelf.id for shelf in project.shelves])))
    depth = data.draw(st.floats(50, 300))
    value = msgspec.structs.replace(project.shelves[at], depth=depth)
    changed = change_together(project, at, value, others)
    for n, (before, after) in enumerate(zip(project.shelves, changed.shelves, strict=True)):
        wanted = depth if n == at or (before.id in others and depth != project.shelves[at].depth) else before.depth
        assert after == msgspec.structs.replace(before, depth=wanted)
    check_project(changed)


@settings(max_examples=examples(40, 1000))
@given(projects(max_shelves=4), st.data())
def test_order_changes_nothing_else(project: Project, data: st.DataObject) -> None:
    ids = [shelf.id for shelf in project.shelves]
    moved = data.draw(st.sets(st.sampled_from(ids)))
    for by in (-1, 1):
        after = move_all(project, moved, by)
        assert sorted(after.shelves, key=str) == sorted(project.shelves, key=str)
        assert [s.id for s in after.shelves if s.id not in moved] == [i for i in ids if i not in moved]
        assert [s.id for s in after.shelves if s.id in moved] == [i for i in ids if i in moved]
        places = {shelf.id: n for n, shelf in enumerate(after.shelves)}
        assert all(0 <= by * (places[i] - ids.index(i)) <= 1 for i in moved)


@settings(max_examples=examples(40, 1000))
@given(projects(max_shelves=4), projects(max_shelves=4))
def test_shelves_are_carried_as_text(source: Project, target: Project) -> None:
    carried = parse_shelves(shelves_text(source.shelves))
    loose = [msgspec.structs.replace(shelf, sheet=None, at=None) for shelf in source.shelves]
    assert list(carried) == loose
    pasted, ids = paste(target, carried)
    check_project(pasted)
    assert pasted.shelves[: len(target.shelves)] == target.shelves
    for shelf, name, was in zip(pasted.shelves[len(target.shelves) :], ids, loose, strict=True):
        assert msgspec.structs.replace(shelf, id=was.id, mount=was.mount) == was
        assert shelf.id == name


@pytest.mark.parametrize(
    "text",
    [
        "",
        "three shelves, oak",
        "[]",
        "{}",
        '{"format": "grainfold shelves"}',
        '{"format": "grainfold shelves", "version": 1, "shelves": []}',
        '{"format": "grainfold shelves", "version": 2, "shelves": [{}]}',
        '{"format": "grainfold shelves", "version": 1, "shelves": [{"id": "a", "length": -1, "depth": 1}]}',
        '{"format": "grainfold shelves", "version": 1, "shelves": [{"id": "a", "length": 1e999, "depth": 1}]}',
        "[" * 5000,
    ],
)
def test_a_text_without_shelves_is_refused(text: str) -> None:
    with pytest.raises(ProjectError):
        parse_shelves(text)


# In the window


def test_chips_with_control_are_edited_together(window: Window, find: Find, enter: Enter, qtbot: QtBot) -> None:
    qtbot.mouseClick(find("shelf_chips_1"), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier)
    assert window.store.together == ("upper", "lower")
    assert "A and B" in find("shelf_together").text()
    assert "depth" in find("shelf_together").text()
    enter("shelf_depth", "6")
    assert [shelf.depth for shelf in window.store.project.shelves] == [152.4, 152.4]
    assert window.store.undo_label == "Depth of 2 shelves"
    window.store.undo()
    assert [shelf.depth for shelf in window.store.project.shelves] == [203.2, 190.5]
    qtbot.mouseClick(find("shelf_chips_0"), Qt.MouseButton.LeftButton)
    assert window.store.together == ("upper",)


def test_with_the_keyboard_too_and_all_at_once(window: Window, find: Find, qtbot: QtBot) -> None:
    qtbot.keyClick(find("shelf_chips_1"), Qt.Key.Key_Space, Qt.KeyboardModifier.ControlModifier)
    assert len(window.store.together) == 2
    qtbot.keyClick(find("shelf_chips_0"), Qt.Key.Key_Space, Qt.KeyboardModifier.ControlModifier)
    assert window.store.together == ("lower",)  # the chosen one may leave as well
    window.actions_["all_shelves"].trigger()
    assert len(window.store.together) == 2
    window.actions_["remove_shelf"].trigger()
    assert window.store.project.shelves == ()
    window.store.undo()
    assert len(window.store.project.shelves) == 2


def test_earlier_and_later(window: Window, click: Click) -> None:
    click("shelf_later")
    assert [shelf.id for shelf in window.store.project.shelves] == ["lower", "upper"]
    assert window.store.shelf is not None
    assert window.store.shelf.id == "upper"
    click("shelf_later")  # there is no later place
    assert window.store.undo_label == "Move upper"
    click("shelf_earlier")
    assert [shelf.id for shelf in window.store.project.shelves] == ["upper", "lower"]


def test_copied_here_and_pasted_in_another_project(window: Window, open_window: Callable[[Project], Window]) -> None:
    window.actions_["all_shelves"].trigger()
    window.actions_["copy_shelf"].trigger()
    assert "grainfold shelves" in QGuiApplication.clipboard().text()
    other = open_window(Project((STOCK,), (), name="Other"))
    other.actions_["paste_shelf"].trigger()
    assert other.store.together == ("upper", "lower")
    assert other.store.project.shelves == window.store.project.shelves
    QGuiApplication.clipboard().setText("shopping list")
    other.actions_["paste_shelf"].trigger()
    assert "Nothing to paste" in other.line.text


def test_an_empty_project_offers_shelves_to_start_from(window: Window, click: Click, find: Find) -> None:
    window.files._begin(new_project("mm"))
    click("start_mantel")
    assert [shelf.id for shelf in window.store.project.shelves] == ["mantel"]
    assert find("shelf_length").hasFocus()


def test_what_is_shared_is_a_field(window: Window) -> None:
    assert set(SHARED) < set(window.store.project.shelves[0].__struct_fields__)
    assert differing(window.store.project.shelves) == ("length", "depth", "left")
