"""The light on a straightened picture: how it falls off over the sheet, and taking that out.

The light is taken for a smooth surface: a polynomial of two variables, fitted to the logarithm of the lightness of a
grid of blocks, each its median, so that knots and lines weigh little. Figure is finer than that and stays; so does
the colour, for all three channels are scaled alike.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

Bytes = NDArray[np.uint8]
Floats = NDArray[np.float64]

BLOCKS: Final = (32, 20)  # along and across
ORDER: Final = 4  # of the polynomial: vignettes are even functions of it
LUMA: Final = (0.299, 0.587, 0.114)  # of red, green, blue; source: ITU-R BT.601
MOST_GAIN: Final = 4.0  # darker places are noise
STRIP: Final = 128


class Light:
    """The light found on a picture. `gain` says what levels it out."""

    def __init__(self, weights: Floats) -> None:
        self._weights = weights

    def gain(self, u: Floats, v: Floats) -> Floats:
        """What to multiply by at the places u x v, both 0..1 over the picture; (len(v), len(u))."""
        powers = [np.stack([_scaled(at) ** n for n in range(ORDER + 1)]) for at in (u, v)]
        surface = np.zeros((len(v), len(u)))
        for weight, (i, j) in zip(self._weights, _terms(), strict=True):
            if i or j:  # the constant is how light the wood is
                surface += weight * np.outer(powers[1][j], powers[0][i])
        surface -= self._mean
        result: Floats = np.clip(np.exp(-surface), 1.0 / MOST_GAIN, MOST_GAIN)
        return result

    @property
    def _mean(self) -> float:
        """Of the surface over the picture, without its constant."""
        side = [0.0 if n % 2 else 1.0 / (n + 1) for n in range(ORDER + 1)]
        return sum(
            float(weight) * side[i] * side[j] for weight, (i, j) in zip(self._weights, _terms(), strict=True) if i or j
        )


def _terms() -> list[tuple[int, int]]:
    return [(i, j) for i in range(ORDER + 1) for j in range(ORDER + 1 - i)]


def _scaled(at: Floats) -> Floats:
    result: Floats = 2.0 * at - 1.0
    return result


def light_on(picture: Bytes) -> Light:
    """The light on a straightened picture (down, across, 3), which may be a small one of it."""
    u, v, tones = _block_tones(picture)
    columns = np.stack([_scaled(u) ** i * _scaled(v) ** j for i, j in _terms()], axis=1)
    wanted = np.log(np.maximum(tones, 4.0))
    weights = np.linalg.lstsq(columns, wanted, rcond=None)[0]
    for _ in range(3):  # blocks far off the surface are patches and shadows of the figure: they weigh less
        off = np.abs(wanted - columns @ weights)
        trust = 1.0 / np.maximum(off, 2.0 * np.median(off) + 1e-6)
        weights = np.linalg.lstsq(columns * trust[:, None], wanted * trust, rcond=None)[0]
    return Light(np.asarray(weights, float))


def _block_tones(picture: Bytes) -> tuple[Floats, Floats, Floats]:
    """Place, 0..1 each way, and median lightness of each block."""
    down, across = picture.shape[:2]
    ways = [
        np.linspace(0, size, min(size, count) + 1).astype(int)
        for size, count in zip((across, down), BLOCKS, strict=True)
    ]
    tone = picture.astype(np.float32) @ np.array(LUMA, np.float32)
    found = []
    for left, right in zip(ways[0][:-1], ways[0][1:], strict=True):
        for top, low in zip(ways[1][:-1], ways[1][1:], strict=True):
            middle = ((left + right) / 2.0 / across, (top + low) / 2.0 / down)
            found.append((*middle, float(np.median(tone[top:low, left:right]))))
    u, v, tones = np.array(found).T
    return u, v, tones


def even(picture: Bytes, light: Light, share: float, low: int = 0, down: int | None = None) -> None:
    """Level out a picture in place. share: how much of the unevenness goes, 0..1.

    low, down: where the picture is a strip, its first row and the rows of the whole.
    """
    whole = down or len(picture)
    u = (np.arange(picture.shape[1]) + 0.5) / picture.shape[1]
    coarse = np.linspace(0.0, 1.0, 65)  # smooth: it is interpolated between these
    for top in range(0, len(picture), STRIP):
        strip = picture[top : top + STRIP]
        v = (np.arange(low + top, low + top + len(strip)) + 0.5) / whole
        ends = light.gain(coarse, np.array([v[0], v[-1]])) ** share
        rows = np.stack([np.interp(u, coarse, end) for end in ends]).astype(np.float32)
        way = np.linspace(0.0, 1.0, len(strip), dtype=np.float32)[:, None]
        gain = rows[0] + way * (rows[1] - rows[0])
        for channel in range(3):
            part = strip[:, :, channel]
            np.copyto(part, np.clip(part * gain + 0.5, 0.0, 255.0), casting="unsafe")
