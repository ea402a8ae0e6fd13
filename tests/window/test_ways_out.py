"""Ways out in the window: shown on every board before they are taken, and taken with one click."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QCursor, QEnterEvent, QMouseEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.bottomline.pill import Pill
from app.bottomline.preview import REST_MS, PreviewMark
from app.bottomline.sentence import Sentence
from app.planner import Planner
from app.store import Store
from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf
from core.document.patch import apply_pointers
from core.plan.least import least_layout
from core.plan.make import make_plan
from core.plan.model import Finding, Fix

Find = Callable[[str], QWidget]


@pytest.fixture
def project() -> Project:
    """A shelf too long for its sheet, with more ways out than stand beside one sentence."""
    ledge = Shelf("ledge", 2235.2, 241.3, 63.5, mount=Mount(203.2, 1016.0))
    return Project((Sheet("walnut", 2438.4, 1219.2, trim=6.35),), (ledge,), name="Landing")


@pytest.fixture
def fix(project: Project) -> Fix:
    return make_plan(project).errors[0].fixes[0]


def look_at(qtbot: QtBot, pill: QWidget) -> None:
    qtbot.mouseMove(pill, QPoint(20, 10))
    qtbot.mouseMove(pill, QPoint(24, 12))


def look_away(qtbot: QtBot, window: Window) -> None:
    qtbot.mouseMove(window.line, QPoint(30, 4))
    qtbot.mouseMove(window.line, QPoint(34, 6))


def test_a_preview_shows_another_plan_and_changes_nothing(qtbot: QtBot, project: Project, fix: Fix) -> None:
    store = Store(project)
    own = store.plan
    with qtbot.waitSignal(store.plan_changed), qtbot.assertNotEmitted(store.changed):
        store.preview(fix)
    assert store.project == apply_pointers(project, fix.set)
    assert store.plan == make_plan(store.project)
    assert (store.previewed, store.unsaved, store.undo_label) == (fix, False, "")
    with qtbot.waitSignal(store.plan_changed):
        store.end_preview()
    assert (store.project, store.plan, store.previewed) == (project, own, None)


@pytest.mark.parametrize("how", ["preview", "hold"])
def test_ways_out_that_were_still_on_their_way_come_after_a_look_elsewhere(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, project: Project, fix: Fix, how: str
) -> None:
    """They take longer to try than the window waits, and meanwhile another plan is shown and put back."""
    monkeypatch.setattr("app.ways.AT_ONCE", -1.0)
    store = Store(Project(project.sheets, ()))
    store.apply("None", lambda _: project)
    assert store.plan.errors[0].fixes == ()
    if how == "preview":
        store.preview(fix)
        store.end_preview()
    else:
        store.take_hold()
        store.put_back()
    assert not store.planner.settled
    qtbot.waitUntil(lambda: store.planner.settled, timeout=20_000)
    assert store.plan == make_plan(project)


def test_settled_a_plan_has_its_ways_out_whatever_layout_was_waiting(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, project: Project
) -> None:
    """A better layout is taken as soon as the ways out of the plan before it are known; its own are late again."""
    monkeypatch.setattr("app.ways.AT_ONCE", -1.0)
    found, better = least_layout(project, 0.2), iter([True])
    monkeypatch.setattr("app.planner.is_better", lambda *_: next(better, False))
    planner = Planner(Project(project.sheets, ()))
    planner.planned.connect(lambda: planner.plan.proof or planner.adopt(project, found))
    planner.ask(project)
    planner.settle()
    assert next(better, None) is None
    assert planner.settled
    assert planner.plan.errors[0].fixes
    assert planner.plan == make_plan(project, planner.plan.layout, planner.plan.proof)


@pytest.mark.parametrize("how", ["edit", "undo", "hold", "replace"])
def test_whatever_is_done_ends_the_preview_first(project: Project, fix: Fix, how: str) -> None:
    store = Store(project)
    longer = {"/shelves/0/height": 76.2}
    store.apply("Height", lambda p: apply_pointers(p, longer))
    store.preview(fix)
    if how == "edit":
        store.apply("Depth", lambda p: apply_pointers(p, {"/shelves/0/depth": 200.0}))
        assert store.project == apply_pointers(project, longer | {"/shelves/0/depth": 200.0})
    elif how == "undo":
        store.undo()
        assert store.project == project
    elif how == "hold":
        assert store.take_hold().project == apply_pointers(project, longer)
        store.preview(fix)
        store.put_back()
    else:
        store.replace_document(project, None)
        assert store.project == project
    assert store.previewed is None
    store.planner.settle()
    assert store.plan.project == store.project


def test_a_pill_looked_at_is_previewed_and_left_is_not(
    qtbot: QtBot, window: Window, find: Find, project: Project
) -> None:
    mark = window.findChild(PreviewMark, "preview_mark")
    assert mark.isHidden()
    look_at(qtbot, find("fix_0"))
    qtbot.waitUntil(lambda: window.store.previewed is not None)
    fix = window.store.planner.plan.errors[0].fixes[0]
    assert window.store.project == apply_pointers(project, fix.set)
    assert mark.isVisible()
    assert fix.text in mark.words
    assert find("fix_0").text() == fix.text  # the line goes on saying what is wrong
    look_away(qtbot, window)
    qtbot.waitUntil(lambda: window.store.previewed is None)
    assert mark.isHidden()
    assert window.store.project == project
    assert not window.store.undo_label


def test_passing_over_a_pill_shows_nothing(qtbot: QtBot, window: Window, find: Find) -> None:
    look_at(qtbot, find("fix_0"))
    look_away(qtbot, window)
    qtbot.wait(250)
    assert window.store.previewed is None


def test_tab_previews_and_enter_takes_it_as_one_step(
    qtbot: QtBot, window: Window, find: Find, project: Project
) -> None:
    pill = find("fix_1")
    fix = window.store.plan.errors[0].fixes[1]
    pill.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(lambda: window.store.previewed == fix)
    qtbot.keyClick(pill, Qt.Key.Key_Return)
    assert window.store.project == apply_pointers(project, fix.set)
    assert window.store.undo_label == fix.text
    window.store.undo()
    assert window.store.project == project
    assert not window.store.undo_label


def test_a_click_takes_it_as_one_step(qtbot: QtBot, window: Window, find: Find, project: Project) -> None:
    pill = find("fix_0")
    fix = window.store.plan.errors[0].fixes[0]
    look_at(qtbot, pill)
    qtbot.waitUntil(lambda: window.store.previewed == fix)
    qtbot.mouseClick(pill, Qt.MouseButton.LeftButton)
    assert window.store.previewed is None
    assert window.store.project == apply_pointers(project, fix.set)
    window.store.undo()
    assert window.store.project == project


def test_a_key_pressed_elsewhere_works_on_the_document(
    qtbot: QtBot, window: Window, find: Find, project: Project
) -> None:
    look_at(qtbot, find("fix_0"))
    qtbot.waitUntil(lambda: window.store.previewed is not None)
    qtbot.keyClick(find("shelf_depth"), Qt.Key.Key_Up)
    assert window.store.previewed is None
    assert window.store.project.shelves[0].ends_from == "front"
    assert window.store.project.shelves[0].depth > project.shelves[0].depth


def test_the_list_has_all_ways_out_inside_its_width(qtbot: QtBot, window: Window) -> None:
    window.line.toggle_list()
    finding = window.store.plan.errors[0]
    assert len(finding.fixes) > 3
    qtbot.waitUntil(lambda: window.line.findings_list.width() == window.width())
    pills = [p for p in window.line.findings_list.findChildren(Pill) if p.isVisible()]
    assert [p.text() for p in pills] == [fix.text for fix in finding.fixes]
    right = [p.mapTo(window, QPoint(p.width(), 0)).x() for p in pills]
    assert max(right) < window.width()
    lines = {p.mapTo(window, QPoint(0, 0)).y() for p in pills}
    assert 1 < len(lines) < len(pills)


def test_a_pill_that_comes_under_a_resting_pointer_waits_until_it_moves(qtbot: QtBot, window: Window) -> None:
    """The one before it was pressed there: neither that nor a double click asks for the next way out."""
    looked: list[bool] = []
    taken: list[bool] = []
    at = QCursor.pos()
    made = Pill("Move it", looked.append, window)
    made.clicked.connect(lambda: taken.append(True))
    made.move(window.mapFromGlobal(at) - QPoint(10, 10))
    made.resize(100, 24)
    made.show()
    here, there = QPointF(at), QPointF(at) + QPointF(3.0, 0.0)
    QApplication.sendEvent(made, QEnterEvent(QPointF(10, 10), QPointF(10, 10), here))
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    for kind in (QEvent.Type.MouseButtonDblClick, QEvent.Type.MouseButtonRelease):
        QApplication.sendEvent(made, QMouseEvent(kind, QPointF(10, 10), here, left, left, none))
    assert (looked, taken) == ([], [])
    move = QEvent.Type.MouseMove
    QApplication.sendEvent(made, QMouseEvent(move, QPointF(13, 10), there, Qt.MouseButton.NoButton, left, none))
    assert looked == [True]
    qtbot.mouseClick(made, left)
    assert taken == [True]


def test_the_words_of_a_finding_are_never_cut(window: Window) -> None:
    long = Finding("note", "load", window.store.project.shelves[0].id, "Never to be climbed, sat or hung on. " * 20)
    rows = window.line.findings_list
    rows.show_findings([(long, "Shelf A")])
    rows.show()
    words = rows.findChild(Sentence, "finding_0")
    assert words is not None
    assert words.minimumHeight() > 3 * words.fontMetrics().height()
    assert words.parentWidget().height() >= words.minimumHeight()


def test_the_focus_that_falls_on_a_pill_previews_nothing(qtbot: QtBot, window: Window, find: Find) -> None:
    """Shutting a board moves the focus on; where that is to a way out, nobody has asked to see it."""
    pill = find("fix_0")
    window.guests.toggle("history", True)
    field = find("revision_name")
    field.setFocus(Qt.FocusReason.TabFocusReason)
    QWidget.setTabOrder(field, pill)
    field.hide()
    assert window.focusWidget() is pill
    qtbot.wait(2 * REST_MS)
    assert window.store.previewed is None
