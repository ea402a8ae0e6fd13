"""From a new project to a cut sheet on paper, with the keyboard alone, and again with the mouse alone.

Nothing is called: keys go to what has the focus, clicks and drags to places of the window. The system's file dialog
is the system's: what would be typed there is answered.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from app.rule.edits import new_project
from app.window.window import Window
from core.document.load import load_project
from core.document.model import Project
from tests.hand.mouse import Mouse

Open = Callable[[Project], Window]
K, M = Qt.Key, Qt.KeyboardModifier
FARTHEST = 120  # Tab stops to what is wanted


@pytest.fixture
def files(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Where the system's dialogs answer to: the file they suggest, in a folder of its own."""

    def answer(_parent: QWidget, _title: str, wanted: str, *_more: object, **_options: object) -> tuple[str, str]:
        return str(tmp_path / Path(wanted).name), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", answer)
    return tmp_path


def only(folder: Path, suffix: str) -> Path | None:
    """The one file with that ending."""
    found = list(folder.glob(f"*{suffix}"))
    return found[0] if len(found) == 1 else None


class Keyboard:
    """Ten fingers: no place of the window is known to them but where the focus is."""

    def __init__(self, window: Window) -> None:
        self.window, self.pressed = window, 0

    def press(self, key: Qt.Key, *held: Qt.KeyboardModifier) -> None:
        mask = M.NoModifier
        for one in held:
            mask |= one
        QTest.keyClick(QApplication.focusWidget() or self.window, key, mask)
        self.pressed += 1

    def type(self, text: str) -> None:
        QTest.keyClicks(QApplication.focusWidget(), text)
        self.pressed += len(text)

    @property
    def at(self) -> str:
        focus = QApplication.focusWidget()
        return focus.objectName() if focus is not None else ""

    def go_to(self, name: str) -> None:
        """Tab on until the focus is there."""
        passed = []
        while self.at != name:
            self.press(K.Key_Tab)
            passed.append(self.at)
            assert len(passed) < FARTHEST, f"{name} is not among {dict.fromkeys(passed)}"

    def fill(self, name: str, text: str) -> None:
        """Type into a field."""
        self.go_to(name)
        self.press(K.Key_A, M.ControlModifier)
        self.type(text)
        self.press(K.Key_Return)


def test_with_the_keyboard_alone(open_window: Open, files: Path, qtbot: QtBot) -> None:
    window = open_window(new_project("mm"))
    keys = Keyboard(window)
    keys.press(K.Key_N, M.ControlModifier)
    keys.press(K.Key_Return, M.ControlModifier)
    for name, text in (("shelf_length", "1180"), ("shelf_depth", "210"), ("shelf_height", "64")):
        keys.fill(name, text)
    keys.press(K.Key_D, M.ControlModifier)
    keys.fill("shelf_length", "900")
    keys.press(K.Key_S, M.ControlModifier)
    saved = only(files, ".grainfold")
    assert saved is not None
    shelves = load_project(saved).shelves
    assert [(s.length, s.depth, s.height) for s in shelves] == [(1180.0, 210.0, 64.0), (900.0, 210.0, 64.0)]
    window.store.planner.settle()
    assert not window.store.plan.errors
    keys.press(K.Key_P, M.ControlModifier)
    qtbot.waitUntil(lambda: keys.window.findChild(QWidget, "pages_save").isEnabled(), timeout=30_000)
    keys.go_to("pages_save")
    keys.press(K.Key_Space)
    qtbot.waitUntil(lambda: only(files, ".pdf") is not None, timeout=60_000)
    assert keys.pressed < 200


def press(window: Window, name: str) -> None:
    """Click in the middle of what is called so."""
    found = [child for child in window.findChildren(QWidget, name) if child.isVisible()]
    assert len(found) == 1, f"{len(found)} are called {name}"
    place = found[0].mapTo(window, found[0].rect().center())
    widget = window.childAt(place)
    assert widget is not None
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, M.NoModifier, widget.mapFrom(window, place))


def stroke(mouse: Mouse, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Draw on the wall."""
    a, b = mouse.pixel(start), mouse.pixel(end)
    mouse.drag(a, b.x() - a.x(), b.y() - a.y())


def test_with_the_mouse_alone(open_window: Open, files: Path, qtbot: QtBot) -> None:
    window = open_window(new_project("mm"))
    press(window, "button_new")
    wall = Mouse(window, window.wall.picture)
    stroke(wall, (600.0, 1500.0), (1700.0, 1490.0))
    stroke(wall, (700.0, 1000.0), (1600.0, 1010.0))
    assert len(window.store.project.shelves) == 2
    wall.settle()
    assert not window.store.plan.errors
    press(window, "button_save")
    saved = only(files, ".grainfold")
    assert saved is not None
    assert load_project(saved) == window.store.document
    press(window, "button_pages")
    qtbot.waitUntil(lambda: window.findChild(QWidget, "pages_save").isEnabled(), timeout=30_000)
    QTest.qWait(50)
    press(window, "pages_save")
    qtbot.waitUntil(lambda: only(files, ".pdf") is not None, timeout=60_000)


def test_the_focus_is_seen_wherever_it_goes(open_window: Open) -> None:
    """WCAG 2.2, 2.4.7 Focus Visible: with the focus a control looks otherwise than without it."""
    window = open_window(new_project("mm"))
    keys = Keyboard(window)
    keys.press(K.Key_Return, M.ControlModifier)
    seen: dict[str, bool] = {}
    for _ in range(FARTHEST):
        keys.press(K.Key_Tab)
        focus = QApplication.focusWidget()
        if focus is None or focus.objectName() in seen:
            continue
        QTest.qWait(5)
        corner = focus.mapTo(window, QPoint(0, 0))
        box = focus.rect().translated(corner).adjusted(-4, -4, 4, 4)
        with_focus = window.grab(box).toImage()
        focus.clearFocus()
        QTest.qWait(5)
        seen[focus.objectName()] = with_focus != window.grab(box).toImage()
        focus.setFocus(Qt.FocusReason.TabFocusReason)
    assert len(seen) > 30
    assert [name for name, is_seen in seen.items() if not is_seen] == []
