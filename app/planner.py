"""Makes the plan after each edit: at once where that is quick or a hand is dragging, gathered where it is not.

While a hand moves, what is known at once is planned (`core.plan.moving`), and the whole plan when it pauses. Ways out
that take longer to try than a hand would wait come a little later than the plan they are for (`app.ways`).
"""

from __future__ import annotations

from collections import deque
from time import perf_counter
from typing import Final

import msgspec
from PySide6.QtCore import QObject, QTimer, Signal

from app.ways import Ways
from core.document.model import Project, Shelf
from core.layout.hold import hold
from core.layout.model import Layout, NetSize
from core.layout.proven.model import Proof
from core.plan.fixes import without_fixes
from core.plan.least import LeastLayout, is_better
from core.plan.make import best_plan, make_plan, proven_plan
from core.plan.model import Plan
from core.plan.moving import moving_plan
from core.plan.shapes import apart_shape, shape_of

# A plan that takes longer than this would be felt in every keystroke and every step of a drag. [ms]
QUICK_MS: Final = 12.0
GATHER_MS: Final = 40  # edits closer together than this share one plan, where planning is slow
PAUSE_MS: Final = 60  # a hand that has not moved for so long has paused


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
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self._make)
        self._from: Layout | None = None  # what the layout is held to
        self._shop: tuple[object, object, object] = (None, None, None)
        self._sized: dict[int, tuple[Shelf, int, list[NetSize]]] = {}
        self._ways = Ways(self)
        self._ways.found.connect(self._ways_found)
        self.plan: Plan = make_plan(project)

    @property
    def usual_ms(self) -> float:
        """How long a plan takes when nothing else holds the machine. [ms]"""
        return min(self._times, default=0.0)

    @property
    def settled(self) -> bool:
        """Is the plan the newest project's, and whole?"""
        return not self._timer.isActive() and not self._pause.isActive() and not self._ways.busy

    @property
    def holding(self) -> bool:
        """Are the nets held where they lay, as far as they can be?"""
        return self._from is not None

    def hold_from(self, layout: Layout | None) -> None:
        """Hold the nets to this layout from now on, and plan at once; None lays the newest project out afresh."""
        held = self._from
        if layout is not None:
            self.catch_up()
            self._from = layout
        elif held is not None:
            self._pause.stop()
            self._from = None
            self.ask(self._project)

    def restore(self, project: Project, plan: Plan) -> None:
        """Back to an earlier project and its plan, as it was; nothing is held any more."""
        self._timer.stop()
        self._pause.stop()
        self._ways.drop()
        self._from = None
        self._project = project
        if plan is not self.plan:
            self.plan = plan
            self.planned.emit()
        self._ways.resume(project)

    @property
    def project(self) -> Project:
        """The newest project."""
        return self._project

    def prove(self, proof: Proof) -> None:
        """This is known of the plan's layout."""
        self.plan = msgspec.structs.replace(self.plan, proof=proof)
        self.planned.emit()

    def adopt(self, project: Project, found: LeastLayout) -> None:
        """Take a layout that was found for a project, where it is better than the plan's own.

        Dropped where the project is another one by now, or a hand holds the nets.
        """
        if self._from is not None or not self.settled or project != self._project:
            return
        if is_better(found, self.plan):
            try:
                self.plan = self._ways.tried(proven_plan(self._project, found.layout, found.proof))
            except Exception as error:  # as in _make
                self.failed.emit(error)
                return
            self.planned.emit()
        else:
            self.prove(found.proof)

    def ask(self, project: Project) -> None:
        """Plan this project, now or soon."""
        self._project = project
        if self._from is not None:
            self._follow()
        elif self.usual_ms <= QUICK_MS:
            self._make()
        elif not self._timer.isActive():  # a run of edits is planned now and then, not only at its end
            self._timer.start()

    def settle(self) -> None:
        """Make the plan that is still due, now, and try its ways out, and those of a better layout that was waiting."""
        self.catch_up()
        while self._ways.busy:
            self._ways.finish()

    def catch_up(self) -> None:
        """Make the plan that is still due, now; its ways out may come later."""
        if self._timer.isActive() or self._pause.isActive():
            self._make()

    def _ways_found(self, plan: object) -> None:
        """The ways out of the plan's findings have been tried."""
        if isinstance(plan, Plan):
            self.plan = msgspec.structs.replace(self.plan, findings=plan.findings)
            self.planned.emit()

    def _follow(self) -> None:
        """Plan what is known at once; the rest when the hand pauses."""
        self._pause.stop()
        self._ways.drop()
        try:
            plan = self._moving()
        except Exception as error:  # as in _make
            self.failed.emit(error)
            return
        if plan is None:
            self._make()
            return
        self.plan = plan
        self._pause.start()
        self.planned.emit()

    def _moving(self) -> Plan | None:
        if self._from is None or not self._is_known(self._from):
            return None
        layout = hold(self._project, self._net_sizes(), self._from)
        return moving_plan(self._project, layout, self.plan.whole or self.plan)

    def _make(self) -> None:
        self._timer.stop()
        self._pause.stop()
        began = perf_counter()
        try:
            plan = self._plan()
        except Exception as error:  # a bug in the core must not take the window, or the maker's work, with it
            self.failed.emit(error)
            return
        if self._from is None:
            self._times.append((perf_counter() - began) * 1000.0)
        self.plan = plan
        self.planned.emit()

    def _plan(self) -> Plan:
        self._ways.drop()
        if self._from is None:
            return self._ways.tried(best_plan(self._project))
        if not self._is_known(self._from):  # a shelf has come or gone: from here on the new ones are held
            plan = without_fixes(best_plan(self._project))
            self._from = plan.layout
            return plan
        return make_plan(self._project, hold(self._project, self._net_sizes(), self._from))

    def _is_known(self, layout: Layout) -> bool:
        """Is the layout one of all nets of the project, and no other?"""
        count = sum(1 + len(shelf.apart) for shelf in self._project.shelves)
        known = {spot.index for spot in layout.spots} | {misfit.index for misfit in layout.misfits}
        return known == set(range(count))

    def _net_sizes(self) -> list[NetSize]:
        """The sizes of all nets; those of shelves that are still the same are kept from one move to the next."""
        project = self._project
        shop = (project.sheets, project.saw, project.glue_line)
        if any(new is not old for new, old in zip(shop, self._shop, strict=True)):
            self._shop, self._sized = shop, {}
        beyond = len(project.shelves)
        for at, shelf in enumerate(project.shelves):
            known = self._sized.get(at)
            if known is None or known[0] is not shelf or known[1] != beyond:
                net = shape_of(project, at)
                apart = [apart_shape(net, role, beyond + n).size for n, role in enumerate(shelf.apart)]
                self._sized[at] = shelf, beyond, [net.size, *apart]
            beyond += len(shelf.apart)
        found = [self._sized[at][2] for at in range(len(project.shelves))]
        return [*(sizes[0] for sizes in found), *(size for sizes in found for size in sizes[1:])]
