"""Work on pictures in a thread of its own: told how far it is, called off, the newest alone. No Qt in the thread."""

from __future__ import annotations

from collections.abc import Callable
from queue import SimpleQueue
from threading import Event, Thread
from typing import Final, NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from app.fold.collecting import no_collecting
from core.face import StoppedError

LOOK_MS: Final = 30  # how often it is looked what the thread has said

Job = Callable[[Callable[[], bool], Callable[[float], None]], object]  # is given `stop` and `told`


class _Outcome(NamedTuple):
    value: object


class Working(QObject):
    """One job at a time. `done` carries what it returned, `failed` why not in words, `told` the share that is done."""

    done = Signal(object)
    failed = Signal(str)
    told = Signal(float)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stop: Event | None = None
        self._said: SimpleQueue[float | _Outcome | BaseException] = SimpleQueue()
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._see)

    @property
    def is_busy(self) -> bool:
        """Is anything being made?"""
        return self._stop is not None

    def ask(self, job: Job) -> None:
        """Work on this from now on; an earlier job is given up."""
        self.cancel()
        self._stop, self._said = Event(), SimpleQueue()
        Thread(target=_work, args=(job, self._stop, self._said), name="showing", daemon=True).start()
        self._look.start()

    def cancel(self) -> None:
        """Give it up: nothing will come of it."""
        if self._stop is not None:
            self._stop.set()
            self._stop = None
            self._look.stop()

    def _see(self) -> None:
        share: float | None = None
        while not self._said.empty() and self._stop is not None:
            said = self._said.get()
            if isinstance(said, float):
                share = said
                continue
            self.cancel()
            if isinstance(said, _Outcome):
                self.done.emit(said.value)
            elif isinstance(said, BaseException):
                self.failed.emit(_words(said))
        if share is not None and self._stop is not None:
            self.told.emit(share)


def _words(error: BaseException) -> str:
    from core.document.errors import os_reason

    if isinstance(error, OSError):
        return os_reason(error)
    return f"{type(error).__name__}: {error}".splitlines()[0][:160]


def _work(job: Job, stop: Event, said: SimpleQueue[float | _Outcome | BaseException]) -> None:
    try:
        with no_collecting():
            outcome = job(stop.is_set, lambda share: said.put(float(share)))
        said.put(_Outcome(outcome))
    except StoppedError:
        return
    except BaseException as error:  # told where it can be
        said.put(error)
