"""Bounds on what a rectangle can hold, from tables over all sizes in which parts may be used again and again.

inside[i, j]: no guillotine pattern in a rectangle of that size is worth more. outside[i, j]: the most that can be added
to a rectangle of that size by building the sheet up round it. Source: Viswanathan, Bagchi, Oper. Res. 41 (1993).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from core.packing.cover import Floats
from core.packing.raster import Raster


class Shape(NamedTuple):
    """A part as it lies: which part, its length along x and its width along y. [steps]"""

    part: int
    x: int
    y: int
    turned: bool = False


class Tables(NamedTuple):
    """See the module."""

    inside: Floats
    outside: Floats


class Relaxation:
    """The sheet's sides as rasters, for some shapes and counts. Shapes must fit the sheet."""

    def __init__(self, shapes: Sequence[Shape], demand: Sequence[int], sheet: tuple[int, int], most: int) -> None:
        self.shapes = list(shapes)
        self.demand = list(demand)
        counts = [demand[shape.part] for shape in shapes]
        self.x = Raster([s.x for s in shapes], counts, sheet[0], most)
        self.y = Raster([s.y for s in shapes], counts, sheet[1], most)
        self._corners = [(s.part, self.x.index(s.x), self.y.index(s.y)) for s in shapes]
        self._least: dict[int, int] = {}
        for shape in shapes:
            self._least[shape.part] = shape.x * shape.y

    def tables(self, values: Sequence[float], demand: Sequence[int]) -> Tables:
        """The bounds for these values of the parts and these counts."""
        cap = self._cap(values, demand)
        inside = np.zeros((self.x.count, self.y.count))
        for part, i, j in self._corners:
            if demand[part]:
                corner = inside[i:, j:]
                np.maximum(corner, values[part], out=corner)
        for i in range(self.x.count):
            self._fill_row(inside, cap, i)
        return Tables(inside, self._outside(inside))

    def _cap(self, values: Sequence[float], demand: Sequence[int]) -> Floats:
        """What each size can hold by area alone, no part more often than wanted: fractions of parts, dearest first."""
        left = np.outer(self.x.ends.astype(np.float64), self.y.ends.astype(np.float64))
        cap = np.zeros_like(left)
        corners: dict[int, list[tuple[int, int]]] = {}
        for part, i, j in self._corners:
            corners.setdefault(part, []).append((i, j))
        for part in sorted(corners, key=lambda p: -values[p] / self._least[p]):
            if values[part] <= 0 or not demand[part]:
                continue
            area = float(self._least[part])
            times = np.minimum(float(demand[part]), left / area)
            fits = np.zeros(left.shape, dtype=bool)
            for i, j in corners[part]:
                fits[i:, j:] = True
            times *= fits
            cap += times * values[part]
            left -= times * area
        return cap

    def _fill_row(self, inside: Floats, cap: Floats, i: int) -> None:
        row = inside[i]
        if i:
            np.maximum(row, inside[i - 1], out=row)
        halves = self.x.halves[i]
        if halves:
            ks = slice(1, halves + 1)
            np.maximum(row, (inside[ks] + inside[self.x.rest[i, ks]]).max(axis=0), out=row)
        np.minimum(row, cap[i], out=row)
        y = self.y
        while True:
            split = np.maximum.reduceat(row[y.low] + row[y.high], y.firsts)
            np.minimum(split, cap[i], out=split)
            if not (split > row + 1e-12).any():
                break
            np.maximum(row, split, out=row)
        np.maximum.accumulate(row, out=row)

    def _outside(self, inside: Floats) -> Floats:
        """Row by row from the sheet's end: grow along x by one step, waste some of y, then grow along y by one step.

        One step each is enough: what two steps hold one step of their sum holds too.
        """
        outside = np.zeros_like(inside)
        x, y = self.x, self.y
        for i in range(x.count - 1, -1, -1):
            along = outside[i + 1].copy() if i + 1 < x.count else outside[i]
            reach = x.reach[i]
            if reach > 1:
                grown = outside[x.above[i, 1:reach]] + inside[1:reach]
                np.maximum(along, grown.max(axis=0), out=along)
            along = np.maximum.accumulate(along[::-1])[::-1]
            outside[i] = np.maximum.reduceat(along[y.sum] + inside[i][y.step], y.sum_firsts)
        return outside
