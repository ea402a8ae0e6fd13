"""Rectangles onto sheets, quickly: each into the free room it suits best, the room's rest cut in two.

Source of the rules: Jylänki, A thousand ways to pack the bin (2010), guillotine part.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from core.packing.cover import Counts, Cover
from core.packing.relax import Shape
from core.packing.rooms import Cell, Filled

Fit = Callable[[int, int, int, int], int]  # what is left of a room of w, h by a part of x, y: less is better
Split = Callable[[int, int, int, int], bool]  # is the rest above the part to be as wide as the room?
Order = Callable[[Shape], float]

FITS: tuple[Fit, ...] = (
    lambda w, h, x, y: min(w - x, h - y),
    lambda w, h, x, y: w * h - x * y,
    lambda w, h, x, y: max(w - x, h - y),
)
SPLITS: tuple[Split, ...] = (
    lambda w, h, x, y: x * (h - y) <= (w - x) * y,
    lambda w, h, x, y: x * (h - y) > (w - x) * y,
    lambda w, h, x, y: w - x <= h - y,
    lambda w, h, x, y: w - x > h - y,
    lambda w, h, x, y: w <= h,
    lambda w, h, x, y: w > h,
)
ORDERS: tuple[Order, ...] = (
    lambda s: -s.x * s.y,
    lambda s: -max(s.x, s.y) * 1e6 - min(s.x, s.y),
    lambda s: -min(s.x, s.y) * 1e6 - max(s.x, s.y),
    lambda s: -s.x * 1e6 - s.y,
    lambda s: -s.y * 1e6 - s.x,
    lambda s: -(s.x + s.y),
    lambda s: -abs(s.x - s.y),
    lambda s: -s.x / s.y,
)


class Greedy:
    """The parts and the sheets, to be filled in one way or another."""

    def __init__(self, cover: Cover, shapes: Sequence[Sequence[Shape]], sheets: Sequence[tuple[int, int]]) -> None:
        """shapes: for each kind of sheet the ways its parts may lie on it."""
        self.cover, self.sheets = cover, list(sheets)
        self.ways: list[dict[int, list[Shape]]] = []
        for of_kind in shapes:
            ways: dict[int, list[Shape]] = {}
            for shape in of_kind:
                ways.setdefault(shape.part, []).append(shape)
            self.ways.append(ways)
        kinds = range(len(sheets))
        self.kind_orders = list(
            dict.fromkeys(
                (
                    tuple(sorted(kinds, key=lambda k: (cover.costs[k] / max(1, cover.rooms[k]), -cover.rooms[k]))),
                    tuple(sorted(kinds, key=lambda k: (cover.costs[k], -cover.rooms[k]))),
                    tuple(sorted(kinds, key=lambda k: (-cover.rooms[k], cover.costs[k]))),
                )
            )
        )

    def pieces(self, order: Order) -> list[int]:
        """The wanted parts in the order in which they are placed, each once."""
        first: dict[int, Shape] = {}
        for ways in self.ways:
            for part, shapes in ways.items():
                first.setdefault(part, shapes[0])
        wanted = [part for part in first if self.cover.demand[part]]
        return sorted(wanted, key=lambda part: order(first[part]))

    def run(
        self, pieces: Sequence[int], kinds: Sequence[int], fit: Fit, split: Split, *, anywhere: bool
    ) -> list[Filled]:
        """Sheets filled part by part. anywhere: in the best room of all open sheets, not of the first with room."""
        filled: list[Filled] = []
        used = [0] * len(self.sheets)
        for part in pieces:
            if self._settle(part, filled, fit, split, anywhere):
                continue
            for kind in kinds:
                limit = self.cover.limits[kind]
                if part in self.ways[kind] and (limit is None or used[kind] < limit):
                    used[kind] += 1
                    filled.append(Filled(kind, Cell(*self.sheets[kind])))
                    self._settle(part, filled[-1:], fit, split, anywhere)
                    break
        return filled

    def beside(self, counts: Counts, kind: int, offcut: Shape) -> Filled | None:
        """All these parts on one sheet that has an offcut in its corner, if some way does it."""
        orders = [[p for p in self.pieces(order) for _ in range(dict(counts).get(p, 0))] for order in ORDERS]
        for pieces in {tuple(pieces) for pieces in orders}:
            for wide in (False, True):
                for split in SPLITS:
                    for fit in FITS:
                        sheet = Filled(kind, Cell(*self.sheets[kind]))
                        sheet.put(sheet.root, offcut, wide=wide)
                        if all(self._settle(part, [sheet], fit, split, False) for part in pieces):
                            return sheet
        return None

    def _settle(self, part: int, filled: Sequence[Filled], fit: Fit, split: Split, anywhere: bool) -> bool:
        best: tuple[int, Filled, Cell, Shape] | None = None
        for sheet in filled:
            for shape in self.ways[sheet.kind].get(part, ()):
                x, y = shape.x, shape.y
                for cell in sheet.free:
                    w, h = cell.w, cell.h
                    if w >= x and h >= y:
                        score = fit(w, h, x, y)
                        if best is None or score < best[0]:
                            best = (score, sheet, cell, shape)
            if best is not None and not anywhere:
                break
        if best is None:
            return False
        _, sheet, cell, shape = best
        sheet.put(cell, shape, wide=split(cell.w, cell.h, shape.x, shape.y))
        return True
