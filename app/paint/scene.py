"""What Qt needs to paint a drawing at one scale: rectangles, lines and glyph runs, in pixels from its origin."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import lru_cache
from typing import Final

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from app.paint.glyphs import Runs
from app.paint.textures import hatch_brush, wood_brush
from app.paint.wood import WoodFace
from core.drawing.fit import View
from core.drawing.flat import Flat, Words
from core.drawing.model import Area, Drawing, Layer, Line, Point
from core.drawing.style import COLOURS, LAYERS, STYLES, LayerStyle, Role, Theme

CLEAR: Final = 0.6  # points kept clear round words
# What can be pointed at, the uppermost first.
PARTS: Final[tuple[Layer, ...]] = ("panel", "ghost", "frame", "offcut", "waste")

Step = Callable[[QPainter], None]
_SMOOTH: Final = QPainter.RenderHint.Antialiasing


class Shapes:
    """Areas in pixels: rectangles apart from other polygons, because Qt paints them many times faster."""

    def __init__(self, areas: list[Area], scale: float) -> None:
        self.rects: list[QRectF] = []
        self.polygons: list[QPolygonF] = []
        for area in areas:
            points = area.points
            (x0, y0), (x1, y1) = points[0], points[len(points) // 2]
            if points == ((x0, y0), (x1, y0), (x1, y1), (x0, y1)):
                self.rects.append(QRectF(x0 * scale, -y1 * scale, (x1 - x0) * scale, (y1 - y0) * scale))
            else:
                self.polygons.append(QPolygonF([QPointF(x * scale, -y * scale) for x, y in points]))

    def fill(self, painter: QPainter, brush: QBrush) -> None:
        """Fill all."""
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(brush)
        if self.rects:
            painter.setRenderHint(_SMOOTH, False)
            painter.drawRects(self.rects)
            painter.setRenderHint(_SMOOTH)
        for polygon in self.polygons:
            painter.drawPolygon(polygon)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def outline(self, painter: QPainter, pen: QPen) -> None:
        """Draw the outline of all."""
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if self.rects:
            painter.drawRects(self.rects)
        for polygon in self.polygons:
            painter.drawPolygon(polygon)

    def box(self) -> QRectF:
        """What they take together; null where there are none."""
        box = QRectF()
        for one in (*self.rects, *(polygon.boundingRect() for polygon in self.polygons)):
            box = box.united(one)
        return box


class Scene:
    """A drawing ready to paint; the painter's origin must be the drawing's."""

    def __init__(self, drawing: Drawing, flat: Flat, theme: Theme, view: View, face: WoodFace | None = None) -> None:
        self.drawing = drawing
        self._face = face
        self._theme: Theme = theme
        self._view = view
        self._flat_words = flat.words
        self._areas: dict[Layer, list[Area]] = {}
        for area in flat.areas:
            self._areas.setdefault(area.layer, []).append(area)
        lines: dict[Layer, list[Line]] = {}
        for line in flat.lines:
            lines.setdefault(line.layer, []).append(line)
        self._ground: list[Step] = []
        self._ink: list[Step] = []
        self._words: list[Step] = []
        for layer in LAYERS:
            if layer in self._areas or layer in lines:
                self._add_layer(layer, self._areas.get(layer, []), lines.get(layer, []))
        self._add_words(flat)

    def paint_ground(self, painter: QPainter) -> None:
        """Wood and hatches."""
        for step in self._ground:
            step(painter)

    def paint_ink(self, painter: QPainter) -> None:
        """Outlines and lines."""
        for step in self._ink:
            step(painter)

    def paint_words(self, painter: QPainter) -> None:
        """Texts."""
        for step in self._words:
            step(painter)

    def paint_words_about(self, painter: QPainter, ids: Collection[str]) -> None:
        """The texts of the parts with these ids or of these shelves once more, over what was painted since."""
        shelves = tuple(f"{one}/" for one in ids)
        by_colour: dict[Role, list[Words]] = {}
        for words in self._flat_words:
            if words.about in ids or words.about.startswith(shelves):
                by_colour.setdefault(STYLES[words.layer].words, []).append(words)
        for role, gathered in by_colour.items():
            _words_step(Runs(gathered, self._view.scale, self._view.points), self._colour(role))(painter)

    def shapes_about(self, ids: Collection[str]) -> Shapes:
        """The parts with these ids or of these shelves."""
        shelves = tuple(f"{one}/" for one in ids)
        found = [
            area
            for layer in PARTS
            for area in self._areas.get(layer, ())
            if area.about in ids or area.about.startswith(shelves)
        ]
        return Shapes(found, self._view.scale)

    def part_at(self, place: Point) -> str:
        """Id of the uppermost part at a place of the drawing; '' for none."""
        x, y = place
        for layer in PARTS:
            for area in reversed(self._areas.get(layer, [])):
                (x0, y0), (x1, y1) = area.points[0], area.points[2]
                if x0 <= x <= x1 and y0 <= y <= y1:
                    return area.about
        return ""

    def _colour(self, role: Role) -> QColor:
        return QColor(COLOURS[self._theme][role])

    def _add_layer(self, layer: Layer, areas: list[Area], lines: list[Line]) -> None:
        style, scale = STYLES[layer], self._view.scale
        shapes = Shapes(areas, scale)
        if areas:
            # A V has no outline of its own: it lies over those of the panels, so that each seam stays visible.
            under = self._ink if style.ink is None else self._ground
            under.extend(_fill_step(shapes, brush) for brush in self._brushes(style))
        if style.ink is None:
            return
        pen = self._pen(layer)
        if areas:
            self._ink.append(lambda painter: shapes.outline(painter, pen))
        straight = [
            QLineF(x0 * scale, -y0 * scale, x1 * scale, -y1 * scale)
            for line in lines
            for (x0, y0), (x1, y1) in zip(line.points, line.points[1:], strict=False)
        ]
        if straight:
            self._ink.append(lambda painter: _draw_lines(painter, straight, pen))

    def _brushes(self, style: LayerStyle) -> list[QBrush]:
        """What an area of a layer is filled with, the lowest first."""
        view, colours = self._view, COLOURS[self._theme]
        brushes: list[QBrush] = []
        if style.fill and self._theme != "paper":
            wood = style.fill == "wood"
            brushes.append(self._wood_brush() if wood else QBrush(QColor(colours[style.fill])))
        if style.hatch:
            brushes.append(hatch_brush(style.hatch, colours[style.hatch.ink], view.points, view.ratio))
        return brushes

    def _wood_brush(self) -> QBrush:
        """The sheet's own face, where there is one."""
        if self._face is not None:
            return self._face.brush(self._view)
        colours = COLOURS[self._theme]
        return wood_brush(colours["wood"], colours["grain"], self._view.ratio)

    def _pen(self, layer: Layer) -> QPen:
        return _pen_of(layer, self._theme, self._view.points)

    def _add_words(self, flat: Flat) -> None:
        by_colour: dict[Role, list[Words]] = {}
        cleared: dict[Role, list[Area]] = {}
        for words in flat.words:
            style = STYLES[words.layer]
            by_colour.setdefault(style.words, []).append(words)
            # On a screen the wood's own face shows behind words; only hatches are kept off them.
            if words.clear and (self._theme == "paper" or style.ground != "wood"):
                area = Area(words.layer, words.corners(flat.point, CLEAR))
                cleared.setdefault(style.ground, []).append(area)
        for ground, areas in cleared.items():
            self._words.append(_fill_step(Shapes(areas, self._view.scale), QBrush(self._colour(ground))))
        for role, gathered in by_colour.items():
            runs = Runs(gathered, self._view.scale, self._view.points)
            self._words.append(_words_step(runs, self._colour(role)))


@lru_cache(maxsize=256)
def _pen_of(layer: Layer, theme: Theme, points: float) -> QPen:
    """What a layer's lines are drawn with; never changed once made."""
    style = STYLES[layer]
    pen = QPen(QColor(COLOURS[theme][style.ink or "ink"]), style.width * points)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if style.dash:
        pen.setDashPattern([length / style.width for length in style.dash])
    return pen


def _draw_lines(painter: QPainter, lines: list[QLineF], pen: QPen) -> None:
    painter.setPen(pen)
    painter.drawLines(lines)


def _fill_step(shapes: Shapes, brush: QBrush) -> Step:
    return lambda painter: shapes.fill(painter, brush)


def _words_step(runs: Runs, colour: QColor) -> Step:
    def step(painter: QPainter) -> None:
        painter.setPen(colour)
        runs.draw(painter)

    return step
