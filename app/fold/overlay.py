"""What is painted over the picture with Qt: the thing under the pointer, its reading, the legend, the focus."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen, QPolygonF

from app.theme.palette import Palette
from app.theme.type import BODY, SMALL, font
from core.language import tr

CASING = "#FAF7F1"  # parts a line from the wood, in both themes
WAY, TIP = 17.0, 5.0  # half of the line through a handle, and the tips at its ends [px]
BESIDE = QPointF(14.0, 18.0)  # from the pointer to its reading [px]

Line = Sequence[tuple[float, float]]


def paint_outline(painter: QPainter, lines: Sequence[Line], palette: Palette) -> None:
    """Thin chalk round what is under the pointer."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for colour, width in ((CASING, 2.8), (palette.wood_chalk, 1.2)):
        painter.setPen(QPen(QColor(colour), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        for line in lines:
            painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in line]))


def paint_way(painter: QPainter, at: QPointF, axis: tuple[float, float], palette: Palette) -> None:
    """A short line with two tips through a handle: which way it goes. axis: of length 1, y up."""
    way, aside = QPointF(axis[0], -axis[1]), QPointF(axis[1], axis[0])
    lines = [QLineF(at - way * WAY, at + way * WAY)]
    for end in (1.0, -1.0):
        tip = at + way * (end * WAY)
        lines += [QLineF(tip, tip - way * (end * TIP) + aside * (side * TIP)) for side in (0.7, -0.7)]
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for colour, width in ((CASING, 4.0), (palette.wood_chalk, 1.6)):
        painter.setPen(QPen(QColor(colour), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        painter.drawLines(lines)


def paint_reading(painter: QPainter, words: str, pointer: QPointF, room: QRectF, palette: Palette) -> None:
    """A thing's name and figure on a slip of card beside the pointer."""
    if not words:
        return
    face = font(BODY)
    metrics = QFontMetrics(face)
    words = metrics.elidedText(words, Qt.TextElideMode.ElideRight, int(room.width() - 24))
    slip = QRectF(0.0, 0.0, metrics.horizontalAdvance(words) + 16.0, metrics.height() + 8.0)
    slip.moveTopLeft(pointer + BESIDE)
    if slip.right() > room.right() - 4.0:
        slip.moveRight(room.right() - 4.0)
    if slip.bottom() > room.bottom() - 4.0:
        slip.moveBottom(pointer.y() - 8.0)
    slip.moveLeft(max(slip.left(), room.left() + 4.0))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(palette.soft), 1.0))
    painter.setBrush(QColor(palette.card))
    painter.drawRoundedRect(slip, 4.0, 4.0)
    painter.setPen(QColor(palette.ink))
    painter.setFont(face)
    painter.drawText(slip, Qt.AlignmentFlag.AlignCenter, words)


def paint_match(painter: QPainter, at: QPointF, match: float, palette: Palette) -> None:
    """How well the two sides of a seam match, 0..100, on a small slip across it."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setFont(font(SMALL, strong=True))
    words = f"{match:.0f}"
    slip = QRectF(0.0, 0.0, painter.fontMetrics().horizontalAdvance(words) + 12.0, painter.fontMetrics().height() + 2.0)
    slip.moveCenter(at)
    painter.setPen(QPen(QColor(palette.soft), 1.0))
    painter.setBrush(QColor(palette.card))
    painter.drawRoundedRect(slip, 4.0, 4.0)
    painter.setPen(QColor(palette.ink))
    painter.drawText(slip, Qt.AlignmentFlag.AlignCenter, words)


def paint_sentence(painter: QPainter, words: str, room: QRectF, palette: Palette) -> None:
    """One sentence along the upper edge, if there is any."""
    painter.setFont(font(BODY))
    painter.setPen(QColor(palette.soft))
    flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap
    painter.drawText(room.adjusted(16.0, 4.0, -16.0, 0.0), int(flags), words)


def paint_legend(painter: QPainter, room: QRectF, palette: Palette, hint: str = "", is_broken: bool = False) -> None:
    """What the two kinds of seam lines mean; at the right a hint, where there is room for it.

    is_broken: some figure is broken because a panel is cut apart.
    """
    turned = tr("the grain turns, or is cut apart") if is_broken else tr("the grain turns")
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setFont(font(SMALL))
    x, y = room.left() + 16.0, room.bottom() - 12.0
    for style, words in ((Qt.PenStyle.SolidLine, tr("the grain runs on")), (Qt.PenStyle.DashLine, turned)):
        painter.setPen(QPen(QColor(palette.ink), 1.2, style))
        painter.drawLine(QPointF(x, y), QPointF(x + 24.0, y))
        painter.setPen(QColor(palette.soft))
        painter.drawText(QPointF(x + 30.0, y + 4.0), words)
        x += 46.0 + painter.fontMetrics().horizontalAdvance(words)
    left = room.right() - 16.0 - painter.fontMetrics().horizontalAdvance(hint)
    if left > x:
        painter.drawText(QPointF(left, y + 4.0), hint)


def paint_focus(painter: QPainter, room: QRectF, palette: Palette) -> None:
    """The chalk line round what has the keys."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(palette.chalk), 2.0))
    painter.drawRect(room.adjusted(1.0, 1.0, -1.0, -1.0))
