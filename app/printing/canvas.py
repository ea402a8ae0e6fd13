"""One page as it will be printed, as large as there is room."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen, QPixmap, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.paint.ink import QtInk
from app.paper.canvas import PIXELS, Canvas
from app.paper.frame import Frame
from app.paper.page import Page
from app.paper.pdf import draw_page, page_size
from app.theme import Theme
from app.theme.type import BODY, font
from core.language import tr

PAD: Final = 14.0  # pixels round the page
FAR: Final = 100000
KEYS: Final = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_PageUp: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_PageDown: 1,
    Qt.Key.Key_Space: 1,
    Qt.Key.Key_Home: -FAR,
    Qt.Key.Key_End: FAR,
}
WHEEL: Final = 120  # eighths of a degree in a notch


class PageCanvas(QWidget):
    """Shows a page. `turned` carries how many pages on keys and wheel ask for."""

    turned = Signal(int)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("pages_canvas")
        self.setAccessibleName(tr("The page as it will be printed"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._theme = theme
        self._shown: tuple[Page, Frame, int, int] | None = None
        self._words = ""
        self._kept: tuple[object, QPixmap] | None = None
        self._wheel = 0
        theme.changed.connect(self.update)

    def show_page(self, page: Page, frame: Frame, number: int, count: int) -> None:
        """Show a page, its number of so many."""
        self._shown, self._words, self._kept = (page, frame, number, count), "", None
        self.setAccessibleDescription(
            tr("{title}, page {number} of {count}", title=page.title, number=number, count=count)
        )
        self.update()

    def show_words(self, words: str) -> None:
        """Show no page, but why there is none."""
        self._shown, self._words, self._kept = None, words, None
        self.update()

    def _box(self) -> QRectF:
        """Where the page lies."""
        assert self._shown is not None
        wide, high = page_size(self._shown[0], self._shown[1])
        scale = max(0.05, min((self.width() - 2.0 * PAD) / wide, (self.height() - 2.0 * PAD) / high))
        return QRectF(
            (self.width() - scale * wide) / 2.0, (self.height() - scale * high) / 2.0, scale * wide, scale * high
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._theme.palette.paper))
        if self._shown is None:
            painter.setFont(font(BODY))
            painter.setPen(QColor(self._theme.palette.soft))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self._words)
        else:
            box = self._box()
            painter.drawPixmap(box.topLeft(), self._picture(box))
            painter.setPen(QPen(QColor(self._theme.palette.soft), 1.0))
            painter.drawRect(box)
        if self.hasFocus():
            painter.setPen(QPen(QColor(self._theme.palette.chalk), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _picture(self, box: QRectF) -> QPixmap:
        """The page in pixels, kept while it is shown in that size."""
        ratio = self.devicePixelRatioF()
        key = (box.width(), box.height(), ratio)
        if self._kept is None or self._kept[0] != key:
            self._kept = (key, self._drawn(box, ratio))
        return self._kept[1]

    def _drawn(self, box: QRectF, ratio: float) -> QPixmap:
        assert self._shown is not None
        page, frame, number, count = self._shown
        picture = QPixmap(max(1, round(box.width() * ratio)), max(1, round(box.height() * ratio)))
        picture.setDevicePixelRatio(ratio)
        picture.fill(QColor("white"))
        painter = QPainter(picture)
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
        scale = box.width() / (page_size(page, frame)[0] * PIXELS)
        painter.scale(scale, scale)
        draw_page(Canvas(QtInk(painter, PIXELS)), page, frame, number, count)
        painter.end()
        return picture

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = KEYS.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
            return
        back = event.key() == Qt.Key.Key_Space and event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        self.turned.emit(-step if back else step)

    def wheelEvent(self, event: QWheelEvent) -> None:
        self._wheel += event.angleDelta().y()
        notches = int(self._wheel / WHEEL)
        if notches:
            self._wheel -= notches * WHEEL
            self.turned.emit(-notches)
        event.accept()
