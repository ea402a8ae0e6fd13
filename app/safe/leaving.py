"""Leaving without being asked: the session ends, or the system says stop. What is not saved stays on the disk."""

from __future__ import annotations

import signal
import socket
from collections.abc import Callable
from types import FrameType

from PySide6.QtCore import QObject, QSocketNotifier

ENDS = ("SIGTERM", "SIGHUP", "SIGINT")


class Signals(QObject):
    """Turns the system's signals to stop into one call in the window's own time."""

    def __init__(self, stop: Callable[[], object], parent: QObject) -> None:
        super().__init__(parent)
        self._stop = stop
        self._in, self._out = socket.socketpair()
        for end in (self._in, self._out):
            end.setblocking(False)
        signal.set_wakeup_fd(self._out.fileno(), warn_on_full_buffer=False)
        for name in ENDS:
            if hasattr(signal, name):
                signal.signal(getattr(signal, name), self._nothing)
        self._notifier = QSocketNotifier(self._in.fileno(), QSocketNotifier.Type.Read, self)
        self._notifier.activated.connect(self._came)

    def _nothing(self, number: int, frame: FrameType | None) -> None:
        """What is to be done is done by the notifier."""

    def _came(self) -> None:
        if set(self._in.recv(64)) & {int(getattr(signal, name)) for name in ENDS if hasattr(signal, name)}:
            self._stop()
