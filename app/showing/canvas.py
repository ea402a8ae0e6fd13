"""A picture as large as there is room for; a drag turns what is seen."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.theme import Theme
from core.language import tr

PAD: Final = 12  # pixels round it
CHECK: Final = 8  # pixels of a square behind what is see-through
KEY_STEP: Final = 20.0  # pixels an arrow key turns it by
KEYS: Final = {
    Qt.Key.Key_Left: (-KEY_STEP, 0.0),
    Qt.Key.Key_Right: (KEY_STEP, 0.0),
    Qt.Key.Key_Up: (0.0, -KEY_STEP),
    Qt.Key.Key_Down: (0.0, KEY_STEP),
}


class PictureCanvas(QWidget):
    """`turned` carries how far a hand has dragged, right and down [px]; `resized`: there is more or less room."""

    turned = Signal(float, float)
    resized = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("showing_picture")
        self.setAccessibleName(tr("The shelves as they will be"))
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.OpenHandCursor)
        self._theme = theme
        self._image = QImage()
        self._from: QPointF | None = None
        theme.changed.connect(self.update)

    def show_image(self, image: QImage) -> None:
        """Show this picture, or none."""
        self._image = image
        self.update()

    def fitting(self, size: tuple[int, int]) -> tuple[int, int]:
        """Pixels of the screen for a picture of that shape."""
        ratio = self.devicePixelRatioF()
        room = (self.width() - 2 * PAD) * ratio, (self.height() - 2 * PAD) * ratio
        share = min(room[0] / size[0], room[1] / size[1], 1.0)
        return int(size[0] * share), int(size[1] * share)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        palette = self._theme.palette
        painter.fillRect(self.rect(), QColor(palette.card))
        if not self._image.isNull():
            ratio = self.devicePixelRatioF()
            wide, tall = self._image.width() / ratio, self._image.height() / ratio
            target = QRectF((self.width() - wide) / 2.0, (self.height() - tall) / 2.0, wide, tall)
            if self._image.pixelColor(0, 0).alpha() < 255:
                self._paint_checks(painter, target)
            painter.drawImage(target, self._image)
        if self.hasFocus():
            painter.setPen(QPen(QColor(palette.chalk), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_checks(self, painter: QPainter, room: QRectF) -> None:
        """What is see-through is shown over squares."""
        tile = QImage(2 * CHECK, 2 * CHECK, QImage.Format.Format_RGB32)
        tile.fill(QColor(self._theme.palette.card))
        for x, y in ((0, 0), (CHECK, CHECK)):
            for column in range(CHECK):
                for row in range(CHECK):
                    tile.setPixelColor(x + column, y + row, QColor(self._theme.palette.hairline))
        painter.fillRect(room, QBrush(tile))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() is Qt.MouseButton.LeftButton:
            self._from = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._from is not None:
            way, self._from = event.position() - self._from, event.position()
            self.turned.emit(way.x(), way.y())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._from = None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = KEYS.get(Qt.Key(event.key()))
        if step is None or event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            super().keyPressEvent(event)
        else:
            self.turned.emit(*step)
