"""The line of text that opens beside the pointer when a digit is typed."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

WIDTH, HEIGHT = 116, 28
FIRST = frozenset("0123456789.,¼½¾-−")  # what opens the field


class ValueField(QLineEdit):
    """`taken` is sent at Enter and when the focus leaves, `next_asked` at Tab, `put_back` at Escape."""

    taken = Signal()
    next_asked = Signal()
    put_back = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("hand_value")
        self.setFixedSize(WIDTH, HEIGHT)
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._open = False
        self.hide()

    @property
    def is_open(self) -> bool:
        """Is something being typed?"""
        return self._open

    def shut(self) -> None:
        """Away with it."""
        self._open = False
        self.hide()

    def open_with(self, text: str, words: str, *, whole: bool = False) -> None:
        """Open with what was typed first; words: what is being typed; whole: typing replaces the text."""
        self._open = True
        self.setText(text)
        self.setAccessibleName(words)
        self.setPlaceholderText(words)
        self.show()
        self.raise_()
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        if whole:
            self.selectAll()
        else:
            self.end(False)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride:
            event.accept()  # while a number is typed, no key is the window's
            return True
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Tab:
            self.next_asked.emit()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.put_back.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if self._open and event.reason() not in (
            Qt.FocusReason.PopupFocusReason,
            Qt.FocusReason.ActiveWindowFocusReason,
        ):
            self.taken.emit()
