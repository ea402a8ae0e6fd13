"""A picture on the graphics card, brought there in strips, the coarse halvings first.

Building halvings there (glGenerateMipmap) can hold the window for a tenth of a second, and so can a large picture at
one go; a strip takes about a millisecond.
"""

from __future__ import annotations

from collections.abc import Sequence
from time import perf_counter

import numpy as np
from PySide6.QtGui import QOpenGLFunctions
from PySide6.QtOpenGL import QOpenGLTexture

from app.fold.gl import names
from app.fold.gl.memory import address
from app.fold.levels import Bytes

STRIP_BYTES = 512 * 1024  # brought in one call
_COLOURS = {3: names.RGB, 4: names.RGBA}


class FaceTexture:
    """Level by level, coarsest first; can be drawn with as soon as one level is there."""

    def __init__(self, gl: QOpenGLFunctions, levels: Sequence[Bytes]) -> None:
        """The context must be current, here and in every call. levels: see `app.fold.levels.levels_of`.

        A picture is repeated along its rows, as edges want it; one of a sheet is only read inside.
        """
        kinds = QOpenGLTexture
        self._gl = gl
        self._levels = list(levels)
        down, across = levels[0].shape[:2]
        self._texture = kinds(kinds.Target.Target2D)
        self._texture.setFormat(kinds.TextureFormat.RGBA8_UNorm)
        self._texture.setSize(across, down)
        self._texture.setMipLevels(len(levels))
        self._texture.allocateStorage(kinds.PixelFormat.RGBA, kinds.PixelType.UInt8)
        self._texture.setMinMagFilters(kinds.Filter.LinearMipMapLinear, kinds.Filter.Linear)
        self._texture.setWrapMode(kinds.CoordinateDirection.DirectionS, kinds.WrapMode.Repeat)
        self._texture.setWrapMode(kinds.CoordinateDirection.DirectionT, kinds.WrapMode.ClampToEdge)
        self._texture.setMipMaxLevel(len(levels) - 1)
        self._level, self._row = len(levels) - 1, 0
        self._finest = len(levels)

    @property
    def is_ready(self) -> bool:
        """Is there anything to draw with?"""
        return self._finest < self._texture.mipLevels()

    @property
    def is_whole(self) -> bool:
        """Is all of it there?"""
        return self._level < 0

    @property
    def bytes(self) -> int:
        """What it takes on the card."""
        return self._texture.width() * self._texture.height() * 4 * 4 // 3

    def feed(self, milliseconds: float) -> None:
        """Bring more of it, for about so long."""
        end = perf_counter() + milliseconds / 1000.0
        self._texture.bind()
        self._gl.glPixelStorei(names.UNPACK_ALIGNMENT, 1)
        while not self.is_whole and perf_counter() < end:
            self._bring_strip()
        if self.is_ready:
            self._texture.setMipBaseLevel(self._finest)

    def _bring_strip(self) -> None:
        picture = self._levels[self._level]
        down, across, colours = picture.shape
        rows = min(max(1, STRIP_BYTES // (across * 4)), down - self._row)
        strip = np.ascontiguousarray(picture[self._row : self._row + rows])
        place = (names.TEXTURE_2D, self._level, 0, self._row, across, rows)
        self._gl.glTexSubImage2D(*place, _COLOURS[colours], names.UNSIGNED_BYTE, address(strip))
        self._row += rows
        if self._row == down:
            self._finest = self._level
            self._levels[self._level] = np.zeros((0, 0, 3), np.uint8)  # the card has it now
            self._level, self._row = self._level - 1, 0

    def bind(self) -> None:
        """Draw with it."""
        self._texture.bind()

    def destroy(self) -> None:
        """Take it off the card."""
        self._texture.destroy()
