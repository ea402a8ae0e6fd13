"""Where the boards are: wall and fold above, sheet below; or one filling all, the others small beside it."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, QRect, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QResizeEvent, Qt
from PySide6.QtWidgets import QApplication, QWidget

from app.boards.board import Board
from app.theme import Theme

UPPER = 0.43  # of the height, for wall and fold
LEFT = 0.482  # of the width, for the wall
GAP = 1  # the hairline between boards
SMALL_SHARE, SMALL_LEAST, SMALL_MOST = 0.17, 170, 340  # width of the small pictures


class BoardArea(QWidget):
    """Lays out three places. A guest (cut order, section) opens in one of them, and the host comes back after it.

    `filled_changed` is sent when another board fills the area, or none.
    """

    filled_changed = Signal()

    def __init__(self, boards: list[Board], theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("boards")
        self._theme = theme
        self._hosts = {board.key: board for board in boards}
        self._guests: dict[str, Board] = {}
        self._filled = ""
        theme.changed.connect(self.update)
        for board in boards:
            self._adopt(board, board.key)

    def _adopt(self, board: Board, place: str) -> None:
        board.setParent(self)
        board.installEventFilter(self)
        board.fill_asked.connect(partial(self.toggle_fill, place))

    @property
    def filled(self) -> str:
        """Key of the place that fills the area, '' for none."""
        return self._filled

    def occupant(self, place: str) -> Board:
        """The board shown at a place: its guest, else its host."""
        return self._guests.get(place, self._hosts[place])

    def place_at(self, widget: QWidget | None) -> str:
        """Key of the place a widget is in, '' for none."""
        shown = ((place, self.occupant(place)) for place in self._hosts)
        inside = (place for place, board in shown if widget is board or (widget and board.isAncestorOf(widget)))
        return next(inside, "")

    def place_under_pointer(self) -> str:
        """Key of the place under the pointer, '' for none."""
        return next((place for place in self._hosts if self.occupant(place).underMouse()), "")

    def toggle_fill(self, place: str) -> None:
        """Fill the area with this place, or, where it does already, put it back."""
        self.fill("" if self._filled == place else place)

    def fill(self, place: str) -> None:
        """Fill the area with this place; '' puts all in their places."""
        if place != self._filled:
            self._filled = place if place in self._hosts else ""
            self._lay_out()
            self.filled_changed.emit()

    def open_guest(self, place: str, guest: Board) -> None:
        """Show this board in the place of another."""
        if self._guests.get(place) is guest:
            return
        self.close_guest(place)
        if guest.parentWidget() is not self:
            self._adopt(guest, place)
        self._guests[place] = guest
        self._hosts[place].hide()
        self._lay_out()

    def close_guest(self, place: str) -> None:
        """Bring the host back to its place."""
        guest = self._guests.pop(place, None)
        if guest is not None:
            focus = QApplication.focusWidget()
            had = focus is not None and guest.isAncestorOf(focus)
            guest.hide()
            self._lay_out()
            if had:
                self._hosts[place].take_focus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    def _lay_out(self) -> None:
        for place, box in self._boxes().items():
            board = self.occupant(place)
            board.show_as(small=bool(self._filled) and place != self._filled, filling=place == self._filled)
            board.setGeometry(box)
            board.show()
            board.catch_up()
        self.update()

    def _boxes(self) -> dict[str, QRect]:
        width, height = self.width(), self.height()
        if not self._filled:
            upper, left = round(height * UPPER), round(width * LEFT)
            return {
                "wall": QRect(0, 0, left, upper),
                "fold": QRect(left + GAP, 0, width - left - GAP, upper),
                "sheet": QRect(0, upper + GAP, width, height - upper - GAP),
            }
        small = min(max(round(width * SMALL_SHARE), SMALL_LEAST), SMALL_MOST)
        boxes = {self._filled: QRect(0, 0, width - small - GAP, height)}
        others = [place for place in self._hosts if place != self._filled]
        tall = min(round(small * 0.72), height // max(1, len(others)))
        for at, place in enumerate(others):
            boxes[place] = QRect(width - small, at * (tall + GAP), small, tall)
        return boxes

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._theme.palette.hairline))
        if self._filled:
            boxes = self._boxes()
            below = max(box.bottom() for place, box in boxes.items() if place != self._filled) + 1 + GAP
            left = boxes[self._filled].right() + 1 + GAP
            painter.fillRect(
                QRect(left, below, self.width() - left, self.height() - below), QColor(self._theme.palette.paper)
            )
        painter.end()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        keys = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
        pressed = event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and event.key() in keys
        if pressed and isinstance(watched, Board) and watched.small:
            watched.fill_asked.emit()
            return True
        return super().eventFilter(watched, event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._filled:
            self.fill("")
            return
        super().keyPressEvent(event)
