"""A page to write on in points, its origin at the upper left corner, y down."""

from __future__ import annotations

from typing import Final, Literal

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QGuiApplication, QPainter, QPen

from app.paint.glyphs import paint_font
from app.paint.vector import paint_on_paper
from core.drawing.fit import View
from core.drawing.measure import text_width
from core.drawing.model import Drawing
from core.language import tr

RESOLUTION: Final = 1200  # device pixels in an inch
PIXELS: Final = RESOLUTION / 72.0  # in a point
MM: Final = 72.0 / 25.4  # points
LARGER: Final = 1.1  # texts of drawings on paper for those on a screen: 9 points become 9.9
SMALL: Final = 9.5  # points: the smallest text on paper; never under 9
BODY: Final = 10.5
LEAD: Final = 14.0
HAIRLINE: Final = 0.4
UNITS: Final = frozenset(
    f"{unit}{end}" for unit in ("mm", "in", "ft", "m", "lb", "kg", "min", "+", "−") for end in ("", ",", ".", ":", ";")
)
NUMERIC: Final = '0123456789"+−'  # what a number with or without an inch mark ends on
BLACK: Final = QColor(0, 0, 0)

Align = Literal["left", "middle", "right"]

_application: list[QGuiApplication] = []  # kept alive once started


def start_gui() -> None:
    """Start Qt without a screen where it is not running yet; fonts and pages need it."""
    if QGuiApplication.instance() is None:
        _application.append(QGuiApplication(["grainfold", "-platform", "offscreen"]))


class Canvas:
    """Black marks on one page."""

    def __init__(self, painter: QPainter) -> None:
        self._painter = painter

    def text(
        self, x: float, y: float, text: str, size: float = BODY, *, strong: bool = False, align: Align = "left"
    ) -> None:
        """Write one line with its baseline at y."""
        text = tr(text)
        painter = self._painter
        painter.setFont(paint_font(size * PIXELS, strong=strong))
        painter.setPen(BLACK)
        left = x * PIXELS
        if align != "left":
            width = painter.fontMetrics().horizontalAdvance(text)
            left -= width / 2.0 if align == "middle" else width
        painter.drawText(QPointF(left, y * PIXELS), text)

    def line(self, x0: float, y0: float, x1: float, y1: float, width: float = HAIRLINE) -> None:
        """Draw a straight line."""
        pen = QPen(BLACK, width * PIXELS)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        self._painter.setPen(pen)
        self._painter.drawLine(QLineF(x0 * PIXELS, y0 * PIXELS, x1 * PIXELS, y1 * PIXELS))

    def box(self, x: float, y: float, wide: float, high: float, width: float = HAIRLINE) -> None:
        """Draw an empty rectangle, its upper left corner at x, y."""
        pen = QPen(BLACK, width * PIXELS)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        self._painter.setPen(pen)
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawRect(QRectF(x * PIXELS, y * PIXELS, wide * PIXELS, high * PIXELS))

    def drawing(self, drawing: Drawing, view: View) -> None:
        """Draw a drawing; the view is in device pixels of the page."""
        paint_on_paper(self._painter, drawing, view)


def wrapped(text: str, size: float, width: float, *, strong: bool = False) -> list[str]:
    """A text in lines no wider than `width` points; a word that is wider than a line is broken."""
    lines: list[str] = []
    current = ""
    for word in words_of(text):
        longer = f"{current} {word}".strip()
        if text_width(longer, size, strong) <= width:
            current = longer
            continue
        if current:
            lines.append(current)
        current = word
        while text_width(current, size, strong) > width and len(current) > 1:
            cut = _fitting(current, size, width, strong)
            lines.append(current[:cut])
            current = current[cut:]
    return [*lines, current] if current or not lines else lines


def words_of(text: str) -> list[str]:
    """The words of a text; a number keeps its unit and its mark of more or less."""
    words: list[str] = []
    for word in text.split():
        if word in UNITS and words and words[-1][-1] in NUMERIC:
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words


def _fitting(word: str, size: float, width: float, strong: bool) -> int:
    """How many letters of a word fit in a line, at least one."""
    count = 1
    while count < len(word) and text_width(word[: count + 1], size, strong) <= width:
        count += 1
    return count
