"""What verbs do in a window: edits by the store, things shown on their boards, words put on the clipboard."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from app.steps.walk import step_about
from core.document.errors import ProjectError
from core.document.model import Project
from core.language import tr
from core.plan.model import Plan

if TYPE_CHECKING:
    from app.window.window import Window


class Doing:
    """The few ways in which a verb acts."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self.store = window.store

    @property
    def plan(self) -> Plan:
        """What the boards show."""
        return self.store.plan

    def edit(self, label: str, change: Callable[[Project], Project], select: str = "") -> None:
        """One step of undo; where it is not allowed the bottom line says why."""
        self.store.end_run()
        try:
            self.store.apply(label, change, select=select)
        except ProjectError as error:
            self.window.line.say("note", tr("That does not go: {error}.", error=error.why))

    def way(self, label: str, change: Callable[..., Project], **values: object) -> Callable[[], None]:
        """An edit to be made later: `change(project, **values)`."""
        return partial(self.edit, label, partial(change, **values))

    def copy(self, text: str) -> None:
        """Onto the clipboard, and say so."""
        QGuiApplication.clipboard().setText(text)
        self.window.line.say("fine", tr("Copied as text: {quoted}", quoted=text.partition("\n")[0]))

    def mean(self, about: str) -> None:
        """Select a thing, so that all boards show what is meant; shelves edited together with it stay so."""
        is_shelf = any(shelf.id == about for shelf in self.store.project.shelves)
        if is_shelf and about not in self.store.together:
            self.store.select_alone(about)
        else:
            self.store.select(about)

    # Showing

    def show(self, about: str, place: str) -> None:
        """The thing selected on wall, fold or sheet, which is brought back where something else fills the window."""
        window = self.window
        if place == "sheet":
            window.guests.toggle("sheet", False)
        self.store.select(about)
        if window.boards.filled not in ("", place):
            window.boards.fill(place)
        picture = {"wall": window.wall.picture, "fold": window.fold.picture, "sheet": window.sheet.canvas}[place]
        picture.setFocus(Qt.FocusReason.OtherFocusReason)

    def open(self, guest: str, about: str) -> None:
        """A board in the sheet's place, about a thing."""
        self.store.select(about)
        self.window.guests.toggle(guest, True)

    def show_cut(self, about: str) -> None:
        """The first cut that makes a thing, among the cut steps."""
        from app.steps.board import StepsBoard

        self.open("cut_steps", about)
        board = self.window.guests.get("cut_steps")
        assert isinstance(board, StepsBoard)
        if number := step_about(self.plan, board.steps, about, board.number):
            board.show_step(number)

    def print_pages(self, kind: str) -> None:
        """The plan set, open at the pages of one kind."""
        from app.printing.board import PagesBoard

        board = self.window.guests.get("pages")
        assert isinstance(board, PagesBoard)
        self.window.guests.toggle("pages", True)
        board.show_kind(kind)

    def search_place(self, shelf: str) -> None:
        """The figure's board, looking for a better place of this shelf's net."""
        from app.figure.board import FigureBoard

        self.open("figure", shelf)
        board = self.window.guests.get("figure")
        assert isinstance(board, FigureBoard)
        board.search()

    def rename(self, shelf: str) -> None:
        """The shelf's name, ready to be typed over."""
        self.store.select_alone(shelf)
        self.window.rule.show_name()
