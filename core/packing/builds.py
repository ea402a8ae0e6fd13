"""Rectangles built of parts and of other built rectangles, two at a time, side by side or one above the other.

Every guillotine pattern is such a build. The most promising is taken first and joined with all taken before; what
cannot beat the best known, or what the same parts give in a smaller rectangle, is dropped.
Sources: Wang, Oper. Res. 31 (1983); Viswanathan, Bagchi, Oper. Res. 41 (1993).
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from core.packing.clock import Clock
from core.packing.cover import Floats
from core.packing.multiset import Ints, Packing
from core.packing.raster import Raster
from core.packing.relax import Shape, Tables

ROOM = 1024  # builds there is room for at first
Promise = Callable[[Ints, Ints, Floats], Floats]  # of sizes and values of builds: what to go by
Made = tuple[int, int, int]  # axis (0: along x, 1: along y), number of the low build, of the high one


class Build(NamedTuple):
    """A rectangle and what it is made of. made: axis and the two builds, or −1, the shape's number and −1."""

    x: int
    y: int
    value: float
    multiset: Ints
    made: Made


class Builds:
    """All builds taken, numbered; the search over them."""

    def __init__(self, shapes: Sequence[Shape], demand: Sequence[int], sheet: tuple[int, int]) -> None:
        self.shapes, self.sheet = list(shapes), sheet
        self.packing = Packing(demand)
        self.made: list[Made] = []
        self.count = 0
        self.xs = np.zeros(ROOM, dtype=np.int64)
        self.ys = np.zeros(ROOM, dtype=np.int64)
        self.values = np.zeros(ROOM)
        self.multisets = np.zeros((ROOM, self.packing.words), dtype=np.int64)

    def take(self, build: Build) -> int:
        """Add a build for good; its number."""
        if self.count == len(self.xs):
            self.xs = np.resize(self.xs, 2 * self.count)
            self.ys = np.resize(self.ys, 2 * self.count)
            self.values = np.resize(self.values, 2 * self.count)
            self.multisets = np.resize(self.multisets, (2 * self.count, self.packing.words))
        number = self.count
        self.xs[number], self.ys[number], self.values[number] = build.x, build.y, build.value
        self.multisets[number] = build.multiset
        self.made.append(build.made)
        self.count += 1
        return number

    def build(self, number: int) -> Build:
        """A build by its number."""
        return Build(
            int(self.xs[number]),
            int(self.ys[number]),
            float(self.values[number]),
            self.multisets[number],
            self.made[number],
        )

    def joined(self, number: int, least: float, promise: Promise) -> list[tuple[float, Build]]:
        """The joins of a build with all builds so far (itself too) that fit the sheet and promise more than `least`.

        Each with its promise.
        """
        n = self.count
        x, y = int(self.xs[number]), int(self.ys[number])
        found: list[tuple[float, Build]] = []
        for axis in (0, 1):
            if axis == 0:
                xs, ys = self.xs[:n] + x, np.maximum(self.ys[:n], y)
                some = np.nonzero(xs <= self.sheet[0])[0]
            else:
                xs, ys = np.maximum(self.xs[:n], x), self.ys[:n] + y
                some = np.nonzero(ys <= self.sheet[1])[0]
            xs, ys = xs[some], ys[some]
            values = self.values[some] + self.values[number]
            promises = promise(xs, ys, values)
            keep = promises > least
            some, xs, ys, values, promises = some[keep], xs[keep], ys[keep], values[keep], promises[keep]
            multisets = self.multisets[some] + self.multisets[number]
            keep = self.packing.within(multisets)
            found += [
                (promise, Build(x, y, value, multiset, (axis, other, number)))
                for promise, x, y, value, multiset, other in zip(
                    promises[keep].tolist(),
                    xs[keep].tolist(),
                    ys[keep].tolist(),
                    values[keep].tolist(),
                    multisets[keep],
                    some[keep].tolist(),
                    strict=True,
                )
            ]
        return found


class Hope:
    """What a rectangle may come to with what can still be added round it."""

    def __init__(self, x: Raster, y: Raster, tables: Tables) -> None:
        self.x, self.y, self.outside = x, y, tables.outside

    def __call__(self, xs: Ints, ys: Ints, values: Floats) -> Floats:
        """See Promise."""
        result: Floats = values + self.outside[self.x.indices(xs), self.y.indices(ys)]
        return result


class Front:
    """For each multiset the smallest rectangles known."""

    def __init__(self) -> None:
        self._known: dict[bytes, list[tuple[int, int]]] = {}

    def add(self, build: Build) -> bool:
        """False if the same parts are known to fit the rectangle or a smaller one already."""
        key = build.multiset.tobytes()
        sizes = self._known.get(key)
        if sizes is None:
            self._known[key] = [(build.x, build.y)]
            return True
        if any(x <= build.x and y <= build.y for x, y in sizes):
            return False
        sizes[:] = [(x, y) for x, y in sizes if not (build.x <= x and build.y <= y)]
        sizes.append((build.x, build.y))
        return True

    def holds(self, build: Build) -> bool:
        """Has nothing smaller been found since?"""
        return (build.x, build.y) in self._known[build.multiset.tobytes()]


class Found(NamedTuple):
    """The best value known and a bound on every build's value."""

    value: float
    bound: float


class Search:
    """The most valuable build above `least`, the most promising first. margin: gains up to this are none.

    eager: from 0 to 1, how much of what may still be added is left out of the order: large builds come earlier, a good
    one is found sooner, the best later.
    """

    def __init__(
        self, builds: Builds, values: Sequence[float], hope: Promise, least: float, margin: float, eager: float = 0.0
    ) -> None:
        self.builds, self.values, self.hope, self.margin, self.eager = builds, values, hope, margin, eager
        self.value = least
        self.best: Build | None = None
        self.front = Front()
        self.queue: list[tuple[float, int, float, Build]] = []
        self.entered = 0
        for number, shape in enumerate(builds.shapes):
            value = float(values[shape.part])
            if value > 0 and builds.packing.demand[shape.part]:
                promise = float(hope(np.array([shape.x]), np.array([shape.y]), np.array([value]))[0])
                self._enter(promise, Build(shape.x, shape.y, value, builds.packing.one(shape.part), (-1, number, -1)))

    def run(self, most: int, clock: Clock) -> Found:
        """Search on until nothing better is left, `most` builds were taken, or the time is up."""
        builds = self.builds
        while self.queue and builds.count < most and not clock.over():
            _, _, promise, build = heapq.heappop(self.queue)
            if promise <= self.value + self.margin:
                if not self.eager:
                    self.queue.clear()
            elif self.front.holds(build):
                for hoped, joined in builds.joined(builds.take(build), self.value + self.margin, self.hope):
                    self._enter(hoped, joined)
        bound = max((promise for _, _, promise, _ in self.queue), default=self.value)
        return Found(self.value, bound if bound > self.value + self.margin else self.value)

    def _enter(self, promise: float, build: Build) -> None:
        if promise <= self.value + self.margin or not self.front.add(build):
            return
        if build.value > self.value:
            self.value, self.best = build.value, build
        self.entered += 1
        order = promise - self.eager * (promise - build.value)
        heapq.heappush(self.queue, (-order, self.entered, promise, build))


def build_all(builds: Builds, values: Sequence[float], least: float, promise: Promise, most: int, clock: Clock) -> bool:
    """Take every build that promises more than `least`, fewest parts first; False if they are too many."""
    front = Front()
    queue: list[tuple[int, int, Build]] = []
    for number, shape in enumerate(builds.shapes):
        value = float(values[shape.part])
        build = Build(shape.x, shape.y, value, builds.packing.one(shape.part), (-1, number, -1))
        hoped = promise(np.array([shape.x]), np.array([shape.y]), np.array([value]))[0]
        if builds.packing.demand[shape.part] and hoped > least and front.add(build):
            queue.append((1, number, build))
    heapq.heapify(queue)
    pieces: list[int] = []
    entered = len(builds.shapes)
    while queue:
        count, _, build = heapq.heappop(queue)
        if not front.holds(build):
            continue
        if builds.count >= most or clock.over():
            return False
        pieces.append(count)
        for _, joined in builds.joined(builds.take(build), least, promise):
            if front.add(joined):
                entered += 1
                heapq.heappush(queue, (count + pieces[joined.made[1]], entered, joined))
    return True
