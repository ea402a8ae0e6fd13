"""Brings the stage once the window has been painted, without holding it."""

from __future__ import annotations

from importlib import import_module
from threading import Thread
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal
from PySide6.QtGui import QGuiApplication

from app.collecting import no_collecting
from app.theme import Theme
from core.language import tr

if TYPE_CHECKING:
    from app.fold.stage import Stage

# Slow to import and free of Qt: a thread does it, the window goes on.
_OWN: Final = ("picking", "scene", "edges", "pulling")
HEAVY: Final = ("numpy", "PIL.Image", "core.face", *(f"app.fold.{name}" for name in _OWN))
LOOK_MS: Final = 15
BARE_DISPLAYS: Final = ("offscreen", "minimal")
NO_DISPLAY: Final = tr("this display has no OpenGL")


class Loader(QObject):
    """`ready`: the stage can draw. `lost`: it cannot, or no longer; `reason` says why."""

    ready = Signal()
    lost = Signal()

    def __init__(self, theme: Theme, parent: QObject) -> None:
        super().__init__(parent)
        self._theme = theme
        self._stage: Stage | None = None
        self._is_ready = False
        self._thread: Thread | None = None
        self.reason = ""
        self._timer = QTimer(self, interval=LOOK_MS)
        self._timer.timeout.connect(self._look)

    @property
    def stage(self) -> Stage | None:
        """The stage, once it can draw."""
        return self._stage if self._is_ready else None

    def begin(self) -> None:
        """Start, once."""
        if self._thread is not None or self.reason:
            return
        if QGuiApplication.platformName() in BARE_DISPLAYS:
            self._lose(NO_DISPLAY)
            return
        is_x = QGuiApplication.platformName() == "xcb"
        self._thread = Thread(target=_bring_heavy, args=(is_x,), name="fold", daemon=True)
        self._thread.start()
        self._timer.start()

    def _look(self) -> None:
        if self._thread is not None and self._thread.is_alive():
            return
        self._timer.stop()
        from app.fold.stage import Stage

        self._stage = Stage(self._theme.palette, self)
        self._stage.lost.connect(self._lose)
        self._stage.live.started.connect(self._start)
        self.destroyed.connect(self._stage.live.end)
        app = QCoreApplication.instance()
        if app is not None:
            app.aboutToQuit.connect(self._stage.live.end)
        self._stage.live.begin()

    def _start(self) -> None:
        self._is_ready = True
        self.ready.emit()

    def _lose(self, why: str) -> None:
        self.reason = why
        self._is_ready = False
        self.lost.emit()


def _bring_heavy(is_x: bool) -> None:
    """is_x: on an X display, whose driver is loaded too."""
    with no_collecting():
        for name in HEAVY:
            import_module(name)
        if is_x:
            from app.fold.gl.driver import load_driver

            load_driver()
