"""Questions answered in a process of its own, which can be stopped at once whatever it is doing.

    with Solver() as solver:
        ticket = solver.ask(PackQuestion(...), seconds=10)
        for reply in solver.replies(): ...      # never waits; solver.wait(seconds) does

A new question replaces the one being worked on. The process ends with the program, even if that is killed.
"""

from __future__ import annotations

import multiprocessing
import signal
import threading
import time
from collections.abc import Callable
from multiprocessing.connection import Connection, wait
from multiprocessing.context import SpawnProcess
from types import TracebackType
from typing import Any, Self

import msgspec

from core.packing.clock import Stop

Question = Any  # whatever the answering function takes and gives; both are pickled
Answer = Any

Report = Callable[[Answer], None]
Answering = Callable[[Question, float, Stop, Report], Answer]  # a function of a module, named to the process

GRACE = 0.3  # s from a new question until a process that does not turn to it is killed
LOOK = 0.005  # s between two looks for a new question


class Reply(msgspec.Struct, frozen=True):
    """An answer, or what went wrong (one line). final: nothing better will come for this ticket."""

    ticket: int
    answer: Answer | None
    final: bool
    trouble: str = ""


class Solver:
    """A process that answers one question at a time; it is started with the first.

    answering: what answers; default the questions of this package.
    """

    def __init__(self, answering: Answering | None = None) -> None:
        self._answering = answering or answer
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self._ticket = 0
        self._asked = 0.0
        self._begun = True
        self._question: tuple[int, Question, float] | None = None

    def start(self) -> None:
        """Start the process ahead of the first question: that takes some tenths of a second."""
        if self._process is not None and self._process.is_alive():
            return
        self._end()
        context = multiprocessing.get_context("spawn")
        self._pipe, theirs = context.Pipe()
        process = context.Process(target=_work, args=(theirs, self._answering), daemon=True)
        process.start()
        self._process = process
        theirs.close()

    def ask(self, question: Question, seconds: float = 10.0) -> int:
        """Work on a question from now on, for so long at most; the replies carry the ticket returned."""
        self._ticket += 1
        busy = self._question is not None
        self._question = (self._ticket, question, seconds)
        self._asked, self._begun = time.monotonic(), not busy
        self._send()
        return self._ticket

    def _send(self) -> None:
        for _ in range(2):
            self.start()
            assert self._pipe is not None
            try:
                self._pipe.send(self._question)
                return
            except (BrokenPipeError, ConnectionError):
                self._end()

    def replies(self) -> list[Reply]:
        """What has come for the latest question since the last call; replies to older ones are dropped."""
        found: list[Reply] = []
        while self._question is not None and self._pipe is not None:
            try:
                if not self._pipe.poll():
                    break
                reply: Reply = self._pipe.recv()
            except (EOFError, OSError):
                found.append(Reply(self._ticket, None, True, "the process that lays out ended unexpectedly"))
                self._end()
                self._question = None
                break
            if reply.ticket == self._ticket:
                self._begun = True
                if reply.answer is not None or reply.final:
                    found.append(reply)
                if reply.final:
                    self._question = None
        if self._question is not None and not self._begun and time.monotonic() - self._asked > GRACE:
            self._end()
            self._begun = True
            self._send()
        return found

    def wait(self, seconds: float) -> list[Reply]:
        """Wait for the final reply, no longer than so; returns all replies."""
        end = time.monotonic() + seconds
        found = self.replies()
        while self._question is not None and (left := end - time.monotonic()) > 0:
            if self._pipe is not None:
                wait([self._pipe], min(left, GRACE))
            found += self.replies()
        return found

    @property
    def busy(self) -> bool:
        """Is a final reply still to come?"""
        return self._question is not None

    @property
    def pid(self) -> int | None:
        """Number of the process, None where there is none."""
        return self._process.pid if self._process is not None else None

    def stop(self) -> None:
        """Give the question up at once. The process is killed if it is at work."""
        if self._question is not None:
            self._question = None
            self._end()

    def close(self) -> None:
        """End the process at once."""
        self._question = None
        self._end()

    def _end(self) -> None:
        if self._process is not None:
            self._process.kill()
            self._process.join()
            self._process.close()
        if self._pipe is not None:
            self._pipe.close()
        self._process = self._pipe = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()


def answer(question: Question, seconds: float, stop: Stop, report: Report) -> Answer:
    """The answer to any question of this package; `report` hears of better ones on the way."""
    from core.packing.one_d import BarQuestion, cut_bars
    from core.packing.pack import pack_all
    from core.packing.two_d import SheetQuestion, best_sheet

    if isinstance(question, BarQuestion):
        return cut_bars(question, seconds, stop)
    if isinstance(question, SheetQuestion):
        return best_sheet(question, seconds, stop)
    return pack_all(question, seconds, stop, report)


def _work(pipe: Connection, answering: Answering) -> None:
    """The process: answers questions from the pipe until it is closed or the program is gone."""
    threading.Thread(target=_end_with_parent, daemon=True).start()
    while True:
        try:
            ticket, question, seconds = pipe.recv()
            pipe.send(Reply(ticket, None, False))
            pipe.send(_reply(pipe, answering, ticket, question, seconds))
        except (EOFError, OSError):
            return


def _reply(pipe: Connection, answering: Answering, ticket: int, question: Question, seconds: float) -> Reply:
    looked, stopped = 0.0, False

    def stop() -> bool:
        nonlocal looked, stopped
        now = time.monotonic()
        if not stopped and now - looked >= LOOK:
            looked, stopped = now, pipe.poll()
        return stopped

    def report(better: Answer) -> None:
        pipe.send(Reply(ticket, better, False))

    try:
        return Reply(ticket, answering(question, seconds, stop, report), True)
    except (EOFError, OSError):
        raise
    except Exception as error:  # whatever it is, the program must hear of it
        return Reply(ticket, None, True, f"{type(error).__name__}: {error}")


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        signal.raise_signal(signal.SIGTERM)
