"""An OpenGL context with a surface nobody sees, so that the window itself stays plain pixels."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtGui import QGuiApplication, QOffscreenSurface, QOpenGLContext, QOpenGLFunctions, QSurfaceFormat
from shiboken6 import isValid

LEAST = (2, 1)  # OpenGL version: what the shaders are written for


class NoOpenGLError(Exception):
    """There is no OpenGL here; the message says why, to follow 'without OpenGL, because'."""


class GlError(Exception):
    """OpenGL says that a call was wrong: a mistake of the program, or of the driver."""


class GlContext:
    """Owns the context. Make it current with `using` round whatever calls OpenGL."""

    def __init__(self) -> None:
        """Raises NoOpenGLError where the machine or the display has none that is enough."""
        if QGuiApplication.platformName() in ("offscreen", "minimal"):
            raise NoOpenGLError("this display draws no solids")  # Qt would say so on stderr and give a dead context
        wanted = QSurfaceFormat()
        wanted.setDepthBufferSize(24)
        self._context = QOpenGLContext()
        self._context.setFormat(wanted)
        if not self._context.create():
            raise NoOpenGLError("the display gives no OpenGL context")
        self._surface = QOffscreenSurface()
        self._surface.setFormat(self._context.format())
        self._surface.create()
        if not self._surface.isValid() or not self._context.makeCurrent(self._surface):
            raise NoOpenGLError("the display gives no surface to draw on")
        version = self._context.format().version()
        if version < LEAST or self._context.isOpenGLES():
            major, minor = version
            raise NoOpenGLError(f"it needs OpenGL {LEAST[0]}.{LEAST[1]} and the display has {major}.{minor}")
        self.gl: QOpenGLFunctions = self._context.functions()
        self._context.doneCurrent()

    @property
    def is_alive(self) -> bool:
        """Is there still a context to give things back to?"""
        return bool(isValid(self._context)) and bool(isValid(self._surface))

    @contextmanager
    def using(self) -> Iterator[QOpenGLFunctions]:
        """Current inside the block. Raises NoOpenGLError where it was lost, as after a change of graphics card."""
        if not self._context.makeCurrent(self._surface):
            raise NoOpenGLError("the display took its OpenGL context back")
        try:
            yield self.gl
        finally:
            self._context.doneCurrent()
