"""Pages drawn a slice at a time, so that the window never waits: into the bytes of a PDF, or on a printer."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterable
from typing import Final

import msgspec
from PySide6.QtCore import QObject, QTimer, Signal

from app.paper.frame import Frame
from app.paper.page import Page
from app.slices import Slices
from core.packing.clock import Stop
from core.plan.model import Plan

TOLD_MS: Final = 120  # between two tellings of how far it is

# Draws a page at each step and gives its number; the first argument is all pages, in order.
Drawing = Callable[[list[Page], Frame], Generator[int, None, None]]


class Failure(msgspec.Struct, frozen=True):
    """Pages could not be made: why, in words."""

    why: str


class Making(QObject):
    """One set of pages under way. `went_on` carries pages drawn and how many there are; `ended` the outcome: the bytes
    of the PDF (of a printer: empty), a `Failure`, or None where it was called off."""

    went_on = Signal(int, int)
    ended = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._slices = Slices(self)
        self._done = self._count = 0
        self._teller = QTimer(self, interval=TOLD_MS)
        self._teller.timeout.connect(self._tell)

    @property
    def busy(self) -> bool:
        """Are pages being made?"""
        return self._slices.busy

    def write(self, plan: Plan, frame: Frame, names: Iterable[str] | None) -> None:
        """Make the PDF of the pages of those names."""
        wanted = None if names is None else tuple(names)
        self._start(lambda stop: self._pdf(plan, frame, wanted, stop))

    def print(self, plan: Plan, frame: Frame, names: Iterable[str] | None, drawing: Drawing) -> None:
        """Draw the pages of those names on a device."""
        wanted = None if names is None else tuple(names)
        self._start(lambda stop: self._drawn(self._pages(plan, frame, wanted, stop), frame, drawing, stop))

    def cancel(self) -> None:
        """Call it off: nothing is written."""
        if self.busy:
            self._slices.drop()
            self._teller.stop()
            self.ended.emit(None)

    def _start(self, job: Callable[[Stop], object]) -> None:
        self.cancel()
        self._done = self._count = 0

        def safe(stop: Stop) -> object:
            try:
                return job(stop)
            except Exception as error:  # told in the bottom line: nothing is written
                return Failure(f"{type(error).__name__}: {error}".splitlines()[0][:160])

        self._slices.ask(safe, self._end)
        self._teller.start()

    def _pages(self, plan: Plan, frame: Frame, names: tuple[str, ...] | None, stop: Stop) -> list[Page]:
        from app.paper.plan_set import kinds_of

        pages: list[Page] = []
        for kind in kinds_of(names):
            for page in kind.make(plan, frame):
                pages.append(page)
                if stop():
                    return []
        self._count = len(pages)
        return pages

    def _pdf(self, plan: Plan, frame: Frame, names: tuple[str, ...] | None, stop: Stop) -> bytes | None:
        from app.paper.pdf import pdf_file, write_pages

        pages = self._pages(plan, frame, names, stop)
        file = pdf_file(plan)
        done = self._drawn(pages, frame, lambda some, edge: write_pages(file, some, edge), stop)
        return file.to_bytes() if done is not None else None

    def _drawn(self, pages: list[Page], frame: Frame, drawing: Drawing, stop: Stop) -> bytes | None:
        """Nothing in bytes when all are drawn; None where it was called off."""
        steps = drawing(pages, frame)
        for number in steps:
            self._done = number
            if stop():
                steps.close()
                return None
        return b""

    def _tell(self) -> None:
        if self._count:
            self.went_on.emit(self._done, self._count)

    def _end(self, outcome: object) -> None:
        self._teller.stop()
        if self._count:
            self.went_on.emit(self._count, self._count)
        self.ended.emit(outcome)
