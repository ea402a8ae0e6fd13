"""The hidden frame in the place of the sheet: from above with studs, screws and drivers' ways, and its back rail."""

from __future__ import annotations

from PySide6.QtCore import Signal

from app.boards.board import Board
from app.boards.canvas import Canvas
from app.boards.frame_pick import stick_at
from app.hand.frame import by_themselves, frame_shown, rib_handles, slide_handles
from app.hand.grip import Handle
from app.steps.canvas import WholePainter
from app.store import Store
from app.theme import Theme
from core.drawing.frame import draw_frame
from core.drawing.names import letter
from core.language import tr
from core.lengths import show_length
from core.plan.model import Frame


class FrameBoard(Board):
    """Ribs are pulled along, and the frame at its ends in its play. `close_asked` brings the sheet back."""

    close_asked = Signal()

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("frame", tr("Frame"), store, theme)
        self.canvas = Canvas("frame_canvas", store, theme, self)
        self.canvas.setAccessibleName(tr("The frame from above, and its back rail"))
        self.canvas.use_painter(WholePainter(theme.palette.name))
        self.canvas.over = self.paint_small_title
        self.canvas.hand.reach.handles = self._handles
        self.canvas.finder = self._find
        self.canvas.picked.connect(self._pick)
        self.canvas.hand.ended.connect(self._hold_on)
        self._put: set[float] = set()  # ribs put by hand when last looked at
        self._even = self.tool("even", tr("Let ribs be"), tr("Take back every rib put by hand."), self._let_be)
        self.add_tool(self._even)
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))
        self.set_content(self.canvas)

    def _frame(self) -> Frame | None:
        shelf = self.store.shelf
        return frame_shown(self.store.plan, shelf.id if shelf else "")

    def refresh_plan(self) -> None:
        frame = self._frame()
        self.canvas.show_drawing(draw_frame(self.store.plan, frame.shelf) if frame else None)
        if frame is None:
            self.title.setText(tr("Frame"))
            self.subtitle.set_words(tr("no shelf has a frame yet"))
            self._even.setVisible(False)
            return
        index, shelf = next((n, s) for n, s in enumerate(self.store.project.shelves) if s.id == frame.shelf)
        self.title.setText(tr("Frame of {letter}", letter=letter(index)))
        sizes = (frame.length, frame.depth, frame.height)
        size = " × ".join(show_length(mm, self.store.unit, marks=False) for mm in sizes)
        put = tr("; {ribs} put by hand", ribs=len(shelf.ribs)) if shelf.ribs else ""
        self.subtitle.set_words(
            tr(
                "{size}, {ribs} ribs{put}, {studs} studs",
                size=size,
                ribs=len(frame.ribs),
                put=put,
                studs=len(frame.studs),
            )
        )
        self._even.setVisible(bool(shelf.ribs))
        if not self.canvas.hand.busy:
            self._hold_on()

    def refresh_selection(self) -> None:
        self.refresh_plan()

    def _handles(self) -> tuple[Handle, ...]:
        frame = self._frame()
        if frame is None or self.small:
            return ()
        return (*slide_handles(self.store.plan, frame), *rib_handles(self.store.plan, frame))

    def _find(self, x: float, y: float, _reach: float) -> str:
        frame = self._frame()
        return stick_at(self.store.plan, frame, x, y) if frame is not None and not self.small else ""

    def _pick(self, about: str) -> None:
        if about:
            self.store.select(about)

    def _hold_on(self) -> None:
        """The rib just put stays the one that keys move."""
        shelf, hand = self.store.shelf, self.canvas.hand
        put = set(shelf.ribs) if shelf is not None else set()
        fresh, self._put = put - self._put, put
        if len(fresh) == 1 and hand.reach.chosen[1].startswith("at "):
            hand.choose(next((one for one in self._handles() if one.number.value in fresh), None))

    def _let_be(self) -> None:
        frame = self._frame()
        if frame is not None:
            shelf = frame.shelf
            self.store.apply(tr("Ribs of {shelf}", shelf=shelf), lambda project: by_themselves(project, shelf))
