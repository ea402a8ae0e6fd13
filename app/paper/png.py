"""A drawing as a PNG picture."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QBuffer, QByteArray, QIODevice
from PySide6.QtGui import QColor, QImage, QImageWriter, QPainter

from app.paint.painter import DrawingPainter
from app.paper.canvas import start_gui
from core.drawing.catalog import drawings
from core.drawing.fit import View
from core.drawing.flatten import extent
from core.drawing.model import Drawing
from core.drawing.style import COLOURS, Theme
from core.plan.model import Plan

READ_AT: Final = 1100.0  # pixels: a picture this wide has texts of their size on a screen
PAD: Final = 24.0  # pixels at that size
HIGHEST: Final = 24000  # pixels: Qt paints none higher than 32767


def png_bytes(plan: Plan, drawing_name: str | None = None, width_px: int = 2400, theme: Theme = "light") -> bytes:
    """The drawings of that name, by default all sheets, one under the other.

    width_px: width of the picture, 200 or more; less where it would become too high.
    Raises KeyError where there is no such drawing.
    """
    start_gui()
    shown = drawings(plan, drawing_name)
    width = float(max(200, width_px))
    views = [_view(drawing, width) for drawing in shown]
    total = sum(height for _, height in views)
    if total > HIGHEST:
        width *= HIGHEST / total
        views = [_view(drawing, width) for drawing in shown]
        total = sum(height for _, height in views)
    image = QImage(int(width), max(1, int(total)), QImage.Format.Format_RGB32)
    image.fill(QColor(COLOURS[theme]["paper"]))
    painter = QPainter(image)
    brush = DrawingPainter(theme)
    for drawing, (view, height) in zip(shown, views, strict=True):
        brush.paint(painter, drawing, view)
        painter.translate(0.0, height)
    painter.end()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(image)
    return bytes(buffer.data().data())


def _view(drawing: Drawing, width: float) -> tuple[View, float]:
    """The view that fills a width, and the height it takes. [pixels]"""
    points = 4.0 / 3.0 * width / READ_AT
    pad = PAD * width / READ_AT
    wide = max(drawing.box[2] - drawing.box[0], 1e-9)
    scale = width / wide
    for _ in range(5):
        x0, y0, x1, y1 = extent(drawing, points / scale)
        beside = (x1 - x0 - wide) * scale
        scale = max((width - 2.0 * pad - beside) / wide, 0.1 * width / wide)
    x0, y0, x1, y1 = extent(drawing, points / scale)
    x = width / 2.0 - scale * (x0 + x1) / 2.0
    return View(scale, x, pad + scale * y1, 1.0, points), (y1 - y0) * scale + 2.0 * pad
