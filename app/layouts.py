"""The least layout, looked for in a process of its own while the hand rests, and put in the quick one's place.

Nothing is started before there is something to find, the process ends when it has had nothing to do for a while, and
with the window. An answer counts only for the project it was asked for, and never while a hand drags or is about to.
"""

from __future__ import annotations

import os
from collections import OrderedDict
from contextlib import suppress
from typing import Final

from PySide6.QtCore import QObject, QTimer

from app.store import Store
from core.document.model import Project
from core.packing.process import Solver
from core.plan.least import LeastLayout, answer_layout, at_home, at_once

REST_MS: Final = 300  # after the last edit
LOOK_MS: Final = 20  # between two looks for the answer
READY_MS: Final = 150  # between two looks whether the hand is still on something it may drag
IDLE_MS: Final = 20_000  # the process ends after so long with nothing to do
SECONDS: Final = 10.0  # as the export command allows
NICE: Final = 5
REMEMBERED: Final = 32  # projects, for the way back and forth


class Layouts(QObject):
    """Watches the store and gives its planner the least layouts."""

    def __init__(self, store: Store, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._store = store
        self._solver = Solver(answer_layout)
        self._asked: Project | None = None
        self._closed = False
        self._known: OrderedDict[Project, LeastLayout] = OrderedDict()
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._begin)
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self._take)
        self._later = QTimer(self, singleShot=True, interval=READY_MS)
        self._later.timeout.connect(self._follow)
        self._idle = QTimer(self, singleShot=True, interval=IDLE_MS)
        self._idle.timeout.connect(self._solver.close)
        self.destroyed.connect(self._solver.close)  # a window thrown away without being closed leaves no process
        store.plan_changed.connect(self._follow)
        store.state_changed.connect(self._follow)  # a hand takes hold or lets go
        self._follow()

    @property
    def busy(self) -> bool:
        """Is a layout being looked for, or about to be?"""
        return self._rest.isActive() or self._later.isActive() or self._asked is not None

    @property
    def process(self) -> int | None:
        """Number of the process, None where there is none."""
        return self._solver.pid

    def close(self) -> None:
        """End the process at once; nothing is looked for any more."""
        self._closed = True
        for timer in (self._rest, self._look, self._later, self._idle):
            timer.stop()
        self._asked = None
        self._solver.close()

    def _follow(self) -> None:
        """The plan is another one, or a hand is at work."""
        if self._closed:
            return
        project = self._store.planner.project
        if self._asked is not None and (self._store.held is not None or project != self._asked):
            self._give_up()
        if self._store.held is not None or self._store.planner.plan.proof is not None:
            self._rest.stop()
        elif project in self._known:
            self._rest.stop()
            self._put(project)
        elif self._asked is None:
            self._rest.start()

    def _begin(self) -> None:
        planner = self._store.planner
        if self._store.held is not None or not planner.settled or planner.plan.proof is not None:
            return
        proof = at_once(planner.plan)
        if proof is not None:
            planner.prove(proof)
            return
        self._asked = planner.project
        self._idle.stop()
        self._solver.ask(self._asked, SECONDS)
        self._give_way()
        self._look.start()

    def _give_way(self) -> None:
        """The window has the machine first."""
        process = self._solver.pid
        if process is not None and hasattr(os, "setpriority"):
            with suppress(OSError):
                os.setpriority(os.PRIO_PROCESS, process, NICE)

    def _take(self) -> None:
        """Look whether the answer has come."""
        for reply in self._solver.replies():
            if reply.final and self._asked is not None:
                project, self._asked = self._asked, None
                self._look.stop()
                self._idle.start()
                if isinstance(reply.answer, LeastLayout):
                    self._remember(project, at_home(reply.answer, project))
                    self._put(project)

    def _remember(self, project: Project, found: LeastLayout) -> None:
        self._known[project] = found
        while len(self._known) > REMEMBERED:
            self._known.popitem(last=False)

    def _put(self, project: Project) -> None:
        if self._store.ready:  # nothing moves away from under a hand
            self._later.start()
        else:
            self._store.planner.adopt(project, self._known[project])

    def _give_up(self) -> None:
        self._asked = None
        self._look.stop()
        self._solver.stop()
