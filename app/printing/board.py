"""The plan set in the sheet's place: page by page as it will be printed, and the ways to paper."""

from __future__ import annotations

from collections import Counter
from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.boards.board import Board
from app.paper.frame import PAPERS, Frame, Paper, usual_paper
from app.paper.page import Page
from app.paper.pdf import frame_of
from app.paper.plan_set import PLAN_SET, kinds_of
from app.printing.canvas import PageCanvas
from app.printing.printer import printer_names
from app.rule.choices import Choice
from app.slices import Slices
from app.store import Store
from app.theme import Theme
from core.language import tr
from core.packing.clock import Stop
from core.plan.model import Plan

if TYPE_CHECKING:
    from app.window.exporting import Exporting

ALL: Final = "all"
PAPER_WORDS: Final[dict[Paper, str]] = {
    "letter": tr("Letter"),
    "a4": "A4",
    "tabloid": tr("Tabloid"),
    "a3": "A3",
}
WAITING: Final = tr("waits until the hand rests")
MAKING: Final = tr("The pages are being set …")
ROW: Final = 40  # pixels


class PagesBoard(Board):
    """Leafed through by keys, wheel and buttons. `close_asked` brings the sheet back."""

    close_asked = Signal()

    def __init__(self, exporting: Exporting, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("pages", tr("Plan set"), store, theme, parent)
        self._exporting = exporting
        self._pages: list[Page] = []
        self._frame: Frame | None = None
        self._number = 1
        self._waits = False
        self._kind = ALL
        self._counts: Counter[str] = Counter()
        self._slices = Slices(self)
        self.canvas = PageCanvas(theme)
        self.canvas.turned.connect(self.go)
        self._add_tools()
        self.set_content(self._laid_out())
        exporting.making.went_on.connect(self._tell)
        exporting.making.ended.connect(self._rest)
        store.state_changed.connect(self._hand_rests)

    def _add_tools(self) -> None:
        self._backward = self.tool("back", tr("‹ Back"), tr("The page before (left, up)."), lambda: self.go(-1))
        self._forward = self.tool("next", tr("Next ›"), tr("The next page (right, down, space)."), lambda: self.go(1))
        for button in (self._backward, self._forward):
            self.add_tool(button)
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))

    def _laid_out(self) -> QWidget:
        body = QWidget(self)
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self._bar = self._make_bar(body)
        column.addWidget(self._bar)
        column.addWidget(self.canvas, 1)
        return body

    def _make_bar(self, parent: QWidget) -> QWidget:
        """Which pages, on what paper, and where to."""
        bar = QWidget(parent)
        bar.setFixedHeight(ROW)
        row = QHBoxLayout(bar)
        row.setContentsMargins(14, 4, 12, 4)
        row.setSpacing(8)
        self._kinds = self._choice("pages_kind", tr("Pages"), row, self._pick_kind)
        self._papers = self._choice("pages_paper", tr("Paper"), row, self._pick_paper)
        row.addStretch(1)
        self._progress = QLabel("", bar)
        self._progress.setObjectName("pages_progress")
        self._progress.setProperty("role", "soft")
        row.addWidget(self._progress)
        self._cancel = self._button("cancel", tr("Call it off"), tr("Nothing is written or printed."), bar)
        self._cancel.clicked.connect(self._exporting.making.cancel)
        self._printers = self._choice("pages_printer", tr("Printer"), row, lambda _name: None)
        self._print = self._button("print", tr("Print"), tr("Print these pages at 100 %."), bar)
        self._print.clicked.connect(self._do_print)
        self._save = self._button("save", tr("Save as PDF"), tr("Write these pages into a file."), bar)
        self._save.clicked.connect(self._do_save)
        for widget in (self._cancel, self._printers, self._print, self._save):
            row.addWidget(widget)
        self._cancel.hide()
        return bar

    def _choice(self, name: str, words: str, row: QHBoxLayout, pick: object) -> Choice:
        choice = Choice(name, self.theme, self)
        choice.setAccessibleName(words)
        choice.setSizeAdjustPolicy(Choice.SizeAdjustPolicy.AdjustToContents)
        choice.chosen.connect(pick)
        row.addWidget(choice)
        return choice

    def _button(self, name: str, words: str, tip: str, parent: QWidget) -> QPushButton:
        button = QPushButton(words, parent)
        button.setObjectName(f"pages_{name}")
        button.setProperty("look", "line")
        button.setToolTip(tip)
        return button

    # Which page

    @property
    def number(self) -> int:
        """The page shown, from 1."""
        return self._number

    @property
    def count(self) -> int:
        """How many pages there are."""
        return len(self._pages)

    @property
    def names(self) -> tuple[str, ...] | None:
        """The pages that are chosen, None for all."""
        return None if self._kind == ALL else (self._kind,)

    def go(self, steps: int) -> None:
        """Some pages on, or back where negative, as far as there are any."""
        self._number = min(max(self._number + steps, 1), max(1, len(self._pages)))
        self._show()

    def _show(self) -> None:
        if self._pages and self._frame is not None:
            self._number = min(self._number, len(self._pages))
            page = self._pages[self._number - 1]
            self.canvas.show_page(page, self._frame, self._number, len(self._pages))
            self.subtitle.set_words(
                tr("page {number} of {pages}: {title}", number=self._number, pages=len(self._pages), title=page.title)
            )
        self._backward.setEnabled(self._number > 1)
        self._forward.setEnabled(self._number < len(self._pages))

    def show_kind(self, kind: str) -> None:
        """Pages of this kind alone, as if picked by hand."""
        if kind != self._kind:
            self._pick_kind(kind)

    def _pick_kind(self, kind: str) -> None:
        self._kind, self._number = kind, 1
        self._set()

    def _pick_paper(self, name: str) -> None:
        self._exporting.paper = next((paper for paper in PAPERS if paper == name), None)
        self._set()

    def _paper(self) -> Paper | None:
        return self._exporting.paper

    def _offer(self) -> None:
        """The kinds of pages, each with how many there are, and the papers."""
        kinds = [
            (kind.name, tr("{kind} ({count})", kind=kind.name, count=count) if count else kind.name)
            for kind, count in ((kind, self._counts[kind.name]) for kind in PLAN_SET)
        ]
        self._kinds.offer([(ALL, tr("all pages")), *kinds], self._kind)
        usual = tr("{paper}, as the units", paper=PAPER_WORDS[usual_paper(self.store.plan.project.units)])
        self._papers.offer([("auto", usual), *PAPER_WORDS.items()], self._paper() or "auto")

    # Setting the pages

    def _set(self) -> None:
        """Other pages; the first one is shown while the rest is still being set."""
        plan = self.store.plan
        self._frame = frame_of(plan, self._paper())
        self._pages = []
        self._offer()
        self.canvas.show_words(MAKING)
        self._first(plan, self._frame, self.names)
        self._set_anew()

    def _set_anew(self) -> None:
        """The same pages of a newer plan: who reads page 40 goes on reading it until the newer ones are set."""
        plan, frame, names = self.store.plan, frame_of(self.store.plan, self._paper()), self.names
        self.subtitle.set_words(MAKING)
        self._slices.ask(lambda stop: _all_pages(plan, frame, names, stop), partial(self._be_set, frame))

    def _first(self, plan: Plan, frame: Frame, names: tuple[str, ...] | None) -> None:
        """The first page, at once."""
        for kind in kinds_of(names):
            page = next(iter(kind.make(plan, frame)), None)
            if page is not None:
                self.canvas.show_page(page, frame, 1, 1)
                return

    def _be_set(self, frame: Frame, outcome: object) -> None:
        if not isinstance(outcome, list):
            self.canvas.show_words(tr("The pages could not be set."))
            return
        self._pages, self._frame = [page for _, page in outcome], frame
        self._counts = Counter(kind for kind, _ in outcome)
        self._offer()
        if not self._pages:
            self.canvas.show_words(tr("There are no such pages in this plan."))
            self.subtitle.set_words(tr("no pages"))
        self._show()

    # To paper

    def _do_save(self) -> None:
        self._exporting.save_pages(self.names)

    def _do_print(self) -> None:
        printer = str(self._printers.currentData() or "")
        if printer:
            self._exporting.print_pages(printer, self.names)

    def _tell(self, done: int, count: int) -> None:
        self._progress.setText(tr("page {done} of {count}", done=done, count=count))
        self._busy(True)

    def _rest(self, _outcome: object) -> None:
        self._progress.setText("")
        self._busy(False)

    def _busy(self, busy: bool) -> None:
        self._cancel.setVisible(busy)
        for button in (self._save, self._print):
            button.setEnabled(not busy and (button is self._save or bool(self._printers.currentData())))

    def _offer_printers(self) -> None:
        names = printer_names()
        self._printers.offer([(name, name) for name in names] or [("", tr("no printer"))], names[0] if names else "")
        self._printers.setEnabled(bool(names))
        self._print.setToolTip(
            tr("Print these pages at 100 %.") if names else tr("No printer is set up on this computer.")
        )
        self._busy(self._exporting.making.busy)

    # Keeping up

    def refresh_plan(self) -> None:
        if self.store.held is not None:
            self._waits = True
            self.subtitle.set_words(WAITING)
            return
        self._waits = False
        if self._pages:
            self._set_anew()
        else:
            self._set()

    def _hand_rests(self) -> None:
        if self._waits and self.store.held is None and self.isVisible():
            self.refresh_plan()

    def refresh_size(self) -> None:
        self._bar.setVisible(not self.small)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not event.spontaneous():
            self._offer_printers()
            if not self.small:
                self.canvas.setFocus(Qt.FocusReason.OtherFocusReason)


def _all_pages(plan: Plan, frame: Frame, names: tuple[str, ...] | None, stop: Stop) -> list[tuple[str, Page]] | None:
    """Each page with its kind."""
    pages: list[tuple[str, Page]] = []
    for kind in kinds_of(names):
        for page in kind.make(plan, frame):
            pages.append((kind.name, page))
            if stop():
                return None
    return pages
