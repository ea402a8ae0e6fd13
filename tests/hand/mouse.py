"""A mouse over one board: real events, places in the board's own millimetres."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from app.hand.grip import Handle, Point
from app.hand.hand import Hand
from app.window.window import Window

LEFT, MIDDLE, NONE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton, Qt.MouseButton.NoButton
PLAIN = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


class BoardWidget(Protocol):
    """What the mouse needs of a board's widget."""

    hand: Hand

    def to_pixel(self, place: Point) -> QPointF: ...


class Mouse:
    """Presses, moves and releases over one widget, and the keys that go to it."""

    def __init__(self, window: Window, widget: QWidget) -> None:
        self.window = window
        self.widget = widget
        self.hand: Hand = widget.hand  # type: ignore[attr-defined]  # each board's widget has one
        self.at = QPointF()

    # The mouse

    def pixel(self, place: Point) -> QPointF:
        pixel: QPointF = self.widget.to_pixel(place)  # type: ignore[attr-defined]  # each board's widget has one
        return pixel

    def _send(
        self, kind: QEvent.Type, button: Qt.MouseButton, buttons: Qt.MouseButton, keys: Qt.KeyboardModifier
    ) -> None:
        there = QPointF(self.widget.mapToGlobal(self.at))
        QApplication.sendEvent(self.widget, QMouseEvent(kind, self.at, there, button, buttons, keys))
        QApplication.processEvents()

    def hover(self, at: QPointF) -> None:
        self.at = at
        self._send(QEvent.Type.MouseMove, NONE, NONE, PLAIN)

    def press(self, at: QPointF, button: Qt.MouseButton = LEFT) -> None:
        self.hover(at)
        self._send(QEvent.Type.MouseButtonPress, button, button, PLAIN)

    def move(self, x: float, y: float, *, keys: Qt.KeyboardModifier = PLAIN, button: Qt.MouseButton = LEFT) -> None:
        """Move by pixels, x to the right, y down, in a few steps."""
        start = self.at
        for part in (0.2, 0.5, 0.8, 1.0):
            self.at = start + QPointF(x, y) * part
            self._send(QEvent.Type.MouseMove, NONE, button, keys)

    def release(self, button: Qt.MouseButton = LEFT) -> None:
        self._send(QEvent.Type.MouseButtonRelease, button, NONE, PLAIN)
        self.settle()

    def settle(self) -> None:
        """Where planning is slow the plan comes a little later; tests do not wait for it."""
        self.window.store.planner.settle()
        QApplication.processEvents()

    def drag(self, start: QPointF, x: float, y: float) -> None:
        self.press(start)
        self.move(x, y)
        self.release()

    def click(self, at: QPointF) -> None:
        self.press(at)
        self.release()

    # Handles

    def handle(self, key: str, about: str = "") -> Handle:
        found = [h for h in self.hand.reach.handles() if h.key == key and about in ("", h.about)]
        assert len(found) == 1, f"{len(found)} handles are called {key}"
        return found[0]

    def square(self, key: str, about: str = "") -> QPointF:
        return self.hand.reach.square(self.handle(key, about))

    def pull(self, key: str, x: float, y: float) -> None:
        self.drag(self.square(key), x, y)

    # Keys

    def key(self, key: Qt.Key, keys: Qt.KeyboardModifier = PLAIN) -> None:
        QTest.keyClick(self.widget, key, keys)
        self.settle()

    def type(self, text: str) -> QLineEdit:
        """The first character opens the field, the others go into it."""
        QTest.keyClicks(self.widget, text[0])
        field = self.hand.typed.field
        assert field is not None
        assert field.isVisible()
        QTest.keyClicks(field, text[1:])
        QApplication.processEvents()
        return field

    def enter(self, key: Qt.Key = Qt.Key.Key_Return) -> None:
        """A key into the open field."""
        field = self.hand.typed.field
        assert field is not None
        QTest.keyClick(field, key)
        self.settle()
