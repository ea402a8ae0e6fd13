"""A sheet being filled: its free rooms, each of which a part can be cut from with two cuts."""

from __future__ import annotations

from core.packing.cover import Counts
from core.packing.relax import Shape


class Cell:
    """A room of w by h steps; once a part is in its lower left corner, the rooms beside and above it.

    wide: the room above reaches over the whole cell, the one beside only as high as the part; else the other way.
    """

    __slots__ = ("above", "beside", "h", "shape", "w", "wide")

    def __init__(self, w: int, h: int) -> None:
        self.w, self.h = w, h
        self.shape: Shape | None = None
        self.beside: Cell | None = None
        self.above: Cell | None = None
        self.wide = False


class Filled:
    """One sheet of a kind, its cells, those of them that are free, and how many parts of what area it holds."""

    __slots__ = ("content", "free", "kind", "pieces", "root")

    def __init__(self, kind: int, root: Cell) -> None:
        self.kind, self.root = kind, root
        self.free = [root]
        self.pieces = self.content = 0

    def put(self, cell: Cell, shape: Shape, *, wide: bool) -> None:
        """Put a part into a free cell."""
        w, h = cell.w - shape.x, cell.h - shape.y
        cell.shape, cell.wide = shape, wide
        self.pieces += 1
        self.content += shape.x * shape.y
        self.free.remove(cell)
        if w > 0:
            cell.beside = Cell(w, shape.y if wide else cell.h)
            self.free.append(cell.beside)
        if h > 0:
            cell.above = Cell(cell.w if wide else shape.x, h)
            self.free.append(cell.above)

    def counts(self) -> Counts:
        """How often each part is on the sheet."""
        times: dict[int, int] = {}
        pending = [self.root]
        while pending:
            cell = pending.pop()
            if cell.shape is None:
                continue
            if cell.shape.part >= 0:
                times[cell.shape.part] = times.get(cell.shape.part, 0) + 1
            pending += [side for side in (cell.beside, cell.above) if side is not None]
        return tuple(sorted(times.items()))
