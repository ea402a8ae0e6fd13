"""Hatches and wood as small pictures that repeat, for surfaces made of pixels."""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians, sin, sqrt
from random import Random
from typing import Final

from PySide6.QtCore import QLineF, QPointF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPixmap, QTransform

from core.drawing.style import Hatch

GRAIN_TILE: Final = (640, 90)  # pixels at 100 %
GRAIN_LINES: Final = 22


@lru_cache(maxsize=64)
def hatch_brush(hatch: Hatch, colour: str, points: float, ratio: float) -> QBrush:
    """A brush that hatches. points: pixels for a point; ratio: device pixels in a pixel.

    The tile is a whole number of device pixels, so angles are met to about a degree.
    """
    spacing = hatch.spacing * points * ratio
    angle = radians(hatch.angles[0])
    wide = round(spacing / abs(sin(angle))) if sin(angle) else 8
    high = round(spacing / abs(cos(angle))) if cos(angle) else 8
    tile = QPixmap(max(2, wide), max(2, high))
    tile.fill(Qt.GlobalColor.transparent)
    painter = QPainter(tile)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colour), max(hatch.width * points * ratio, 1.0)))
    for one in hatch.angles:
        for offset in (0.0, hatch.pair) if hatch.pair else (0.0,):
            _hatch_tile(painter, tile.width(), tile.height(), one, offset * points * ratio)
    painter.end()
    brush = QBrush(tile)
    brush.setTransform(QTransform.fromScale(1.0 / ratio, 1.0 / ratio))
    return brush


def _hatch_tile(painter: QPainter, wide: int, high: int, angle: float, offset: float) -> None:
    """One family of lines through a tile and its neighbours, so that they join up at its edges."""
    if angle % 180.0 == 0.0:
        painter.drawLine(QLineF(-1.0, high - 0.5 - offset, wide + 1.0, high - 0.5 - offset))
        return
    rising = (angle % 180.0) < 90.0
    slope = high / wide
    along = offset * sqrt(1.0 + slope * slope) / slope  # sideways step of a line moved square to itself
    for step in range(-2, 3):
        x = step * wide + along
        start, end = (x, high * 1.0), (x + wide, 0.0)
        if not rising:
            start, end = (x, 0.0), (x + wide, high * 1.0)
        # longer than the tile, so that no corner of it stays empty
        dx, dy = end[0] - start[0], end[1] - start[1]
        painter.drawLine(QLineF(start[0] - dx, start[1] - dy, end[0] + dx, end[1] + dy))


@lru_cache(maxsize=8)
def wood_brush(wood: str, grain: str, ratio: float) -> QBrush:
    """The show face until a picture of a real one is there: wood with thin lines along the grain."""
    wide, high = GRAIN_TILE
    tile = QPixmap(round(wide * ratio), round(high * ratio))
    tile.fill(QColor(wood))
    painter = QPainter(tile)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(ratio, ratio)
    chance = Random(7)  # the same wood every time
    for number in range(GRAIN_LINES):
        y = (number + chance.uniform(0.1, 0.9)) * high / GRAIN_LINES
        ink = QColor(grain)
        ink.setAlphaF(chance.uniform(0.25, 0.9))
        painter.setPen(QPen(ink, chance.uniform(0.5, 1.1)))
        swell = chance.uniform(-2.2, 2.2)
        for row in (-high, 0.0, high):
            painter.drawPath(_grain_line(y + row, swell, float(wide)))
    painter.end()
    brush = QBrush(tile)
    brush.setTransform(QTransform.fromScale(1.0 / ratio, 1.0 / ratio))
    return brush


def _grain_line(y: float, swell: float, wide: float) -> QPainterPath:
    """A slow wave that ends as it begins."""
    path = QPainterPath(QPointF(0.0, y))
    path.cubicTo(wide / 6.0, y, wide / 6.0, y + swell, wide / 3.0, y + swell)
    path.cubicTo(wide * 0.55, y + swell, wide * 0.5, y - 0.6 * swell, wide * 0.7, y - 0.6 * swell)
    path.cubicTo(wide * 0.85, y - 0.6 * swell, wide * 0.85, y, wide, y)
    return path
