"""Painting a drawing with Qt.

The drawing is made plain and turned into Qt's paths and glyph runs once for each scale; painting it again, moved or
with another part chosen, only replays those.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Collection
from typing import Final

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QBrush, QColor, QPainter, QPen

from app.paint.scene import Scene
from app.paint.wood import WoodFace
from core.drawing.fit import View
from core.drawing.flatten import flatten
from core.drawing.model import Drawing
from core.drawing.style import COLOURS, Theme

KEPT: Final = 12  # scenes kept: three boards, their small pictures and a few scales
CHOSEN: Final = 2.0  # pixels
CASING: Final = 2.0  # of paper round a line on wood
HOVER: Final = 1.4
HOVER_WASH: Final = 36  # of 255


class DrawingPainter:
    """Paints drawings in one theme; keeps what it made of the last few."""

    def __init__(self, theme: Theme = "light") -> None:
        self._theme: Theme = theme
        self._face: WoodFace | None = None
        self._scenes: OrderedDict[tuple[int, float, float, float, bool], Scene] = OrderedDict()

    @property
    def theme(self) -> Theme:
        """The theme in use."""
        return self._theme

    @theme.setter
    def theme(self, theme: Theme) -> None:
        if theme != self._theme:
            self._theme = theme
            self._scenes.clear()

    @property
    def face(self) -> WoodFace | None:
        """What the wood is filled with; None for plain wood."""
        return self._face

    @face.setter
    def face(self, face: WoodFace | None) -> None:
        if face is not self._face:
            self._face = face
            self._scenes.clear()

    def paint(
        self,
        painter: QPainter,
        drawing: Drawing,
        view: View,
        chosen: Collection[str] = (),
        hover: str = "",
    ) -> None:
        """Paint a drawing.

        view: where its millimetres lie in the painter's pixels.
        chosen, hover: ids of parts, or of shelves, which stand for all their parts.
        """
        scene = self.scene(drawing, view)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(_snapped(view.x, view.ratio), _snapped(view.y, view.ratio))
        scene.paint_ground(painter)
        if hover:
            self._paint_hover(painter, scene, hover)
        scene.paint_ink(painter)
        if chosen:
            self._paint_chosen(painter, scene, chosen)
        scene.paint_words(painter)
        painter.restore()

    def scene(self, drawing: Drawing, view: View) -> Scene:
        """What is painted of a drawing at a view's scale: made anew only where there is none yet."""
        key = (id(drawing), view.scale, view.points, view.ratio, view.plain)
        scene = self._scenes.get(key)
        if scene is None or scene.drawing is not drawing:
            scene = Scene(drawing, flatten(drawing, view.point, plain=view.plain), self._theme, view, self._face)
            self._scenes[key] = scene
            while len(self._scenes) > KEPT:
                self._scenes.popitem(last=False)
        self._scenes.move_to_end(key)
        return scene

    def part_at(self, drawing: Drawing, view: View, x: float, y: float) -> str:
        """Id of the uppermost panel, frame part or left-over piece at a pixel; '' where there is none."""
        return self.scene(drawing, view).part_at(view.to_drawing((x, y)))

    def part_box(self, drawing: Drawing, view: View, about: str) -> QRectF:
        """Pixels of a part, or of all parts of a shelf; a null rectangle where there are none."""
        box = self.scene(drawing, view).shapes_about((about,)).box()
        return box if box.isNull() else box.translated(QPointF(view.x, view.y))

    def _paint_hover(self, painter: QPainter, scene: Scene, hover: str) -> None:
        colour = QColor(COLOURS[self._theme]["wood_chalk"])
        wash = QColor(colour)
        wash.setAlpha(HOVER_WASH)
        shapes = scene.shapes_about((hover,))
        shapes.fill(painter, QBrush(wash))
        shapes.outline(painter, QPen(colour, HOVER))

    def _paint_chosen(self, painter: QPainter, scene: Scene, chosen: Collection[str]) -> None:
        shapes = scene.shapes_about(chosen)
        shapes.outline(painter, QPen(QColor(COLOURS["light"]["paper"]), CHOSEN + 2.0 * CASING))
        shapes.outline(painter, QPen(QColor(COLOURS[self._theme]["wood_chalk"]), CHOSEN))


def _snapped(pixel: float, ratio: float) -> float:
    """The nearest device pixel, so that lines do not shimmer while the view moves."""
    return round(pixel * ratio) / ratio
