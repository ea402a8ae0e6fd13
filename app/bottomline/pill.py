"""A way out as a button."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QCursor, QEnterEvent, QFocusEvent, QHideEvent, QMouseEvent
from PySide6.QtWidgets import QPushButton, QWidget

ROUNDED = 1  # pixels: two ways of telling a place may round it apart
Looking = Callable[[bool], None]  # True: somebody looks at it, False: no more


class Pill(QPushButton):
    """A round button that knows when it is looked at: under the pointer, or reached with Tab.

    One that comes to lie under a pointer that rests, because the one before it was pressed, is not looked at before
    the pointer moves; and the second press of a double click was meant for the one before.
    """

    def __init__(self, words: str, looking: Looking | None, parent: QWidget) -> None:
        super().__init__(words, parent)
        self.setProperty("look", "pill")
        self._looking = looking
        self._looked = False
        self._born = QCursor.pos()
        self.setMouseTracking(True)

    def _look(self, looks: bool) -> None:
        if self._looking is not None and looks != self._looked:
            self._looked = looks
            self._looking(looks)

    def _has_moved(self, at: QPointF) -> bool:
        return (at.toPoint() - self._born).manhattanLength() > ROUNDED

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        if self._has_moved(event.globalPosition()):
            self._look(True)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        super().mouseMoveEvent(event)
        if self._has_moved(event.globalPosition()):
            self._born = QPoint(-9, -9)
            self._look(True)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if self._has_moved(event.globalPosition()):
            super().mouseDoubleClickEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._look(False)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self._look(True)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if not self.underMouse():
            self._look(False)

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._look(False)


def pill(
    name: str, words: str, action: Callable[[], None], parent: QWidget, looking: Looking | None = None
) -> QPushButton:
    """A round button: its object name, its words, what it does; `looking` hears whether it is looked at."""
    made = Pill(words, looking, parent)
    made.setObjectName(name)
    made.clicked.connect(action)
    return made
