"""The boards that open in the sheet's place, each made when it is first asked for."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.actions import GUESTS
from app.boards.inset import SectionBoard
from app.boards.table import TableBoard
from core.drawing.cutlist import cut_list_table
from core.drawing.cutorder import cut_order_table
from core.drawing.offcuts import offcut_table
from core.language import tr

if TYPE_CHECKING:
    from app.boards.frame import FrameBoard
    from app.figure.board import FigureBoard
    from app.photo.board import PhotoBoard
    from app.printing.board import PagesBoard
    from app.rack.board import RackBoard
    from app.safe.history import HistoryBoard
    from app.showing.board import ShowingBoard
    from app.steps.board import StepsBoard
    from app.window.window import Window

    Guest = (
        TableBoard
        | SectionBoard
        | RackBoard
        | StepsBoard
        | HistoryBoard
        | PagesBoard
        | PhotoBoard
        | FigureBoard
        | FrameBoard
        | ShowingBoard
    )


class Guests:
    """Opens and shuts them, and keeps their actions checked as they are."""

    def __init__(self, window: Window) -> None:
        self._window = window
        self._made: dict[str, Guest] = {}

    def flip(self, name: str) -> None:
        """As its action is checked now."""
        self.toggle(name, self._window.actions_[name].isChecked())

    def toggle(self, name: str, is_open: bool) -> None:
        """Open the guest, or shut whichever is open."""
        boards = self._window.boards
        if is_open:
            boards.open_guest("sheet", self.get(name))
        else:
            boards.close_guest("sheet")
        for guest in GUESTS:
            self._window.actions_[guest].setChecked(is_open and guest == name)
        if name == "pages" and (boards.filled == "sheet") is not is_open:
            boards.toggle_fill("sheet")  # a page is read at a page's size

    def get(self, name: str) -> Guest:
        """The guest of this name."""
        if name not in self._made:
            made = self._make(name)
            made.close_asked.connect(partial(self.toggle, name, False))
            self._made[name] = made
            self._window.menus.listen(name, made)
        return self._made[name]

    def check(self) -> None:
        """Actions are checked as the board in the sheet's place says."""
        there = self._window.boards.occupant("sheet")
        for guest in GUESTS:
            self._window.actions_[guest].setChecked(guest in self._made and there is self._made[guest])

    def _type_piece(self) -> None:
        """An offcut nobody has kept is typed in as a sheet."""
        self.toggle("rack", False)
        self._window.rule.show_sheet(self._window.store.stock.id)

    def _make(self, name: str) -> Guest:
        window = self._window
        if name == "cut_order":
            return TableBoard("cuts", tr("Cut order"), cut_order_table, window.store, window.theme)
        if name == "cut_list":
            return TableBoard("parts", tr("Cut list"), cut_list_table, window.store, window.theme)
        if name == "cut_steps":
            from app.steps.board import StepsBoard

            return StepsBoard(window.store, window.theme)
        if name == "frame":
            from app.boards.frame import FrameBoard

            return FrameBoard(window.store, window.theme)
        if name == "history":
            from app.safe.history import HistoryBoard

            return HistoryBoard(window.store, window.theme)
        if name == "pages":
            from app.printing.board import PagesBoard

            return PagesBoard(window.exporting, window.store, window.theme)
        if name == "figure":
            from app.figure.board import FigureBoard

            figure = FigureBoard(window.store, window.theme)
            figure.measured.connect(window.fold.picture.show_matches)
            figure.turn_asked.connect(window.actions_["turn_net"].trigger)
            figure.swap_asked.connect(window.actions_["swap_nets"].trigger)
            return figure
        if name == "showing":
            from app.showing.board import ShowingBoard
            from app.showing.writing import Writing

            writing = Writing(window.store, window.line, window.exporting, window)
            return ShowingBoard(writing, window.store, window.theme)
        if name == "photo":
            from app.photo.board import PhotoBoard

            return PhotoBoard(window.store, window.theme)
        if name == "rack":
            from app.rack.board import RackBoard

            rack = RackBoard(window.rack, window.store, window.theme)
            rack.sizes_asked.connect(self._type_piece)
            return rack
        if name == "offcuts":
            board = TableBoard("offcuts", tr("Offcuts"), offcut_table, window.store, window.theme)
            keep = board.tool(
                "keep", tr("Keep these offcuts"), tr("Put them into your rack, for later jobs."), window.rack.keep
            )
            board.tools.insertWidget(0, keep)
            return board
        return SectionBoard(window.store, window.theme)
