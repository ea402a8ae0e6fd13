"""Places along one side of a sheet where a cut can be worth making, or coarser cells where they are too many.

Sizes are looked up as indices. An index stands for every size from its own point up to the next one, so that
tables over indices bound what any real size can hold. Source of the places: Herz, IBM J. Res. Dev. 16 (1972).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


class Raster:
    """One side of a sheet, `room` steps long, with at most `most` places."""

    def __init__(self, sizes: Sequence[int], counts: Sequence[int], room: int, most: int) -> None:
        self.room = room
        points = sums(sizes, counts, room, most)
        self.exact = points is not None
        self.cell = 1
        if points is None:
            self.cell = -(-(room + 1) // most)
            points = np.arange(room // self.cell + 1, dtype=np.int64) * self.cell
        self.points = points
        self.count = len(points)
        self.ends = points if self.exact else np.minimum(points + self.cell - 1, room)
        self._pairs()

    def index(self, size: int) -> int:
        """The index of one size."""
        return int(self.indices(np.array([size], dtype=np.int64))[0])

    def indices(self, sizes: Ints) -> Ints:
        """The index of each size, 0 ≤ size ≤ room."""
        if self.exact:
            return np.searchsorted(self.points, sizes, side="right") - 1
        return sizes // self.cell

    def _pairs(self) -> None:
        """For each index i: every k ≥ 1 up to half of it and the index of what k leaves of i, all in one row.

        firsts: where each i starts. above: for each pair of i and k ≥ 1 the index of their sum, −1 beyond the room.
        """
        n = self.count
        i = np.arange(n)
        if self.exact:
            left = self.points[:, None] - self.points[None, :]
            fits = left >= self.points[None, :]
            rest = self.indices(np.maximum(left, 0))
            total = self.points[:, None] + self.points[None, :]
            above = np.where(total <= self.room, self.indices(np.minimum(total, self.room)), -1)
        else:
            rest = i[:, None] - i[None, :]
            fits = rest >= i[None, :]
            total = i[:, None] + i[None, :]
            above = np.where(total < n, total, -1)
        fits[:, 0] = False
        self.halves = fits.sum(axis=1)
        self.rest = rest
        self.above = above
        self.reach = (above >= 0).sum(axis=1)  # indices 0 to reach − 1 can be added
        splits = fits.copy()
        splits[:, 0] = True  # every i has at least the pair (0, i): reduceat needs one
        rows, self.low = np.nonzero(splits)
        self.high = rest[rows, self.low]
        self.firsts = np.searchsorted(rows, i)
        sums_rows, self.step = np.nonzero(above >= 0)
        self.sum = above[sums_rows, self.step]
        self.sum_firsts = np.searchsorted(sums_rows, i)


def sums(sizes: Sequence[int], counts: Sequence[int], room: int, most: int) -> Ints | None:
    """0, every sum of sizes up to the room, and the room itself; None if there are more than `most`."""
    reached = {0}
    for size, count in zip(sizes, counts, strict=True):
        for _ in range(min(count, room // size)):
            grown = reached | {total + size for total in reached if total + size <= room}
            if len(grown) == len(reached):
                break
            reached = grown
            if len(reached) > most:
                return None
    reached.add(room)
    return np.array(sorted(reached), dtype=np.int64)
