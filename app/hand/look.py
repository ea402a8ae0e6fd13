"""How handles and what stands beside the pointer are painted."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from app.hand.drag import Readout
from app.theme.marks import paint_mark
from app.theme.palette import Palette
from app.theme.type import BODY, LEAD, font
from core.drawing.style import COLOURS

SIDE: Final = 9.0  # pixels: a handle's square
FAINT: Final = 0.45  # opacity of a handle that the pointer cannot move
AWAY: Final = QPointF(18.0, 16.0)  # from the pointer to the card beside it
PAD: Final = 8.0
LINE_GAP: Final = 3.0
MARK: Final = 13.0
CASING, INSIDE = COLOURS["light"]["paper"], "#FFFDF8"  # round and in a handle on wood, in both themes
NO_FIELD: Final = QSizeF(0.0, 0.0)


@cache
def _faces() -> tuple[tuple[QFont, ...], tuple[QFontMetricsF, ...]]:
    """Faces for words, values and trouble, with their measures."""
    faces = (font(BODY), font(LEAD, strong=True), font(BODY, strong=True))
    return faces, tuple(QFontMetricsF(face) for face in faces)


class Square(NamedTuple):
    """A handle as it is painted."""

    at: QPointF
    lit: bool  # under the pointer, held or chosen
    on_wood: bool = True
    is_faint: bool = False


def paint_handles(painter: QPainter, squares: Sequence[Square], palette: Palette) -> None:
    """Small squares with a chalk edge; what would be changed is filled."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    for on_wood in (True, False):
        chalk = QColor(palette.wood_chalk if on_wood else palette.chalk)
        ground, inside = (CASING, INSIDE) if on_wood else (palette.paper, palette.card)
        for lit, is_faint in ((False, True), (False, False), (True, False)):
            kind = (on_wood, lit, is_faint and not lit)
            boxes = [_box(sq) for sq in squares if (sq.on_wood, sq.lit, sq.is_faint and not sq.lit) == kind]
            if not boxes:
                continue
            painter.setOpacity(FAINT if is_faint else 1.0)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(ground))
            painter.drawRects([box.adjusted(-2.0, -2.0, 2.0, 2.0) for box in boxes])
            painter.setPen(QPen(chalk, 1.6))
            painter.setBrush(chalk if lit else QColor(inside))
            painter.drawRects(boxes)
    painter.restore()


def _box(square: Square) -> QRectF:
    half = SIDE / 2.0 + (0.5 if square.lit else -0.5)
    return QRectF(round(square.at.x()) - half + 0.5, round(square.at.y()) - half + 0.5, 2 * half, 2 * half)


class _Line(NamedTuple):
    words: str
    value: str = ""
    trouble: bool = False
    typed: bool = False


class Card:
    """The card beside the pointer, laid out once for its words.

    hint: said where there is nothing else to say. typed: which number is being typed, in a field of that size.
    """

    def __init__(self, readout: Readout, hint: str = "", typed: int = -1, field: QSizeF = NO_FIELD) -> None:
        self._field = field
        self._lines = [
            _Line(words, "" if at == typed else value, typed=at == typed)
            for at, (words, value) in enumerate(readout.numbers)
        ]
        soft = readout.caught or ("" if readout.trouble else hint)
        if soft:
            self._lines.append(_Line(soft))
        if readout.trouble:
            self._lines.append(_Line(readout.trouble, trouble=True))
        self._faces, self._metrics = _faces()
        wide = max((self._wide(line) for line in self._lines), default=0.0)
        tall = sum(self._tall(line) + LINE_GAP for line in self._lines) - LINE_GAP
        self.size = QSizeF(wide + 2 * PAD, tall + 2 * PAD - 2.0)

    def _wide(self, line: _Line) -> float:
        words, value, strong = self._metrics
        if line.trouble:
            return MARK + 6.0 + strong.horizontalAdvance(line.words)
        if line.typed:
            return words.horizontalAdvance(line.words) + 8.0 + self._field.width()
        gap = 8.0 if line.value else 0.0
        return words.horizontalAdvance(line.words) + gap + value.horizontalAdvance(line.value)

    def _tall(self, line: _Line) -> float:
        return self._field.height() if line.typed else self._metrics[1 if line.value else 0].height()

    def field_box(self, box: QRectF) -> QRectF:
        """Where the field goes while the card is in a box of its size."""
        y = box.top() + PAD - 1.0
        for line in self._lines:
            if line.typed:
                return QRectF(QPointF(box.right() - PAD - self._field.width(), y), self._field)
            y += self._tall(line) + LINE_GAP
        return QRectF()

    def paint(self, painter: QPainter, box: QRectF, palette: Palette) -> None:
        """Paint it into a box of its size."""
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        in_trouble = any(line.trouble for line in self._lines)
        painter.setPen(QPen(QColor(palette.trouble if in_trouble else palette.chalk), 1.2))
        painter.setBrush(QColor(palette.card))
        painter.drawRoundedRect(box.adjusted(0.5, 0.5, -0.5, -0.5), 5, 5)
        y = box.top() + PAD - 1.0
        for line in self._lines:
            row = QRectF(box.left() + PAD, y, box.width() - 2 * PAD, self._tall(line))
            self._paint_line(painter, row, line, palette)
            y += self._tall(line) + LINE_GAP
        painter.restore()

    def _paint_line(self, painter: QPainter, row: QRectF, line: _Line, palette: Palette) -> None:
        middle = Qt.AlignmentFlag.AlignVCenter
        if line.trouble:
            red = QColor(palette.trouble)
            paint_mark(painter, QRectF(row.left(), row.center().y() - MARK / 2.0, MARK, MARK), "error", red)
            painter.setFont(self._faces[2])
            painter.setPen(red)
            painter.drawText(row.adjusted(MARK + 6.0, 0, 4, 0), middle, line.words)
            return
        painter.setFont(self._faces[0])
        painter.setPen(QColor(palette.soft))
        painter.drawText(row, middle, line.words)
        if line.value:
            painter.setFont(self._faces[1])
            painter.setPen(QColor(palette.ink))
            painter.drawText(row, middle | Qt.AlignmentFlag.AlignRight, line.value)


def beside(pointer: QPointF, size: QSizeF, room: QRectF, keep_off: Sequence[QRectF] = ()) -> QRectF:
    """Where a card of that size goes: right below the pointer, or at another side of it where there is no room."""
    right, left = pointer.x() + AWAY.x(), pointer.x() - AWAY.x() - size.width()
    below, above = pointer.y() + AWAY.y(), pointer.y() - AWAY.y() - size.height()
    inner = room.adjusted(3, 3, -3, -3)
    boxes = [QRectF(QPointF(x, y), size) for y in (below, above) for x in (right, left)]
    for box in boxes:
        if inner.contains(box) and not any(box.intersects(other) for other in keep_off):
            return box
    box = next((b for b in boxes if not any(b.intersects(other) for other in keep_off)), boxes[0])
    box.moveLeft(max(inner.left(), min(box.left(), inner.right() - size.width())))
    box.moveTop(max(inner.top(), min(box.top(), inner.bottom() - size.height())))
    return box
