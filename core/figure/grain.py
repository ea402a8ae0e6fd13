"""The direction of the grain, by the structure tensor of the tone.

The tensor sums the outer product of the tone's slope over a place; grain runs square to the direction in which the
slopes are greatest. Source: Bigun and Granlund 1987; its angle is half the argument of (gx² - gy², 2 gx gy), from
memory.
"""

from __future__ import annotations

from functools import lru_cache
from math import atan2, ceil, degrees, hypot
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SMOOTH: Final = 1.2  # pixels: of the Gaussian whose slopes are taken, which makes all directions alike
REACH: Final = ceil(3.0 * SMOOTH)
LEAST_SLOPE: Final = 0.05  # of 255 for a pixel, on the mean: less is a plain colour


class Grain(NamedTuple):
    """Direction from the sheet's length, positive towards its upper edge, -90..90; and how sure it is, 0..1."""

    angle: float  # [deg]
    sure: float


def grain(tone: Floats) -> Grain:
    """Of a piece of a face, (down, across), row 0 at the top. A plain colour has none: sure is 0."""
    gx, gy = _slopes(tone)
    if not gx.size:
        return Grain(0.0, 0.0)
    return _of_sums(float((gx * gx).mean()), float((gy * gy).mean()), float((gx * gy).mean()))


def grain_along(tone: Floats, window: int, axis: int) -> list[Grain]:
    """The same for one piece after another, `window` pixels each, along an axis (1 across, 0 down)."""
    gx, gy = _slopes(tone)
    count = gx.shape[axis] // window
    products = (gx * gx, gy * gy, gx * gy)
    other = 1 - axis
    sums = [np.add.reduceat(p.mean(axis=other), np.arange(count) * window) / window for p in products if count]
    return [_of_sums(*(float(s[n]) for s in sums)) for n in range(count)]


def _of_sums(xx: float, yy: float, xy: float) -> Grain:
    strength = hypot(xx - yy, 2.0 * xy)
    if xx + yy < LEAST_SLOPE**2:
        return Grain(0.0, 0.0)
    across = 0.5 * degrees(atan2(2.0 * xy, xx - yy))  # of the steepest slope, rows down
    along = -(across + 90.0)  # square to it, and y up
    return Grain((along + 90.0) % 180.0 - 90.0, strength / (xx + yy))


def turn_between(a: float, b: float) -> float:
    """The angle between two directions that have no sign, 0..90. [deg]"""
    return abs((a - b + 90.0) % 180.0 - 90.0)


def _slopes(tone: Floats) -> tuple[Floats, Floats]:
    """Slopes of the smoothed tone across and down; a little smaller than the piece, for there is nothing beyond it."""
    if min(tone.shape) <= 2 * REACH:
        return np.zeros((0, 0)), np.zeros((0, 0))
    smooth, slope = _kernels()
    return _filtered(_filtered(tone, slope, 1), smooth, 0), _filtered(_filtered(tone, slope, 0), smooth, 1)


def gaussian_slope(tone: Floats) -> tuple[Floats, Floats]:
    """The tone smoothed down its columns, and its slope down them; empty where it is too low for that."""
    if len(tone) <= 2 * REACH:
        return np.zeros((0, 0)), np.zeros((0, 0))
    smooth, slope = _kernels()
    return _filtered(tone, smooth, 0), _filtered(tone, slope, 0)


@lru_cache(maxsize=1)
def _kernels() -> tuple[Floats, Floats]:
    """A Gaussian, and its slope so that a ramp of 1 has a slope of 1."""
    at = np.arange(-REACH, REACH + 1).astype(float)
    smooth: Floats = np.exp(-0.5 * (at / SMOOTH) ** 2)
    smooth /= smooth.sum()
    slope: Floats = smooth * at
    return smooth, slope / (slope * at).sum()


def _filtered(tone: Floats, kernel: Floats, axis: int) -> Floats:
    count = tone.shape[axis] - len(kernel) + 1
    total = np.zeros((tone.shape[0], count) if axis == 1 else (count, tone.shape[1]))
    for n, weight in enumerate(kernel):
        total += weight * (tone[:, n : n + count] if axis == 1 else tone[n : n + count])
    return total
