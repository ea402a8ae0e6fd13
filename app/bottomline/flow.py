"""Buttons side by side, on as many lines as they need."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

GAP, LINE = 8, 34  # pixels between two buttons, and from line to line


class Flow(QWidget):
    """Takes a width and has the height its lines come to."""

    def __init__(self, buttons: Sequence[QWidget], width: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        x, y = 0, 0
        for button in buttons:
            button.setParent(self)
            button.ensurePolished()
            size = button.sizeHint()
            if x and x + size.width() > width:
                x, y = 0, y + LINE
            button.setGeometry(x, y, size.width(), size.height())
            x += size.width() + GAP
        self.setFixedHeight(y + LINE)
