"""A sentence that makes itself fit: one line where there is room, else in a smaller size the lines that there are."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from app.theme import Theme
from app.theme.type import BODY, font

PAD = 5
WRAPPED = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap


class Sentence(QAbstractButton):
    """Words that can be clicked where they lead somewhere. The tooltip has all of them."""

    def __init__(self, name: str, face: QFont, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._theme = theme
        self._face = face
        self.setMinimumWidth(120)
        theme.changed.connect(self.update)

    def set_text(self, text: str, leads: bool) -> None:
        """Say this. leads: a click shows what it is about."""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if leads else Qt.FocusPolicy.NoFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents, False)
        shape = Qt.CursorShape.PointingHandCursor if leads else Qt.CursorShape.ArrowCursor
        if shape != self.cursor().shape():
            self.setCursor(shape)
        if text != self.text():
            self.setText(text)
            self.setAccessibleName(text)
            self.setToolTip(text)
            self.updateGeometry()
            self.update()

    def sizeHint(self) -> QSize:
        return QSize(QFontMetrics(self._face).horizontalAdvance(self.text()) + 2 * PAD + 2, 30)

    def tall(self, width: int) -> int:
        """Pixels that all the words take, as high as they are wrapped to a width."""
        room = QRect(0, 0, width - 2 * PAD, 9999)
        if QFontMetrics(self._face).horizontalAdvance(self.text()) <= room.width():
            return QFontMetrics(self._face).height()
        return QFontMetrics(self._small).boundingRect(room, WRAPPED, self.text()).height()

    @property
    def _small(self) -> QFont:
        """The face of words that take more than one line."""
        return font(BODY, strong=self._face.weight() > QFont.Weight.Normal)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        palette = self._theme.palette
        if self.hasFocus():
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(palette.chalk), 2))
            painter.drawRoundedRect(self.rect().adjusted(1, 1, -1, -1), 4, 4)
        painter.setPen(QColor(palette.ink))
        box = self.rect().adjusted(PAD, 0, -PAD, 0)
        if QFontMetrics(self._face).horizontalAdvance(self.text()) <= box.width():
            painter.setFont(self._face)
            painter.drawText(box, Qt.AlignmentFlag.AlignVCenter, self.text())
        else:
            self._paint_wrapped(painter, box)
        painter.end()

    def _paint_wrapped(self, painter: QPainter, box: QRect) -> None:
        small = self._small
        metrics = QFontMetrics(small)
        words = self.text().split(" ")
        most = max(box.height(), metrics.height()) + 4
        text = self.text()
        while len(words) > 3 and metrics.boundingRect(QRect(0, 0, box.width(), 9999), WRAPPED, text).height() > most:
            words.pop()
            text = " ".join(words).rstrip(",;.") + " …"
        painter.setFont(small)
        painter.drawText(box, WRAPPED, text)
