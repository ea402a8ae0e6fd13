"""Long questions worked on a slice at a time, between the window's own events.

A thread of its own does the work, but only while the window waits for it: two threads that both want the interpreter
would slow every stroke of the painter. Nothing of Qt is called in the thread.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from time import perf_counter
from typing import Final

from PySide6.QtCore import QObject, QTimer

from core.packing.clock import Stop

SLICE: Final = 0.004  # s of work at a time
PATIENCE: Final = 0.012  # s the window waits for the end of a slice, which comes only between two plans
PAUSE_MS: Final = 8  # for the window between two slices

Job = Callable[[Stop], object]


class _Question:
    """One job under way in its thread."""

    def __init__(self, job: Job) -> None:
        self.dropped = self.ended = False
        self.outcome: object = None
        self._job = job
        self._until = 0.0
        self._go, self._rested = threading.Event(), threading.Event()
        threading.Thread(target=self._run, name="slices", daemon=True).start()

    def _run(self) -> None:
        try:
            self._pause()
            if not self.dropped:
                self.outcome = self._job(self._stop)
        except Exception:  # a hint that cannot be worked out is not shown, whatever the reason
            self.outcome = None
        self.ended = True
        self._rested.set()

    def _stop(self) -> bool:
        """Asked by the job between two steps: the slice may be over."""
        if not self.dropped and perf_counter() >= self._until:
            self._rested.set()
            self._pause()
        return self.dropped

    def _pause(self) -> None:
        self._go.wait()
        self._go.clear()

    def advance(self) -> bool:
        """Let it work for a slice; True once it has ended."""
        if not self._rested.is_set() and self._until:  # still at a step of the slice before
            self._rested.wait(PATIENCE)
            return self.ended
        self._rested.clear()
        self._until = perf_counter() + SLICE
        self._go.set()
        self._rested.wait(PATIENCE)
        return self.ended

    def drop(self) -> None:
        """Nobody wants the answer any more; the thread ends at its next step."""
        self.dropped = True
        self._go.set()


class Slices(QObject):
    """Works on one question at a time; a new one takes its place."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._question: _Question | None = None
        self._then: Callable[[object], None] | None = None
        self._timer = QTimer(self, interval=PAUSE_MS)
        self._timer.timeout.connect(self._advance)

    @property
    def busy(self) -> bool:
        """Is a question being worked on?"""
        return self._question is not None

    def ask(self, job: Job, then: Callable[[object], None]) -> None:
        """Work on a job from now on; `then` gets its outcome, None where it went wrong.

        job: is given a `Stop` to ask between its steps, and must end soon after that says True.
        """
        self.drop()
        self._question, self._then = _Question(job), then
        self._timer.start()

    def drop(self) -> None:
        """Give the question up; nothing will come of it."""
        self._timer.stop()
        if self._question is not None:
            self._question.drop()
        self._question = self._then = None

    def _advance(self) -> None:
        if self._question is None or not self._question.advance():
            return
        outcome, then = self._question.outcome, self._then
        self.drop()
        if then is not None:
            then(outcome)
