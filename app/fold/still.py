"""The picture where there is no OpenGL, and for the first moments: the selected shelf, closed, in flat shades."""

from __future__ import annotations

from math import hypot

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.fold.overlay import CASING
from app.theme.palette import Palette
from core.document.model import Shelf
from core.plan.model import Plan

ACROSS, UP = 0.46, 0.24  # how far a mm of depth moves right and up in the picture
Corner = tuple[float, float, float]  # along, out from the wall, up [mm]


class Still:
    """A shelf from the front right above; seams that turn the grain are dashed."""

    def __init__(self, plan: Plan, shelf: Shelf, palette: Palette, room: QRectF) -> None:
        self._plan, self._shelf, self._palette = plan, shelf, palette
        wide = shelf.length + ACROSS * shelf.depth
        tall = shelf.height + UP * shelf.depth
        self._scale = min(room.width() / wide, room.height() / tall)
        self._x = room.center().x() - self._scale * wide / 2.0
        self._y = room.center().y() + self._scale * tall / 2.0

    def paint(self, painter: QPainter, selected: str) -> None:
        """All of it."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_faces(painter)
        self._paint_seams(painter, selected)

    def at(self, place: QPointF, reach: float) -> str:
        """Id of the seam or panel at a place of the picture, '' for none. reach: to a seam. [px]"""
        for name, ends in self._lines().items():
            a, b = (self._point(corner) for corner in ends)
            if _off(place, a, b) <= reach:
                return f"{self._shelf.id}/{name}"
        for role, corners in self._faces().items():
            if self._polygon(corners).containsPoint(place, Qt.FillRule.OddEvenFill):
                return f"{self._shelf.id}/{role}" if role != "right" or self._shelf.right == "mitred" else ""
        return ""

    def _faces(self) -> dict[str, tuple[Corner, ...]]:
        length, depth, height = self._shelf.length, self._shelf.depth, self._shelf.height
        return {
            "top": ((0, 0, height), (length, 0, height), (length, depth, height), (0, depth, height)),
            "front": ((0, depth, 0), (length, depth, 0), (length, depth, height), (0, depth, height)),
            "right": ((length, 0, 0), (length, depth, 0), (length, depth, height), (length, 0, height)),
        }

    def _lines(self) -> dict[str, tuple[Corner, Corner]]:
        """The seams in sight."""
        length, depth, height = self._shelf.length, self._shelf.depth, self._shelf.height
        lines: dict[str, tuple[Corner, Corner]] = {
            "top-front": ((0, depth, height), (length, depth, height)),
            "front-right": ((length, depth, 0), (length, depth, height)),
            "top-right": ((length, 0, height), (length, depth, height)),
        }
        known = {seam.id for seam in self._plan.seams}
        return {name: ends for name, ends in lines.items() if f"{self._shelf.id}/{name}" in known}

    def _paint_faces(self, painter: QPainter) -> None:
        palette = self._palette
        end = palette.wood_deep if self._shelf.right == "mitred" else palette.stud
        painter.setPen(QPen(QColor(palette.wood_ink if palette.name == "light" else palette.ink), 1.2))
        for corners, colour in zip(self._faces().values(), (palette.wood, palette.wood_shade, end), strict=True):
            painter.setBrush(QColor(colour))
            painter.drawPolygon(self._polygon(corners))

    def _paint_seams(self, painter: QPainter, selected: str) -> None:
        palette = self._palette
        figures = {seam.id: seam.figure for seam in self._plan.seams}
        for name, ends in self._lines().items():
            about = f"{self._shelf.id}/{name}"
            is_chosen = selected == about
            run = [self._point(corner) for corner in ends]
            painter.setPen(QPen(QColor(CASING), 4 if is_chosen else 2.4))
            painter.drawPolyline(run)
            style = Qt.PenStyle.SolidLine if figures[about] == "wraps" else Qt.PenStyle.DashLine
            colour = palette.wood_chalk if is_chosen else palette.wood_ink
            painter.setPen(QPen(QColor(colour), 2 if is_chosen else 1, style))
            painter.drawPolyline(run)

    def _point(self, corner: Corner) -> QPointF:
        along, out, up = corner
        back = self._shelf.depth - out
        return QPointF(self._x + self._scale * (along + ACROSS * back), self._y - self._scale * (up + UP * back))

    def _polygon(self, corners: tuple[Corner, ...]) -> QPolygonF:
        return QPolygonF([self._point(corner) for corner in corners])


def _off(place: QPointF, a: QPointF, b: QPointF) -> float:
    """How far a place is from a line between two points. [px]"""
    dx, dy = b.x() - a.x(), b.y() - a.y()
    length = dx * dx + dy * dy
    along = (place.x() - a.x()) * dx + (place.y() - a.y()) * dy
    share = min(1.0, max(0.0, along / length)) if length > 0.0 else 0.0
    return hypot(place.x() - a.x() - share * dx, place.y() - a.y() - share * dy)
