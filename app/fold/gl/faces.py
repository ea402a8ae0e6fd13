"""The pictures on the card by name; a new one replaces the old when all of it is there."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import Final

import numpy as np
from PySide6.QtGui import QOpenGLFunctions

from app.fold.gl.texture import FaceTexture
from app.fold.levels import Bytes

BARE: Final = (222, 196, 152)  # what lies on the wood until its picture is there
SPARE_BYTES: Final = 48_000_000  # of pictures that are not in use, kept for when they are again


class CardFaces:
    """Owns the textures. The context must be current in every call but those that only ask."""

    def __init__(self, gl: QOpenGLFunctions) -> None:
        self._gl = gl
        self._there: dict[Hashable, FaceTexture] = {}  # the longest unused first
        self._waiting: dict[Hashable, Sequence[Bytes]] = {}
        self._coming: tuple[Hashable, FaceTexture] | None = None
        self._bare = FaceTexture(gl, [np.full((side, side, 3), BARE, np.uint8) for side in (2, 1)])
        self._bare.feed(1000.0)

    @property
    def count(self) -> int:
        """Textures on the card."""
        return 1 + len(self._there) + (self._coming is not None)

    @property
    def is_waiting(self) -> bool:
        """Is there a picture to bring?"""
        return self._coming is not None or bool(self._waiting)

    def has(self, key: Hashable) -> bool:
        """Is its picture there, or on its way?"""
        return key in self._there or key in self._waiting or self._is_coming(key)

    def _is_coming(self, key: Hashable) -> bool:
        return self._coming is not None and self._coming[0] == key

    def give(self, key: Hashable, levels: Sequence[Bytes]) -> None:
        """A picture to be brought, instead of one that is still on its way."""
        if self._is_coming(key):
            self._stop()
        self._waiting[key] = levels

    def feed(self, milliseconds: float) -> bool:
        """Bring for about so long, or make room for the next picture; says whether there is more to do."""
        if self._coming is None and self._waiting:
            key = next(iter(self._waiting))
            self._coming = (key, FaceTexture(self._gl, self._waiting.pop(key)))
        elif self._coming is not None:
            key, face = self._coming
            face.feed(milliseconds)
            if face.is_whole:
                self._drop(key)
                self._there[key] = face
                self._coming = None
        return self.is_waiting

    def keep(self, used: set[Hashable]) -> None:
        """Take off the card what is not in use, but for the last few."""
        for key in [key for key in self._waiting if key not in used]:
            del self._waiting[key]
        if self._coming is not None and self._coming[0] not in used:
            self._stop()
        for key in [key for key in self._there if key in used]:
            self._there[key] = self._there.pop(key)  # the newest last
        spare = {key: face.bytes for key, face in self._there.items() if key not in used}
        for key in list(spare):
            if sum(spare.values()) <= SPARE_BYTES:
                break
            del spare[key]
            self._drop(key)

    def bind(self, key: Hashable) -> None:
        """Draw with this one, or with bare wood."""
        self._there.get(key, self._bare).bind()

    def destroy(self) -> None:
        """Take all off the card."""
        self._waiting.clear()
        self._stop()
        for key in list(self._there):
            self._drop(key)
        self._bare.destroy()

    def _stop(self) -> None:
        if self._coming is not None:
            self._coming[1].destroy()
            self._coming = None

    def _drop(self, key: Hashable) -> None:
        face = self._there.pop(key, None)
        if face is not None:
            face.destroy()
