"""Jobs on the disk, done one after the other beside the window; what follows each is done in the window."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from typing import TYPE_CHECKING, Final, TypeVar

from PySide6.QtCore import QObject, QTimer

from app.collecting import no_collecting

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor

LOOK_MS: Final = 10
T = TypeVar("T")
Ending = Callable[[], None]


class Work(QObject):
    """Nothing of Qt is called in the thread: the window looks for what is done. The thread starts with the first job.

    What is still due when the window closes is done all the same.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._pool: ThreadPoolExecutor | None = None
        self._due: deque[Future[Ending]] = deque()
        self._timer = QTimer(self, interval=LOOK_MS)
        self._timer.timeout.connect(self._look)

    @property
    def busy(self) -> bool:
        """Is a job under way?"""
        return bool(self._due)

    def do(self, job: Callable[[], T], then: Callable[[T], None], failed: Callable[[Exception], None]) -> None:
        """Do a job, then `then` with its outcome, or `failed` with what it raised."""
        if self._pool is None:
            from concurrent.futures import ThreadPoolExecutor

            self._pool = ThreadPoolExecutor(1, "rack")

        def run() -> Ending:
            with no_collecting():
                try:
                    outcome = job()
                except Exception as error:  # told in the window, whatever it is
                    told = error
                    return lambda: failed(told)
                return lambda: then(outcome)

        self._due.append(self._pool.submit(run))
        self._timer.start()

    def _look(self) -> None:
        while self._due and self._due[0].done():
            ended = self._due.popleft()
            if not self._due:
                self._timer.stop()
            ended.result()()

    def finish(self) -> None:
        """Wait for all that is due, and do what follows it."""
        while self._due:
            ended = self._due.popleft()
            if not self._due:
                self._timer.stop()
            ended.result()()

    def close(self) -> None:
        """Finish, and end the thread."""
        self.finish()
        if self._pool is not None:
            self._pool.shutdown()
            self._pool = None
