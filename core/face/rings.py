"""A log's years: how dark the wood is at each distance from the pith, averaged over what one pixel sees."""

from __future__ import annotations

from math import ceil

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.face.species import Species

Floats = NDArray[np.float32]

STEP = 0.02  # of the tables, along the radius [mm]
# Lengths of the radius over which the tables hold averages, close enough that a step between two is not seen.
# [mm]
REACH = np.array([0.04, 0.08, 0.14, 0.22, 0.32, 0.46, 0.64, 0.9, 1.25, 1.75, 2.5, 3.5])
YEARS = 256


class Rings(msgspec.Struct, frozen=True):
    """Tables over (reach, radius), flat: entry `level * count + radius / STEP`."""

    early: Floats  # how much early wood, 0..1 and a little more
    late: Floats  # how near the end of the year, 0..1
    years: Floats  # how much darker the year is than others, deviation 1; empty where they are all alike
    count: int  # entries for one reach

    def level(self, reach: NDArray[np.float64]) -> NDArray[np.intp]:
        """Offset into the tables for pixels that see `reach` mm of the radius."""
        nearest = np.searchsorted(np.sqrt(REACH[1:] * REACH[:-1]), reach)
        return (nearest * self.count).astype(np.intp)


def rings(random: np.random.Generator, species: Species, radius: float) -> Rings:
    """Rings out to a radius [mm]: widths vary from year to year and in slow runs of good and poor years."""
    years = YEARS * ceil(1.6 * radius / species.ring / YEARS)  # so that a larger radius keeps the rings it had
    runs = np.convolve(random.standard_normal(years + 20), np.full(21, 21**-0.5), mode="valid")
    widths = species.ring * np.exp(0.16 * random.standard_normal(years) + 0.16 * runs)
    starts = np.concatenate([[0.0], np.cumsum(widths)])
    at = np.arange(0.0, radius, STEP)
    year = np.minimum(np.searchsorted(starts, at, side="right") - 1, years - 1)
    since, width = at - starts[year], widths[year]
    early = species.early * np.minimum(1.0, width / species.ring)
    strength = np.clip(1.0 + 0.25 * random.standard_normal(years), 0.4, 1.6)[year]
    # Early wood begins at once and fades into late wood; late wood deepens to the year's end.
    fade = np.exp(-(np.maximum(0.0, (since - early) / (0.22 * species.ring)) ** 1.2))
    late = (since / width) ** species.late_line
    shades = np.zeros(0, np.float32)
    if species.year_tone:
        own = random.standard_normal(years + 4)
        shades = _averages((0.5 * own[2:-2] + 0.87 * np.convolve(own, np.full(5, 5**-0.5), mode="valid"))[year])
    return Rings(_averages(fade * strength), _averages(late), shades, len(at))


def _averages(values: NDArray[np.float64]) -> Floats:
    total = np.concatenate([[0.0], np.cumsum(values)])
    index = np.arange(len(values))
    tables = []
    for reach in REACH:
        half = max(0, round(reach / STEP / 2.0))
        low, high = np.maximum(0, index - half), np.minimum(len(values), index + half + 1)
        tables.append((total[high] - total[low]) / (high - low))
    return np.concatenate(tables).astype(np.float32)
