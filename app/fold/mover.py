"""What moves by itself: the way to a named side, folding and unfolding, and the gentle turn at the start."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sin
from time import perf_counter

from PySide6.QtCore import QCoreApplication, QEasingCurve, QEvent, QObject, QTimer, QVariantAnimation

from app.fold.motion import less_motion

MOVE_MS = 260
TURN_S, TURN_DEG = 11.0, 14.0  # the turn at the start: to one side, to the other, and home again
TURN_STEP_MS = 33
TOUCHES = frozenset(
    {QEvent.Type.MouseButtonPress, QEvent.Type.Wheel, QEvent.Type.KeyPress, QEvent.Type.TouchBegin, QEvent.Type.Drop}
)


class Mover(QObject):
    """Runs one motion at a time; a new one ends the one before where it is."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._step: Callable[[float], None] | None = None
        self._run = QVariantAnimation(self)
        self._run.setStartValue(0.0)
        self._run.setEndValue(1.0)
        self._run.setDuration(MOVE_MS)
        self._run.setEasingCurve(QEasingCurve.Type.InOutCubic)
        self._run.valueChanged.connect(self._advance)
        self.is_quiet = less_motion()

    @property
    def is_running(self) -> bool:
        """Is something under way?"""
        return self._run.state() == QVariantAnimation.State.Running

    def go(self, step: Callable[[float], None]) -> None:
        """Call `step` with shares from 0 to 1; at once with 1 where the system asks for less motion."""
        self.halt()
        if self.is_quiet:
            step(1.0)
            return
        self._step = step
        self._run.start()

    def halt(self) -> None:
        """Leave things where they are."""
        self._run.stop()
        self._step = None

    def _advance(self, share: float) -> None:
        if self._step is not None:
            self._step(float(share))


class Turn(QObject):
    """Swings once to either side, and stops for good at the first touch anywhere in the program.

    `turn_by` takes degrees.
    """

    def __init__(self, parent: QObject, turn_by: Callable[[float], None]) -> None:
        super().__init__(parent)
        self._turn_by = turn_by
        self._turned = 0.0
        self._began = 0.0
        self._is_spent = False
        self._timer = QTimer(self, interval=TURN_STEP_MS)
        self._timer.timeout.connect(self._advance)

    @property
    def is_running(self) -> bool:
        """Is it turning?"""
        return self._timer.isActive()

    def begin(self) -> None:
        """Turn, unless it has turned before or the system asks for less motion."""
        if not self._is_spent and not less_motion():
            self._began = perf_counter()
            self._timer.start()
            app = QCoreApplication.instance()
            if app is not None:
                app.installEventFilter(self)
        self._is_spent = True

    def end(self) -> None:
        """Stop; it never starts again."""
        self._is_spent = True
        if self._timer.isActive():
            self._timer.stop()
            app = QCoreApplication.instance()
            if app is not None:
                app.removeEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in TOUCHES:
            self.end()
        return False

    def _advance(self) -> None:
        share = (perf_counter() - self._began) / TURN_S
        turned = TURN_DEG * sin(2.0 * pi * min(share, 1.0))
        self._turn_by(turned - self._turned)
        self._turned = turned
        if share >= 1.0:
            self.end()
