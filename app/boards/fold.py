"""The fold board: for now a still picture of the selected shelf, closed, with its seams marked."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.boards.board import Board
from app.store import Store
from app.theme import Theme
from app.theme.type import BODY, SMALL, font
from core.document.model import Shelf
from core.drawing.names import letter

ACROSS, UP = 0.46, 0.24  # how far a mm of depth moves right and up in the picture
EMPTY = "Your first shelf folds up here."
WHAT_COMES = "Here the shelf will fold by hand, with its grain."
Corner = tuple[float, float, float]  # along, out from the wall, up [mm]


class FoldPicture(QWidget):
    """The shelf from the front right above, flat shaded; seams that turn the grain are dashed."""

    def __init__(self, board: Board) -> None:
        super().__init__(board)
        self._board = board
        self.setObjectName("fold_picture")
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName("The folded shelf")

    def paintEvent(self, event: QPaintEvent) -> None:
        shelf = self._board.store.shelf
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._board.theme.palette.paper))
        self._board.paint_small_title(painter)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if shelf is None:
            painter.setFont(font(BODY))
            painter.setPen(QColor(self._board.theme.palette.soft))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, "" if self._board.small else EMPTY)
        else:
            place = self._placer(shelf)
            self._paint_faces(painter, shelf, place)
            self._paint_seams(painter, shelf, place)
            if not self._board.small:
                self._paint_legend(painter)
        painter.end()

    def _placer(self, shelf: Shelf) -> Placer:
        small = self._board.small
        room = QRectF(self.rect()).adjusted(*((10, 26, -10, -10) if small else (30, 10, -30, -44)))
        return Placer(shelf, room)

    def _paint_faces(self, painter: QPainter, shelf: Shelf, place: Placer) -> None:
        palette = self._board.theme.palette
        length, depth, height = shelf.length, shelf.depth, shelf.height
        top = ((0, 0, height), (length, 0, height), (length, depth, height), (0, depth, height))
        front = ((0, depth, 0), (length, depth, 0), (length, depth, height), (0, depth, height))
        end = ((length, 0, 0), (length, depth, 0), (length, depth, height), (length, 0, height))
        painter.setPen(QPen(QColor(palette.wood_ink if palette.name == "light" else palette.ink), 1.2))
        for corners, colour in ((top, palette.wood), (front, palette.wood_shade)):
            painter.setBrush(QColor(colour))
            painter.drawPolygon(place.polygon(corners))
        painter.setBrush(QColor(palette.wood_deep if shelf.right == "mitred" else palette.stud))
        painter.drawPolygon(place.polygon(end))

    def _paint_seams(self, painter: QPainter, shelf: Shelf, place: Placer) -> None:
        length, depth, height = shelf.length, shelf.depth, shelf.height
        lines: dict[str, tuple[Corner, Corner]] = {
            "top-front": ((0, depth, height), (length, depth, height)),
            "front-right": ((length, depth, 0), (length, depth, height)),
            "top-right": ((length, 0, height), (length, depth, height)),
        }
        palette = self._board.theme.palette
        for seam in self._board.store.plan.seams:
            name = seam.id.partition("/")[2]
            if seam.shelf != shelf.id or name not in lines:
                continue
            run = [place.point(corner) for corner in lines[name]]
            chosen = self._board.store.selected == seam.id
            painter.setPen(QPen(QColor(palette.paper), 4 if chosen else 2.4))
            painter.drawPolyline(run)
            style = Qt.PenStyle.SolidLine if seam.figure == "wraps" else Qt.PenStyle.DashLine
            painter.setPen(QPen(QColor(palette.chalk if chosen else palette.ink), 2 if chosen else 1, style))
            painter.drawPolyline(run)

    def _paint_legend(self, painter: QPainter) -> None:
        palette = self._board.theme.palette
        y = self.height() - 20.0
        painter.setFont(font(SMALL))
        x = 16.0
        for style, words in ((Qt.PenStyle.SolidLine, "the grain runs on"), (Qt.PenStyle.DashLine, "the grain turns")):
            painter.setPen(QPen(QColor(palette.ink), 1, style))
            painter.drawLine(QPointF(x, y), QPointF(x + 24, y))
            painter.setPen(QColor(palette.soft))
            painter.drawText(QPointF(x + 30, y + 4), words)
            x += 44 + painter.fontMetrics().horizontalAdvance(words)
        rest = QRectF(x + 12, y - 10, self.width() - x - 28, 20)
        if painter.fontMetrics().horizontalAdvance(WHAT_COMES) <= rest.width():
            painter.drawText(rest, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, WHAT_COMES)


class Placer:
    """From a shelf's millimetres to the picture."""

    def __init__(self, shelf: Shelf, room: QRectF) -> None:
        wide = shelf.length + ACROSS * shelf.depth
        tall = shelf.height + UP * shelf.depth
        self._scale = min(room.width() / wide, room.height() / tall)
        self._depth = shelf.depth
        self._x = room.center().x() - self._scale * wide / 2.0
        self._y = room.center().y() + self._scale * tall / 2.0

    def point(self, corner: Corner) -> QPointF:
        """Pixel of a corner."""
        along, out, up = corner
        back = self._depth - out
        return QPointF(self._x + self._scale * (along + ACROSS * back), self._y - self._scale * (up + UP * back))

    def polygon(self, corners: tuple[Corner, ...]) -> QPolygonF:
        """A face."""
        return QPolygonF([self.point(corner) for corner in corners])


class FoldBoard(Board):
    """What it becomes."""

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("fold", "Fold", store, theme, parent)
        self._picture = FoldPicture(self)
        self.set_content(self._picture)

    def refresh_plan(self) -> None:
        at = self.store.shelf_index
        words = f"what it becomes; shelf {letter(at)}, closed" if at >= 0 else "what it becomes"
        self.subtitle.set_words(words)
        self._picture.update()

    def refresh_selection(self) -> None:
        self.refresh_plan()

    def refresh_size(self) -> None:
        self._picture.update()
