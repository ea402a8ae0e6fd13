"""Buttons side by side, on as many lines as they need."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QWidget

GAP, LINE = 8, 34  # pixels between two buttons, and from line to line
# What may change a button's size: its type comes with the window it is put into.
RESIZING: Final = frozenset(
    {QEvent.Type.LayoutRequest, QEvent.Type.Polish, QEvent.Type.StyleChange, QEvent.Type.FontChange, QEvent.Type.Show}
)


class Flow(QWidget):
    """Takes a width and has the height its lines come to."""

    def __init__(self, buttons: Sequence[QWidget], width: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._buttons, self._room = tuple(buttons), width
        for button in buttons:
            button.setParent(self)
        self._place()

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() in RESIZING:
            self._place()
        return done

    def _place(self) -> None:
        x, y = 0, 0
        for button in self._buttons:
            button.ensurePolished()
            size = button.sizeHint()
            if x and x + size.width() > self._room:
                x, y = 0, y + LINE
            button.setGeometry(x, y, size.width(), size.height())
            x += size.width() + GAP
        self.setFixedHeight(y + LINE)
