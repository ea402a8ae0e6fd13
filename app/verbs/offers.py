"""Which verbs fit a thing: chosen by its id, and opened as a menu at the pointer or at the thing itself."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QMenu

from app.rule.area_edits import place_of
from app.steps.board import StepsBoard
from app.theme.icons import icon
from app.verbs.doing import Doing
from app.verbs.parts import part_verbs
from app.verbs.shelves import panel_verbs, seam_verbs, shelf_verbs
from app.verbs.told import finding_verbs, row_verbs, step_verbs
from app.verbs.verb import Groups, Verb
from app.verbs.walls import bare_verbs, keep_out_verbs, stud_verbs
from app.verbs.wood import area_verbs, offcut_verbs, sheet_verbs
from core.drawing.names import find_sheet
from core.plan.model import Finding

if TYPE_CHECKING:
    from app.window.window import Window


class Offers:
    """Answers what is asked for a menu: on the boards, in the list of shelves, on findings and tables."""

    def __init__(self, window: Window) -> None:
        self._window = window
        self._doing = Doing(window)
        self.menu: QMenu | None = None  # the one that was opened last

    # What fits

    def verbs(self, about: str, here: str, place: tuple[float, float] | None = None) -> Groups:
        """For the thing with this id, '' for bare ground. place: where on the board, if by the pointer. [mm]"""
        doing, plan, project = self._doing, self._doing.plan, self._doing.store.project
        if here == "wall" and (found := self._on_wall(about, place)) is not None:
            return found
        if (area := place_of(project, about)) is not None:
            return area_verbs(doing, area)
        for offcut in plan.offcuts:
            if offcut.piece == about:
                return offcut_verbs(doing, offcut)
        shelf = next((one for one in project.shelves if one.id == about.partition("/")[0]), None)
        if shelf is None:
            return self._ground(place) if here == "sheet" else ()
        for seam in plan.seams:
            if seam.id == about:
                return seam_verbs(doing, shelf, seam, here)
        for panel in plan.panels:
            if panel.id == about:
                return panel_verbs(doing, shelf, panel, here)
        for frame in plan.frames:
            for part in frame.parts:
                if part.id == about:
                    return part_verbs(doing, frame, part, here)
        return shelf_verbs(doing, shelf, here)

    def _on_wall(self, about: str, place: tuple[float, float] | None) -> Groups | None:
        """For what is of the wall itself; None for a shelf."""
        kind, _, which = about.partition(" ")
        if kind == "hidden" and place is not None:
            return keep_out_verbs(self._doing, int(which))
        if kind == "stud" and place is not None:
            return stud_verbs(self._doing, float(which), place)
        return bare_verbs(self._doing, place) if not about and place is not None else None

    def _ground(self, place: tuple[float, float] | None) -> Groups:
        """For bare ground of the sheet that is shown."""
        project, shown = self._doing.store.project, find_sheet(self._doing.plan, self._window.sheet.sheet)
        at = next((n for n, stock in enumerate(project.sheets) if stock.id == shown.stock), -1)
        on = place is not None and 0.0 <= place[0] <= shown.length and 0.0 <= place[1] <= shown.width
        can = on and self._window.sheet.areas.is_first(shown)
        return sheet_verbs(self._doing, shown.stock, at if can else -1, place)

    # The menu

    def open(self, groups: Groups, at: QPoint) -> None:
        """Offer these at a place of the screen."""
        groups = [group for group in groups if group]
        if not groups:
            return
        menu = QMenu(self._window)
        menu.setObjectName("thing_menu")
        for number, group in enumerate(groups):
            if number:
                menu.addSeparator()
            for verb in group:
                self._add(menu, verb)
        if self.menu is not None:
            self.menu.deleteLater()
        self.menu = menu
        menu.popup(at)

    def _add(self, menu: QMenu, verb: Verb) -> None:
        action = menu.addAction(icon(verb.name, self._window.theme), verb.words.replace("&", "&&"))
        action.setObjectName(f"verb_{verb.name}")
        action.setEnabled(verb.can)
        if verb.checked is not None:
            action.setCheckable(True)
            action.setChecked(verb.checked)
        action.triggered.connect(partial(_call, verb))

    # What asks

    def thing(self, here: str, about: str, at: QPoint, place: tuple[float, float] | None = None) -> None:
        """A thing on a board was pressed; it is selected, so that all boards show what is meant."""
        if about and not (here == "wall" and about.partition(" ")[0] in ("hidden", "stud")):
            self._doing.mean(about)
        self.open(self.verbs(about, here, place), at)

    def step(self, about: str, at: QPoint) -> None:
        """The bench at a cut step was pressed."""
        board = self._window.guests.get("cut_steps")
        assert isinstance(board, StepsBoard)
        said = board.said()
        own = [step_verbs(self._doing, said)] if said is not None else []
        thing = [list(group) for group in self.verbs(about, "steps")[:1]] if about else []
        self.open([*own, *thing], at)

    def finding(self, finding: Finding, place: str, at: QPoint) -> None:
        """A finding was pressed."""
        self.open(finding_verbs(self._doing, finding, place), at)

    def row(self, about: str, cells: tuple[str, ...], at: QPoint) -> None:
        """A row of a table was pressed."""
        self.open(row_verbs(self._doing, about, cells), at)


def _call(verb: Verb, *_sent: object) -> None:
    verb.do()
