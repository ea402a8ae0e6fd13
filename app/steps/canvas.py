"""The bench's picture: a canvas whose arrow keys step, with a small picture of where on the sheet one is."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen

from app.boards.canvas import Canvas
from app.boards.pieces import PiecePainter
from app.paint.painter import DrawingPainter
from app.store import Store
from app.theme import Theme
from core.drawing.fit import View, fit
from core.drawing.model import Drawing
from core.language import tr

WHERE: Final = (132, 74)  # pixels, of the small picture
Key = Qt.Key
ON: Final = (Key.Key_Right, Key.Key_Down, Key.Key_Space, Key.Key_PageDown, Key.Key_Return, Key.Key_Enter)
BACK: Final = (Key.Key_Left, Key.Key_Up, Key.Key_Backspace, Key.Key_PageUp)
FAR: Final = 100_000  # steps: to either end


class WholePainter(PiecePainter):
    """Paints the drawing as one: its numbers stand outside what pictures of single pieces would take in."""

    def paint(
        self,
        painter: QPainter,
        drawing: Drawing,
        view: View,
        chosen: Collection[str] = (),
        hover: str = "",
    ) -> None:
        """As `DrawingPainter.paint`."""
        DrawingPainter.paint(self, painter, drawing, view, chosen, hover)


class StepCanvas(Canvas):
    """`stepped` carries how many steps on (or back, below 0) are asked for."""

    stepped = Signal(int)

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("steps_canvas", store, theme)
        self.setAccessibleName(tr("The bench at this step"))
        self._painter = WholePainter(theme.palette.name)
        self.where: Drawing | None = None
        self._small_painter = DrawingPainter("light")
        self._of_window = theme

    def show_where(self, drawing: Drawing | None) -> None:
        """Show where on the sheet this is, in a corner that the picture is kept off; None shows nothing."""
        self.where = drawing
        self.keep_free(((WHERE[0] + 14.0, 0.0), (0.0, WHERE[1] + 14.0)) if drawing is not None else ())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, shift = Qt.Key(event.key()), event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        if key in BACK or (key is Key.Key_Space and shift):
            self.stepped.emit(-1)
        elif key in ON:
            self.stepped.emit(1)
        elif key is Key.Key_Home:
            self.stepped.emit(-FAR)
        elif key is Key.Key_End:
            self.stepped.emit(FAR)
        else:
            super().keyPressEvent(event)

    def paint_where(self, painter: QPainter) -> None:
        """The whole sheet, small, with what is sawn now; nothing where the picture shows it all."""
        if self.where is None or self.width() < 3 * WHERE[0]:
            return
        palette = self._of_window.palette
        box = QRectF(self.width() - WHERE[0] - 10, self.height() - WHERE[1] - 10, *WHERE)
        painter.setPen(QPen(QColor(palette.hairline), 1))
        painter.setBrush(QColor(palette.card))
        painter.drawRoundedRect(box, 5, 5)
        self._small_painter.theme = "dark" if palette.name == "dark" else "light"
        painter.save()
        painter.translate(box.topLeft())
        view = fit(self.where, box.width(), box.height(), pad=7.0, ratio=self.devicePixelRatioF())
        self._small_painter.paint(painter, self.where, view)
        painter.restore()
