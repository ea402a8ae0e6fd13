"""Ways out that take long to try: the plan is shown without them, and they follow when they are known."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter
from typing import Final

from PySide6.QtCore import QObject, Signal

from app.slices import Slices
from core.document.model import Project
from core.packing.clock import Stop
from core.plan.fixes import with_fixes, without_fixes
from core.plan.make import best_plan
from core.plan.model import Plan

AT_ONCE: Final = 0.04  # s: so long the window waits for them


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
        self._bare: Plan | None = None  # the plan whose ways out are not known yet

    @property
    def busy(self) -> bool:
        """Are ways out still being tried?"""
        return self._slices.busy

    def tried(self, bare: Plan) -> Plan:
        """The plan with its ways out where they are quickly tried; else without, and they follow."""
        self.drop()
        self._bare = None
        try:
            return with_fixes(bare, best_plan, _until(perf_counter() + AT_ONCE))
        except _LateError:
            self._bare = bare
            self.resume(bare.project)
            return without_fixes(bare)

    def resume(self, project: Project) -> None:
        """Go on trying, where the last plan there were some left of is this project's."""
        bare = self._bare
        if bare is not None and bare.project is project:
            self._slices.ask(lambda stop: with_fixes(bare, best_plan, _unless(stop)), self._end)

    def finish(self) -> None:
        """Try what is left now."""
        if self.busy and self._bare is not None:
            bare, self._bare = self._bare, None
            self._slices.drop()
            self.found.emit(with_fixes(bare, best_plan))

    def drop(self) -> None:
        """Another plan is on its way; `resume` is for when that comes to nothing."""
        self._slices.drop()

    def _end(self, plan: object) -> None:
        self._bare = None
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
