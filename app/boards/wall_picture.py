"""The wall's picture: the shelves as they hang, to scale, with studs, floor and eye line. Here shelves are drawn."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from app.boards.board import Board
from app.boards.wall_measured import paint_clear_heights, paint_kinds
from app.boards.wall_near import Near, near_at
from app.boards.wall_paint import Ground, Shown, paint_invitation, paint_names, paint_shelves, paint_tray, tray_left
from app.boards.wall_sight import Sight, paint_key
from app.boards.wall_view import WallView, tray_boxes, view_of
from app.hand.grip import Grip, Handle, Point
from app.hand.hand import Hand
from app.hand.keep_out import KeepOutMoved, held_keep_out, keep_out_at, keep_out_handles
from app.hand.wall import Drawing, Hanging, eye_line, wall_handles
from app.hand.wall_measured import stud_handles
from core.document.model import Shelf
from core.frame.studs import stud_lines
from core.language import tr

REACH = 6.0  # pixels: how near a click counts


class WallPicture(QWidget):
    """The wall, drawn to scale. A click selects a shelf; a drag moves it, pulls its edges or draws a new one.

    `menu_asked` carries what a menu is wanted for (a shelf's id, `hidden 0` for a keep-out, `stud 406.4`, '' for bare
    wall), where on the screen, and the place on the wall; None by the keyboard.
    """

    resized = Signal()
    menu_asked = Signal(str, QPoint, object)

    def __init__(self, board: Board) -> None:
        super().__init__(board)
        self._board = board
        self.setObjectName("wall_picture")
        self.setAccessibleName(tr("The wall with its shelves"))
        self.setMouseTracking(True)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._ground = Ground()
        self._near = Near()
        self._sight = Sight()
        self.hand = Hand(self, board.store, board.theme, self)
        self.hand.reach.handles = self._handles
        self.hand.grip_at = self._grip_at
        self.hand.steady = self._steady
        self.hand.on_wood = False

    def refresh(self) -> None:
        """Paint again."""
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    # Where things are

    def view(self) -> WallView:
        """Where the wall lies on the widget."""
        wall = self._board.store.project.wall
        return view_of(wall, float(self.width()), float(self.height()), small=self._board.small)

    def to_board(self, pixel: QPointF) -> Point:
        """Place on the wall at a pixel. [mm]"""
        return self.view().to_board(pixel)

    def to_pixel(self, place: Point) -> QPointF:
        """Pixel of a place on the wall."""
        return self.view().to_pixel(place)

    def pixel(self) -> float:
        """Millimetres of the wall in a pixel."""
        return 1.0 / self.view().scale

    def eye(self) -> float:
        """The eye line's pixel, at most the middle of the picture."""
        height = eye_line(self._board.store.project.units)
        return min(self.to_pixel((0.0, height)).y(), float(self.rect().center().y()))

    def box_of(self, shelf: Shelf) -> QRectF | None:
        """Where a shelf is in this picture; None where it has no place on the wall."""
        return self.view().box(shelf)

    def tray(self) -> dict[str, QRectF]:
        """Where the shelves wait that do not hang yet."""
        waiting = [shelf.id for shelf in self._board.store.project.shelves if shelf.mount is None]
        if self._board.small or not waiting:
            return {}
        return tray_boxes(waiting, tray_left(), float(self.width()), float(self.height()))

    def _key_room(self, tray: dict[str, QRectF]) -> QRectF:
        """Below the floor, right of the shelves that wait there."""
        left = max((box.right() for box in tray.values()), default=0.0) + 12.0
        return QRectF(left, self.height() - 30.0, self.width() - 12.0 - left, 20.0)

    def shelf_at(self, place: QPointF) -> str:
        """Id of the shelf at a pixel, on the wall or in the tray; '' for none."""
        view = self.view()
        for shelf in reversed(self._board.store.project.shelves):
            box = view.box(shelf)
            if box is not None and box.adjusted(-REACH, -REACH, REACH, REACH).contains(place):
                return shelf.id
        return next((name for name, box in self.tray().items() if box.contains(place)), "")

    # What the hand takes hold of

    def _chosen(self) -> str:
        return self._board.store.selected.partition("/")[0]

    def _handles(self) -> tuple[Handle, ...]:
        if self._board.small:
            return ()
        shelves = dict.fromkeys(about for about in (self._chosen(), self._near.shelf) if about)
        project, pixel = self._board.store.project, self.pixel()
        found = [handle for shelf in shelves for handle in wall_handles(project, shelf, pixel)]
        if (hidden := self._shown_keep_out()) >= 0:
            found += keep_out_handles(project, hidden)
        return (*found, *stud_handles(project, pixel)) if self._on_studs() else tuple(found)

    def _shown_keep_out(self) -> int:
        """The keep-out with handles: held or chosen by one of them, else the one at the pointer; -1 for none."""
        grip = self.hand.grip
        held = grip.key if isinstance(grip, Handle) else self.hand.reach.chosen[1]
        found = held_keep_out(held)
        return found if found >= 0 else self._near.hidden

    def _on_studs(self) -> bool:
        """Is the pointer near the floor, where the studs' handles stand, or one of them held or chosen?"""
        return self._near.low or self.hand.reach.chosen[1].startswith("stud") or self._held_stud()

    def _held_stud(self) -> bool:
        grip = self.hand.grip
        return isinstance(grip, Handle) and grip.key.startswith("stud")

    def _grip_at(self, place: Point) -> Grip | None:
        project = self._board.store.project
        about = self.shelf_at(self.to_pixel(place))
        if about:
            return Hanging(project, about, place)
        keep_out = keep_out_at(project, place, REACH * self.pixel() / 2.0)
        if keep_out >= 0:
            return KeepOutMoved(project, keep_out)
        if 0.0 <= place[0] <= project.wall.width and 0.0 <= place[1] <= project.wall.height:
            return Drawing(project, place, self.pixel())
        return None

    def _steady(self) -> Grip | None:
        shelf = self._board.store.shelf
        if shelf is None or shelf.mount is None or self._chosen() != shelf.id:
            return None
        return Hanging(self._board.store.project, shelf.id)

    def _look_at(self, at: QPointF, shelf: str) -> None:
        """The pointer is there: what it is at shows its handles."""
        near = (
            Near(shelf) if self._board.small else near_at(self._board.store.project, self.view(), at, shelf, self._near)
        )
        if near != self._near:
            self._near = near
            self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.hand.press(event)
        self._point_at(event.position())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if not self.hand.move(event):
            self._look_at(event.position(), self.shelf_at(event.position()))
        self._point_at(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        about = self.shelf_at(event.position())
        if not self.hand.release(event) and event.button() is Qt.MouseButton.LeftButton:
            self._board.store.select(about)
        self._look_at(event.position(), self.shelf_at(event.position()))
        self._point_at(event.position())

    def _point_at(self, at: QPointF) -> None:
        """The pointer's shape says what a drag does here."""
        found = self.hand.cursor_at(at)
        shape = Qt.CursorShape.ArrowCursor if found is None else found
        if shape != self.cursor().shape():
            self.setCursor(shape)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self.hand.leave()
        if self._near != Near():
            self._near = Near()
            self.update()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self._board.small or self.hand.busy:
            return
        if event.reason() is QContextMenuEvent.Reason.Keyboard:
            shelf = self._board.store.shelf
            box = self.box_of(shelf) if shelf is not None else None
            at = (box or QRectF(self.rect())).center().toPoint()
            self.menu_asked.emit(shelf.id if shelf is not None else "", self.mapToGlobal(at), None)
        else:
            place = self.to_board(QPointF(event.pos()))
            self.menu_asked.emit(self._thing_at(QPointF(event.pos()), place), event.globalPos(), place)

    def _thing_at(self, at: QPointF, place: Point) -> str:
        """The shelf, keep-out or stud there."""
        wall, reach = self._board.store.project.wall, REACH * self.pixel()
        if about := self.shelf_at(at):
            return about
        if (keep_out := keep_out_at(self._board.store.project, place, reach / 2.0)) >= 0:
            return f"hidden {keep_out}"
        near = [
            x for x in stud_lines(wall, 0.0, wall.width) if abs(x - place[0]) <= wall.stud_width / 2.0 + reach / 2.0
        ]
        return f"stud {min(near, key=lambda x: abs(x - place[0]))}" if near and 0.0 <= place[1] <= wall.height else ""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.hand.key(event):
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    # The picture

    def paintEvent(self, event: QPaintEvent) -> None:
        palette, project, view = self._board.theme.palette, self._board.store.project, self.view()
        boxes = [view.box(shelf) for shelf in project.shelves]
        sight = None if self._board.small else self._sight.lines(project, self._board.store.plan.seams, boxes)
        shown = Shown(project, boxes, self._chosen(), self._near.shelf, sight)
        painter = QPainter(self)
        small, ratio = self._board.small, self.devicePixelRatioF()
        ground = self._ground.picture(project, view, self.size(), ratio, palette, small=small)
        painter.drawPixmap(0, 0, ground)
        self._board.paint_small_title(painter)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_shelves(painter, shown, palette)
        if not self._board.small:
            paint_kinds(painter, project, view, boxes, palette)
            names = paint_names(painter, shown, palette)
            paint_clear_heights(painter, project, view, palette, names)
            tray = self.tray()
            paint_tray(painter, tray, shown, palette)
            if any(boxes):
                paint_key(painter, self._key_room(tray), palette)
            if not project.shelves:
                paint_invitation(painter, float(self.rect().center().x()), self.eye() + 10.0, palette)
            self.hand.paint(painter)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(palette.chalk), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()
