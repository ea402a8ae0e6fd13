"""What marks paper: black lines, white and letters. Qt's painter is one ink, for printers and screens; PDF another."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import Final, Protocol

from PySide6.QtCore import QLineF, QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from app.paint.glyphs import paint_font
from core.drawing.model import Align, Point

BLACK: Final = QColor(0, 0, 0)
BEFORE: Final[dict[Align, float]] = {"left": 0.0, "middle": 0.5, "right": 1.0}  # of a text's width: left of its place
Segment = tuple[float, float, float, float]  # x and y of both ends


class Ink(Protocol):
    """Marks on one surface: places from its upper left corner, y down, in units of its own.

    unit: how many of them a point has.
    """

    @property
    def unit(self) -> float: ...

    def lines(self, lines: Iterable[Segment], width: float) -> None:
        """Straight lines with flat ends."""
        ...

    def outlines(
        self, closed: Iterable[Sequence[Point]], runs: Iterable[Sequence[Point]], width: float, dash: tuple[float, ...]
    ) -> None:
        """Outlines of closed shapes and open runs of lines, their corners mitred; dash: on and off, in turn."""
        ...

    def white(self, shapes: Iterable[Sequence[Point]]) -> None:
        """Shapes filled with white, one after the other."""
        ...

    def text(self, place: Point, text: str, size: float, strong: bool, align: Align, angle: float) -> None:
        """One line of text, its baseline through a place and turned about it. angle: counter-clockwise [deg]"""
        ...

    def again(self, key: Hashable, place: Point, paint: Callable[[Ink], None]) -> None:
        """What `paint` marks about the origin, at a place; what has one key is the same each time, and may be kept."""
        ...


class QtInk:
    """Marks made by a painter. unit: its pixels in a point."""

    def __init__(self, painter: QPainter, unit: float) -> None:
        self._painter = painter
        self.unit = unit

    def lines(self, lines: Iterable[Segment], width: float) -> None:
        pen = QPen(BLACK, width)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        self._painter.setPen(pen)
        self._painter.drawLines([QLineF(*line) for line in lines])

    def outlines(
        self, closed: Iterable[Sequence[Point]], runs: Iterable[Sequence[Point]], width: float, dash: tuple[float, ...]
    ) -> None:
        pen = QPen(BLACK, width)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        if dash:
            pen.setDashPattern([length / width for length in dash])
        path = QPainterPath()
        for points in closed:
            path.addPolygon(_polygon(points))
            path.closeSubpath()
        for points in runs:
            path.addPolygon(_polygon(points))
        self._painter.strokePath(path, pen)

    def white(self, shapes: Iterable[Sequence[Point]]) -> None:
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.setBrush(QColor("white"))
        for points in shapes:
            self._painter.drawPolygon(_polygon(points))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)

    def text(self, place: Point, text: str, size: float, strong: bool, align: Align, angle: float) -> None:
        painter, before = self._painter, BEFORE[align]
        painter.setFont(paint_font(size, strong=strong))
        painter.setPen(BLACK)
        left = -painter.fontMetrics().horizontalAdvance(text) * before if before else 0.0
        if not angle:
            painter.drawText(QPointF(place[0] + left, place[1]), text)
            return
        painter.save()
        painter.translate(QPointF(*place))
        painter.rotate(-angle)
        painter.drawText(QPointF(left, 0.0), text)
        painter.restore()

    def again(self, key: Hashable, place: Point, paint: Callable[[Ink], None]) -> None:
        self._painter.save()
        self._painter.translate(QPointF(*place))
        paint(self)
        self._painter.restore()


def _polygon(points: Sequence[Point]) -> QPolygonF:
    return QPolygonF([QPointF(x, y) for x, y in points])
