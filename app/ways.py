"""Ways out that take long to try: the plan is shown without them, and they follow when they are known."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter
from typing import Final

from PySide6.QtCore import QObject, Signal

from app.slices import Slices
from core.packing.clock import Stop
from core.plan.fixes import with_fixes, without_fixes
from core.plan.make import best_plan
from core.plan.model import Plan

AT_ONCE: Final = 0.04  # s: so long the window waits for them
REMEMBERED: Final = 4  # plans: the one that is shown, and those it may be put back to


class _LateError(Exception):
    """They take longer than the window waits."""


class _DroppedError(Exception):
    """Nobody wants them any more."""


class Ways(QObject):
    """`found` sends along the plan with its ways out, after `tried` gave it without."""

    found = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._slices = Slices(self)
        self._late: list[Plan] = []  # plans whose ways out are not known yet, the newest last
        self._asked: Plan | None = None  # the one of them that is being tried

    @property
    def busy(self) -> bool:
        """Are ways out still being tried?"""
        return self._slices.busy

    def tried(self, bare: Plan) -> Plan:
        """The plan with its ways out where they are quickly tried; else without, and they follow."""
        self.drop()
        try:
            return with_fixes(bare, best_plan, _until(perf_counter() + AT_ONCE))
        except _LateError:
            self._late = [*self._late[1 - REMEMBERED :], bare]
            self._ask(bare)
            return without_fixes(bare)

    def resume(self, plan: Plan) -> None:
        """A plan that `tried` gave is shown again: go on trying its ways out where there are some left."""
        for bare in self._late:
            if bare.project is plan.project and bare.layout is plan.layout:
                self._ask(bare)

    def finish(self) -> None:
        """Try what is left now."""
        if self.busy and self._asked is not None:
            self._slices.drop()
            self._end(with_fixes(self._asked, best_plan))

    def drop(self) -> None:
        """Another plan is on its way; `resume` is for when that comes to nothing."""
        self._slices.drop()

    def _ask(self, bare: Plan) -> None:
        self._asked = bare
        self._slices.ask(lambda stop: with_fixes(bare, best_plan, _unless(stop)), self._end)

    def _end(self, plan: object) -> None:
        self._late = [one for one in self._late if one is not self._asked]
        self._asked = None
        self.found.emit(plan)


def _until(end: float) -> Callable[[], None]:
    def between() -> None:
        if perf_counter() > end:
            raise _LateError

    return between


def _unless(stop: Stop) -> Callable[[], None]:
    def between() -> None:
        if stop():
            raise _DroppedError

    return between
