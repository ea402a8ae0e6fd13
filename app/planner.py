"""Makes the plan after each edit: at once where that is quick, gathered where it is not."""

from __future__ import annotations

from collections import deque
from time import perf_counter
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from core.document.model import Project
from core.plan.make import make_plan
from core.plan.model import Plan

# A plan that takes longer than this would be felt in every keystroke and every step of a drag. [ms]
QUICK_MS: Final = 12.0
GATHER_MS: Final = 40  # edits closer together than this share one plan, where planning is slow


class Planner(QObject):
    """Holds the newest plan.

    `planned` is sent when there is a new one. `failed` is sent, with the error, when making it went wrong: that is
    an error of the program, the older plan stays.
    """

    planned = Signal()
    failed = Signal(object)

    def __init__(self, project: Project, parent: QObject | None = None, gather_ms: int = GATHER_MS) -> None:
        super().__init__(parent)
        self._project = project
        self._times: deque[float] = deque(maxlen=5)
        self._timer = QTimer(self, singleShot=True, interval=gather_ms)
        self._timer.timeout.connect(self._make)
        self.plan: Plan = make_plan(project)

    @property
    def usual_ms(self) -> float:
        """How long a plan takes when nothing else holds the machine. [ms]"""
        return min(self._times, default=0.0)

    @property
    def settled(self) -> bool:
        """Is the plan the newest project's?"""
        return not self._timer.isActive()

    def ask(self, project: Project) -> None:
        """Plan this project, now or soon."""
        self._project = project
        if self.usual_ms <= QUICK_MS:
            self._make()
        elif not self._timer.isActive():  # a run of edits is planned now and then, not only at its end
            self._timer.start()

    def settle(self) -> None:
        """Make the plan that is still due, now."""
        if self._timer.isActive():
            self._make()

    def _make(self) -> None:
        self._timer.stop()
        began = perf_counter()
        try:
            plan = make_plan(self._project)
        except Exception as error:  # a bug in the core must not take the window, or the maker's work, with it
            self.failed.emit(error)
            return
        self._times.append((perf_counter() - began) * 1000.0)
        self.plan = plan
        self.planned.emit()
