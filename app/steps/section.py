"""The current cut's section at true scale, beside the bench."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.paint.painter import DrawingPainter
from app.theme import Theme
from core.drawing.fit import fit
from core.drawing.model import Drawing
from core.language import tr

MOST: float = 9.0  # pixels for a mm


class CutSection(QWidget):
    """A drawing fitted into a card; nothing on it is pulled."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("steps_section")
        self.setAccessibleName(tr("The cut in section"))
        self._theme = theme
        self._painter = DrawingPainter("light")
        self._drawing: Drawing | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        theme.changed.connect(self.update)

    def show_drawing(self, drawing: Drawing | None) -> None:
        """Show this."""
        self._drawing = drawing
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        palette = self._theme.palette
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(palette.paper))
        if self._drawing is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(palette.hairline), 1))
        painter.setBrush(QColor(palette.card))
        box = QRectF(self.rect()).adjusted(4.5, 4.5, -4.5, -4.5)
        painter.drawRoundedRect(box, 6, 6)
        if box.width() > 40 and box.height() > 40:
            self._painter.theme = "dark" if palette.name == "dark" else "light"
            view = fit(self._drawing, box.width(), box.height(), pad=9.0, ratio=self.devicePixelRatioF(), most=MOST)
            view = msgspec.structs.replace(view, x=view.x + box.left(), y=view.y + box.top())
            painter.setClipRect(box)
            self._painter.paint(painter, self._drawing, view)
        painter.end()
