"""The menus of things: what is pressed with the other button, or with the menu key, is told to the offers."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QApplication

from app.boards.board import Board
from app.boards.frame import FrameBoard
from app.boards.inset import SectionBoard, seam_shown
from app.boards.table import TableBoard
from core.plan.model import Finding

if TYPE_CHECKING:
    from app.verbs.offers import Offers
    from app.window.window import Window

Place = tuple[float, float]


class Menus:
    """Listens to everything that can be pressed; the offers are made when the first is."""

    def __init__(self, window: Window) -> None:
        self._window = window
        self._offers: Offers | None = None
        window.wall.picture.menu_asked.connect(partial(self._thing, "wall"))
        window.fold.picture.menu_asked.connect(partial(self._thing, "fold"))
        window.sheet.canvas.menu_asked.connect(partial(self._thing, "sheet"))
        window.sheet.inset.menu_asked.connect(partial(self._seam, "sheet"))
        window.rule.menu_asked.connect(partial(self._thing, "list"))
        window.line.menu_asked.connect(self._finding)

    @property
    def offers(self) -> Offers:
        """What fits."""
        if self._offers is None:
            from app.verbs.offers import Offers

            self._offers = Offers(self._window)
        return self._offers

    def listen(self, name: str, board: Board) -> None:
        """To a board that was opened in the sheet's place for the first time."""
        if isinstance(board, FrameBoard):
            board.canvas.menu_asked.connect(partial(self._thing, "frame"))
        elif isinstance(board, SectionBoard):
            board.canvas.menu_asked.connect(lambda _about, at, _place: self._seam("section", at))
        elif isinstance(board, TableBoard):
            board.menu_asked.connect(lambda about, cells, at: self.offers.row(about, cells, at))
        elif name == "cut_steps":
            from app.steps.board import StepsBoard

            assert isinstance(board, StepsBoard)
            board.menu_asked.connect(lambda about, at: self.offers.step(about, at))

    def _thing(self, here: str, about: str, at: QPoint, place: Place | None) -> None:
        self.offers.thing(here, about, at, place)

    def _seam(self, here: str, at: QPoint) -> None:
        seam = seam_shown(self._window.store)
        if seam is not None:
            self.offers.thing(here, seam.id, at)

    def _finding(self, finding: Finding, place: str, at: QPoint) -> None:
        self.offers.finding(finding, place, at)

    def open_at_focus(self) -> None:
        """For what the keyboard is on, else for the shelf that is selected."""
        focus = QApplication.focusWidget()
        if focus is not None:
            middle = focus.rect().center()
            asked = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, middle, focus.mapToGlobal(middle))
            asked.ignore()
            QApplication.sendEvent(focus, asked)
            if asked.isAccepted():
                return
        store, rule = self._window.store, self._window.rule
        if store.selected:
            self._thing("list", store.selected, rule.mapToGlobal(rule.rect().topLeft() + QPoint(40, 40)), None)
