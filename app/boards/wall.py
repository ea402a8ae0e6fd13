"""The wall board: the shelves as they hang, to scale, with studs, floor and eye line."""

from __future__ import annotations

from math import ceil

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QPushButton, QWidget

from app.boards.board import Board
from app.store import Store
from app.theme import Theme
from app.theme.type import BODY, SMALL, font
from core.document.model import Shelf, Studs, Wall
from core.drawing.names import letter
from core.lengths import show_length

EYE_LINE = 1500.0  # mm from the floor; about 60 in, common practice
WHAT_COMES = "Here shelves will be drawn and moved by hand."
REACH = 6.0  # pixels: how near a click counts


def stud_centres(wall: Wall) -> tuple[float, ...]:
    """Centre lines of the studs on this wall. [mm]"""
    if not isinstance(wall.studs, Studs):
        return tuple(x for x in wall.studs if 0.0 <= x <= wall.width)
    first, spacing = wall.studs.first, wall.studs.spacing
    start = ceil(-first / spacing) if first < 0 else 0
    count = int((wall.width - first) / spacing)
    return tuple(first + n * spacing for n in range(start, count + 1))


class WallPicture(QWidget):
    """The wall, drawn to scale. A click selects a shelf."""

    resized = Signal()

    def __init__(self, board: Board) -> None:
        super().__init__(board)
        self._board = board
        self.setObjectName("wall_picture")
        self.setAccessibleName("The wall with its shelves")
        self.setMouseTracking(True)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._hover = ""

    def refresh(self) -> None:
        """Paint again."""
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    # Where things are

    def _view(self) -> tuple[float, QPointF]:
        """Pixels for a mm, and the pixel of the wall's lower left corner."""
        wall = self._board.store.project.wall
        small = self._board.small
        side, above, below = (10.0, 26.0, 10.0) if small else (64.0, 10.0, 40.0)
        wide, tall = max(10.0, self.width() - 2 * side), max(10.0, self.height() - above - below)
        scale = min(wide / wall.width, tall / wall.height)
        left = (self.width() - scale * wall.width) / 2.0
        floor = above + (tall + scale * wall.height) / 2.0
        return scale, QPointF(left, floor)

    def box_of(self, shelf: Shelf) -> QRectF | None:
        """Where a shelf is in this picture; None where it has no place on the wall."""
        if shelf.mount is None:
            return None
        scale, origin = self._view()
        top = origin.y() - scale * shelf.mount.top
        return QRectF(origin.x() + scale * shelf.mount.x, top, scale * shelf.length, scale * shelf.height)

    def _shelf_at(self, place: QPointF) -> str:
        for shelf in reversed(self._board.store.project.shelves):
            box = self.box_of(shelf)
            if box is not None and box.adjusted(-REACH, -REACH, REACH, REACH).contains(place):
                return shelf.id
        return ""

    # The hand

    def mousePressEvent(self, event: QMouseEvent) -> None:
        about = self._shelf_at(event.position())
        if about and event.button() is Qt.MouseButton.LeftButton:
            self._board.store.select(about)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        about = self._shelf_at(event.position())
        if about != self._hover:
            self._hover = about
            self.setCursor(Qt.CursorShape.PointingHandCursor if about else Qt.CursorShape.ArrowCursor)
            self.update()

    # The picture

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._board.theme.palette.paper))
        self._board.paint_small_title(painter)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_wall(painter)
        shelves = self._board.store.project.shelves
        boxes = [self.box_of(shelf) for shelf in shelves]
        for shelf, box in zip(shelves, boxes, strict=True):
            if box is not None:
                self._paint_shelf(painter, shelf, box)
        if not self._board.small:
            self._paint_names(painter, boxes)
            self._paint_what_comes(painter)
        painter.end()

    def _chosen(self, shelf: Shelf) -> bool:
        store = self._board.store
        return store.shelf is not None and store.shelf.id == shelf.id and bool(store.selected)

    def _paint_wall(self, painter: QPainter) -> None:
        palette, wall = self._board.theme.palette, self._board.store.project.wall
        scale, origin = self._view()
        top, right = origin.y() - scale * wall.height, origin.x() + scale * wall.width
        half = max(1.5, scale * wall.stud_width / 2.0)
        painter.setPen(QPen(QColor(palette.stud_edge), 1))
        painter.setBrush(QColor(palette.stud))
        for x in stud_centres(wall):
            middle = origin.x() + scale * x
            left, end = max(middle - half, origin.x()), min(middle + half, right)
            painter.drawRect(QRectF(left, top, end - left, origin.y() - top))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(palette.hairline), 1))
        painter.drawPolyline([origin, QPointF(origin.x(), top), QPointF(right, top), QPointF(right, origin.y())])
        if not self._board.small and wall.height > EYE_LINE:
            eye = origin.y() - scale * EYE_LINE
            painter.setPen(QPen(QColor(palette.soft), 0.8, Qt.PenStyle.DashLine))
            painter.drawLine(QPointF(origin.x(), eye), QPointF(right, eye))
            painter.setFont(font(SMALL))
            painter.setPen(QColor(palette.soft))
            painter.drawText(QPointF(right + 7, eye + 4), "eye line")
        painter.setPen(QPen(QColor(palette.soft), 1.4))
        painter.drawLine(QPointF(origin.x() - 8, origin.y()), QPointF(right + 8, origin.y()))

    def _paint_shelf(self, painter: QPainter, shelf: Shelf, box: QRectF) -> None:
        palette, chosen = self._board.theme.palette, self._chosen(shelf)
        painter.setBrush(QColor(palette.wood))
        painter.setPen(QPen(QColor(palette.wood_ink), 1.4))
        painter.drawRect(box)
        if chosen or self._hover == shelf.id:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(palette.chalk), 2.0 if chosen else 1.2))
            painter.drawRect(box.adjusted(-2.5, -2.5, 2.5, 2.5))

    def _paint_names(self, painter: QPainter, boxes: list[QRectF | None]) -> None:
        """Over each shelf its letter, over the selected one its length too; where another shelf is, nothing."""
        palette, store = self._board.theme.palette, self._board.store
        painter.setFont(font(BODY, strong=True))
        order = sorted(enumerate(store.project.shelves), key=lambda item: self._chosen(item[1]), reverse=True)
        taken = [box.adjusted(-4, -4, 4, 4) for box in boxes if box is not None]
        for at, shelf in order:
            box, chosen = boxes[at], self._chosen(shelf)
            if box is None:
                continue
            name = f"{letter(at)}   {show_length(shelf.length, store.unit)}" if chosen else letter(at)
            wide = painter.fontMetrics().horizontalAdvance(name) + 8.0
            words = QRectF(box.center().x() - wide / 2.0, box.top() - 21, wide, 17)
            if not chosen and any(words.intersects(other) for other in taken):
                continue
            taken.append(words)
            painter.fillRect(words, QColor(palette.paper))
            painter.setPen(QColor(palette.chalk if chosen else palette.ink))
            painter.drawText(words, Qt.AlignmentFlag.AlignCenter, name)

    def _paint_what_comes(self, painter: QPainter) -> None:
        painter.setFont(font(SMALL))
        painter.setPen(QColor(self._board.theme.palette.soft))
        below = QRectF(self.rect()).adjusted(16, 0, -16, -12)
        painter.drawText(below, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom, WHAT_COMES)


class WallBoard(Board):
    """What you want. `add_asked` asks for a first shelf."""

    add_asked = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("wall", "Wall", store, theme, parent)
        self._picture = WallPicture(self)
        self.set_content(self._picture)
        self._add = QPushButton("Add a shelf", self._picture)
        self._add.setObjectName("wall_add")
        self._add.setProperty("look", "pill")
        self._add.clicked.connect(self.add_asked)
        self._picture.resized.connect(self._place_add)

    def refresh_plan(self) -> None:
        shelves = self.store.project.shelves
        off = [letter(at) for at, shelf in enumerate(shelves) if shelf.mount is None]
        if not shelves:
            words = "what you want; nothing hangs here yet"
        elif off:
            words = f"what you want; not on the wall yet: {', '.join(off)}"
        else:
            words = "what you want"
        self.subtitle.set_words(words)
        self._add.setVisible(not shelves and not self.small)
        self._place_add()
        self._picture.refresh()

    def _place_add(self) -> None:
        """In the middle of the empty wall."""
        self._add.adjustSize()
        self._add.move(self._picture.rect().center() - self._add.rect().center())

    def refresh_selection(self) -> None:
        self._picture.refresh()

    def refresh_size(self) -> None:
        self.refresh_plan()
