"""A sheet's own face as what its wood is filled with, scaled once for each scale it is shown at."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPixmap, QTransform

from core.drawing.fit import View

MOST_PIXELS: Final = 6_000_000  # of a picture scaled beforehand; a larger one is scaled while it is painted
VEIL: Final = 0.25  # of plain wood over it, so that lines and words stay clear


class WoodFace:
    """The face of a sheet `length` x `width` mm; row 0 of the image is its upper edge. wood: colour of plain wood."""

    def __init__(self, image: QImage, length: float, width: float, wood: str) -> None:
        self._image = _veiled(image, wood)
        self._length, self._width = length, width
        self._made: tuple[tuple[float, float], QBrush] | None = None

    def brush(self, view: View) -> QBrush:
        """Fills in pixels from the drawing's origin, y down."""
        key = (view.scale, view.ratio)
        if self._made is None or self._made[0] != key:
            self._made = key, self._brush(view)
        return self._made[1]

    def _brush(self, view: View) -> QBrush:
        wide, high = self._length * view.scale, self._width * view.scale
        across, down = max(1, round(wide * view.ratio)), max(1, round(high * view.ratio))
        image = self._image
        if across * down <= MOST_PIXELS:
            mode = Qt.TransformationMode.SmoothTransformation
            image = image.scaled(across, down, mode=mode)
        brush = QBrush(QPixmap.fromImage(image))
        place = QTransform.fromTranslate(0.0, -high)
        brush.setTransform(place.scale(wide / image.width(), high / image.height()))
        return brush


def _veiled(image: QImage, wood: str) -> QImage:
    plain = image.convertToFormat(QImage.Format.Format_RGB32)
    painter = QPainter(plain)
    veil = QColor(wood)
    veil.setAlphaF(VEIL)
    painter.fillRect(plain.rect(), veil)
    painter.end()
    return plain
