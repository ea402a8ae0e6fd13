"""Painting the wall: studs, floor and eye line once, shelves and names each time."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPixmap

from app.boards.wall_measured import CHEEK, paint_measured
from app.boards.wall_sight import paint_sight
from app.boards.wall_view import SIDE, WallView
from app.hand.wall import eye_line, stud_centres
from app.theme.palette import Palette
from app.theme.type import BODY, LEAD, SMALL, font
from core.document.model import Project, Wall
from core.drawing.names import letter
from core.language import tr
from core.lengths import Unit, show_length

INVITES = tr("Press and drag on the wall: that draws a shelf.")
AFTERWARDS = tr("Pull its edges, move it about, or type its sizes.")
TRAY = tr("not on the wall yet:")
CLEAR = 4.0  # pixels from a shelf to the chalk round it
HANDLES = 16.0  # pixels round the chosen shelf where its handles stand
THIN = 0.8  # pixels: edges of a shelf that are no seam in sight
TRAY_ALIGNED = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft


def tray_left() -> float:
    """Where the tray's first shelf is, after its words. [pixels]"""
    return 20.0 + QFontMetricsF(font(BODY)).horizontalAdvance(TRAY)


class Ground:
    """The wall without its shelves, as a picture that is kept while wall, size and colours are the same."""

    def __init__(self) -> None:
        self._key: tuple[object, ...] = ()
        self._picture = QPixmap()

    def picture(
        self, project: Project, view: WallView, size: QSize, ratio: float, palette: Palette, *, small: bool = False
    ) -> QPixmap:
        """The picture, painted again only where it would be another one; words only where there is room for them.

        small: beside another board, where there is none.
        """
        words = not small and view.left >= SIDE
        key = (project.wall, project.units, view, size, ratio, palette.name, words)
        if key != self._key:
            self._key = key
            self._picture = QPixmap(size * ratio)
            self._picture.setDevicePixelRatio(ratio)
            self._picture.fill(QColor(palette.paper))
            painter = QPainter(self._picture)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            _paint_wall(painter, project.wall, view, palette)
            paint_measured(painter, project, view, palette, words=words)
            if words:
                _paint_eye_line(painter, project, view, palette)
            painter.end()
        return self._picture


def _paint_wall(painter: QPainter, wall: Wall, view: WallView, palette: Palette) -> None:
    left, floor = view.left, view.floor
    top, right = floor - view.scale * wall.height, left + view.scale * wall.width
    half = max(1.5, view.scale * wall.stud_width / 2.0)
    painter.setPen(QPen(QColor(palette.stud_edge), 1))
    painter.setBrush(QColor(palette.stud))
    for x in stud_centres(wall):
        middle = left + view.scale * x
        low, high = max(middle - half, left), min(middle + half, right)
        painter.drawRect(QRectF(low, top, high - low, floor - top))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(palette.hairline), 1))
    painter.drawPolyline([QPointF(left, floor), QPointF(left, top), QPointF(right, top), QPointF(right, floor)])
    painter.setPen(QPen(QColor(palette.soft), 1.4))
    painter.drawLine(QPointF(left - 8, floor), QPointF(right + 8, floor))


def _paint_eye_line(painter: QPainter, project: Project, view: WallView, palette: Palette) -> None:
    height = eye_line(project.units)
    if project.wall.height <= height:
        return
    right, eye = view.left + view.scale * project.wall.width, view.floor - view.scale * height
    painter.setPen(QPen(QColor(palette.soft), 0.8, Qt.PenStyle.DashLine))
    painter.drawLine(QPointF(view.left, eye), QPointF(right, eye))
    painter.setFont(font(SMALL))
    painter.setPen(QColor(palette.soft))
    words, edge = tr("eye line"), view.left - (CHEEK if project.wall.alcove is not None else 0.0)
    wide = QFontMetricsF(painter.font()).horizontalAdvance(words)
    painter.drawText(QPointF(edge - 7.0 - wide, eye + 4.0), words)


class Shown(NamedTuple):
    """The project's shelves with their boxes, which one is chosen, which is under the pointer, seams in sight."""

    project: Project
    boxes: list[QRectF | None]
    chosen: str
    hover: str
    sight: tuple[list[QLineF], list[QLineF]] | None = None


def paint_shelves(painter: QPainter, shown: Shown, palette: Palette) -> None:
    """The shelves that hang."""
    boxes = dict(zip((shelf.id for shelf in shown.project.shelves), shown.boxes, strict=True))
    _paint_wood(painter, [box for box in boxes.values() if box is not None], palette, THIN if shown.sight else 1.4)
    if shown.sight:
        paint_sight(painter, shown.sight, palette)
    for shelf, width in ((shown.hover, 1.2), (shown.chosen, 2.0)):
        if (box := boxes.get(shelf)) is not None:
            _outline(painter, box, width, palette)


def _paint_wood(painter: QPainter, boxes: list[QRectF], palette: Palette, edge: float = 1.4) -> None:
    painter.setBrush(QColor(palette.wood))
    painter.setPen(QPen(QColor(palette.wood_ink), edge))
    painter.drawRects(boxes)


def _outline(painter: QPainter, box: QRectF, width: float, palette: Palette) -> None:
    """Chalk round what is selected or pointed at."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(palette.chalk), width))
    painter.drawRect(box.adjusted(-CLEAR, -CLEAR, CLEAR, CLEAR))


@lru_cache(maxsize=512)
def _wide(words: str) -> float:
    return QFontMetricsF(font(BODY, strong=True)).horizontalAdvance(words)


def paint_names(painter: QPainter, shown: Shown, palette: Palette) -> list[QRectF]:
    """At each shelf its letter, at the chosen one its length too; where there is no room, nothing.

    Returns where they stand, and the chosen shelf's lower handle.
    """
    painter.setFont(font(BODY, strong=True))
    order = sorted(enumerate(shown.project.shelves), key=lambda item: item[1].id != shown.chosen)
    taken = [box.adjusted(-4, -4, 4, 4) for box in shown.boxes if box is not None]
    unit, names = Unit(shown.project.units), []
    for at, shelf in order:
        box, chosen = shown.boxes[at], shelf.id == shown.chosen
        if box is None:
            continue
        name = f"{letter(at)}   {show_length(shelf.length, unit)}" if chosen else letter(at)
        rooms = _name_rooms(box, _wide(name) + 8.0)
        free = (room for room in rooms if not any(room.intersects(other) for other in taken))
        words = rooms[0] if chosen else next(free, None)
        if words is None:
            continue
        if chosen:
            taken.append(box.adjusted(-HANDLES, -HANDLES, HANDLES, HANDLES))
            names.append(QRectF(box.center().x() - HANDLES / 2.0, box.bottom(), HANDLES, HANDLES))
        taken.append(words)
        names.append(words)
        painter.fillRect(words, QColor(palette.paper))
        painter.setPen(QColor(palette.chalk if chosen else palette.ink))
        painter.drawText(words, Qt.AlignmentFlag.AlignCenter, name)
    return names


def _name_rooms(box: QRectF, wide: float) -> tuple[QRectF, ...]:
    """Where a shelf's name may stand, best first: over it, under it, right of it, left of it."""
    x, y = box.center().x() - wide / 2.0, box.center().y() - 8.5
    sides = (x, box.top() - 21.0), (x, box.bottom() + 5.0), (box.right() + 6.0, y), (box.left() - 6.0 - wide, y)
    return tuple(QRectF(left, top, wide, 17.0) for left, top in sides)


def paint_tray(painter: QPainter, tray: dict[str, QRectF], shown: Shown, palette: Palette) -> None:
    """The shelves that wait below the floor, each with its letter."""
    if not tray:
        return
    names = {shelf.id: letter(at) for at, shelf in enumerate(shown.project.shelves)}
    first = next(iter(tray.values()))
    painter.setFont(font(BODY))
    painter.setPen(QColor(palette.soft))
    painter.drawText(QRectF(12.0, first.top(), first.left() - 16.0, first.height()), TRAY_ALIGNED, TRAY)
    painter.setFont(font(BODY, strong=True))
    _paint_wood(painter, list(tray.values()), palette)
    for shelf, box in tray.items():
        if shelf in (shown.chosen, shown.hover):
            _outline(painter, box, 2.0 if shelf == shown.chosen else 1.2, palette)
        painter.setPen(QColor(palette.wood_ink))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, names[shelf])


def paint_invitation(painter: QPainter, middle: float, y: float, palette: Palette) -> None:
    """How to begin, on the empty wall. middle, y: pixels of the upper line's middle and top."""
    for words, face, colour in (
        (INVITES, font(LEAD, strong=True), palette.ink),
        (AFTERWARDS, font(BODY), palette.soft),
    ):
        wide = QFontMetricsF(face).horizontalAdvance(words) + 16.0
        box = QRectF(middle - wide / 2.0, y, wide, 24.0)
        painter.fillRect(box, QColor(palette.paper))
        painter.setFont(face)
        painter.setPen(QColor(colour))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
        y += 24.0
