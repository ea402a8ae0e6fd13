"""Painting a drawing black on white with nothing but lines and letters, for paper."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QLineF, QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from app.paint.glyphs import paint_font
from core.drawing.fit import View
from core.drawing.flat import Flat, Words
from core.drawing.flatten import flatten
from core.drawing.hatch import hatch_lines
from core.drawing.model import Area, Drawing, Layer, Line, Point
from core.drawing.style import LAYERS, STYLES, LayerStyle

CLEAR = 0.6  # points kept clear round words
OPAQUE = ("bench", "work", "kept", "fallen", "packer", "saw", "guide")  # hide what they lie on: the bench at a step


def paint_on_paper(painter: QPainter, drawing: Drawing, view: View) -> None:
    """Paint a drawing; hatches are lines and words are text that can be searched and copied."""
    flat = flatten(drawing, view.point, plain=view.plain)
    areas: dict[Layer, list[Area]] = {}
    for area in flat.areas:
        areas.setdefault(area.layer, []).append(area)
    lines: dict[Layer, list[Line]] = {}
    for line in flat.lines:
        lines.setdefault(line.layer, []).append(line)
    painter.save()
    painter.translate(view.x, view.y)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    used = [layer for layer in LAYERS if layer in areas or layer in lines]
    for layer in used:
        if layer not in OPAQUE:
            _paint_hatch(painter, areas.get(layer, []), STYLES[layer], view)
    for layer in used:
        if layer in OPAQUE:
            _paint_white(painter, areas.get(layer, []), view)
            _paint_hatch(painter, areas.get(layer, []), STYLES[layer], view)
        _paint_ink(painter, areas.get(layer, []), lines.get(layer, []), STYLES[layer], view)
    _paint_words(painter, flat, view)
    painter.restore()


def _paint_hatch(painter: QPainter, areas: list[Area], style: LayerStyle, view: View) -> None:
    if style.hatch is None or not areas:
        return
    segments = [s for area in areas for s in hatch_lines(area.points, style.hatch, view.point)]
    painter.setPen(QPen(QColor("black"), style.hatch.width * view.points))
    painter.drawLines([QLineF(_pixel(a, view), _pixel(b, view)) for a, b in segments])


def _paint_white(painter: QPainter, areas: list[Area], view: View) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor("white"))
    for area in areas:
        painter.drawPolygon(_polygon(area.points, view))
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _paint_ink(painter: QPainter, areas: list[Area], lines: list[Line], style: LayerStyle, view: View) -> None:
    if style.ink is None:
        _paint_white(painter, areas, view)
        return
    pen = QPen(QColor("black"), style.width * view.points)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if style.dash:
        pen.setDashPattern([length / style.width for length in style.dash])
    path = QPainterPath()
    for area in areas:
        path.addPolygon(_polygon(area.points, view))
        path.closeSubpath()
    for line in lines:
        path.addPolygon(_polygon(line.points, view))
    if not path.isEmpty():
        painter.strokePath(path, pen)


def _paint_words(painter: QPainter, flat: Flat, view: View) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor("white"))
    for words in flat.words:
        if words.clear:
            painter.drawPolygon(_polygon(words.corners(flat.point, CLEAR), view))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QColor("black"))
    for words in flat.words:
        _paint_text(painter, words, view)


def _paint_text(painter: QPainter, words: Words, view: View) -> None:
    painter.setFont(paint_font(words.size * view.points, strong=words.strong))
    left = 0.0
    if words.align != "left":
        left = -painter.fontMetrics().horizontalAdvance(words.text) * (0.5 if words.align == "middle" else 1.0)
    painter.save()
    painter.translate(_pixel(words.at, view))
    if words.angle:
        painter.rotate(-words.angle)
    painter.drawText(QPointF(left, 0.0), words.text)
    painter.restore()


def _pixel(place: Point, view: View) -> QPointF:
    return QPointF(place[0] * view.scale, -place[1] * view.scale)


def _polygon(points: Iterable[Point], view: View) -> QPolygonF:
    return QPolygonF([_pixel(p, view) for p in points])
