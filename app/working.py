"""One job at a time in a thread of its own: it says things on its way, is called off, and the newest alone counts.

No Qt in the thread, and no looking for garbage while it runs: what it tells is passed on by a timer of the window's.
"""

from __future__ import annotations

from collections.abc import Callable
from queue import SimpleQueue
from threading import Event, Thread
from typing import Final, NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from app.collecting import no_collecting
from core.face import StoppedError

LOOK_MS: Final = 20  # how often it is looked what the thread has said

Stop = Callable[[], bool]  # is it called off?
Tell = Callable[[object], None]
Job = Callable[[Stop, Tell], object]  # raises StoppedError once it is called off


class _Ended(NamedTuple):
    value: object
    error: BaseException | None


class Working(QObject):
    """`told` carries what the job says on its way, `done` what it returned, `failed` the error it ended with."""

    told = Signal(object)
    done = Signal(object)
    failed = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stop: Event | None = None
        self._said: SimpleQueue[object] = SimpleQueue()
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._see)

    @property
    def is_busy(self) -> bool:
        """Is anything being worked on?"""
        return self._stop is not None

    def ask(self, job: Job) -> None:
        """Work on this from now on; an earlier job is given up."""
        self.cancel()
        self._stop, self._said = Event(), SimpleQueue()
        Thread(target=_work, args=(job, self._stop, self._said), name="working", daemon=True).start()
        self._look.start()

    def cancel(self) -> None:
        """Give it up: nothing will come of it."""
        if self._stop is not None:
            self._stop.set()
            self._stop = None
            self._look.stop()

    def _see(self) -> None:
        said, stop = self._said, self._stop
        while self._stop is stop and stop is not None and not said.empty():  # who is told may ask for another job
            word = said.get()
            if not isinstance(word, _Ended):
                self.told.emit(word)
                continue
            self.cancel()
            if word.error is None:
                self.done.emit(word.value)
            else:
                self.failed.emit(word.error)


def _work(job: Job, stop: Event, said: SimpleQueue[object]) -> None:
    try:
        with no_collecting():
            value = job(stop.is_set, said.put)
        said.put(_Ended(value, None))
    except StoppedError:
        return
    except BaseException as error:  # told where it can be
        said.put(_Ended(None, error))
