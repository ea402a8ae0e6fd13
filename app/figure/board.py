"""The board of the figure seam by seam. `close_asked` brings the sheet back."""

from __future__ import annotations

from typing import Final

import msgspec
from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QListWidget

from app.boards.board import Board
from app.boards.words import SWAP, TURN
from app.figure.canvas import StripCanvas
from app.figure.reader import Reader, Strip
from app.store import Store
from app.theme import Theme
from core.document.model import Project
from core.drawing.names import part_name, shelf_letters
from core.figure.better import Better
from core.figure.places import seam_places
from core.language import tr
from core.lengths import show_length, show_thickness
from core.plan.make import make_plan
from core.plan.model import Seam
from core.wall.eye import is_in_sight

WIDE: Final = 330  # pixels of the list
NONE: Final = tr("No seam of this shelf wraps: its figure turns or is broken at every one.")
MORE: Final = 0.5  # of a match: less is no better place


class FigureBoard(Board):
    """Measures the seams of the selected shelf while it is shown and the hand rests. `measured` carries the match of
    each seam by its id; of none when the board is shut."""

    close_asked = Signal()
    turn_asked = Signal()
    swap_asked = Signal()
    measured = Signal(dict)

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("figure", tr("Figure"), store, theme)
        self._strips: list[Strip] = []
        self._of: object = None  # places and faces that were measured
        self._best: Better | None = None
        self._was = 0.0  # the match where the net lies
        self.reader = Reader(store.pictures, self)
        self.reader.read.connect(self._take)
        self.reader.better.connect(self._hear)
        self.reader.done.connect(self._rest)
        self.seams = QListWidget()
        self.seams.setObjectName("figure_seams")
        self.seams.setAccessibleName(tr("Seams"))
        self.seams.setFixedWidth(WIDE)
        self.seams.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.seams.setWordWrap(True)
        self.seams.currentRowChanged.connect(self._choose)
        self.canvas = StripCanvas(theme)
        self.set_beside(self.seams, self.canvas, wide=self.canvas)
        tip = tr("Try every place on the sheet where this net fits, for the best match of the seams the eye sees.")
        self.search_button = self.tool("search", tr("Find a better place"), tip, self.search)
        self.stop_button = self.tool("stop", tr("Stop"), tr("Stop looking."), self._stop)
        self.take_button = self.tool(
            "take", tr("Move it there"), tr("Pin the net at the best place so far."), self._move
        )
        for button in (self.search_button, self.stop_button, self.take_button):
            self.add_tool(button)
        self.add_tool(self.tool(*TURN, self.turn_asked.emit))
        self.add_tool(self.tool(*SWAP, self.swap_asked.emit))
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))
        store.pictures.changed.connect(self._anew)
        store.state_changed.connect(self.refresh_plan)

    # Measuring

    def _anew(self) -> None:
        self._of = None
        self.refresh_plan()

    def refresh_plan(self) -> None:
        shelf, plan = self.store.shelf, self.store.plan
        self._say()
        if shelf is None or not self.isVisible() or self.store.held is not None or self.small:
            return
        of = (seam_places(plan, shelf.id), *((s.id, s.source.figure, s.photos) for s in plan.sheets))
        if self._of == of:  # ways out may have come, or another shelf has moved
            return
        self._of, self._best = of, None
        self.reader.measure(plan, shelf.id)
        self._say()

    def refresh_selection(self) -> None:
        self.refresh_plan()
        selected = self.store.selected
        row = next((n for n, strip in enumerate(self._strips) if strip.place.seam == selected), -1)
        if row >= 0:
            self.seams.setCurrentRow(row)

    def refresh_size(self) -> None:
        self.seams.setVisible(not self.small)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh_plan()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.reader.cancel()
        self._of = None
        self.measured.emit({})

    def _take(self, strips: list[Strip]) -> None:
        shown = self.seams.currentRow()
        self._strips = sorted(strips, key=lambda strip: not self._seen(strip.place.seam))
        with QSignalBlocker(self.seams):
            self.seams.clear()
            self.seams.addItems([self._line(strip) for strip in self._strips] + self._others())
        self.seams.setCurrentRow(min(max(shown, 0), len(self._strips) - 1))
        self._choose(self.seams.currentRow())
        self.measured.emit({strip.place.seam: strip.figure.match for strip in strips})
        self._say()

    def _seen(self, seam: str) -> bool:
        shelf = self.store.shelf
        return shelf is not None and is_in_sight(seam, shelf)

    def _name(self, seam: Seam) -> str:
        letters = shelf_letters(self.store.plan)
        one, other = (part_name(panel, letters) for panel in seam.between)
        return tr("{one} to {partition}", one=one, partition=other.partition(" ")[2])

    def _line(self, strip: Strip) -> str:
        unit, figure = self.store.unit, strip.figure
        seam = next((one for one in self.store.plan.seams if one.id == figure.seam), None)
        said = [tr("{loss} lost", loss=show_thickness(figure.loss, unit))]
        if figure.step is not None:
            said.append(tr("grain steps {step} aside", step=show_thickness(abs(figure.step), unit)))
        elif figure.angle is not None:
            said.append(tr("grain runs along it: the match says how alike the wood is"))
        eye = "" if self._seen(figure.seam) else tr(" (out of sight)")
        name = self._name(seam) if seam is not None else figure.seam
        return tr(
            "{name}{eye}: match {match:.0f} of 100\n{join}",
            name=name,
            eye=eye,
            match=figure.match,
            join=", ".join(said),
        )

    def _others(self) -> list[str]:
        """The seams that do not wrap."""
        shelf = self.store.shelf
        turned = [s for s in self.store.plan.seams if shelf is not None and s.shelf == shelf.id and s.figure != "wraps"]
        return [
            f"{self._name(seam)}: {(tr('broken, cut apart') if seam.broken else tr('the grain turns'))}"
            for seam in turned
        ]

    def _choose(self, row: int) -> None:
        strip = self._strips[row] if 0 <= row < len(self._strips) else None
        self.canvas.words = "" if self._strips else NONE
        self.canvas.show_strip(strip)

    # A better place

    def search(self) -> None:
        """Look for one."""
        shelf = self.store.shelf
        if shelf is not None and self.store.held is None:
            self._best, self._was = None, 0.0
            self.reader.search(self.store.plan, shelf.id)
            self._say()

    def _hear(self, found: Better) -> None:
        if self._best is None:
            self._was = found.match
        self._best = found
        self._say()

    def _rest(self) -> None:
        self._say()

    def _stop(self) -> None:
        self.reader.cancel()
        self._say()

    def _is_better(self) -> bool:
        return self._best is not None and self._best.match > self._was + MORE

    def _move(self) -> None:
        """Pin the net there, if the plan is then no worse."""
        shelf, best = self.store.shelf, self._best
        if shelf is None or best is None:
            return
        at, before = self.store.shelf_index, self.store.plan
        home = next((net.sheet for net in before.nets if net.shelf == shelf.id and net.panel is None), "")
        stock = next((sheet.stock for sheet in before.sheets if sheet.id == home), shelf.sheet)
        place = (round(best.x, 3), round(best.y, 3))
        moved = msgspec.structs.replace(shelf, at=place, sheet=stock, turned=shelf.turned is not best.over)

        def change(project: Project) -> Project:
            shelves = (*project.shelves[:at], moved, *project.shelves[at + 1 :])
            return msgspec.structs.replace(project, shelves=shelves)

        if len(make_plan(change(self.store.project)).errors) > len(before.errors):
            self.subtitle.set_words(tr("the other nets do not let it lie there after all"))
            return
        self.reader.cancel()
        self._best = None
        self.store.apply(tr("Place of {id} by its figure", id=shelf.id), change)

    # Words

    def _say(self) -> None:
        shelf, busy, best = self.store.shelf, self.reader.is_busy, self._best
        letters = shelf_letters(self.store.plan)
        self.title.setText(
            tr("Figure of shelf {get}", get=letters.get(shelf.id, "")) if shelf is not None else tr("Figure")
        )
        self.search_button.setVisible(not busy and not self._is_better())
        self.search_button.setEnabled(bool(self._strips))
        self.stop_button.setVisible(busy)
        self.take_button.setVisible(self._is_better())
        if best is not None:
            where = tr(
                "{x} from the end, {y} up",
                x=show_length(best.x, self.store.unit),
                y=show_length(best.y, self.store.unit),
            )
            if best.over:
                where = tr("{where}, turned end for end", where=where)
            done = tr("looked at {tried:.0%}", tried=best.tried) if busy else tr("looked everywhere")
            words = tr(
                "match {match:.0f} at {where}, {was:.0f} where it lies; {done}",
                match=best.match,
                where=where,
                was=self._was,
                done=done,
            )
            if not self._is_better():
                words = tr("match {was:.0f} where it lies; {done}, nothing better yet", was=self._was, done=done)
            self.subtitle.set_words(words)
        elif busy:
            self.subtitle.set_words(tr("reading the face …"))
        else:
            self.subtitle.set_words(tr("seam by seam, both sides as they meet"))
