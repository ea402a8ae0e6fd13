"""The window: top bar, rule, boards and bottom line round one document."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QAction, QActionGroup, QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QVBoxLayout, QWidget

from app.actions import Actions
from app.boards.area import BoardArea
from app.boards.fold import FoldBoard
from app.boards.inset import SectionBoard
from app.boards.sheet import SheetBoard
from app.boards.table import TableBoard
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
from app.rule.several import STARTERS
from app.safe.dropping import project_file, shortened
from app.safe.errors import Errors
from app.store import Store
from app.theme import Theme
from app.theme.qss import qt_palette, style_sheet
from app.topbar import TopBar
from app.window.exporting import WORDS as FORMS
from app.window.exporting import Exporting
from app.window.files import Files
from app.window.language import chosen
from app.window.preferences import PAPERS, Preferences
from core import LANGUAGES
from core.document.errors import ProjectError
from core.document.model import Project
from core.drawing.cutlist import cut_list_table
from core.drawing.cutorder import cut_order_table
from core.drawing.offcuts import offcut_table
from core.findings.pictures import with_picture_findings
from core.language import CODE, tr
from core.plan.model import Fix

if TYPE_CHECKING:
    from app.boards.frame import FrameBoard
    from app.figure.board import FigureBoard
    from app.photo.board import PhotoBoard
    from app.printing.board import PagesBoard
    from app.rack.board import RackBoard
    from app.reach.finder import Finder
    from app.reach.guide import Guide
    from app.reach.help import HelpBoard
    from app.safe.history import HistoryBoard
    from app.showing.board import ShowingBoard
    from app.showing.writing import Kind
    from app.steps.board import StepsBoard

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

LEAST = (1120, 660)
FIRST = (1366, 768)
GUIDE_MS = 600  # the window has been seen first
GUESTS = (
    "cut_steps",
    "cut_order",
    "cut_list",
    "section",
    "frame",
    "figure",
    "showing",
    "photo",
    "offcuts",
    "rack",
    "history",
    "pages",
)  # what opens in the sheet's place
PICTURES: Final[tuple[Kind, ...]] = ("picture", "turntable", "model")


class Window(QWidget):
    """One document and everything that shows it."""

    def __init__(self, project: Project | None = None, preferences: Preferences | None = None) -> None:
        super().__init__()
        self.setObjectName("window")
        self.setMinimumSize(*LEAST)
        self.resize(*FIRST)
        self.preferences = preferences or Preferences()
        self.theme = Theme(self.preferences.theme, self)
        self.store = Store(project or new_project("in"), parent=self)
        self.actions_ = Actions(self)
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
        self._finder: Finder | None = None
        self._help: HelpBoard | None = None
        self._guide: Guide | None = None
        self._build()
        self._connect_store()
        self._connect_actions()
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
        self._guests: dict[str, Guest] = {}
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
        self.sheet.section_asked.connect(partial(self._toggle_guest, "section", True))
        self.sheet.steps_asked.connect(partial(self._toggle_guest, "cut_steps", True))
        self.sheet.cuts_asked.connect(partial(self._toggle_guest, "cut_order", True))
        self.sheet.parts_asked.connect(partial(self._toggle_guest, "cut_list", True))
        self.sheet.offcuts_asked.connect(partial(self._toggle_guest, "offcuts", True))
        self.fold.figure_asked.connect(partial(self._toggle_guest, "figure", True))
        self.sheet.photo_asked.connect(partial(self._toggle_guest, "photo", True))
        self.rule.sheets.offcut_asked.connect(partial(self._toggle_guest, "rack", True))
        self.boards.filled_changed.connect(self._refresh_fill)
        self.theme.changed.connect(self._dress)

    def _connect_actions(self) -> None:
        acts = self.actions_
        plain: dict[str, Callable[[], object]] = {
            "new": self.files.new,
            "open": self.files.open,
            "save": self.files.save,
            "save_as": self.files.save_as,
            "undo": self.store.undo,
            "redo": self.store.redo,
            "add_shelf": self.rule.add_shelf,
            "duplicate_shelf": self.sets.duplicate,
            "remove_shelf": self.sets.remove,
            "earlier_shelf": partial(self.sets.move, -1),
            "later_shelf": partial(self.sets.move, 1),
            "all_shelves": self.sets.take_all,
            "copy_shelf": self._copy,
            "paste_shelf": self._paste,
            "keep_offcuts": self.rack.keep,
            "findings": self.line.toggle_list,
            "find": self._find,
            "help": self.show_help,
            "guide": self._begin_guide,
            "next_region": self._next_region,
            "quit": self.close,
        }
        plain |= {f"start_{name.replace(' ', '_')}": partial(self.rule.start_from, name) for name, *_ in STARTERS}
        plain |= {f"export_{form}": partial(self.exporting.export, form) for form in FORMS}
        plain |= {f"export_{kind}": partial(self._write_picture, kind) for kind in PICTURES}
        plain |= {f"fill_{place}": partial(self.boards.toggle_fill, place) for place in ("wall", "fold", "sheet")}
        for name, action in plain.items():
            acts[name].triggered.connect(partial(_call, action))
        for guest in GUESTS:
            acts[guest].triggered.connect(partial(self._flip_guest, guest))
        self._group("theme_", ("system", "light", "dark"), self.theme.mode, self._pick_theme)
        self._group("paper_", ("auto", *PAPERS), self.preferences.paper or "auto", self._pick_paper)

        self._group("language_", ("system", *LANGUAGES), self.preferences.language or "system", self._pick_language)
        self.top_bar.recent_menu.aboutToShow.connect(self._fill_recent)

    def _fill_recent(self) -> None:
        menu = self.top_bar.recent_menu
        menu.clear()
        for path in self.preferences.recent:
            action = menu.addAction(f"{path.stem}    {shortened(path.parent)}".replace("&", "&&"))
            action.setToolTip(str(path))
            action.triggered.connect(partial(_call, partial(self.files.open_guarded, path)))
        if menu.isEmpty():
            menu.addAction(tr("No project opened yet")).setEnabled(False)

    def _group(self, prefix: str, names: tuple[str, ...], chosen: str, pick: Callable[[str], None]) -> None:
        group = QActionGroup(self)
        for name in names:
            action: QAction = self.actions_[prefix + name]
            group.addAction(action)
            action.setChecked(name == chosen)
            action.triggered.connect(partial(_call, partial(pick, name)))

    # Look

    def _dress(self) -> None:
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.setPalette(qt_palette(self.theme.palette))
        self.setStyleSheet(style_sheet(self.theme.palette))

    def _pick_theme(self, mode: str) -> None:
        self.preferences.theme = mode
        self.theme.set_mode(mode)

    def _pick_paper(self, name: str) -> None:
        self.preferences.paper = next((paper for paper in PAPERS if paper == name), None)

    def _pick_language(self, name: str) -> None:
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
        self.line.show_proof(plan.proof.words if plan.proof else "")

    def _refresh_state(self) -> None:
        store, acts = self.store, self.actions_
        undo, redo = store.undo_label, store.redo_label
        acts["undo"].setEnabled(bool(undo))
        acts["undo"].setToolTip(tr("Undo: {label}", label=undo) if undo else tr("Nothing to undo"))
        acts["redo"].setEnabled(bool(redo))
        acts["redo"].setToolTip(tr("Redo: {label}", label=redo) if redo else tr("Nothing to redo"))
        has_shelf = store.shelf is not None
        for name in ("duplicate_shelf", "remove_shelf", "earlier_shelf", "later_shelf", "copy_shelf", "all_shelves"):
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

    def _flip_guest(self, name: str) -> None:
        self._toggle_guest(name, self.actions_[name].isChecked())

    def _toggle_guest(self, name: str, is_open: bool) -> None:
        if not is_open:
            self.boards.close_guest("sheet")
        else:
            self.boards.open_guest("sheet", self._guest(name))
        for guest in GUESTS:
            self.actions_[guest].setChecked(is_open and guest == name)
        if name == "pages" and (self.boards.filled == "sheet") is not is_open:
            self.boards.toggle_fill("sheet")  # a page is read at a page's size

    def _guest(self, name: str) -> Guest:
        if name not in self._guests:
            made = self._make_guest(name)
            made.close_asked.connect(partial(self._toggle_guest, name, False))
            self._guests[name] = made
        return self._guests[name]

    def _make_guest(self, name: str) -> Guest:
        if name == "cut_order":
            return TableBoard("cuts", tr("Cut order"), cut_order_table, self.store, self.theme)
        if name == "cut_list":
            return TableBoard("parts", tr("Cut list"), cut_list_table, self.store, self.theme)
        if name == "cut_steps":
            from app.steps.board import StepsBoard

            return StepsBoard(self.store, self.theme)
        if name == "frame":
            from app.boards.frame import FrameBoard

            return FrameBoard(self.store, self.theme)
        if name == "history":
            from app.safe.history import HistoryBoard

            return HistoryBoard(self.store, self.theme)
        if name == "pages":
            from app.printing.board import PagesBoard

            return PagesBoard(self.exporting, self.store, self.theme)
        if name == "figure":
            from app.figure.board import FigureBoard

            figure = FigureBoard(self.store, self.theme)
            figure.measured.connect(self.fold.picture.show_matches)
            return figure
        if name == "showing":
            from app.showing.board import ShowingBoard
            from app.showing.writing import Writing

            writing = Writing(self.store, self.line, self.exporting, self)
            return ShowingBoard(writing, self.store, self.theme)
        if name == "photo":
            from app.photo.board import PhotoBoard

            return PhotoBoard(self.store, self.theme)
        if name == "rack":
            from app.rack.board import RackBoard

            return RackBoard(self.rack, self.store, self.theme)
        if name == "offcuts":
            board = TableBoard("offcuts", tr("Offcuts"), offcut_table, self.store, self.theme)
            keep = board.tool(
                "keep", tr("Keep these offcuts"), tr("Put them into your rack, for later jobs."), self.rack.keep
            )
            board.tools.insertWidget(0, keep)
            return board
        return SectionBoard(self.store, self.theme)

    def _write_picture(self, kind: Kind) -> None:
        """The board that says how opens, then the question where."""
        from app.showing.board import ShowingBoard

        self._toggle_guest("showing", True)
        board = self._guest("showing")
        assert isinstance(board, ShowingBoard)
        board.write(kind)

    def _find(self) -> None:
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
        for guest in GUESTS:
            self.actions_[guest].setChecked(self.boards.occupant("sheet") is self._guests.get(guest))

    def _begin_guide(self) -> None:
        if self._guide is None:
            from app.reach.guide import Guide

            parts = (self.wall, self.fold, self.sheet, self.line, self.top_bar)
            self._guide = Guide(self.theme, parts, self)
            self._guide.ended.connect(self._end_guide)
        self._toggle_guest("help", False)
        self.boards.fill("")
        self._guide.begin()

    def _end_guide(self) -> None:
        self.preferences.guided = True

    def _copy(self) -> None:
        self.line.say("fine", self.sets.copy())

    def _paste(self) -> None:
        if trouble := self.sets.paste():
            self.line.say("note", trouble)

    def _next_region(self) -> None:
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

        self._toggle_guest("history", True)
        board = self._guest("history")
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
            QTimer.singleShot(GUIDE_MS, self, self._begin_guide)

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


def _call(action: Callable[[], object], *_sent: object) -> None:
    """Call an action, whatever the signal sends along."""
    action()
