"""What lies on a board, as screen readers hear it: an unseen button over each thing, with its name and sizes.

They are made only where somebody listens, after the plan has rested; a hand that drags never waits for them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Final, NamedTuple

from PySide6.QtCore import QObject, QRect, QTimer
from PySide6.QtGui import QAccessible, QPaintEvent, Qt
from PySide6.QtWidgets import QAbstractButton, QWidget

from app.store import Store

REST_MS: Final = 300
LEAST: Final = 24  # pixels: a thing that is drawn smaller is still to be pointed at


class Thing(NamedTuple):
    """One thing on a board: its id, what it is called, its sizes in words, and where it is on the widget."""

    about: str
    name: str
    value: str
    box: QRect


class Unseen(QAbstractButton):
    """Nothing is painted, the mouse goes through; pressed by a screen reader it selects its thing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setCheckable(True)
        self.about = ""

    def paintEvent(self, event: QPaintEvent) -> None:
        """The board itself shows it."""


class Things(QObject):
    """Keeps the unseen buttons of one board's picture. list_: what there is now."""

    def __init__(self, store: Store, picture: QWidget, list_: Callable[[], Sequence[Thing]]) -> None:
        super().__init__(picture)
        self._store = store
        self._picture = picture
        self._list = list_
        self._buttons: list[Unseen] = []
        self._timer = QTimer(self, singleShot=True, interval=REST_MS)
        self._timer.timeout.connect(self._rest)
        store.plan_changed.connect(self._wait)
        store.selection_changed.connect(self._wait)

    def _wait(self) -> None:
        if QAccessible.isActive():
            self._timer.start()

    def _rest(self) -> None:
        if self._store.held is None:
            self.refresh()
        else:
            self._timer.start()

    def refresh(self) -> None:
        """Show what there is now."""
        things = self._list()
        while len(self._buttons) > len(things):
            gone = self._buttons.pop()
            gone.hide()
            gone.deleteLater()
        while len(self._buttons) < len(things):
            made = Unseen(self._picture)
            made.clicked.connect(partial(self._pressed, made))
            self._buttons.append(made)
        for button, thing in zip(self._buttons, things, strict=True):
            button.setObjectName(f"thing {thing.about}")
            button.setAccessibleName(thing.name)
            button.setAccessibleDescription(thing.value)
            wide = max(0, LEAST - thing.box.width()) // 2
            high = max(0, LEAST - thing.box.height()) // 2
            button.setGeometry(thing.box.adjusted(-wide, -high, wide, high))
            button.setChecked(self._store.selected.partition("/")[0] == thing.about.partition("/")[0])
            button.about = thing.about
            button.show()

    def _pressed(self, button: Unseen) -> None:
        button.setChecked(True)
        self._store.select(button.about)
