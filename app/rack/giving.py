"""The longest shelf each kept offcut can still give, at the depth and height of the shelf that is selected."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from time import thread_time
from typing import Final

import msgspec
from PySide6.QtCore import QObject, QTimer, Signal

from app.store import Store
from core.document.model import Shelf
from core.layout.largest import Largest
from core.offcuts.model import KeptOffcut
from core.offcuts.rules import largest_from

REST_MS: Final = 150  # the hand rests
MOST_MS: Final = (40.0, 160.0)  # of work for one answer, at first and once more at the end; one takes 3 or 4
Question = tuple[object, ...]


class Giving(QObject):
    """Answers come one by one between events, the first offcut's first. `answered` carries the offcut's id."""

    answered = Signal(str)

    def __init__(self, store: Store, parent: QObject) -> None:
        super().__init__(parent)
        self._store = store
        self._question: Question = ()
        self._answers: dict[KeptOffcut, Largest | None] = {}
        self._due: deque[tuple[KeptOffcut, int]] = deque()  # and how often it was tried
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._next)

    def ask(self, offcuts: Iterable[KeptOffcut]) -> None:
        """Find out what these can give."""
        question = self._now()
        if question != self._question:
            self._question = question
            self._answers.clear()
        self._due = deque((offcut, 0) for offcut in offcuts if offcut not in self._answers)
        if self._due and self._store.shelf is not None:
            self._timer.start(REST_MS)

    def stop(self) -> None:
        """Nobody looks any more."""
        self._timer.stop()

    @property
    def settled(self) -> bool:
        """Is everything answered that was asked?"""
        return not self._timer.isActive()

    def answer(self, offcut: KeptOffcut) -> Largest | None:
        """What it can give; None while that is not known, or without a shelf."""
        return self._answers.get(offcut) if self._question == self._now() else None

    def _now(self) -> Question:
        project, shelf = self._store.project, self._store.shelf
        return (_like(shelf), project.saw, project.frame, project.units, project.sheets[0].trim) if shelf else ()

    def _next(self) -> None:
        shelf, project = self._store.shelf, self._store.project
        if shelf is None or not self._due:
            return
        if self._store.held is not None:  # a hand that drags comes first
            self._timer.start(REST_MS)
            return
        (offcut, tried), began = self._due.popleft(), thread_time()
        answer = largest_from(
            offcut,
            project.saw,
            _like(shelf),
            "length",
            frame=project.frame,
            trim=project.sheets[0].trim,
            units=project.units,
            stop=lambda: (thread_time() - began) * 1000.0 > MOST_MS[tried],
        )
        if answer is None and tried + 1 < len(MOST_MS):
            self._due.append((offcut, tried + 1))
        else:
            self._answers[offcut] = answer
            self.answered.emit(offcut.id)
        if self._due:
            self._timer.start(0)


def _like(shelf: Shelf) -> Shelf:
    """The shelf as far as it matters: not what it is called, how long it is, nor where it is to be."""
    return msgspec.structs.replace(shelf, id="the shelf", length=1000.0, sheet=None, at=None, mount=None)
