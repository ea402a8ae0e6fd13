"""Words as glyphs: laid out once for each text, then drawn many at a time.

Painting 80 texts one by one takes longer than all lines of a drawing; as one glyph run for each font and direction
they cost next to nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from math import cos, radians, sin
from typing import Final

from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont, QGlyphRun, QPainter, QRawFont, QTextLayout

from app.paint.fonts import load_fonts
from core.drawing.flat import Words

_BEFORE: Final = {"left": 0.0, "middle": 0.5, "right": 1.0}

Glyphs = tuple[tuple[int, ...], tuple[tuple[float, float], ...]]  # indexes, places from the baseline's left end


def paint_font(size: float, *, strong: bool) -> QFont:
    """The bundled face at a size in pixels. Shared: never change it."""
    return _font(max(1, round(size)), strong)


@lru_cache(maxsize=64)
def _font(size: int, strong: bool) -> QFont:
    font = QFont(load_fonts())
    font.setPixelSize(size)
    font.setWeight(QFont.Weight.DemiBold if strong else QFont.Weight.Normal)
    font.setFeature(QFont.Tag("liga"), 0)  # joined letters have no code: "left" could not be found in a PDF
    return font


class Runs:
    """Texts of one colour gathered into glyph runs by direction and font."""

    def __init__(self, words: Iterable[Words], scale: float, points: float) -> None:
        """scale: pixels for a mm; points: pixels for a point. Places are from the drawing's origin."""
        gathered: dict[tuple[float, int], tuple[list[int], list[QPointF]]] = {}
        for word in words:
            size = max(1, round(word.size * points))
            width, laid = _laid_out(word.text, size, word.strong)
            x, y = _turned(word.at[0] * scale, -word.at[1] * scale, word.angle)
            x -= width * _BEFORE[word.align]
            for font, (indexes, places) in laid:
                kept = gathered.setdefault((word.angle, font), ([], []))
                kept[0].extend(indexes)
                kept[1].extend(QPointF(x + u, y + v) for u, v in places)
        self._runs = [(angle, _run(font, indexes, places)) for (angle, font), (indexes, places) in gathered.items()]

    def draw(self, painter: QPainter) -> None:
        """Draw all with the painter's pen; its origin is the drawing's."""
        for angle, run in self._runs:
            if angle:
                painter.rotate(-angle)
            painter.drawGlyphRun(QPointF(0.0, 0.0), run)
            if angle:
                painter.rotate(angle)


def _turned(x: float, y: float, angle: float) -> tuple[float, float]:
    """A pixel place in axes turned counter-clockwise by `angle`."""
    if not angle:
        return x, y
    cosine, sine = cos(radians(angle)), sin(radians(angle))
    return x * cosine - y * sine, x * sine + y * cosine


_RAW_FONTS: list[QRawFont] = []  # few: one for each face and size in use, and those that stand in for missing letters


def _font_number(font: QRawFont) -> int:
    for number, known in enumerate(_RAW_FONTS):
        if known == font:
            return number
    _RAW_FONTS.append(font)
    return len(_RAW_FONTS) - 1


@lru_cache(maxsize=4096)
def _laid_out(text: str, size: int, strong: bool) -> tuple[float, tuple[tuple[int, Glyphs], ...]]:
    """Width and glyphs of one text, its baseline at 0."""
    layout = QTextLayout(text, paint_font(size, strong=strong))
    layout.beginLayout()
    line = layout.createLine()
    layout.endLayout()
    if not line.isValid():
        return 0.0, ()
    ascent = line.ascent()
    laid: list[tuple[int, Glyphs]] = []
    for run in layout.glyphRuns():
        places = tuple((p.x(), p.y() - ascent) for p in run.positions())
        laid.append((_font_number(run.rawFont()), (tuple(run.glyphIndexes()), places)))
    return line.naturalTextWidth(), tuple(laid)


def _run(font: int, indexes: list[int], places: list[QPointF]) -> QGlyphRun:
    run = QGlyphRun()
    run.setRawFont(_RAW_FONTS[font])
    run.setGlyphIndexes(indexes)
    run.setPositions(places)
    return run
