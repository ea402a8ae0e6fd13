"""A log and the sheet laid from it: everything random about a plain-sliced face, nothing about its pixels.

Each random thing has a stream of its own, so that a sheet made a little longer or wider keeps its figure.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.face.noise import Streaks, Waves, dashes, fibres, streaks, wander, waves
from core.face.rings import Rings, rings
from core.face.size import PIXEL, fine_size
from core.face.species import Species

LEAF = (215.0, 290.0)  # widths of leaves a log gives [mm]
KINDS = 48  # different rows that streaks are cut from
TRUNK = 3000.0  # rings are grown for whole trunks of this length [mm]


class Log(msgspec.Struct, frozen=True):
    """One log and the sheet laid from it."""

    leaf: float  # width of a leaf [mm]
    leaves: int
    distance: float  # of the first slice from the pith's mean line [mm]
    taper: float  # of the rings, mm of radius per mm along u; its sign says which way the arches point
    trunk: float  # length along u for which there are rings [mm]
    bulges: Waves  # of the rings [mm]
    drift: Waves  # of tone over the sheet
    hue: Waves  # and of its warmth
    rings: Rings
    fibre: Streaks
    pores: Streaks
    flecks: Streaks
    pith: tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]  # u, v and height [mm]
    shades: NDArray[np.float64]  # tone of each leaf against the others


def leaf_width(width: float, seed: int) -> float:
    """Width of the leaves that make up a sheet's face, a whole number of them side by side. [mm]"""
    wish = np.random.default_rng((seed, 0)).uniform(*LEAF)
    return width / max(1, round(width / wish))


@lru_cache(maxsize=2)
def grow(length: float, width: float, seed: int, species: Species) -> Log:
    """The log of a seed (>= 0) for a sheet. [mm] What is smaller than its waves lies on the grid of `fine_size`."""
    shape, surface, years, fibre, pores, flecks = np.random.default_rng((seed, 1)).spawn(6)
    across, down = fine_size(length, width)
    leaf = leaf_width(width, seed)
    trunk = TRUNK * ceil(length / TRUNK)
    u = np.linspace(0.0, trunk, round(trunk / 5.0))
    aside = wander(shape, u, (2600.0, 1500.0, 900.0), 0.015)
    height = wander(shape, u, (3000.0, 1700.0, 1000.0, 600.0), shape.uniform(0.012, 0.024))
    distance = shape.uniform(85.0, 125.0)
    taper = shape.choice([-1.0, 1.0]) * shape.uniform(0.016, 0.025)
    reach = np.hypot(leaf / 2.0 + np.abs(aside).max(), distance + np.abs(height).max()) + abs(taper) * trunk
    slow = waves(shape, 18, (180.0, 900.0), (30.0, 140.0), 0.55)
    quick = waves(shape, 22, (50.0, 160.0), (7.0, 25.0), 0.13)
    return Log(
        leaf=leaf,
        leaves=round(width / leaf),
        distance=distance,
        taper=taper,
        trunk=trunk,
        bulges=slow + quick,
        drift=waves(surface, 16, (300.0, 3000.0), (15.0, 300.0), species.drift_tone),
        hue=waves(surface, 10, (500.0, 4000.0), (40.0, 500.0), 1.0),
        rings=rings(years, species, reach + 10.0),
        fibre=streaks(fibre, fibres(fibre, KINDS, across, ((6.0, 0.6), (30.0, 0.6), (120.0, 0.5))), down),
        pores=_dashed(pores, species.pore_spacing, species.pore_length, across, down),
        flecks=_dashed(flecks, species.fleck_spacing, species.fleck_length, across, down),
        pith=(u, aside, height),
        shades=surface.normal(0.0, 0.006, round(width / leaf)),
    )


def _dashed(random: np.random.Generator, spacing: float, length: float, across: int, down: int) -> Streaks:
    return streaks(random, dashes(random, KINDS, across, spacing / PIXEL, length / PIXEL), down)
