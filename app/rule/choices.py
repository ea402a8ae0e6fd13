"""Choosing one of a few: a row of segments, or a list that drops down."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence

from PySide6.QtCore import QPoint, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygon, QWheelEvent
from PySide6.QtWidgets import QButtonGroup, QComboBox, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from app.theme import Theme
from core.language import short, tr

BESIDE = 34  # pixels of a list that drops down beside its words: its arrow and what is left free


def segment(name: str, word: str, at: int, count: int, parent: QWidget) -> QPushButton:
    """One of `count` words side by side that can be on or off."""
    button = QPushButton(short(word), parent)
    button.setObjectName(name)
    button.setProperty("look", "segment")
    button.setProperty("place", "first" if at == 0 else "last" if at == count - 1 else "middle")
    button.setCheckable(True)
    button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    return button


class Segments(QWidget):
    """Two or three words side by side, one of them chosen. Arrow keys move the choice.

    `chosen` carries the key of what was chosen by hand.
    """

    chosen = Signal(str)

    def __init__(self, name: str, options: Sequence[tuple[str, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._buttons: dict[str, QPushButton] = {}
        self._group = QButtonGroup(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for at, (key, word) in enumerate(options):
            button = segment(f"{name}_{key}", word, at, len(options), self)
            button.clicked.connect(self._pick(key))
            self._group.addButton(button)
            self._buttons[key] = button
            row.addWidget(button)
        self.setFocusProxy(next(iter(self._buttons.values())))

    def _pick(self, key: str) -> Callable[[], None]:
        return lambda: self.chosen.emit(key)

    def set_name(self, words: str) -> None:
        """Name it for screen readers."""
        self.setAccessibleName(words)
        for button in self._buttons.values():
            button.setAccessibleName(f"{tr(words)}: {button.text()}")

    def show_value(self, key: str) -> None:
        """Show what the document says."""
        button = self._buttons[key]
        if not button.isChecked():
            button.setChecked(True)
        self.setFocusProxy(button)


class Toggles(QWidget):
    """Words side by side, each by itself on or off. `switched` carries the key of what was switched by hand."""

    switched = Signal(str)

    def __init__(self, name: str, options: Sequence[tuple[str, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._buttons: dict[str, QPushButton] = {}
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for at, (key, word) in enumerate(options):
            button = segment(f"{name}_{key}", word, at, len(options), self)
            button.clicked.connect(self._switch(key))
            self._buttons[key] = button
            row.addWidget(button)
        self.setFocusProxy(next(iter(self._buttons.values())))

    def _switch(self, key: str) -> Callable[[], None]:
        return lambda: self.switched.emit(key)

    def set_name(self, words: str) -> None:
        """Name it for screen readers."""
        self.setAccessibleName(words)
        for button in self._buttons.values():
            button.setAccessibleName(f"{tr(words)}: {button.text()}")

    def show_values(self, on: Collection[str], possible: Collection[str]) -> None:
        """Show what the document says, and what can be switched at all."""
        for key, button in self._buttons.items():
            button.setChecked(key in on)
            button.setEnabled(key in possible or key in on)


class Choice(QComboBox):
    """A list that drops down; the wheel never changes it in passing."""

    chosen = Signal(str)

    def __init__(self, name: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._theme = theme
        self.setMinimumHeight(26)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(6)
        self.activated.connect(lambda at: self.chosen.emit(str(self.itemData(at))))

    def offer(self, options: Sequence[tuple[str, str]], chosen: str) -> None:
        """Show these (key, words) and which of them is chosen."""
        now = [(str(self.itemData(i)), self.itemText(i)) for i in range(self.count())]
        options = [(key, tr(words)) for key, words in options]
        if now != options:
            self.clear()
            for key, words in options:
                self.addItem(words, key)
        at = self.findData(chosen)
        if at != self.currentIndex():
            self.setCurrentIndex(at)

    def sizeHint(self) -> QSize:
        """Room for the longest words beside the arrow."""
        hint = super().sizeHint()
        words = (self.fontMetrics().horizontalAdvance(self.itemText(at)) for at in range(self.count()))
        return QSize(max(hint.width(), max(words, default=0) + BESIDE), hint.height())

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(self._theme.palette.soft), 1.6, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        at = QPoint(self.width() - 14, self.height() // 2)
        painter.drawPolyline(QPolygon([at + QPoint(-4, -2), at + QPoint(0, 2), at + QPoint(4, -2)]))
        painter.end()
