"""A question of rectangles on sheets in whole steps, and its patterns as trees in mm."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from core.packing.builds import Builds
from core.packing.cover import Cover, Pattern
from core.packing.greedy import Greedy
from core.packing.grid import whole, whole_costs
from core.packing.offcut import Cutter, Offcut
from core.packing.relax import Shape
from core.packing.rooms import Cell, Filled
from core.packing.sheets import SheetPricer
from core.packing.tree import Node, join, pruned
from core.packing.two_d import Rectangle, shapes_of, tree_of

OFFCUT = -1  # number of a part that is no part but the offcut


class SheetKind(msgspec.Struct, frozen=True):
    """A kind of sheet: length, width, what one costs (≥ 0), how many there are (None: as many as needed). [mm]"""

    length: float
    width: float
    cost: float = 1.0
    count: int | None = None


class PackQuestion(msgspec.Struct, frozen=True):
    """Which parts from which sheets, with a saw's kerf between them. [mm]"""

    parts: tuple[Rectangle, ...]
    sheets: tuple[SheetKind, ...]
    kerf: float = 0.0


class Job:
    """The question in whole steps, and what solves it."""

    def __init__(self, question: PackQuestion) -> None:
        self.question = question
        parts, kinds = question.parts, question.sheets
        sizes, rooms, self.step = whole(
            [size for part in parts for size in (part.length, part.width)],
            [size for kind in kinds for size in (kind.length, kind.width)],
            question.kerf,
        )
        self.kerf = question.kerf / self.step
        self.sheets = list(zip(rooms[::2], rooms[1::2], strict=True))
        costs, self.cost_step = whole_costs([kind.cost for kind in kinds])
        self.shapes = [self._shapes(sizes, number) for number in range(len(kinds))]
        placed = {shape.part for shapes in self.shapes for shape in shapes}
        demand = [part.count if number in placed else 0 for number, part in enumerate(parts)]
        areas = [x * y for x, y in zip(sizes[::2], sizes[1::2], strict=True)]
        limits = [kind.count for kind in kinds]
        self.cover = Cover.of(demand, costs, limits, areas, [w * h for w, h in self.sheets])
        self.greedy = Greedy(self.cover, self.shapes, self.sheets)
        self.pricer = SheetPricer(self.cover, self.shapes, self.sheets)
        self.trees: dict[Pattern, Node] = {}

    def _shapes(self, sizes: Sequence[int], kind: int) -> list[Shape]:
        parts = self.question.parts
        if self.question.sheets[kind].count == 0:
            return []
        demand = [part.count if part.kinds is None or kind in part.kinds else 0 for part in parts]
        return shapes_of(parts, sizes, self.sheets[kind], demand)

    def lying(self) -> list[Shape]:
        """Parts that may lie one way only."""
        parts = self.question.parts
        lying = {s.part: s for shapes in self.shapes for s in shapes if not parts[s.part].turn}
        return list(lying.values())

    def cutter(self, kind: int) -> Cutter:
        """What finds the largest offcut of a kind of sheet."""
        return Cutter(self.shapes[kind], self.sheets[kind], self.kerf)

    def area(self, w: int, h: int) -> float:
        """Area of a free room without the kerf behind it. [steps²]"""
        return max(0.0, w - self.kerf) * max(0.0, h - self.kerf)

    def tree(self, pattern: Pattern) -> Node:
        """A pattern met before, or a part of one, as a tree."""
        if pattern in self.trees:
            return self.trees[pattern]
        parts, kerf = self.question.parts, self.question.kerf
        if pattern in self.pricer.known:
            return tree_of(*self.pricer.known[pattern], parts, kerf)
        wanted = dict(pattern.counts)
        for larger in (*self.trees, *self.pricer.known):
            if larger.stock == pattern.stock:
                held = dict(larger.counts)
                if all(held.get(part, 0) >= times for part, times in pattern.counts):
                    tree = pruned(self.tree(larger), wanted, kerf)
                    assert tree is not None
                    return tree
        raise KeyError(pattern)

    def tree_of_room(self, cell: Cell, offcut: Cell | None = None) -> Node | None:
        """A cell as a tree; None where it is empty and not the one that is to be kept as the offcut."""
        if cell.shape is None:
            return self._rest(cell.w, cell.h) if cell is offcut else None
        if cell.shape.part == OFFCUT:
            node = self._rest(cell.shape.x, cell.shape.y)
        else:
            part = self.question.parts[cell.shape.part]
            size = (part.width, part.length) if cell.shape.turned else (part.length, part.width)
            node = Node(*size, part=cell.shape.part, turned=cell.shape.turned)
        sides = [("x", cell.beside), ("y", cell.above)]
        for axis, side in sides if cell.wide else sides[::-1]:
            rest = None if side is None else self.tree_of_room(side, offcut)
            if rest is not None:
                node = join(axis, node, rest, self.question.kerf)
        return node

    def note(self, filled: Filled) -> Pattern:
        """A filled sheet as a pattern, its tree remembered."""
        pattern = Pattern(filled.kind, filled.counts())
        if pattern not in self.trees:
            tree = self.tree_of_room(filled.root)
            assert tree is not None
            self.trees[pattern] = tree
        return pattern

    def tree_of_offcut(self, found: Offcut, parts: Sequence[int]) -> Node:
        """A sheet with its offcut. parts: the parts' numbers behind those in the offcut's builds."""
        node = self._rest(found.w, found.h)
        for axis, number in reversed(found.slabs):
            slab = self._slab(found.builds, number, parts)
            node = join("xy"[axis], slab, node, self.question.kerf)
        return node

    def _slab(self, builds: Builds, number: int, parts: Sequence[int]) -> Node:
        named = [self.question.parts[part] for part in parts]
        return renumbered(tree_of(builds, number, named, self.question.kerf), parts)

    def _rest(self, w: int, h: int) -> Node:
        kerf = self.question.kerf
        return Node(max(0.0, w * self.step - kerf), max(0.0, h * self.step - kerf))


def renumbered(node: Node, parts: Sequence[int]) -> Node:
    """A tree with other numbers for its parts."""
    if node.low is not None and node.high is not None:
        low, high = renumbered(node.low, parts), renumbered(node.high, parts)
        return msgspec.structs.replace(node, low=low, high=high)
    return node if node.part < 0 else msgspec.structs.replace(node, part=parts[node.part])
