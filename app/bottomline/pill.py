"""A way out as a button."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QEnterEvent, QFocusEvent, QHideEvent
from PySide6.QtWidgets import QPushButton, QWidget

Looking = Callable[[bool], None]  # True: somebody looks at it, False: no more


class Pill(QPushButton):
    """A round button that knows when it is looked at: under the pointer, or reached with Tab."""

    def __init__(self, words: str, looking: Looking | None, parent: QWidget) -> None:
        super().__init__(words, parent)
        self.setProperty("look", "pill")
        self._looking = looking
        self._looked = False

    def _look(self, looks: bool) -> None:
        if self._looking is not None and looks != self._looked:
            self._looked = looks
            self._looking(looks)

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        self._look(True)

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
