"""Colours as the eye tells them apart."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

# Linear sRGB to CIE XYZ, and the white it is seen against. Source: IEC 61966-2-1; D65, from memory.
TO_XYZ: Final = np.array(
    [[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]]
)
WHITE: Final = np.array([0.95047, 1.0, 1.08883])
BEND, SLOPE, OFFSET = 216.0 / 24389.0, 24389.0 / 27.0 / 116.0, 16.0 / 116.0


def lab(rgb: NDArray[np.generic]) -> Floats:
    """sRGB (…, 3), 0..255, as CIE L*a*b*. Differences of it are about what is seen: 1 is just noticeable."""
    values = np.asarray(rgb)
    linear = _linear()[values] if values.dtype == np.uint8 else _to_linear(values.astype(float) / 255.0)
    xyz = linear @ (TO_XYZ / WHITE[:, None]).T
    f = np.where(xyz > BEND, np.cbrt(xyz), SLOPE * xyz + OFFSET)
    return np.stack(
        [116.0 * f[..., 1] - 16.0, 500.0 * (f[..., 0] - f[..., 1]), 200.0 * (f[..., 1] - f[..., 2])], axis=-1
    )


def _to_linear(share: Floats) -> Floats:
    result: Floats = np.where(share <= 0.04045, share / 12.92, ((np.maximum(share, 0.0) + 0.055) / 1.055) ** 2.4)
    return result


@lru_cache(maxsize=1)
def _linear() -> Floats:
    return _to_linear(np.arange(256) / 255.0)
