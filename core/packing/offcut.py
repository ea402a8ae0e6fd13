"""The largest rectangle that can be left of a sheet when given parts are cut from it.

Whatever the pattern, the offcut is what remains when slabs are cut off the sheet, by turns from one side and from
another, each slab as narrow as its parts allow. So: all builds of the parts, then a search over what remains.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

import numpy as np

from core.packing.builds import Builds, build_all
from core.packing.clock import Clock
from core.packing.cover import Counts, Floats
from core.packing.multiset import Ints
from core.packing.relax import Shape

MOST_BUILDS = 3_000
BLUR = 1e-9  # of a sheet's area: areas in floating point err by less


class Offcut(NamedTuple):
    """What is left, the kerf behind it included [steps], and the slabs cut off: axis (0: across x) and build."""

    w: int
    h: int
    slabs: tuple[tuple[int, int], ...]
    builds: Builds
    area: float  # without the kerf [steps²]


def most_left(w: float, h: float, size: float, kerf: float) -> float:
    """The most area that can be left of a rectangle once parts of a size (kerfs included) are cut from it.

    Of the rectangles of one area that lie within w by h, the one nearest a square loses least to the kerf.
    """
    left = w * h - size
    if left <= 0 or w <= 0 or h <= 0:
        return 0.0
    side = min(max(sqrt(left), left / h), w)
    return max(0.0, side - kerf) * max(0.0, left / side - kerf)


class _Rest(NamedTuple):
    """What remains after some slabs: the axis the next one is cut across, the parts it still has to give."""

    axis: int
    w: int
    h: int
    wanted: Ints
    size: float  # of those parts
    slabs: tuple[tuple[int, int], ...]


class Cutter:
    """Parts as they may lie on a sheet, and the kerf, all in steps."""

    def __init__(self, shapes: Sequence[Shape], sheet: tuple[int, int], kerf: float) -> None:
        self.shapes, self.sheet, self.kerf = list(shapes), sheet, kerf

    def hope(self, w: Floats, h: Floats, size: Floats) -> Floats:
        """`most_left` for many rectangles at once."""
        left = np.maximum(w * h - size, 1e-9)
        side = np.minimum(np.maximum(np.sqrt(left), left / np.maximum(h, 1e-9)), np.maximum(w, 1e-9))
        area: Floats = np.maximum(side - self.kerf, 0.0) * np.maximum(left / side - self.kerf, 0.0)
        return area

    def best(self, counts: Counts, least: float, clock: Clock) -> tuple[Offcut | None, float]:
        """The largest offcut with more area than `least` (None: none was found), and a bound on any offcut's area."""
        parts = [part for part, _ in counts]
        shapes = [s._replace(part=parts.index(s.part)) for s in self.shapes if s.part in parts]
        areas = [min(s.x * s.y for s in shapes if s.part == number) for number in range(len(parts))]
        search = _Peeling(self, shapes, [times for _, times in counts], areas, least)
        return search.run(clock)


class _Peeling:
    """Slabs cut off the sheet until no part is left; what may leave most comes first."""

    def __init__(
        self, cutter: Cutter, shapes: Sequence[Shape], demand: Sequence[int], areas: Sequence[int], least: float
    ) -> None:
        self.cutter, self.least = cutter, least
        self.builds = Builds(shapes, demand, cutter.sheet)
        self.areas, self.demand = areas, demand
        self.size = float(sum(area * times for area, times in zip(areas, demand, strict=True)))
        self.queue: list[tuple[float, int, _Rest]] = []
        self.fronts: dict[tuple[int, bytes], list[tuple[int, int]]] = {}
        self.entered = 0
        self.best: Offcut | None = None

    def run(self, clock: Clock) -> tuple[Offcut | None, float]:
        """See Cutter.best."""
        w, h = self.cutter.sheet
        hope = most_left(w, h, self.size, self.cutter.kerf)
        if hope <= self.least:
            return None, self.least
        complete = self._build_all(clock)
        for axis in (0, 1):
            self._enter(hope, _Rest(axis, w, h, self.builds.packing.pack(self.demand), self.size, ()))
        while self.queue and -self.queue[0][0] > self.least:
            if clock.over():
                return self.best, -self.queue[0][0] if complete else hope
            self._peel(heapq.heappop(self.queue)[2])
        return self.best, self.least if complete else hope

    def _build_all(self, clock: Clock) -> bool:
        """All builds that leave room for a better offcut, fewest parts first; False if they are too many."""
        blur = BLUR * self.cutter.sheet[0] * self.cutter.sheet[1]
        spare = self.cutter.sheet[0] * self.cutter.sheet[1] - self.size - self.least

        def promise(xs: Ints, ys: Ints, sizes: Floats) -> Floats:
            return spare - (xs.astype(np.float64) * ys - sizes)

        return build_all(self.builds, self.areas, -blur, promise, MOST_BUILDS, clock)

    def _enter(self, hope: float, rest: _Rest) -> None:
        if hope <= self.least:
            return
        sizes = self.fronts.setdefault((rest.axis, rest.wanted.tobytes()), [])
        if any(w >= rest.w and h >= rest.h for w, h in sizes):
            return
        sizes[:] = [(w, h) for w, h in sizes if not (w <= rest.w and h <= rest.h)]
        sizes.append((rest.w, rest.h))
        if not rest.wanted.any():
            area = most_left(rest.w, rest.h, 0.0, self.cutter.kerf)
            if area > self.least:
                self.least, self.best = area, Offcut(rest.w, rest.h, rest.slabs, self.builds, area)
            return
        self.entered += 1
        heapq.heappush(self.queue, (-hope, self.entered, rest))

    def _peel(self, rest: _Rest) -> None:
        """Cut every slab that can be next; after one across x comes one across y, two in a row would be one."""
        builds, n = self.builds, self.builds.count
        full = builds.packing.slack([0] * len(self.demand))
        xs, ys, values = builds.xs[:n], builds.ys[:n], builds.values[:n]
        some = np.nonzero(
            (xs <= rest.w) & (ys <= rest.h) & builds.packing.within(builds.multisets[:n], full - rest.wanted)
        )[0]
        if rest.axis == 0:
            ws, hs = rest.w - xs[some], np.full(len(some), rest.h)
        else:
            ws, hs = np.full(len(some), rest.w), rest.h - ys[some]
        sizes = rest.size - values[some]
        hopes = self.cutter.hope(ws.astype(np.float64), hs.astype(np.float64), sizes)
        keep = hopes > self.least
        for number, w, h, size, hope in zip(
            some[keep].tolist(),
            ws[keep].tolist(),
            hs[keep].tolist(),
            sizes[keep].tolist(),
            hopes[keep].tolist(),
            strict=True,
        ):
            wanted = rest.wanted - builds.multisets[number]
            self._enter(hope, _Rest(1 - rest.axis, w, h, wanted, size, (*rest.slabs, (rest.axis, number))))
