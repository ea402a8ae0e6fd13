"""A face and its halvings, made off the GUI thread, in strips, so that no step holds other threads for long."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Bytes = NDArray[np.uint8]

STRIP = 128  # rows halved at a time


def halved(picture: Bytes) -> Bytes:
    """Half the size each way, each pixel the mean of four; odd last rows and columns are met by fewer."""
    from PIL import Image

    down, across = picture.shape[:2]
    half = np.empty(((down + 1) // 2, (across + 1) // 2, picture.shape[2]), np.uint8)
    for low in range(0, down, STRIP):
        strip = np.ascontiguousarray(picture[low : low + STRIP])
        half[low // 2 : (low + STRIP) // 2] = np.asarray(Image.fromarray(strip).reduce((2, 2)))
    return half


def levels_of(picture: Bytes, stop: Callable[[], bool] | None = None) -> tuple[Bytes, ...]:
    """The picture itself and each halving down to one pixel; empty once `stop` says True."""
    found = [picture]
    while max(found[-1].shape[:2]) > 1:
        if stop is not None and stop():
            return ()
        found.append(_shrunk(found[-1]))
    return tuple(found)


def _shrunk(picture: Bytes) -> Bytes:
    """The next level as OpenGL counts them: sizes are halved and rounded down, at least 1."""
    down, across = picture.shape[:2]
    wanted = max(1, down // 2), max(1, across // 2)
    if min(down, across) > 1:
        return np.ascontiguousarray(halved(picture)[: wanted[0], : wanted[1]])
    from PIL import Image

    return np.asarray(Image.fromarray(picture).resize((wanted[1], wanted[0]), Image.Resampling.BOX))
