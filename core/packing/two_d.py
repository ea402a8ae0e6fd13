"""The most value from one sheet by straight cuts from edge to edge, in any number of stages.

answer = best_sheet(SheetQuestion((Rectangle(600, 300, value=5, count=4), ...), 2440, 1220, kerf=2.2))
answer.value.proven, [place for place in places(answer.tree, 2.2)]
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from core.packing.answer import Reach
from core.packing.builds import Builds, Hope, Search
from core.packing.clock import Clock, Stop, never
from core.packing.grid import whole
from core.packing.relax import Relaxation, Shape
from core.packing.tree import Node, join

PLACES = 400  # along each side, for the bounds
FIRST_BUILDS, FIRST_SHARE = 3_000, 0.15  # of the exact search, then
EAGER, EAGER_SHARE = 0.1, 0.5  # of the time left for large builds early, then the exact search again
MOST_BUILDS = 1_000_000
ROUNDING = 1e-9  # of the sum of all values: sums of them err by less


class Rectangle(msgspec.Struct, frozen=True):
    """A part: length along the sheet's length, width across, how many. [mm]"""

    length: float
    width: float
    count: int = 1
    value: float = 0.0  # what one is worth, for best_sheet
    turn: bool = False  # may it also lie with its length across?
    kinds: tuple[int, ...] | None = None  # numbers of the sheets it may come from, for pack_all; None: any


class SheetQuestion(msgspec.Struct, frozen=True):
    """Parts that may be cut from one sheet, with a saw's kerf between them. [mm]"""

    parts: tuple[Rectangle, ...]
    length: float
    width: float
    kerf: float = 0.0


class SheetAnswer(msgspec.Struct, frozen=True):
    """The best pattern found (None: nothing fits, or nothing is worth anything) and how far its value is proven."""

    tree: Node | None
    value: Reach


def best_sheet(question: SheetQuestion, seconds: float = 10.0, stop: Stop = never) -> SheetAnswer:
    """The most valuable parts that can be cut from the sheet, as far as the time allows.

    Sizes > 0, counts ≥ 0, values ≥ 0, kerf ≥ 0.
    """
    clock = Clock(seconds, stop)
    parts = question.parts
    sizes, (length, width), _ = whole(
        [size for part in parts for size in (part.length, part.width)], [question.length, question.width], question.kerf
    )
    demand = [part.count if part.value > 0 else 0 for part in parts]
    shapes = shapes_of(parts, sizes, (length, width), demand)
    if not shapes:
        return SheetAnswer(None, Reach(0.0, 0.0, True))
    values = [part.value for part in parts]
    relaxation = Relaxation(shapes, demand, (length, width), PLACES)
    tables = relaxation.tables(values, demand)
    hope = Hope(relaxation.x, relaxation.y, tables)
    margin = ROUNDING * sum(value * n for value, n in zip(values, demand, strict=True))
    exact = Search(Builds(shapes, demand, (length, width)), values, hope, 0.0, margin)
    found = exact.run(FIRST_BUILDS, clock.part(FIRST_SHARE * clock.left()))
    best = exact
    if found.bound > found.value:
        eager = Search(Builds(shapes, demand, (length, width)), values, hope, found.value, margin, EAGER)
        eager.run(MOST_BUILDS, clock.part(EAGER_SHARE * clock.left()))
        if eager.value > exact.value:
            best, exact.value = eager, eager.value
        found = exact.run(MOST_BUILDS, clock)
        best = exact if exact.value > eager.value else best
    tree = None if best.best is None else tree_of(best.builds, best.builds.take(best.best), parts, question.kerf)
    bound = max(found.value, min(found.bound, float(tables.inside[-1, -1])))
    return SheetAnswer(tree, Reach(found.value, bound, bound <= found.value))


def shapes_of(
    parts: Sequence[Rectangle], sizes: Sequence[int], sheet: tuple[int, int], demand: Sequence[int]
) -> list[Shape]:
    """Each wanted part as it may lie on the sheet. sizes: length and width of each part, one after the other."""
    shapes = []
    for number, part in enumerate(parts):
        x, y = sizes[2 * number], sizes[2 * number + 1]
        ways = [Shape(number, x, y)]
        if part.turn and x != y:
            ways.append(Shape(number, y, x, turned=True))
        shapes += [way for way in ways if demand[number] and way.x <= sheet[0] and way.y <= sheet[1]]
    return shapes


def tree_of(builds: Builds, number: int, parts: Sequence[Rectangle], kerf: float) -> Node:
    """A build as a tree in mm."""
    axis, low, high = builds.made[number]
    if axis < 0:
        shape = builds.shapes[low]
        part = parts[shape.part]
        size = (part.width, part.length) if shape.turned else (part.length, part.width)
        return Node(*size, part=shape.part, turned=shape.turned)
    return join("xy"[axis], tree_of(builds, low, parts, kerf), tree_of(builds, high, parts, kerf), kerf)
