"""The board of pictures to show: the shelves as they will be, finished, and what can be written of them."""

from __future__ import annotations

from typing import Final

import msgspec
from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QHideEvent, QImage, QShowEvent

from app.boards.board import Board
from app.showing.canvas import PictureCanvas
from app.showing.side import SIZES, ShowingSide
from app.showing.still import still
from app.showing.wish import WALL, Showing, first_showing
from app.showing.writing import Kind, Writing, faces_for, reason
from app.store import Store
from app.theme import Theme
from app.working import Working
from core.drawing.names import shelf_letters
from core.language import tr
from core.plan.model import Plan

REST_MS: Final = 250  # after the last change
ORBIT_DEG: Final = 0.4  # for a pixel


class ShowingBoard(Board):
    """Shows the picture as it will be written. `close_asked` brings the sheet back."""

    waits = True
    close_asked = Signal()

    def __init__(self, writing: Writing, store: Store, theme: Theme) -> None:
        super().__init__("showing", tr("Pictures to show"), store, theme)
        self.writing = writing
        self._wish: Showing | None = None
        self._shown: tuple[Plan, Showing, tuple[int, int]] | None = None
        self.working = Working(self)
        self.working.done.connect(self._take)
        self.working.failed.connect(self._fail)
        self.canvas = PictureCanvas(theme)
        self.canvas.turned.connect(self._turn)
        self.canvas.resized.connect(self._later)
        self.side = ShowingSide(theme)
        self.side.changed.connect(self._change)
        self.side.write_asked.connect(self.write)
        self.set_beside(self.canvas, self.side, wide=self.canvas)
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._draw)
        store.pictures.changed.connect(self._later)

    @property
    def wish(self) -> Showing:
        """What is shown, and how: as it was set, where that can still be shown."""
        plan = self.store.plan
        wish = self._wish or first_showing(plan)
        known = {shelf.id: shelf for shelf in plan.project.shelves}
        is_there = wish.shelf in known if not wish.is_wall else any(s.mount is not None for s in known.values())
        return wish if is_there else msgspec.structs.replace(wish, shelf=first_showing(plan).shelf)

    def write(self, kind: Kind) -> None:
        """Write a picture, a turntable or a model of what is shown."""
        if self.store.plan.project.shelves:
            self.writing.ask(kind, self.wish)

    # What is set

    def _change(self, name: str, value: object) -> None:
        if name == "shelf":
            value = self.store.shelf.id if value != "wall" and self.store.shelf is not None else WALL
        fields: dict[str, object] = {name: SIZES[str(value)] if name == "size" else value}
        if name == "shelf":
            fields["view"] = None
        self._wish = msgspec.structs.replace(self.wish, **fields)
        self._say()
        self._later()

    def _turn(self, right: float, up: float) -> None:
        turn, tilt = self.wish.seen_from()
        view = (turn - ORBIT_DEG * right, min(89.0, max(-89.0, tilt + ORBIT_DEG * up)))
        self._wish = msgspec.structs.replace(self.wish, view=view)
        self._later()

    # Drawing

    def refresh_plan(self) -> None:
        self._say()
        self._later()

    def refresh_selection(self) -> None:
        shelf = self.store.shelf
        if shelf is not None and not self.wish.is_wall and self.wish.shelf != shelf.id:
            self._wish = msgspec.structs.replace(self.wish, shelf=shelf.id)
        self.refresh_plan()

    def refresh_size(self) -> None:
        self.side.setVisible(not self.small)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._later()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._rest.stop()
        self.working.cancel()

    def _later(self) -> None:
        if self.isVisible():
            self._rest.start()

    def _draw(self) -> None:
        plan, wish, size = self.store.plan, self.wish, self.canvas.fitting(self.wish.size)
        if not plan.project.shelves or min(size) < 16 or (plan, wish, size) == self._shown or self.store.held:
            return
        self._shown = None
        at_size = msgspec.structs.replace(wish, size=size)
        face_of = faces_for(plan, self.store, is_fine=False)
        self.working.ask(lambda stop, told: ((plan, wish, size), still(plan, at_size, face_of, stop, told)))

    def _take(self, outcome: object) -> None:
        assert isinstance(outcome, tuple)
        self._shown, pixels = outcome
        data = pixels.tobytes()
        image = QImage(data, pixels.shape[1], pixels.shape[0], 4 * pixels.shape[1], QImage.Format.Format_RGBA8888)
        self.canvas.show_image(image.copy())

    def _fail(self, error: BaseException) -> None:
        self.subtitle.set_words(tr("cannot be drawn: {why}", why=reason(error)))

    def _say(self) -> None:
        plan, wish = self.store.plan, self.wish
        self.side.setEnabled(bool(plan.project.shelves))
        self.side.show_wish(wish, any(shelf.mount is not None for shelf in plan.project.shelves))
        if not plan.project.shelves:
            self.subtitle.set_words(tr("there is no shelf yet"))
            self.canvas.show_image(QImage())
            return
        what = tr("all shelves on their wall")
        if not wish.is_wall:
            what = tr("shelf {letter} alone", letter=shelf_letters(plan)[wish.shelf])
        self.subtitle.set_words(tr("{what}, {finish}; drag to turn it", what=what, finish=tr(wish.finish)))
