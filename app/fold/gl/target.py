"""What is drawn into: a framebuffer of the picture's size, read back into an array."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QSize
from PySide6.QtGui import QImage, QOpenGLFunctions
from PySide6.QtOpenGL import QOpenGLFramebufferObject, QOpenGLFramebufferObjectFormat

from app.fold.gl import names
from app.fold.gl.context import NoOpenGLError
from app.fold.gl.memory import address
from app.fold.levels import Bytes

# Where the pixels of eight pictures lie, in parts of a pixel, no two in one row or column.
PLACES: Final = tuple(((2 * i - 7) / 16.0, (2 * j - 7) / 16.0) for i, j in enumerate((3, 6, 0, 4, 7, 2, 5, 1)))
SHARPER: Final = -1.3  # eight pictures together show so many halvings of a face more


class Target:
    """A framebuffer and the pixels it is read into."""

    def __init__(self, gl: QOpenGLFunctions, size: QSize) -> None:
        """The context must be current, here and in every call. Raises NoOpenGLError where it has no framebuffers."""
        self._gl = gl
        self.size = size
        wanted = QOpenGLFramebufferObjectFormat()
        wanted.setAttachment(QOpenGLFramebufferObject.Attachment.CombinedDepthStencil)
        wanted.setInternalTextureFormat(names.RGBA8)
        self._buffer = QOpenGLFramebufferObject(size, wanted)
        if not self._buffer.isValid():
            raise NoOpenGLError("the display's OpenGL has no framebuffers")
        self._pixels = np.empty((size.height(), size.width(), 4), np.uint8)

    def bind(self) -> None:
        """Draw into it."""
        self._buffer.bind()
        self._gl.glViewport(0, 0, self.size.width(), self.size.height())

    def read(self) -> Bytes:
        """What was drawn, (rows, columns, 4) as blue, green, red and nothing; the next reading overwrites it."""
        width, height = self.size.width(), self.size.height()
        data = address(self._pixels, is_written=True)
        self._buffer.bind()
        self._gl.glReadPixels(0, 0, width, height, names.BGRA, names.UNSIGNED_BYTE, data)
        self._buffer.release()
        return self._pixels


class Gathering:
    """The mean of several pictures, each moved by a part of a pixel: smooth edges and a sharp figure.

    One picture costs as much as a plain one, so the window is never held while a still one is made.
    """

    def __init__(self) -> None:
        self._sum: NDArray[np.uint16] | None = None
        self._count = 0

    @property
    def place(self) -> tuple[float, float] | None:
        """Where the next picture's pixels lie; None when it is done."""
        return PLACES[self._count] if self._count < len(PLACES) else None

    def add(self, pixels: Bytes) -> None:
        """One more picture."""
        if self._sum is None:
            self._sum = pixels.astype(np.uint16)
        else:
            self._sum += pixels
        self._count += 1

    def mean(self) -> Bytes:
        """What has been gathered, rounded."""
        assert self._sum is not None
        result: Bytes = ((self._sum + self._count // 2) // self._count).astype(np.uint8)
        return result


def image_of(pixels: Bytes, ratio: float = 1.0) -> QImage:
    """An image over these pixels; they must outlive it, or be copied."""
    height, width = pixels.shape[:2]
    image = QImage(pixels.data, width, height, 4 * width, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    return image
