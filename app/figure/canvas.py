"""Both sides of a seam at true scale, in as many rows as make them largest."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.figure.reader import Strip
from app.theme import Theme
from app.theme.type import BODY, font
from core.language import tr

PAD: Final = 14.0  # pixels round the picture
GAP: Final = 12.0  # between two rows
MOST_ROWS: Final = 9
MOST_SCALE: Final = 5.0  # pixels for a mm: nearer than life helps nobody
CASING: Final = "#FAF7F1"


class StripCanvas(QWidget):
    """Shows one strip; the seam is the line along its middle."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("figure_strip")
        self.setAccessibleName(tr("Both sides of the seam"))
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._theme = theme
        self._strip: Strip | None = None
        self._image = QImage()
        self.words = ""
        theme.changed.connect(self.update)

    def show_strip(self, strip: Strip | None) -> None:
        """Show this one, or none."""
        self._strip = strip
        self._image = QImage()
        if strip is not None:
            kind = QImage.Format.Format_RGB888
            self._image = QImage(strip.data, strip.across, strip.down, 3 * strip.across, kind)
        self.update()

    def rows(self) -> tuple[int, float]:
        """In how many rows it is shown, and how many pixels of the screen one of its own is."""
        if self._strip is None:
            return 1, 1.0
        wide, tall = self.width() - 2 * PAD, self.height() - 2 * PAD
        best = (1, 0.01)
        for count in range(1, MOST_ROWS + 1):
            scale = min(wide * count / self._strip.across, (tall - GAP * (count - 1)) / count / self._strip.down)
            scale = min(scale, MOST_SCALE * self._strip.pitch)
            if scale > best[1]:
                best = (count, scale)
        return best

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._theme.palette.paper))
        strip = self._strip
        if strip is None:
            painter.setFont(font(BODY))
            painter.setPen(QColor(self._theme.palette.soft))
            room = QRectF(self.rect()).adjusted(24, 24, -24, -24)
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.words)
            painter.end()
            return
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        count, scale = self.rows()
        part = strip.across / count
        high = strip.down * scale
        top = (self.height() - count * high - (count - 1) * GAP) / 2.0
        for row in range(count):
            source = QRectF(row * part, 0.0, part, strip.down)
            target = QRectF(PAD, top + row * (high + GAP), part * scale, high)
            painter.drawImage(target, self._image, source)
            y = target.top() + strip.meets * scale
            for colour, width in ((CASING, 2.6), (self._theme.palette.wood_chalk, 1.0)):
                painter.setPen(QPen(QColor(colour), width))
                for x in (target.left(), target.right()):  # the ends alone: a line over the seam would hide it
                    out = -9.0 if x == target.left() else 9.0
                    painter.drawLine(QPointF(x, y), QPointF(x + out, y))
        painter.end()
