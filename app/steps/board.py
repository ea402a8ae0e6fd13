"""The cut steps in the sheet's place: the bench at each cut, the cut's section, and what to do in plain words."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPoint, QRect, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QPainter, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QListWidget, QPushButton, QWidget

from app.boards.board import Board
from app.boards.canvas import plain
from app.boards.pick import boxes_of, thing_at
from app.steps.canvas import FAR, StepCanvas
from app.steps.said import Setup, said_of, setups
from app.steps.section import CutSection
from app.steps.walk import Mark, follow, marks_of, step_about
from app.steps.words import Said, StepWords
from app.store import Store
from app.theme import Theme
from core.drawing.cutsection import draw_cut_section
from core.drawing.cutstep import draw_step, draw_where, lay_out
from core.language import tr, within
from core.steps.lying import Bench, day_of
from core.steps.model import Step

Box = tuple[float, float, float, float]
LIST_WIDE: Final = 182  # pixels
LIST_TALL: Final = 430  # a lower board has no room for the list
WORDS_SHARE, WORDS_LEAST, WORDS_MOST = 0.345, 290, 420
WIDE: Final = 1.75  # the section stands beside the bench where both together are wider than this
EMPTY: Final = tr("nothing to cut yet")
WAITING: Final = tr("waits until the hand rests")


class StepsBody(QWidget):
    """Lays out list, bench, section and words for the room there is."""

    def __init__(self, canvas: QWidget, section: QWidget, words: QWidget, listed: QWidget, parent: QWidget) -> None:
        super().__init__(parent)
        self.canvas, self.section, self.words, self.listed = canvas, section, words, listed
        self.small = False
        for widget in (listed, canvas, section, words):
            widget.setParent(self)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.lay_out()

    def lay_out(self) -> None:
        """Put everything in its place; small, the bench is all there is."""
        wide, tall = self.width(), self.height()
        for widget in (self.listed, self.section, self.words):
            widget.setVisible(not self.small)
        if self.small:
            self.canvas.setGeometry(0, 0, wide, tall)
            return
        listed = LIST_WIDE if tall >= LIST_TALL else 0
        self.listed.setVisible(bool(listed))
        self.listed.setGeometry(0, 0, listed, tall)
        words = min(max(round(wide * WORDS_SHARE), WORDS_LEAST), WORDS_MOST)
        self.words.setGeometry(wide - words, 0, words, tall)
        middle = wide - listed - words
        if middle > WIDE * tall:
            beside = round(min(middle * 0.45, tall * 1.1))
            self.canvas.setGeometry(listed, 0, middle - beside, tall)
            self.section.setGeometry(listed + middle - beside, 0, beside, tall)
        else:
            below = round(tall * 0.4)
            self.canvas.setGeometry(listed, 0, middle, tall - below)
            self.section.setGeometry(QRect(listed, tall - below, middle, below))


class StepsBoard(Board):
    """Stepped by keys and buttons. `close_asked` brings the sheet back.

    `menu_asked` carries what lies on the bench where a menu is wanted, '' for the step itself, and where on the screen.
    """

    close_asked = Signal()
    menu_asked = Signal(str, QPoint)

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("steps", tr("Cut steps"), store, theme, parent)
        self._number = 0
        self._mark: Mark | None = None
        self._selected = ""  # what was selected when it was last looked at
        self._waits = False
        self._setups: tuple[Setup, ...] = ()
        self.canvas = StepCanvas(store, theme)
        self.canvas.finder = self._find
        self.canvas.lines = self._lines
        self.canvas.over = self._paint_over
        self.canvas.picked.connect(self._pick)
        self.canvas.stepped.connect(self.go)
        self.canvas.menu_asked.connect(lambda about, at, _place: self.menu_asked.emit(about, at))
        self.section = CutSection(theme)
        self.words = StepWords(theme)
        self.setup_list = QListWidget()
        self.setup_list.setObjectName("steps_setups")
        self.setup_list.setAccessibleName(tr("Set-ups"))
        self.setup_list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setup_list.currentRowChanged.connect(self._jump)
        self._body = StepsBody(self.canvas, self.section, self.words, self.setup_list, self)
        self._add_tools()
        self.set_content(self._body)
        store.state_changed.connect(self._hand_rests)

    def _add_tools(self) -> None:
        made: list[QPushButton] = []
        for name, word, said, tip, steps in (
            ("first", "«", tr("The first cut"), tr("The first cut (Home)."), -FAR),
            ("back", tr("‹ Back"), tr("The cut before"), tr("The cut before (left, up, Shift and space)."), -1),
            ("next", tr("Next ›"), tr("The next cut"), tr("The next cut (right, down, space)."), 1),
            ("last", "»", tr("The last cut"), tr("The last cut (End)."), FAR),
        ):
            button = self.tool(name, word, tip, lambda _checked=False, n=steps: self.go(n))
            button.setAccessibleName(said)
            button.setMinimumWidth(24)  # to be hit
            self.add_tool(button)
            made.append(button)
        self._backward, self._forward = made[:2], made[2:]
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))

    # Which step

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps of the plan."""
        return tuple(bench.step for bench in day_of(self.store.plan).benches)

    @property
    def number(self) -> int:
        """The step shown, from 1; 0 for none."""
        return self._number

    def go(self, steps: int) -> None:
        """Some steps on, or back where negative, as far as there are any."""
        self.show_step(self._number + steps)

    def show_step(self, number: int) -> None:
        """Show a step."""
        if self._waits:
            return
        steps = self.steps
        number = min(max(number, 1), len(steps))
        self._number = number
        self._mark = marks_of(steps)[number - 1] if number else None
        self._show()

    def said(self) -> Said | None:
        """What is said of the step shown; None where there is none."""
        return said_of(self.store.plan, self.steps, self._number) if self._number and not self._waits else None

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if not self.small:
            self.menu_asked.emit("", event.globalPos())

    def _show(self) -> None:
        plan, steps = self.store.plan, self.steps
        if not steps:
            self.canvas.show_where(None)
            self.canvas.show_drawing(None)
            self.section.show_drawing(None)
            self.subtitle.set_words(EMPTY)
        else:
            drawing = draw_step(plan, self._number)
            self.canvas.show_where(None if self.small else draw_where(plan, self._number))
            self.canvas.show_drawing(plain(drawing) if self.small else drawing)
            if not self.small:
                self.section.show_drawing(draw_cut_section(plan, self._number))
                said = said_of(plan, steps, self._number)
                self.words.show_words(said)
                self.subtitle.set_words(f"{said.where}, {within(said.setup)}")
                self.canvas.setAccessibleDescription(f"{said.title}. {said.number} {said.number_is}")
        self.words.setVisible(bool(steps) and not self.small)
        self._show_setups(steps)
        for button in self._backward:
            button.setEnabled(self._number > 1)
        for button in self._forward:
            button.setEnabled(self._number < len(steps))
        self.canvas.mark("" if self.small else self.store.selected)
        self.canvas.update()

    def _show_setups(self, steps: tuple[Step, ...]) -> None:
        found = setups(steps)
        with QSignalBlocker(self.setup_list):
            if found != self._setups:
                self._setups = found
                self.setup_list.clear()
                self.setup_list.addItems([setup.words for setup in found])
            if steps:
                self.setup_list.setCurrentRow(steps[self._number - 1].setup - 1)

    def _jump(self, row: int) -> None:
        if 0 <= row < len(self._setups):
            self.show_step(self._setups[row].first)

    # One selection

    def _bench(self) -> Bench | None:
        benches = day_of(self.store.plan).benches
        return benches[self._number - 1] if 0 < self._number <= len(benches) else None

    def _find(self, x: float, y: float, reach: float) -> str:
        """What lies at a place of the bench: by the plan's own places, whatever piece it is still part of."""
        bench = None if self._waits else self._bench()
        if bench is None:
            return ""
        for one in reversed(lay_out(self.store.plan, self._number)):
            x0, y0, x1, y1 = one.box
            if x0 <= x <= x1 and y0 <= y <= y1:
                place = bench.turn.place(x - one.aside[0], y - one.aside[1])
                return thing_at(self.store.plan, bench.step.sheet, *place)
        return ""

    def _lines(self, about: str) -> tuple[Box, ...]:
        """Where a thing lies on the bench."""
        bench = None if self._waits else self._bench()
        if bench is None or self.small or "/" not in about:
            return ()  # a whole shelf's outline would say nothing of this cut
        found = []
        laid = lay_out(self.store.plan, self._number)
        for box in boxes_of(self.store.plan, bench.step.sheet, about):
            seen = bench.turn.box(box)
            middle = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
            for one in laid:
                x0, y0, x1, y1 = one.piece.show_box()
                if x0 <= middle[0] <= x1 and y0 <= middle[1] <= y1:
                    dx, dy = one.aside
                    moved = (seen[0] + dx, seen[1] + dy, seen[2] + dx, seen[3] + dy)
                    a, b, c, d = one.box
                    cut = (max(moved[0], a), max(moved[1], b), min(moved[2], c), min(moved[3], d))
                    if cut[0] < cut[2] and cut[1] < cut[3]:
                        found.append(cut)
        return tuple(found)

    def _pick(self, about: str) -> None:
        """Selected here, the step stays."""
        if about:
            self._selected = about
            self.store.select(about)

    def refresh_selection(self) -> None:
        about = self.store.selected
        if about != self._selected:
            self._selected = about
            number = step_about(self.store.plan, self.steps, about, self._number) if not self._waits else 0
            if number and number != self._number:
                self.show_step(number)
                return
        self.canvas.mark("" if self.small else about)

    # Keeping up

    def refresh_plan(self) -> None:
        if self.store.held is not None:  # steps are not worth a dragging hand's time
            self._waits = True
            self.subtitle.set_words(WAITING)
            return
        self._waits = False
        steps = self.steps
        self._number = follow(self._mark, self._number, steps)
        if self.store.selected != self._selected:
            self._selected = self.store.selected
            self._number = step_about(self.store.plan, steps, self._selected, self._number) or self._number
        self._mark = marks_of(steps)[self._number - 1] if self._number else None
        self._show()

    def _hand_rests(self) -> None:
        if self._waits and self.store.held is None and self.isVisible():
            self.refresh_plan()

    def refresh_size(self) -> None:
        self._body.small = self.small
        self._body.lay_out()
        if not self._waits and self.steps and not 0 < self._number <= len(self.steps):
            self.refresh_plan()  # it was hidden while the cuts became others
        elif not self._waits:
            self._show()
        self.canvas.fit()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not event.spontaneous() and not self.small:
            self.canvas.setFocus(Qt.FocusReason.OtherFocusReason)

    def _paint_over(self, painter: QPainter) -> None:
        if self.small:
            self.paint_small_title(painter)
        else:
            self.canvas.paint_where(painter)
