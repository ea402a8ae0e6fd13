"""A monkey at the real window: random clicks, drags, wheels, keys and sizes, from a seed.

`python -m tests.bench monkey` measures how long the window takes for each. What the system would show in windows of its
own (file dialogs, the web) is answered; the window is not let go.
"""

from __future__ import annotations

import random
from contextlib import ExitStack
from pathlib import Path
from time import perf_counter
from typing import NamedTuple
from unittest.mock import patch

from PySide6.QtCore import QEvent, QEventLoop, QObject, QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QWidget

from app.window.window import Window
from core.document.model import Project

K, M, B = Qt.Key, Qt.KeyboardModifier, Qt.MouseButton
PLAIN = (
    *(K.Key_0, K.Key_1, K.Key_2, K.Key_7, K.Key_9, K.Key_Period, K.Key_Slash, K.Key_Minus, K.Key_A, K.Key_Z),
    *(K.Key_Tab, K.Key_Backtab, K.Key_Return, K.Key_Escape, K.Key_Space, K.Key_Backspace, K.Key_Delete, K.Key_F6),
    *(K.Key_Up, K.Key_Down, K.Key_Left, K.Key_Right, K.Key_PageUp, K.Key_PageDown, K.Key_Home, K.Key_End, K.Key_F1),
)
WITH_CONTROL = (
    *(K.Key_Z, K.Key_D, K.Key_Return, K.Key_Delete, K.Key_1, K.Key_2, K.Key_3, K.Key_4, K.Key_5, K.Key_6, K.Key_7),
    *(K.Key_8, K.Key_9, K.Key_H, K.Key_L, K.Key_K, K.Key_A, K.Key_C, K.Key_V, K.Key_S, K.Key_N, K.Key_P, K.Key_Q),
)
FRESH = 150  # events between two openings of the first project: else the wall fills up with shelves


class Slow(NamedTuple):
    """What took long."""

    seconds: float
    what: str


class Monkey(QObject):
    """Events come from a timer, so that a menu's own loop does not stop them."""

    def __init__(self, window: Window, project: Project, folder: Path, seed: int) -> None:
        super().__init__(window)
        self.window, self.project, self.folder = window, project, folder
        self.random = random.Random(seed)
        self.done = 0
        self.times: list[Slow] = []
        self._loop = QEventLoop(self)
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._step)
        self._busy = False

    def play(self, events: int) -> None:
        """So many events; errors are the window's to tell."""
        self._most = self.done + events
        chosen = lambda *_a, **_k: (str(self.folder / f"monkey {self.random.randrange(3)}.grainfold"), "")  # noqa: E731
        with ExitStack() as stack:
            for name in ("getSaveFileName", "getOpenFileName", "getOpenFileNames"):
                stack.enter_context(patch(f"PySide6.QtWidgets.QFileDialog.{name}", chosen))
            stack.enter_context(patch("PySide6.QtGui.QDesktopServices.openUrl", lambda *_: True))
            self.window.installEventFilter(self)
            self._timer.start(0)
            self._loop.exec()
            self._timer.stop()
            self.window.removeEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Close:
            event.ignore()
            return True
        return super().eventFilter(watched, event)

    def _step(self) -> None:
        if self.done >= self._most:
            popup = QApplication.activePopupWidget()
            if popup is not None:
                popup.close()
            self._loop.quit()
            return
        if self._busy:  # within a menu's loop the step that opened it has not ended
            popup = QApplication.activePopupWidget()
            if popup is None:
                return
            self.done += 1
            self._press_in_menu(popup)
            return
        self._busy = True
        self.done += 1
        if self.done % FRESH == 0:
            self.window.files._begin(self.project)
        what = self.random.choices((self._click, self._drag, self._key, self._wheel, self._resize), (30, 14, 40, 8, 2))[
            0
        ]
        began = perf_counter()
        said = what()
        self.times.append(Slow(perf_counter() - began, said))
        self._busy = False

    def _press_in_menu(self, popup: QWidget) -> None:
        keys = (K.Key_Down, K.Key_Down, K.Key_Up, K.Key_Right, K.Key_Left, K.Key_Return, K.Key_Escape)
        key = self.random.choice(keys) if isinstance(popup, QMenu) else K.Key_Escape
        QTest.keyClick(popup, key)

    def _place(self) -> tuple[QWidget, QPoint]:
        at = QPoint(self.random.randrange(self.window.width()), self.random.randrange(self.window.height()))
        child = self.window.childAt(at) or self.window
        return child, child.mapFrom(self.window, at)

    def _click(self) -> str:
        widget, at = self._place()
        double = self.random.random() < 0.15
        button = self.random.choices((B.LeftButton, B.RightButton, B.MiddleButton), (16, 1, 1))[0]
        (QTest.mouseDClick if double else QTest.mouseClick)(widget, button, self._keys(), at)
        return f"click on {_called(widget)}"

    def _drag(self) -> str:
        widget, at = self._place()
        QTest.mousePress(widget, B.LeftButton, self._keys(), at)
        for _ in range(self.random.randrange(1, 8)):
            at += QPoint(self.random.randrange(-25, 26), self.random.randrange(-25, 26))
            _move(widget, at)
        if self.random.random() < 0.15:
            QTest.keyClick(widget, K.Key_Escape)
        QTest.mouseRelease(widget, B.LeftButton, M.NoModifier, at)
        return f"drag on {_called(widget)}"

    def _key(self) -> str:
        focus = QApplication.focusWidget()
        widget = focus if focus is not None and self.window.isAncestorOf(focus) else self.window
        control = self.random.random() < 0.3
        key = self.random.choice(WITH_CONTROL if control else PLAIN)
        QTest.keyClick(widget, key, M.ControlModifier if control else self._keys())
        return f"{'Ctrl+' if control else ''}{key.name} on {_called(widget)}"

    def _wheel(self) -> str:
        widget, at = self._place()
        turn = QPoint(0, self.random.choice((-120, 120)))
        there = QPointF(widget.mapToGlobal(at))
        wheel = QWheelEvent(
            QPointF(at), there, QPoint(), turn, B.NoButton, self._keys(), Qt.ScrollPhase.NoScrollPhase, False
        )
        QApplication.sendEvent(widget, wheel)
        return f"wheel on {_called(widget)}"

    def _resize(self) -> str:
        self.window.resize(self.random.randrange(1120, 1600), self.random.randrange(660, 1000))
        return "resize"

    def _keys(self) -> Qt.KeyboardModifier:
        return self.random.choices((M.NoModifier, M.ShiftModifier, M.ControlModifier), (10, 1, 1))[0]


def _move(widget: QWidget, at: QPoint) -> None:
    from PySide6.QtGui import QMouseEvent

    there = QPointF(widget.mapToGlobal(at))
    event = QMouseEvent(QEvent.Type.MouseMove, QPointF(at), there, B.NoButton, B.LeftButton, M.NoModifier)
    QApplication.sendEvent(widget, event)


def _called(widget: QWidget) -> str:
    return f"{type(widget).__name__} {widget.objectName()}"
