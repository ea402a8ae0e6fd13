"""Painting what is measured of a wall: keep-outs and their lines, bow readings, alcove, clear heights."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from app.boards.wall_view import WallView
from app.hand.keep_out import OUTSIDE
from app.theme.palette import Palette
from app.theme.type import SMALL, font
from core.document.model import KeepOut, Project, Wall
from core.language import tr
from core.lengths import Unit, show_length
from core.wall.alcove import longest_in
from core.wall.places import Gap, gaps
from core.wall.services import WITH_CABLES

LEAST_SIDE: Final = 5.0  # pixels: a rectangle is drawn no smaller
BOW_DEEP: Final = 16.0  # pixels that the widest gap is drawn deep, so that it can be seen
CHEEK: Final = 10.0  # pixels: how thick an alcove's side walls are drawn
TALL: Final = 15.0  # pixels that a clear height needs for its number
INSIDE: Final = 8.0  # pixels from the end that two shelves share to the line between them
EDGE: Final = 1.0  # the same where words stand there
KIND_GAP: Final = 2.0 * OUTSIDE  # pixels from a rectangle to its kind, clear of the handles at its edges
SMALL_GAP: Final = 3.0  # pixels between line and words
NOTE_LINES: Final = 3  # of words beside an alcove
WRAPPED: Final = int(Qt.TextFlag.TextWordWrap) | int(Qt.AlignmentFlag.AlignLeft)
MOST_SHOWN: Final = 12  # shelves with clear heights between them; more would be a thicket


def paint_measured(painter: QPainter, project: Project, view: WallView, palette: Palette, *, words: bool) -> None:
    """Everything that stands still behind the shelves. words: is there room for them?"""
    wall, unit = project.wall, Unit(project.units)
    painter.save()
    for area in wall.keep_outs:
        _paint_lines(painter, area, wall, view, palette)
    for area in wall.keep_outs:
        _paint_keep_out(painter, area, view, palette)
    if wall.alcove is not None:
        _paint_alcove(painter, wall, view, palette, unit if words else None)
    if wall.bow:
        _paint_bow(painter, wall, view, palette, unit if words else None)
    if words and wall.kind != "timber stud":
        painter.setFont(font(SMALL))
        at = view.to_pixel((0.0, 0.0)) + QPointF(6.0, -19.0)
        told = tr("{rest}: no fixings are planned", rest=wall.kind if wall.kind != "unknown" else tr("unknown wall"))
        wide = QFontMetricsF(painter.font()).horizontalAdvance(told) + 4.0
        _write(painter, QRectF(at.x(), at.y(), wide, 14.0), told, palette.doubt, palette)
    painter.restore()


def _box(area: KeepOut, view: WallView) -> QRectF:
    corner = view.to_pixel((area.x, area.y + area.height))
    box = QRectF(corner.x(), corner.y(), view.scale * area.width, view.scale * area.height)
    wide, high = max(0.0, LEAST_SIDE - box.width()) / 2.0, max(0.0, LEAST_SIDE - box.height()) / 2.0
    return box.adjusted(-wide, -high, wide, high)


def _whole(wall: Wall, view: WallView) -> QRectF:
    return QRectF(view.to_pixel((0.0, wall.height)), view.to_pixel((wall.width, 0.0)))


def _paint_lines(painter: QPainter, area: KeepOut, wall: Wall, view: WallView, palette: Palette) -> None:
    """Above, below and level with a socket or switch: where a cable may run."""
    if area.kind not in WITH_CABLES:
        return
    box, whole, wash = _box(area, view), _whole(wall, view), QColor(palette.doubt_wash)
    upright = QRectF(box.left(), whole.top(), box.width(), whole.height())
    level = QRectF(whole.left(), box.top(), whole.width(), box.height())
    for band in (upright, level):
        painter.fillRect(band & whole, wash)
    painter.setPen(QPen(QColor(palette.doubt), 0.7, Qt.PenStyle.DotLine))
    painter.drawLines(
        [
            QLineF(upright.topLeft(), upright.bottomLeft()),
            QLineF(upright.topRight(), upright.bottomRight()),
            QLineF(level.topLeft(), level.topRight()),
            QLineF(level.bottomLeft(), level.bottomRight()),
        ]
    )


def _paint_keep_out(painter: QPainter, area: KeepOut, view: WallView, palette: Palette) -> None:
    box = _box(area, view)
    painter.fillRect(box, QColor(palette.trouble_wash))
    painter.setPen(QPen(QColor(palette.trouble), 1.2))
    painter.setBrush(Qt.BrushStyle.BDiagPattern)
    painter.drawRect(box)
    painter.setBrush(Qt.BrushStyle.NoBrush)


def paint_kinds(
    painter: QPainter, project: Project, view: WallView, boxes: Sequence[QRectF | None], palette: Palette
) -> None:
    """What each keep-out is, beside it on the wall, where no shelf hides the word. boxes: of the shelves."""
    wall, whole = project.wall, _whole(project.wall, view)
    taken = [box for box in boxes if box is not None]
    painter.setFont(font(SMALL))
    for area in wall.keep_outs:
        kind = tr(area.kind)
        wide = QFontMetricsF(painter.font()).horizontalAdvance(kind) + 4.0
        rooms = [
            room
            for room in _beside(_box(area, view), whole, wide)
            if whole.top() <= room.top() and room.bottom() <= whole.bottom()
        ]
        free = [room for room in rooms if not any(room.intersects(box) for box in taken)]
        for room in (free or rooms)[:1]:
            _write(painter, room, kind, palette.trouble, palette)


def _beside(box: QRectF, whole: QRectF, wide: float) -> list[QRectF]:
    """Rooms for a word at a rectangle, on the wall: right of it, left, under and over its left end."""
    middle = box.center().y() if box.height() < whole.height() / 2.0 else box.bottom() - box.height() / 4.0
    y = min(max(middle - 7.0, whole.top() + 34.0), whole.bottom() - 34.0)
    x = max(box.left(), whole.left()) + SMALL_GAP
    rooms = [QRectF(x, box.bottom() + KIND_GAP - 7.0, wide, 14.0), QRectF(x, box.top() - KIND_GAP - 7.0, wide, 14.0)]
    if box.left() - KIND_GAP - wide >= whole.left():
        rooms.insert(0, QRectF(box.left() - KIND_GAP - wide, y, wide, 14.0))
    if box.right() + KIND_GAP + wide <= whole.right():
        rooms.insert(0, QRectF(box.right() + KIND_GAP, y, wide, 14.0))
    return rooms


def _write(painter: QPainter, room: QRectF, words: str, colour: str, palette: Palette) -> None:
    """Words on a ground of paper, so that what lies behind does not cross them."""
    painter.fillRect(room, QColor(palette.paper))
    painter.setPen(QColor(colour))
    painter.drawText(room, Qt.AlignmentFlag.AlignCenter, words)


def _paint_bow(painter: QPainter, wall: Wall, view: WallView, palette: Palette, unit: Unit | None) -> None:
    """The straightedge along the ceiling and the gaps under it, drawn much deeper than they are.

    Where there is no room for every number the largest stay.
    """
    readings = sorted((x, gap) for x, gap in wall.bow if 0.0 <= x <= wall.width)
    deepest = max((gap for _, gap in readings), default=0.0)
    if deepest <= 0.0:
        return
    whole = _whole(wall, view)
    top = whole.top()
    points = [QPointF(view.to_pixel((x, 0.0)).x(), top + BOW_DEEP * gap / deepest) for x, gap in readings]
    painter.setPen(QPen(QColor(palette.chalk), 1.2))
    painter.drawPolyline(points)
    painter.setFont(font(SMALL))
    painter.setPen(QPen(QColor(palette.chalk), 0.8))
    painter.drawLines([QLineF(QPointF(point.x(), top), point) for point in points])
    taken: list[tuple[float, float]] = []
    for (_, gap), point in sorted(zip(readings, points, strict=True), key=lambda one: -one[0][1]):
        number = show_length(gap, unit, marks=False) if unit is not None else ""
        wide = QFontMetricsF(painter.font()).horizontalAdvance(number)
        left = min(max(point.x() - wide / 2.0, whole.left() + SMALL_GAP), whole.right() - wide - SMALL_GAP)
        if all(left + wide + 4.0 <= low or high + 4.0 <= left for low, high in taken):
            painter.drawText(QPointF(left, top + BOW_DEEP + 13.0), number)
            taken.append((left, left + wide))


def _paint_alcove(painter: QPainter, wall: Wall, view: WallView, palette: Palette, unit: Unit | None) -> None:
    """The side walls, and at the floor how long a shelf between them may be."""
    whole = _whole(wall, view)
    painter.setPen(QPen(QColor(palette.soft), 1.0))
    painter.setBrush(QColor(palette.hairline))
    painter.drawRect(QRectF(whole.left() - CHEEK, whole.top(), CHEEK, whole.height()))
    painter.drawRect(QRectF(whole.right(), whole.top(), CHEEK, whole.height()))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if unit is None or wall.alcove is None:
        return
    smallest = min(*wall.alcove.top, *wall.alcove.bottom)
    longest = max(0.0, longest_in(wall.alcove, unit))
    words = tr(
        "alcove, {smallest} at its narrowest: shelf {longest}",
        smallest=show_length(smallest, unit),
        longest=show_length(longest, unit, rounding="down"),
    )
    painter.setFont(font(SMALL))
    metrics, room = QFontMetricsF(painter.font()), view.left - CHEEK - 2.0 * SMALL_GAP
    beside = metrics.boundingRect(QRectF(0.0, 0.0, room, whole.height()), WRAPPED, words)
    if beside.width() <= room and beside.height() <= NOTE_LINES * metrics.lineSpacing():
        painter.setPen(QColor(palette.soft))
        beside.moveBottomLeft(whole.bottomRight() + QPointF(CHEEK + SMALL_GAP, -SMALL_GAP))
        painter.drawText(beside, WRAPPED, words)
        return
    wide = metrics.horizontalAdvance(words) + 4.0
    _write(painter, QRectF(whole.right() - wide - 6.0, whole.bottom() - 19.0, wide, 14.0), words, palette.soft, palette)


# Between shelves


def paint_clear_heights(
    painter: QPainter, project: Project, view: WallView, palette: Palette, taken: Sequence[QRectF] = ()
) -> None:
    """The clear height between each shelf and the next one under it, where there is room for the number.

    taken: where words stand already.
    """
    if sum(shelf.mount is not None for shelf in project.shelves) > MOST_SHOWN:
        return
    unit = Unit(project.units)
    painter.setFont(font(SMALL))
    for gap in gaps(project, project.wall.height):
        if gap.clear * view.scale >= TALL:
            number = show_length(gap.clear, unit, marks=False)
            _paint_clear(painter, gap, project.wall, view, palette, number, taken)


def across(gap: Gap, view: WallView, taken: Sequence[QRectF]) -> tuple[QPointF, QPointF]:
    """The upper and lower end of a line from shelf to shelf: near the end they share, where it crosses no words."""
    upper, lower = gap.upper, gap.lower
    left = max(upper.mount.x, lower.mount.x)
    right = min(upper.mount.x + upper.shelf.length, lower.mount.x + lower.shelf.length)
    inside, edge = INSIDE / view.scale, EDGE / view.scale
    if right - left <= 2.0 * inside:
        inside = (right - left) / 2.0
    places = (right - inside, right - edge, left + inside, left + edge)
    lines = [(view.to_pixel((x, upper.low)), view.to_pixel((x, lower.mount.top))) for x in places]
    for high, low in lines:
        room = QRectF(high, low).adjusted(-EDGE, 0.0, EDGE, 0.0)
        if not any(room.intersects(words) for words in taken):
            return high, low
    return lines[1]  # words as wide as the shelf: at its end it passes beside them


def _paint_clear(
    painter: QPainter, gap: Gap, wall: Wall, view: WallView, palette: Palette, number: str, taken: Sequence[QRectF]
) -> None:
    """A line between two shelves, its number left of it where right of it is off the wall; lower where it is taken."""
    high, low = across(gap, view, taken)
    wide = QFontMetricsF(painter.font()).horizontalAdvance(number) + 4.0
    sides = [high.x() + SMALL_GAP, high.x() - SMALL_GAP - wide]
    if sides[0] + wide > _whole(wall, view).right():
        sides.reverse()
    heights = ((high.y() + low.y()) / 2.0 - 7.0, low.y() - 15.0)
    rooms = [QRectF(side, y, wide, 14.0) for y in heights for side in sides]
    room = next((room for room in rooms if not any(room.intersects(other) for other in taken)), rooms[0])
    painter.setPen(QPen(QColor(palette.soft), 0.9))
    painter.drawLine(high, low)
    for at in (high, low):
        painter.drawLine(at - QPointF(3.0, 0.0), at + QPointF(3.0, 0.0))
    _write(painter, room, number, palette.soft, palette)
