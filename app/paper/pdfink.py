"""Marks on a page of a PDF."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import lru_cache
from math import cos, radians, sin
from typing import Final

from PySide6.QtGui import QFontMetricsF, QPainterPath

from app.paint.glyphs import paint_font
from app.paint.ink import BEFORE, Ink
from app.paper.canvas import start_gui
from core.drawing.model import Align, Point
from core.export.pdf_file import PdfFile, PdfPage

DRAWN: Final = 1000.0  # pixels: the size at which letters of other faces are turned into shapes

Shapes = tuple[tuple[Point, ...], ...]


class PdfInk:
    """Marks on a page; letters the bundled faces do not have are drawn as shapes, from the faces of the system."""

    unit: Final = 1.0

    def __init__(self, page: PdfPage, file: PdfFile) -> None:
        self._page, self._file = page, file
        self.lines, self.outlines, self.white = page.lines, page.outlines, page.white

    def text(self, place: Point, text: str, size: float, strong: bool, align: Align, angle: float) -> None:
        laid = self._file.faces[strong].laid(text)
        turn = (cos(radians(angle)), sin(radians(angle))) if angle else (1.0, 0.0)
        if laid is None:
            self._draw(place, text, size, strong, align, turn)
            return
        glyphs, wide = laid
        left = BEFORE[align] * wide * size / 1000.0
        x, y = place[0] - left * turn[0], place[1] + left * turn[1]
        self._page.text(x, y, glyphs, strong, size, turn)

    def again(self, key: Hashable, place: Point, paint: Callable[[Ink], None]) -> None:
        name = self._file.form(key)
        if name is None:
            form = self._file.page(0.0, 0.0)
            paint(PdfInk(form, self._file))
            name = self._file.keep(key, form)
        self._page.form(*place, name)

    def _draw(
        self, place: Point, text: str, size: float, strong: bool, align: Align, turn: tuple[float, float]
    ) -> None:
        shapes, wide = _shapes(text, strong)
        left, scale, (cosine, sine) = BEFORE[align] * wide, size / DRAWN, turn
        x, y = place

        def moved(u: float, v: float) -> Point:
            u, v = (u - left) * scale, v * scale
            return (x + u * cosine + v * sine, y - u * sine + v * cosine)

        if shapes:
            self._page.black([[moved(u, v) for u, v in points] for points in shapes])


@lru_cache(maxsize=256)
def _shapes(text: str, strong: bool) -> tuple[Shapes, float]:
    """A text as shapes about its baseline's left end, y down, and its width, at a size of `DRAWN`."""
    start_gui()
    font, path = paint_font(DRAWN, strong=strong), QPainterPath()
    path.addText(0.0, 0.0, font, text)
    shapes = tuple(tuple((p.x(), p.y()) for p in polygon.toList()) for polygon in path.toSubpathPolygons())
    return shapes, QFontMetricsF(font).horizontalAdvance(text)
