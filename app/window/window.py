"""The window: top bar, rule, boards and bottom line round one document."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt, QTimer
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QVBoxLayout, QWidget

from app.actions import Actions
from app.boards.area import BoardArea
from app.boards.fold import FoldBoard
from app.boards.sheet import SheetBoard
from app.boards.wall import WallBoard
from app.boards.words import calm, subject_of
from app.bottomline import BottomLine
from app.bottomline.preview import Previews
from app.layouts import Layouts
from app.rack.rack import Rack
from app.reach.hearing import listen
from app.rule import Rule
from app.rule.edits import new_project
from app.rule.sets import Sets
from app.safe.dropping import project_file
from app.safe.errors import Errors
from app.store import Store
from app.theme import Theme
from app.theme.qss import qt_palette, style_sheet
from app.topbar import TopBar
from app.window.choosing import Choosing
from app.window.exporting import Exporting
from app.window.files import Files
from app.window.guests import Guests
from app.window.language import chosen
from app.window.measuring import Measuring
from app.window.menus import Menus
from app.window.preferences import PAPERS, Preferences
from app.window.wiring import connect_actions
from core.document.errors import ProjectError
from core.document.model import Project
from core.findings.pictures import with_picture_findings
from core.language import CODE, tr
from core.plan.model import Fix

if TYPE_CHECKING:
    from app.reach.finder import Finder
    from app.reach.guide import Guide
    from app.reach.help import HelpBoard
    from app.showing.writing import Kind

LEAST = (1120, 660)
FIRST = (1366, 768)
GUIDE_MS = 600  # the window has been seen first


class Window(QWidget):
    """One document and everything that shows it."""

    def __init__(self, project: Project | None = None, preferences: Preferences | None = None) -> None:
        super().__init__()
        self.setObjectName("window")
        self.setMinimumSize(*LEAST)
        self.resize(QSize(*FIRST).boundedTo(self.screen().availableSize()))
        self.preferences = preferences or Preferences()
        self.theme = Theme(self.preferences.theme, self)
        self.store = Store(project or new_project("in" if CODE == "en" else "mm"), parent=self)
        self.actions_ = Actions(self, self.theme)
        self._leaving = self._keeping = False
        self.next_language = ""  # spoken by the window that opens when this one has closed
        self.setAcceptDrops(True)
        self._dress()
        self.line = BottomLine(self.theme, self)
        self.files = Files(self.store, self.line, self.preferences, self)
        self.files.recovery.show_differences = self._show_differences
        self.errors = Errors(self.store, self.line, self.files.keeper, self)
        self.rack = Rack(self.store, self.line, self)
        self.exporting = Exporting(self.store, self.line, self.preferences, self)
        self.exporting.keep = self.rack.keep
        self.sets = Sets(self.store)
        self.choosing = Choosing(self.store, self.line)
        self._finder: Finder | None = None
        self._help: HelpBoard | None = None
        self._guide: Guide | None = None
        self._build()
        self.measuring = Measuring(self.store, self.line, self.rule)
        self._connect_store()
        self.files.begun = self._begin_anew
        connect_actions(self)
        self._refresh_plan()
        self._refresh_state()
        self.layouts = Layouts(self.store, self)
        self.things = listen(self.store, self.wall, self.fold, self.sheet)

    def _build(self) -> None:
        self.top_bar = TopBar(self.store, self.theme, self.actions_, self)
        self.fold = FoldBoard(self.store, self.theme)  # first: its picture is drawn while the others keep up
        self.rule = Rule(self.store, self.theme, self)
        self.rule.fold(self.preferences.folded)
        self.wall = WallBoard(self.store, self.theme)
        self.sheet = SheetBoard(self.store, self.theme)
        self.boards = BoardArea([self.wall, self.fold, self.sheet], self.theme, self)
        self.previews = Previews(self.store, self.line, self.boards, self.theme)
        self.guests = Guests(self)
        self.menus = Menus(self)
        middle = QHBoxLayout()
        middle.setSpacing(0)
        middle.addWidget(self.rule)
        middle.addWidget(self.boards, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.top_bar)
        column.addLayout(middle, 1)
        column.addWidget(self.line.findings_list)
        column.addWidget(self.line.nominal_list)
        column.addWidget(self.line)
        for section in self.rule.sections:
            section.folded.connect(self._remember_folds)

    def _connect_store(self) -> None:
        self.store.plan_changed.connect(self._refresh_plan)
        self.store.changed.connect(self.line.clear_message)
        self.store.pictures.changed.connect(self._refresh_plan)
        self.store.state_changed.connect(self._refresh_state)
        self.store.failed.connect(self.errors.tell)
        self.line.fix_asked.connect(self._apply_fix)
        self.line.about_asked.connect(self._show_about)
        self.wall.add_asked.connect(self.rule.add_shelf)
        self.wall.sizes_asked.connect(self.rule.show_wall)
        self.sheet.sizes_asked.connect(self.rule.show_sheet)
        self.sheet.section_asked.connect(partial(self.guests.toggle, "section", True))
        self.sheet.steps_asked.connect(partial(self.guests.toggle, "cut_steps", True))
        self.sheet.cuts_asked.connect(partial(self.guests.toggle, "cut_order", True))
        self.sheet.parts_asked.connect(partial(self.guests.toggle, "cut_list", True))
        self.sheet.offcuts_asked.connect(partial(self.guests.toggle, "offcuts", True))
        self.fold.figure_asked.connect(partial(self.guests.toggle, "figure", True))
        self.sheet.turn_asked.connect(self.actions_["turn_net"].trigger)
        self.sheet.swap_asked.connect(self.actions_["swap_nets"].trigger)
        self.sheet.photo_asked.connect(partial(self.guests.toggle, "photo", True))
        self.rule.sheets.offcut_asked.connect(partial(self.guests.toggle, "rack", True))
        self.boards.filled_changed.connect(self._refresh_fill)
        self.theme.changed.connect(self._dress)

    # Look

    def _dress(self) -> None:
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.setPalette(qt_palette(self.theme.palette))
        self.setStyleSheet(style_sheet(self.theme.palette))

    def pick_theme(self, mode: str) -> None:
        """Light, dark or as the system."""
        self.preferences.theme = mode
        self.theme.set_mode(mode)

    def pick_paper(self, name: str) -> None:
        """The paper of the pages."""
        self.preferences.paper = next((paper for paper in PAPERS if paper == name), None)

    def pick_language(self, name: str) -> None:
        """The window opens anew; what is not saved waits beside its file."""
        self.preferences.language = "" if name == "system" else name
        wanted = chosen(self.preferences.language)
        if wanted != CODE:
            self.next_language = wanted
            self.leave_kept()

    def _remember_folds(self) -> None:
        self.preferences.folded = self.rule.folded()

    # Keeping up

    def _refresh_plan(self) -> None:
        plan = self.store.planner.plan  # a preview has its own, which is only shown
        findings = with_picture_findings(plan, self.store.pictures.troubles).findings
        said = [(finding, subject_of(plan, finding.about)) for finding in findings]
        self.line.show_findings(said, calm(plan), checked=bool(plan.project.shelves))
        self.measuring.refresh()
        self.line.show_proof(plan.proof.words if plan.proof else "")

    def _refresh_state(self) -> None:
        store, acts = self.store, self.actions_
        undo, redo = store.undo_label, store.redo_label
        acts["undo"].setEnabled(bool(undo))
        acts["undo"].setToolTip(tr("Undo: {label}", label=undo) if undo else tr("Nothing to undo"))
        acts["redo"].setEnabled(bool(redo))
        acts["redo"].setToolTip(tr("Redo: {label}", label=redo) if redo else tr("Nothing to redo"))
        has_shelf = store.shelf is not None
        acts["swap_nets"].setEnabled(len(store.project.shelves) > 1)
        for name in (
            "turn_net",
            "duplicate_shelf",
            "remove_shelf",
            "earlier_shelf",
            "later_shelf",
            "copy_shelf",
            "all_shelves",
        ):
            acts[name].setEnabled(has_shelf)
        self.setWindowTitle(tr("{it}[*] – Grainfold", it=store.project.name or tr("Project")))
        self.setWindowModified(store.unsaved)

    def _refresh_fill(self) -> None:
        for place in ("wall", "fold", "sheet"):
            self.actions_[f"fill_{place}"].setChecked(self.boards.filled == place)

    # What actions do

    def _apply_fix(self, fix: Fix) -> None:
        try:
            self.store.apply_fix(fix)
        except ProjectError as error:
            self.line.say("error", tr("That way out does not go: {error}.", error=error))

    def _show_about(self, about: str) -> None:
        stocks = {sheet.id for sheet in self.store.project.sheets}
        if about in stocks and all(shelf.id != about for shelf in self.store.project.shelves):
            self.store.choose_stock(about)
        self.store.select(about)

    def write_picture(self, kind: Kind) -> None:
        """The board that says how opens, then the question where."""
        from app.showing.board import ShowingBoard

        self.guests.toggle("showing", True)
        board = self.guests.get("showing")
        assert isinstance(board, ShowingBoard)
        board.write(kind)

    def find_action(self) -> None:
        """The list of everything there is to do."""
        if self._finder is None:
            from app.reach.finder import Finder

            self._finder = Finder(self.actions_, self.theme, self)
        self._finder.open()

    def show_help(self) -> None:
        """Help on the board that has the focus or the pointer, else on the sheet's place."""
        from app.reach.help import HelpBoard

        if self._help is None:
            self._help = HelpBoard(self.store, self.theme)
            self._help.close_asked.connect(self._close_help)
        place = self.boards.place_at(QApplication.focusWidget()) or self.boards.place_under_pointer() or "sheet"
        topic = self.boards.occupant(place)
        if topic is not self._help:
            self._help.show_topic(topic.key)
        self._close_help()
        self.boards.open_guest("fold" if place == "sheet" else "sheet", self._help)

    def _close_help(self) -> None:
        for place in ("sheet", "fold"):
            if self.boards.occupant(place) is self._help:
                self.boards.close_guest(place)
        self.guests.check()

    def _begin_anew(self) -> None:
        """A new project is there: what the guide told of is gone."""
        if self._guide is not None and self._guide.isVisible():
            self._guide.end()
        self._show_boards()
        self.wall.take_focus()

    def _show_boards(self) -> None:
        """Wall, fold and sheet, each in its place."""
        self.guests.toggle("help", False)
        self.boards.fill("")

    def begin_guide(self) -> None:
        """The first steps."""
        if self._guide is None:
            from app.reach.guide import Guide

            parts = (self.wall, self.fold, self.sheet, self.line, self.top_bar)
            self._guide = Guide(self.theme, parts, self)
            self._guide.ended.connect(self._end_guide)
        self._show_boards()
        self._guide.begin()

    def _end_guide(self) -> None:
        self.preferences.guided = True
        self.wall.take_focus()

    def copy(self) -> None:
        """The shelves edited together, as text."""
        self.line.say("fine", self.sets.copy())

    def paste(self) -> None:
        """Shelves from a text."""
        if trouble := self.sets.paste():
            self.line.say("note", trouble)

    def go_on(self) -> None:
        """Move the focus on: top bar, rule, boards, bottom line."""
        regions = (self.top_bar, self.rule, self.boards, self.line)
        now = QApplication.focusWidget()
        at = next((i for i, region in enumerate(regions) if now is not None and region.isAncestorOf(now)), -1)
        for step in range(1, len(regions) + 1):
            region = regions[(at + step) % len(regions)]
            for child in region.findChildren(QWidget):
                if child.focusPolicy() & Qt.FocusPolicy.TabFocus and child.isVisible() and child.isEnabled():
                    child.setFocus(Qt.FocusReason.TabFocusReason)
                    return

    def _show_differences(self, before: Project, called: str) -> None:
        from app.safe.history import HistoryBoard

        self.guests.toggle("history", True)
        board = self.guests.get("history")
        if isinstance(board, HistoryBoard):
            board.compare_with(before, called)

    # Files from outside

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if project_file(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path = project_file(event.mimeData())
        if path is not None:
            event.acceptProposedAction()
            self.files.open_guarded(path)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.files.watch.look()

    # Leaving

    def open_at_start(self, path: Path | None, demo: Path | None) -> None:
        """Open the file that was asked for, else a copy of the demo, else stay with the new project."""
        if path is not None and self.files.open_path(path):
            return
        if path is None and demo is not None:
            self.files.open_copy(demo)
        recovered = self.files.recovery.look_for_orphans(self.files.open_path)
        if demo is not None and path is None and not recovered and not self.preferences.guided:
            QTimer.singleShot(GUIDE_MS, self, self.begin_guide)

    def closeEvent(self, event: QCloseEvent) -> None:
        app = QApplication.instance()
        kept = self._keeping or (isinstance(app, QApplication) and app.isSavingSession())
        if self._leaving or kept or not self.store.unsaved:
            self.layouts.close()
            self.files.close(leave=kept)
            self.preferences.geometry = self.saveGeometry()
            event.accept()
            return
        event.ignore()
        self.files.guard(self._leave, tr("Leave without saving"))

    def leave_kept(self) -> None:
        """Leave without asking; what is not saved stays on the disk, for the next start."""
        self._keeping = True
        self.close()

    def _leave(self) -> None:
        self._leaving = True
        self.close()
