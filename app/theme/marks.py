"""Small marks drawn by hand: trouble, doubt, a note, all well; each with a shape of its own, never by colour alone."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.theme.theme import Theme
from core.language import tr

Tone = Literal["error", "warning", "note", "fine", "question"]
WORDS: dict[Tone, str] = {
    "error": tr("Trouble"),
    "warning": tr("Warning"),
    "note": tr("Note"),
    "fine": tr("All well"),
    "question": "Question",
}


def tone_colour(theme: Theme, tone: Tone) -> str:
    """The colour that goes with a mark."""
    palette = theme.palette
    return {
        "error": palette.trouble,
        "warning": palette.doubt,
        "note": palette.soft,
        "fine": palette.fine,
        "question": palette.chalk,
    }[tone]


# Each mark as lines and dots in a unit square, y down.
_LINES: dict[Tone, tuple[tuple[tuple[float, float], ...], ...]] = {
    "error": (((0.5, 0.0), (1.0, 1.0), (0.0, 1.0), (0.5, 0.0)), ((0.5, 0.38), (0.5, 0.66))),
    "warning": (((0.5, 0.0), (1.0, 0.5), (0.5, 1.0), (0.0, 0.5), (0.5, 0.0)),),
    "note": (),
    "fine": (((0.0, 0.5), (0.38, 0.9), (1.0, 0.12)),),
    "question": (),
}
_DOTS: dict[Tone, tuple[float, float, float]] = {  # x, y, radius
    "error": (0.5, 0.84, 0.03),
    "warning": (0.5, 0.5, 0.06),
    "note": (0.5, 0.5, 0.16),
    "question": (0.5, 0.5, 0.06),
}


def paint_mark(painter: QPainter, box: QRectF, tone: Tone, colour: QColor) -> None:
    """Draw the mark to fill `box`: a triangle, a diamond, a dot, a tick or a ring."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    width = max(1.4, box.width() / 9.0)
    painter.setPen(QPen(colour, width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin))
    inner = box.adjusted(width, width, -width, -width)

    def at(x: float, y: float) -> QPointF:
        return QPointF(inner.left() + x * inner.width(), inner.top() + y * inner.height())

    for line in _LINES[tone]:
        painter.drawPolyline(QPolygonF([at(x, y) for x, y in line]))
    if tone == "question":
        painter.drawEllipse(inner)
    if tone in _DOTS:
        x, y, radius = _DOTS[tone]
        painter.setBrush(colour)
        painter.setPen(Qt.PenStyle.NoPen)
        size = max(radius * inner.width(), width * 0.55)
        painter.drawEllipse(at(x, y), size, size)
    painter.restore()


class Mark(QWidget):
    """A mark as a widget of `size` pixels."""

    def __init__(self, theme: Theme, tone: Tone = "note", size: int = 18, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._tone: Tone = tone
        self.setFixedSize(size, size)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        theme.changed.connect(self.update)
        self.set_tone(tone)

    @property
    def tone(self) -> Tone:
        """What it says."""
        return self._tone

    def set_tone(self, tone: Tone) -> None:
        """Say something else."""
        self._tone = tone
        self.setAccessibleName(WORDS[tone])
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        paint_mark(painter, QRectF(self.rect()), self._tone, QColor(tone_colour(self._theme, self._tone)))
        painter.end()
