"""The sheet board: what the shelves come from, with the seam's section beside it."""

from __future__ import annotations

from PySide6.QtCore import QRect, QRectF, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.boards.areas import Areas
from app.boards.board import Board
from app.boards.canvas import SEAM_REACH, Canvas, plain
from app.boards.face import BoardFace
from app.boards.inset import SeamInset
from app.boards.pick import seam_box, sheet_of, thing_at
from app.boards.words import SWAP, TURN, left_over
from app.hand.grip import Grip, Handle
from app.hand.net import NetGrip, lying_on, net_handles
from app.store import Store
from app.theme import Theme
from core.drawing.catalog import sheet_names
from core.drawing.model import Layer
from core.drawing.names import find_sheet
from core.drawing.sheet import draw_sheet
from core.language import tr
from core.plan.model import Plan

IN_SMALL: frozenset[Layer] = frozenset({"sheet", "panel", "ghost", "trouble", "clear"})
INSET_SHARE, INSET_LEAST, INSET_MOST = 0.23, 200, 420  # width of the section beside the sheet

OVER_WORDS = 130.0  # px: the words beside a net that is too long


class SheetBoard(Board):
    """What it comes from. The signals ask for those boards in this one's place, `sizes_asked` for a sheet's numbers."""

    section_asked = Signal()
    steps_asked = Signal()
    cuts_asked = Signal()
    parts_asked = Signal()
    offcuts_asked = Signal()
    photo_asked = Signal()
    turn_asked = Signal()
    swap_asked = Signal()
    sizes_asked = Signal(str)  # of this kind of sheet

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("sheet", tr("Sheet"), store, theme, parent)
        self._sheet = ""
        self._had_selected = False
        self._unit = store.unit
        self._made: tuple[tuple[Plan, str, str, str], tuple[Handle, ...]] | None = None
        body = QWidget(self)
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        self.canvas = Canvas("sheet_canvas", store, theme, body)
        self.canvas.setAccessibleName(tr("Sheet drawing"))
        self.canvas.hand.reach.handles = self._handles
        self.canvas.hand.grip_at = self._grip_at
        self.canvas.hand.steady = self._steady
        self.canvas.hand.keep_off = self._keep_off
        self.canvas.hand.ended.connect(self.refresh_selection)
        self.canvas.finder = self._find
        self.canvas.lines = self._lines
        self.canvas.over = self.paint_small_title
        self.canvas.picked.connect(self._pick)
        self.canvas.resized.connect(self._place_inset)
        column.addWidget(self.canvas)
        self.inset = SeamInset(store, theme, self.canvas)
        self.inset.open_asked.connect(self.section_asked)
        self._face = BoardFace(store, theme, self)
        self._face.changed.connect(lambda: self.canvas.lay(self._face.face))
        store.pictures.changed.connect(self._show_face)
        self._add_tabs()
        tip = tr("Draw an area that nets, show faces or fronts keep out of: a leaf joint, sapwood, a patch, a bruise.")
        tool = self.tool("clear", tr("Keep clear"), tip, lambda: self.canvas.setFocus())
        self.areas = Areas(self, store, self.canvas, tool)
        self.add_tool(self.areas.tool)
        for name, words, tip, action in (
            (*TURN, self.turn_asked.emit),
            (*SWAP, self.swap_asked.emit),
            ("parts", tr("Cut list"), tr("Every part with its sizes, in this place."), self.parts_asked.emit),
            (
                "steps",
                tr("Cut steps"),
                tr("Step through the cuts as they are made, in this place."),
                self.steps_asked.emit,
            ),
            ("cuts", tr("Cut order"), tr("Every cut in its order, in this place."), self.cuts_asked.emit),
            (
                "offcuts",
                tr("Offcuts"),
                tr("What is left and what it is good for, in this place."),
                self.offcuts_asked.emit,
            ),
            ("photo", tr("Photograph"), tr("Put the sheet's own face on it, from a picture."), self.photo_asked.emit),
            ("fit", tr("Whole sheet"), tr("Show all of it (0)."), self.canvas.fit),
        ):
            self.add_tool(self.tool(name, words, tip, action))
        self.set_content(body)
        self.lower()  # painted first: the fold board's picture is being drawn meanwhile

    def _add_tabs(self) -> None:
        self._before = self.tool("before", "‹", tr("The sheet before (Page up)."), lambda: self.turn(-1))
        self._where = QLabel(self.header)
        self._where.setObjectName("sheet_where")
        self._after = self.tool("after", "›", tr("The next sheet (Page down)."), lambda: self.turn(1))
        self._before.setAccessibleName(tr("The sheet before"))
        self._after.setAccessibleName(tr("The next sheet"))
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
        self._sheet = next(name for name in (sheet, self._home(), ids[0]) if name in ids)
        drawing = draw_sheet(plan, self._sheet)
        self.canvas.show_drawing(plain(drawing, IN_SMALL) if self.small else drawing)
        self._say(ids)
        self._mark()
        self._show_face()

    def _show_face(self) -> None:
        self._face.show(find_sheet(self.store.plan, self._sheet) if self._sheet else None)

    def _say(self, ids: tuple[str, ...]) -> None:
        plan = self.store.plan
        rest = left_over(plan, self._sheet, self.store.unit)
        self.title.setText(tr("Sheet {sheet}", sheet=self._sheet))
        used = any(sheet.id == self._sheet for sheet in plan.sheets)
        tail = rest if used else tr("nothing is cut from it yet")
        self.subtitle.set_words("; ".join(words for words in (tr("what it comes from"), tail) if words), tail)
        several = len(ids) > 1
        at = ids.index(self._sheet)
        self._where.setText(tr("{at} of {ids}", at=at + 1, ids=len(ids)))
        for widget in (self._before, self._where, self._after):
            widget.setVisible(several)
        self._before.setEnabled(at > 0)
        self._after.setEnabled(at < len(ids) - 1)

    # What lies where

    def _find(self, x: float, y: float, reach: float) -> str:
        about = self.areas.name_at(x, y, reach) or thing_at(self.store.plan, self._sheet, x, y, reach)
        return about if about.partition("/")[2] else self.areas.name_at(x, y, reach, among=False) or about

    def _lines(self, about: str) -> tuple[tuple[float, float, float, float], ...]:
        return seam_box(self.store.plan, self._sheet, about) or self.areas.box(about)

    def _pick(self, about: str) -> None:
        """Select what was clicked. A sheet that nothing is cut from yet has nothing but its sizes."""
        self.store.select(about)
        if not about and not any(panel.sheet == self._sheet for panel in self.store.plan.panels):
            self.sizes_asked.emit(find_sheet(self.store.plan, self._sheet).stock)

    # What the hand takes hold of

    def _handles(self) -> tuple[Handle, ...]:
        """On the edges of the selected shelf's panels, and of the one under the pointer."""
        if self.small:
            return ()
        held = self.canvas.hand.grip
        if of_area := self.areas.handles(self.canvas.pixel()):
            return of_area
        if isinstance(held, Handle):
            return net_handles(self.store.plan, self._sheet, held.about, held.key)
        chosen, hover = self.store.selected.partition("/")[0], self.canvas.hover.partition("/")[0]
        key = (self.store.plan, self._sheet, chosen, hover)
        if self._made is None or self._made[0][0] is not key[0] or self._made[0][1:] != key[1:]:
            shelves = dict.fromkeys(about for about in (chosen, hover) if about)
            made = (net_handles(self.store.plan, self._sheet, shelf) for shelf in shelves)
            self._made = key, tuple(handle for some in made for handle in some)
        return self._made[1]

    def _grip_at(self, place: tuple[float, float]) -> Grip | None:
        if (stroke := self.areas.stroke(place, self.canvas.pixel())) is not None:
            return stroke
        about = self._find(*place, SEAM_REACH * self.canvas.pixel())
        if (area := self.areas.grip(about)) is not None:
            return area
        parts = {part.id for part in self.store.plan.parts_on(self._sheet)}
        return None if about in parts else self._net(about)

    def _steady(self) -> Grip | None:
        return self.areas.grip(self.store.selected) or self._net(self.store.selected)

    def _net(self, about: str) -> Grip | None:
        """Of the net that what is meant lies in; a panel cut apart lies in none, it gives way."""
        shelf, _, role = about.partition("/")
        if any((net.shelf, net.panel) == (shelf, role) for net in self.store.plan.nets):
            return None
        if any(net.shelf == shelf for net in lying_on(self.store.plan, self._sheet)):
            return NetGrip(self.store.plan, self._sheet, shelf)
        return None

    def _keep_off(self) -> tuple[QRectF, ...]:
        return (QRectF(self.inset.geometry()),) if self.inset.isVisible() else ()

    def _mark(self) -> None:
        self.canvas.mark("" if self.small else self.store.selected)
        self.inset.refresh()
        self.inset.setVisible(not self.small and self.inset.shows and not self._is_overrun_behind())

    def _is_overrun_behind(self) -> bool:
        """Does what is too large under the dragging hand, with its words, reach behind the section?"""
        canvas, drawing = self.canvas, self.canvas.drawing
        if drawing is None or not canvas.hand.busy or not self.store.plan.overruns:
            return False
        x0, y0, x1, y1 = drawing.box
        reach = QRectF(canvas.to_pixel((x0, y1)), canvas.to_pixel((x1, y0))).adjusted(0.0, 0.0, OVER_WORDS, 0.0)
        return reach.intersects(QRectF(self.inset.geometry()))

    # Keeping up

    def refresh_plan(self) -> None:
        self._show(self._sheet)
        if self.store.unit is not self._unit:  # its numbers take another room
            self._unit = self.store.unit
            self.canvas.settle()
        if not self.canvas.hand.busy:
            here = self._home() == self._sheet
            if self._had_selected and not here:
                self.refresh_selection()  # an edit has put it on another sheet
            self._had_selected = here

    def refresh_selection(self) -> None:
        home = self._home()
        if home != self._sheet and home in self._ids():
            self._show(home)
        else:
            self._mark()
        self._had_selected = home == self._sheet

    def _home(self) -> str:
        """The sheet what is selected lies on; of a shelf the one with its net, for frame parts lie anywhere."""
        about, plan = self.store.selected, self.store.plan
        net = next((net.sheet for net in plan.nets if net.shelf == about), "")
        return net or sheet_of(plan, about)

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
