"""A log and the sheet laid from it: everything random about a face, nothing about its pixels.

Each random thing has a stream of its own, so that a sheet made a little longer or wider keeps its figure.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil, pi

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.face.cuts import LIES, Cut, leaf_width
from core.face.noise import Streaks, Waves, dashes, fibres, streaks, wander, waves
from core.face.rings import Rings, rings
from core.face.size import PIXEL, fine_size
from core.face.species import Species

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
    lobes: NDArray[np.float64]  # (n, 3): how the log is out of round: times round it, height [mm], phase
    sheen: Waves  # the play of light on wavy fibres
    sway: Waves  # how far rays stand out of their plane, in distances between two
    ends: Waves  # where they end along the grain; deviation 1


@lru_cache(maxsize=2)
def grow(length: float, width: float, seed: int, species: Species, cut: Cut = "plain") -> Log:
    """The log of a seed (>= 0) for a sheet. [mm] What is smaller than its waves lies on the grid of `fine_size`."""
    shape, surface, years, fibre, pores, flecks, round_it, rays = np.random.default_rng((seed, 1)).spawn(8)
    columns, down = fine_size(length, width)
    leaf, lie = leaf_width(width, seed, cut), LIES[cut]
    trunk = TRUNK * ceil(length / TRUNK)
    u = np.linspace(0.0, trunk, round(trunk / 5.0))
    aside = wander(shape, u, (2600.0, 1500.0, 900.0), 0.015)
    height = wander(shape, u, (3000.0, 1700.0, 1000.0, 600.0), shape.uniform(0.012, 0.024))
    distance = shape.uniform(*lie.off)
    taper = shape.choice([-1.0, 1.0]) * shape.uniform(0.016, 0.025) * lie.taper
    out = lie.aside + leaf if lie.aside else leaf / 2.0
    across = out + np.abs(aside).max() if cut != "rotary" else np.abs(aside).max()
    reach = np.hypot(across, distance + np.abs(height).max()) + abs(taper) * trunk
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
        rings=rings(years, species, reach + (10.0 if cut != "rotary" else 60.0)),
        fibre=streaks(fibre, fibres(fibre, KINDS, columns, ((6.0, 0.6), (30.0, 0.6), (120.0, 0.5))), down),
        pores=_dashed(pores, species.pore_spacing, species.pore_length, columns, down),
        flecks=_dashed(flecks, species.fleck_spacing, species.fleck_length, columns, down),
        pith=(u, aside, height),
        shades=surface.normal(0.0, 0.006, round(width / leaf)),
        lobes=_lobes(round_it) if cut == "rotary" else np.zeros((0, 3)),
        sheen=waves(rays, 30, (25.0, 240.0), (14.0, 160.0), species.sheen_tone),
        sway=_sway(rays, species),
        ends=waves(rays, 18, (0.8 * species.ray_height, 2.6 * species.ray_height), (18.0, 90.0), 1.0),
    )


def _dashed(random: np.random.Generator, spacing: float, length: float, across: int, down: int) -> Streaks:
    return streaks(random, dashes(random, KINDS, across, spacing / PIXEL, length / PIXEL), down)


def _lobes(random: np.random.Generator) -> NDArray[np.float64]:
    """The pith is off the middle, the trunk is oval, and it has a few flutes."""
    heights = random.uniform(0.6, 1.4, 5) * (13.0, 5.0, 2.6, 1.6, 1.0)
    return np.stack([np.arange(1.0, 6.0), heights, random.uniform(0.0, 2.0 * pi, 5)], axis=1)


def _sway(random: np.random.Generator, species: Species) -> Waves:
    tall = max(species.ray_height, 1.0)
    slow = waves(random, 12, (6.0 * tall, 24.0 * tall), (80.0, 400.0), 0.9)
    return slow + waves(random, 14, (1.8 * tall, 5.0 * tall), (30.0, 160.0), 0.30)
