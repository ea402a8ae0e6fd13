"""How a leaf lies in its log: the four ways veneer is cut, as the place of each point against the pith.

plain sliced      rift               quartered           rotary
  ______             ______
 .  --  .           .  --  .           .  --  .            .  --  .
/        \\         /     ___\\         /        \\          / /----\\ \\     peeled off all round
|   ()   |         |   ()    |        |   ()----|         | | () | |
"""

from __future__ import annotations

from math import pi
from typing import Final, Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

Cut = Literal["plain", "rift", "quartered", "rotary"]
Floats = NDArray[np.float64]

SLICE: Final = 0.6  # thickness of a leaf: how much nearer the pith the next one is cut [mm]
NEAREST: Final = 30.0  # to the pith: no plain slice is cut nearer [mm]
ROUND: Final = 0.16  # of a rotary face, how steeply its knife meets the rings: the log is never quite round


class Lie(NamedTuple):
    """How leaves of one cut lie. Lengths are mm."""

    leaf: tuple[float, float]  # widths of leaves a log gives; (0, 0): one leaf as wide as the sheet
    off: tuple[float, float]  # of the leaf's plane from the pith
    aside: float  # of the leaf's nearer edge from the foot of that distance; 0: the leaf lies across it
    taper: float  # how much of the log's taper the leaf shows: leaves off its side are laid by their grain


LIES: Final[dict[Cut, Lie]] = {
    "plain": Lie((215.0, 290.0), (85.0, 125.0), 0.0, 1.0),
    "rift": Lie((110.0, 130.0), (130.0, 150.0), 90.0, 0.3),
    "quartered": Lie((125.0, 190.0), (4.0, 16.0), 70.0, 0.25),
    "rotary": Lie((0.0, 0.0), (150.0, 190.0), 0.0, 1.0),
}


def leaf_width(width: float, seed: int, cut: Cut = "plain") -> float:
    """Width of the leaves that make up a sheet's face, a whole number of them side by side. [mm]"""
    span = LIES[cut].leaf
    if not span[1]:
        return width
    wish = np.random.default_rng((seed, 0)).uniform(*span)
    return width / max(1, round(width / wish))


def places(cut: Cut, v: Floats, leaf: NDArray[np.intp], width: float, off: float) -> tuple[Floats, Floats]:
    """Across and above the pith's mean line, where the points `v` from each leaf's middle lay in the log. [mm]

    width: of a leaf; off: of the first from the pith. For a rotary face v runs over the whole sheet.
    """
    lie = LIES[cut]
    if cut == "rotary":
        radius, turn = round_log(v + width / 2.0, off)
        return radius * np.sin(turn), radius * np.cos(turn)
    above: Floats = off - SLICE * leaf.astype(np.float64)
    if cut == "plain":
        return v, np.maximum(NEAREST, above)
    return v + lie.aside + width / 2.0, above


def steepness(cut: Cut, across: Floats, above: Floats) -> Floats:
    """How steeply the knife met the rings at each of these points: 0 along them, 1 square to them."""
    if cut == "rotary":
        return np.full_like(across, ROUND)
    result: Floats = np.abs(across) / np.hypot(across, above)
    return result


def round_log(y: Floats, off: float) -> tuple[Floats, Floats]:
    """Of a rotary face: the knife's distance from the pith, and the turn it has made. [mm, rad]"""
    radius = np.sqrt(np.maximum(off * off - SLICE * y / pi, NEAREST**2))
    return radius, 2.0 * pi * (off - radius) / SLICE
