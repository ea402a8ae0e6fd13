"""The guide of first steps: five cards that point at parts of the window, one after the other."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.reach import words
from app.theme import Theme

WIDTH = 330
AWAY = 14  # pixels between the card and the window's edge, or what it points at


class Frame(QWidget):
    """A chalk line round what the card speaks of; the mouse goes through it."""

    def __init__(self, theme: Theme, window: QWidget) -> None:
        super().__init__(window)
        self._theme = theme
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QPen(QColor(self._theme.palette.chalk), 3))
        painter.drawRect(self.rect().adjusted(1, 1, -2, -2))
        painter.end()


class Guide(QFrame):
    """`ended`: the guide was gone through, or ended before."""

    ended = Signal()

    def __init__(self, theme: Theme, parts: Sequence[QWidget], window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("guide")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedWidth(WIDTH)
        self._parts = parts
        self._at = 0
        self._frame = Frame(theme, window)
        self._count = self._label("small")
        self._title = self._label("lead")
        self._words = self._label("")
        self._words.setWordWrap(True)
        self._words.setFixedWidth(WIDTH - 32)
        self._next = self._button("guide_next", words.NEXT, self.next, "accent")
        self._back = self._button("guide_back", words.BACK, self.back, "line")
        self._end = self._button("guide_end", words.END_GUIDE, self.end, "quiet")
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self._end)
        row.addStretch(1)
        row.addWidget(self._back)
        row.addWidget(self._next)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        column.setSpacing(6)
        for label in (self._count, self._title, self._words):
            column.addWidget(label)
        column.addSpacing(4)
        column.addLayout(row)
        window.installEventFilter(self)
        self.hide()

    def _label(self, role: str) -> QLabel:
        made = QLabel(self)
        made.setProperty("role", role)
        return made

    def _button(self, name: str, word: str, action: Callable[[], None], look: str) -> QPushButton:
        made = QPushButton(word, self)
        made.setObjectName(name)
        made.setProperty("look", look)
        made.clicked.connect(action)
        return made

    @property
    def at(self) -> int:
        """The step that is shown, from 0."""
        return self._at

    def begin(self) -> None:
        """From the first step."""
        self._show(0)
        self._next.setFocus(Qt.FocusReason.OtherFocusReason)

    def next(self) -> None:
        """The next step; after the last the guide is done."""
        if self._at + 1 < len(words.GUIDE):
            self._show(self._at + 1)
        else:
            self.end()

    def back(self) -> None:
        """The step before."""
        self._show(max(0, self._at - 1))

    def end(self) -> None:
        """No more of it."""
        self.hide()
        self._frame.hide()
        self.ended.emit()

    def _show(self, at: int) -> None:
        self._at = at
        title, said = words.GUIDE[at]
        self._count.setText(words.GUIDE_OF.format(at=at + 1, count=len(words.GUIDE)))
        self._title.setText(title)
        self._words.setText(said)
        self.setAccessibleName(f"{title}. {said}")
        self._next.setText(words.NEXT if at + 1 < len(words.GUIDE) else words.DONE)
        self._back.setEnabled(at > 0)
        self._place()
        for widget in (self._frame, self):
            widget.show()
            widget.raise_()

    def _place(self) -> None:
        window, part = self.parentWidget(), self._parts[self._at]
        if window is None:
            return
        layout = self.layout()
        self.setFixedHeight(layout.totalHeightForWidth(WIDTH) if layout is not None else self.sizeHint().height())
        box = QRect(part.mapTo(window, QPoint(0, 0)), part.size())
        self._frame.setGeometry(box)
        inside = window.rect().adjusted(AWAY, AWAY, -AWAY, -AWAY)
        x = box.right() + AWAY if box.right() + AWAY + WIDTH < inside.right() else box.left() - AWAY - WIDTH
        y = box.top() + AWAY
        if x < inside.left():  # as wide as the window: over it, or under it
            x = min(box.left() + AWAY, inside.right() - WIDTH)
            above = box.top() - AWAY - self.height()
            y = above if above > inside.top() else box.bottom() + AWAY
        y = min(max(y, inside.top()), inside.bottom() - self.height())
        self.move(x, y)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        return super().eventFilter(watched, event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.end()
            return
        super().keyPressEvent(event)
