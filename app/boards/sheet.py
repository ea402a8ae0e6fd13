"""The sheet board: what the shelves come from, with the seam's section beside it."""

from __future__ import annotations

from PySide6.QtCore import QRect, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.boards.board import Board
from app.boards.canvas import Canvas, plain
from app.boards.inset import SeamInset
from app.boards.pick import seam_box, sheet_of, thing_at
from app.boards.words import left_over
from app.store import Store
from app.theme import Theme
from core.drawing.catalog import sheet_names
from core.drawing.model import Layer
from core.drawing.sheet import draw_sheet

IN_SMALL: frozenset[Layer] = frozenset({"sheet", "panel", "ghost", "trouble"})
INSET_SHARE, INSET_LEAST, INSET_MOST = 0.23, 200, 420  # width of the section beside the sheet


class SheetBoard(Board):
    """What it comes from. The signals ask for those boards in this one's place."""

    section_asked = Signal()
    cuts_asked = Signal()
    parts_asked = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("sheet", "Sheet", store, theme, parent)
        self._sheet = ""
        body = QWidget(self)
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        self.canvas = Canvas("sheet_canvas", theme, body)
        self.canvas.setAccessibleName("Sheet drawing")
        self.canvas.finder = self._find
        self.canvas.lines = self._lines
        self.canvas.over = self.paint_small_title
        self.canvas.picked.connect(store.select)
        self.canvas.resized.connect(self._place_inset)
        column.addWidget(self.canvas)
        self.inset = SeamInset(store, theme, self.canvas)
        self.inset.open_asked.connect(self.section_asked)
        self._add_tabs()
        for name, words, tip, action in (
            ("parts", "Cut list", "Every part with its sizes, in this place.", self.parts_asked.emit),
            ("cuts", "Cut order", "Every cut in its order, in this place.", self.cuts_asked.emit),
            ("fit", "Whole sheet", "Show all of it (0).", self.canvas.fit),
        ):
            self.add_tool(self.tool(name, words, tip, action))
        self.set_content(body)

    def _add_tabs(self) -> None:
        self._before = self.tool("before", "‹", "The sheet before (Page up).", lambda: self.turn(-1))
        self._where = QLabel(self.header)
        self._where.setObjectName("sheet_where")
        self._after = self.tool("after", "›", "The next sheet (Page down).", lambda: self.turn(1))
        self._before.setAccessibleName("The sheet before")
        self._after.setAccessibleName("The next sheet")
        for widget in (self._before, self._where, self._after):
            self.add_tool(widget)

    # Which sheet

    @property
    def sheet(self) -> str:
        """Id of the sheet shown."""
        return self._sheet

    def _ids(self) -> tuple[str, ...]:
        return sheet_names(self.store.plan)

    def turn(self, steps: int) -> None:
        """Show another sheet."""
        ids = self._ids()
        at = ids.index(self._sheet) if self._sheet in ids else 0
        self._show(ids[min(max(at + steps, 0), len(ids) - 1)])

    def _show(self, sheet: str) -> None:
        plan, ids = self.store.plan, self._ids()
        self._sheet = sheet if sheet in ids else ids[0]
        drawing = draw_sheet(plan, self._sheet)
        self.canvas.show_drawing(plain(drawing, IN_SMALL) if self.small else drawing)
        self._say(ids)
        self._mark()

    def _say(self, ids: tuple[str, ...]) -> None:
        plan = self.store.plan
        rest = left_over(plan, self._sheet, self.store.unit)
        self.title.setText(f"Sheet {self._sheet}")
        used = any(sheet.id == self._sheet for sheet in plan.sheets)
        tail = rest if used else "nothing is cut from it yet"
        self.subtitle.set_words("; ".join(words for words in ("what it comes from", tail) if words))
        several = len(ids) > 1
        at = ids.index(self._sheet)
        self._where.setText(f"{at + 1} of {len(ids)}")
        for widget in (self._before, self._where, self._after):
            widget.setVisible(several)
        self._before.setEnabled(at > 0)
        self._after.setEnabled(at < len(ids) - 1)

    # What lies where

    def _find(self, x: float, y: float, reach: float) -> str:
        return thing_at(self.store.plan, self._sheet, x, y, reach)

    def _lines(self, about: str) -> tuple[tuple[float, float, float, float], ...]:
        return seam_box(self.store.plan, self._sheet, about)

    def _mark(self) -> None:
        self.canvas.mark("" if self.small else self.store.selected)
        self.inset.refresh()
        self.inset.setVisible(not self.small and self.inset.shows)

    # Keeping up

    def refresh_plan(self) -> None:
        self._show(self._sheet)

    def refresh_selection(self) -> None:
        sheet = sheet_of(self.store.plan, self.store.selected)
        if sheet and sheet != self._sheet and sheet in self._ids():
            self._show(sheet)
        else:
            self._mark()

    def refresh_size(self) -> None:
        self._place_inset()
        self._show(self._sheet)
        self.canvas.fit()

    def _place_inset(self) -> None:
        """In the lower right corner; the sheet is fitted beside it or above it, where it comes out larger."""
        room = self.canvas.rect()
        if self.small:
            self.canvas.keep_free(())
            return
        wide = min(max(round(room.width() * INSET_SHARE), INSET_LEAST), INSET_MOST)
        tall = min(round(wide * 0.7), room.height() - 24)
        self.inset.setGeometry(QRect(room.width() - wide - 16, max(0, room.height() - tall - 16), wide, tall))
        self.canvas.keep_free(((wide + 20.0, 0.0), (0.0, tall + 20.0)))
