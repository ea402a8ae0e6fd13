"""A process that edits and saves until it is killed. `python -m tests.safe.kill_child` forks one for each line:

    FILE SEED AFTER_MS  ->  the number of the new process

It writes down what it did, as lines `seconds kind content`, in FILE.log: `edit` when the project has become another,
`begin` and `end` round each writing of the rescue file, `saved`.
"""

from __future__ import annotations

import os
import random
import signal
import sys
from pathlib import Path
from time import monotonic

import msgspec
from PySide6.QtCore import QCoreApplication, QTimer

from app.safe.keeper import Keeper
from app.store import Store
from core.document.load import load_project
from core.document.model import Project
from core.document.save import save_project
from core.plan.make import make_plan

EDIT_MS = 4
LONGEST_S = 30.0  # a child that nobody kills ends by itself


def content(project: Project) -> float:
    """What tells one state from another."""
    return project.shelves[0].length


class Maker:
    """Edits, undoes, redoes, saves, at random."""

    def __init__(self, file: Path, seed: int, after_ms: int) -> None:
        self.random = random.Random(seed)
        self.file = file
        self.log_file = os.open(f"{file}.log", os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
        self.store = Store(load_project(file), file)
        self.keeper = Keeper(self.store, None, file.parent / "own", after_ms)
        self.keeper.belong_to(file)
        write, done = self.keeper.keep, self.keeper._done

        def keep() -> None:
            self.log("begin")
            write()

        def ended(outcome: tuple[Path | None, str]) -> None:
            done(outcome)
            self.log("end")

        self.keeper.keep, self.keeper._done = keep, ended
        self.store.changed.connect(lambda: self.log("edit"))
        self.log("edit")
        self.timer = QTimer(interval=EDIT_MS)
        self.timer.timeout.connect(self.step)
        self.timer.start()

    def log(self, kind: str) -> None:
        os.write(self.log_file, f"{monotonic():.6f} {kind} {content(self.store.document)!r}\n".encode())

    def step(self) -> None:
        what = self.random.random()
        if what < 0.1:
            self.store.undo()
        elif what < 0.15:
            self.store.redo()
        elif what < 0.19:
            data = self.store.document
            save_project(data, self.file)
            self.keeper.finish()
            self.store.mark_saved(data, self.file)
            self.log("saved")
        else:
            length = 400.0 + self.random.random() * 600.0
            self.store.apply("Length", lambda p: longer(p, length), "length" if what < 0.5 else None)


def longer(project: Project, length: float) -> Project:
    shelf = msgspec.structs.replace(project.shelves[0], length=length)
    return msgspec.structs.replace(project, shelves=(shelf, *project.shelves[1:]))


def work(file: Path, seed: int, after_ms: int) -> None:
    signal.alarm(int(LONGEST_S))
    app = QCoreApplication([])
    maker = Maker(file, seed, after_ms)
    app.exec()
    del maker


def serve() -> None:
    """Everything is loaded once; each child is a copy."""
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    make_plan(load_project(sys.argv[1]))
    print("ready", flush=True)
    for line in sys.stdin:
        file, seed, after_ms = line.rsplit(maxsplit=2)
        child = os.fork()
        if child == 0:
            work(Path(file), int(seed), int(after_ms))
            os._exit(0)
        print(child, flush=True)


if __name__ == "__main__":
    serve()
