"""Everything can be found, reached with the keyboard, heard, and hit: through Qt's own accessibility interface."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit, QListWidget, QScrollBar, QWidget
from pytestqt.qtbot import QtBot

from app.actions import GUESTS, TABLE
from app.reach import words
from app.reach.finder import matching
from app.reach.help_words import OF_THINGS, PAGES, page
from app.reach.things import Unseen
from app.window.window import Window

Find = Callable[[str], QWidget]
LEAST_TARGET = 24  # pixels; WCAG 2.2, 2.5.8
NONE = {QAccessible.Role.NoRole, QAccessible.Role.Client}
STATES = ("plain", "history", "rack", "cut_list", "cut_steps", "section", "help", "find", "guide")


@pytest.fixture(params=STATES)
def shown(request: pytest.FixtureRequest, window: Window, qtbot: QtBot) -> Window:
    """The window in each of its states."""
    if request.param != "plain":
        window.actions_[request.param].trigger()
    for key in window.rule.sections:
        key.set_open(True)
    settle()
    return window


def settle() -> None:
    for _ in range(3):
        QCoreApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def seen(window: Window) -> Iterator[QWidget]:
    """What is there to be seen."""
    return (
        child for child in window.findChildren(QWidget) if child.isVisible() and not child.visibleRegion().isEmpty()
    )


def reachable(window: Window) -> list[QWidget]:
    return [child for child in seen(window) if child.focusPolicy() & Qt.FocusPolicy.TabFocus and child.isEnabled()]


def said(widget: QWidget) -> str:
    return f"{type(widget).__name__} {widget.objectName()}"


def test_every_control_has_a_name_and_a_role(shown: Window) -> None:
    nameless, roleless = [], []
    for widget in reachable(shown):
        heard = QAccessible.queryAccessibleInterface(widget)
        if not heard.text(QAccessible.Text.Name).strip():
            nameless.append(said(widget))
        if heard.role() in NONE and not heard.text(QAccessible.Text.Description).strip():
            roleless.append(said(widget))
    assert nameless == []
    assert roleless == []


def test_fields_tell_their_value_and_switches_their_state(shown: Window) -> None:
    for widget in seen(shown):
        heard = QAccessible.queryAccessibleInterface(widget)
        if isinstance(widget, QLineEdit) and widget.text():
            assert heard.text(QAccessible.Text.Value) == widget.text(), said(widget)
        if isinstance(widget, QAbstractButton) and widget.isCheckable():
            assert bool(heard.state().checked) == widget.isChecked(), said(widget)


def test_targets_are_large_enough(shown: Window) -> None:
    small = []
    for widget in seen(shown):
        if isinstance(widget, QScrollBar | Unseen) or not isinstance(widget, QAbstractButton | QLineEdit | QComboBox):
            continue
        parent = widget.parentWidget()
        if isinstance(parent, QComboBox):
            continue
        if min(widget.width(), widget.height()) < LEAST_TARGET:
            small.append((said(widget), widget.width(), widget.height()))
    assert small == []


def test_the_focus_is_seen_wherever_it_is(shown: Window) -> None:
    """The picture of a control changes when it gets the focus."""
    unseen = []
    for widget in reachable(shown):
        if isinstance(widget, Unseen):
            continue
        elsewhere = shown.top_bar.findChild(QWidget, "button_more")
        (elsewhere if widget is not elsewhere else shown.top_bar.findChild(QWidget, "button_open")).setFocus()
        settle()
        if not widget.isVisible():
            continue
        before = widget.grab().toImage()
        widget.setFocus(Qt.FocusReason.TabFocusReason)
        settle()
        if widget.hasFocus() and widget.grab().toImage() == before:
            unseen.append(said(widget))
    assert unseen == []


def test_tab_comes_to_every_control(window: Window, qtbot: QtBot) -> None:
    wanted = {said(widget) for widget in reachable(window)}
    first = window.top_bar.findChild(QWidget, "project_name")
    first.setFocus(Qt.FocusReason.TabFocusReason)
    been: set[str] = set()
    for _ in range(3 * len(wanted) + 20):
        focus = QApplication.focusWidget()
        assert focus is not None
        been.add(said(focus))
        group = focus.group() if isinstance(focus, QAbstractButton) else None
        if group is not None and group.exclusive():  # arrow keys go on from here
            been.update(said(button) for button in group.buttons())
        qtbot.keyClick(focus, Qt.Key.Key_Tab)
        if wanted <= been:
            break
    assert wanted - been == set()


# The list of actions


def test_the_list_has_every_action_with_its_key(window: Window) -> None:
    window.actions_["find"].trigger()
    listed = window.findChild(QListWidget, "finder_list")
    assert listed.count() == len(TABLE)
    texts = {listed.item(n).data(Qt.ItemDataRole.AccessibleTextRole) for n in range(listed.count())}
    assert any("Save" in text and "Ctrl+S" in text for text in texts)


def test_no_two_actions_have_one_key(window: Window) -> None:
    keys = [window.actions_[name].shortcut().toString() for name in window.actions_.names()]
    given = [key for key in keys if key]
    assert len(given) == len(set(given))


def test_an_action_is_found_and_done_with_the_keyboard(window: Window, qtbot: QtBot, find: Find) -> None:
    window.actions_["find"].trigger()
    qtbot.keyClicks(find("finder_text"), "edit all")
    qtbot.keyClick(find("finder_text"), Qt.Key.Key_Return)
    assert len(window.store.together) == 2
    assert not window.findChild(QWidget, "finder").isVisible()
    window.actions_["find"].trigger()
    qtbot.keyClick(find("finder_text"), Qt.Key.Key_Escape)
    assert not window.findChild(QWidget, "finder").isVisible()


def test_words_are_found_in_any_order() -> None:
    names = ["Save as", "Save", "Cut sheet", "Sheet fills the window"]
    assert matching("", names) == [0, 1, 2, 3]
    assert matching("sheet", names) == [3, 2]
    assert matching("as save", names) == [0]
    assert matching("nothing", names) == []


# Help and the guide


def test_every_board_has_a_page(window: Window) -> None:
    boards = [window.wall, window.fold, window.sheet, *(window.guests.get(name) for name in GUESTS)]
    assert {board.key for board in boards} <= set(PAGES)
    for key, parts in PAGES.items():
        assert all(parts), key
        assert page(key).count("<p") == 4 + (key in OF_THINGS)  # those have a word on the menus of things


def test_help_opens_on_the_board_with_the_focus(window: Window, qtbot: QtBot) -> None:
    for board in (window.wall, window.sheet):
        inner = next(c for c in board.findChildren(QWidget) if c.focusPolicy() & Qt.FocusPolicy.TabFocus)
        inner.setFocus(Qt.FocusReason.TabFocusReason)
        window.actions_["help"].trigger()
        assert window._help is not None
        assert window._help.topic == board.key
        assert window._help.isVisible()
        assert board.isVisible()
        window._close_help()
        assert not window._help.isVisible()


def test_a_new_project_ends_the_guide(window: Window) -> None:
    window.actions_["guide"].trigger()
    guide = window._guide
    assert guide is not None
    window.actions_["new"].trigger()
    assert not guide.isVisible()


def test_the_guide_has_five_steps_and_can_be_ended_and_recalled(window: Window, qtbot: QtBot, find: Find) -> None:
    assert len(words.GUIDE) == 5
    window.actions_["guide"].trigger()
    guide = window._guide
    assert guide is not None
    for at in range(5):
        assert guide.at == at
        assert window.rect().contains(guide.geometry())
        qtbot.mouseClick(find("guide_next"), Qt.MouseButton.LeftButton)
    assert not guide.isVisible()
    assert window.wall.picture.hasFocus()
    assert window.preferences.guided
    window.actions_["guide"].trigger()
    assert guide.at == 0
    qtbot.keyClick(find("guide_next"), Qt.Key.Key_Escape)
    assert not guide.isVisible()


# Things on the boards


def test_the_things_on_the_boards_are_heard_and_pressed(window: Window, qtbot: QtBot) -> None:
    window.store.planner.settle()
    for things in window.things:
        things.refresh()
    heard = {}
    for button in window.findChildren(Unseen):
        interface = QAccessible.queryAccessibleInterface(button)
        heard[interface.text(QAccessible.Text.Name)] = interface
        assert interface.text(QAccessible.Text.Description)
        assert button.parentWidget().rect().intersects(button.geometry())
    assert {"Shelf A, upper", "Shelf B, lower", "Panel A top", "Panel B front", "Shelf A, upper, folded"} <= set(heard)
    assert '8"' in heard["Shelf A, upper"].text(QAccessible.Text.Description)
    heard["Shelf B, lower"].actionInterface().doAction("Press")
    qtbot.waitUntil(lambda: window.store.selected == "lower")  # it is seen to be pressed for a moment


def test_unheard_things_cost_nothing(window: Window) -> None:
    """Nobody listens in the tests: nothing is made."""
    if not QAccessible.isActive():
        window.store.select("lower")
        settle()
        assert window.findChildren(Unseen) == []
