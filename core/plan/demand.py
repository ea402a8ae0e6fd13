"""A project as plain rectangles: what its nets and frame parts take, for bounds on how few sheets will do."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from core.document.model import Project, Sheet
from core.frame.build import frame_of
from core.layout.allowed import allows
from core.layout.model import FIT, trimmed
from core.layout.proven.aim import price_of
from core.layout.proven.demand import Corners, Demand, Item, Kind
from core.layout.proven.orders import Frames
from core.layout.rooms import fits
from core.layout.strips import Stick
from core.plan.shapes import Shape, shape_of


class Wanted:
    """The demand of a project, and how many shelves and frame parts fit no sheet there is."""

    def __init__(self, project: Project, shapes: Sequence[Shape], priced: bool) -> None:
        self.project = project
        self.hopeless = 0
        self._nets: list[Item] = []
        self._indices: list[int] = []
        self._corners: list[Corners] = []
        self._sticks: dict[Item, int] = {}
        self._vague: dict[Item, int] = {}
        self._frames: dict[tuple[int, float], list[Stick]] = {}
        self._clear: dict[int, list[tuple[float, float]]] = {}
        self._thicknesses: dict[int, set[float]] = {}  # of the sheets each net may come from
        for shape in shapes:
            self._add(shape)
        kinds = tuple(_kind(stock, priced) for stock in project.sheets)
        self.demand = Demand(
            project.saw.kerf,
            kinds,
            tuple(self._nets),
            tuple(self._indices),
            tuple(self._corners),
            _counted(self._sticks),
            _counted(self._vague),
        )
        self.frames = Frames(self._frames, self._clear)

    def _add(self, shape: Shape) -> None:
        size = shape.size
        homes = [n for n, s in enumerate(self.project.sheets) if allows(shape.shelf, size, s)]
        homes = [n for n in homes if self._takes(n, size.length, size.width)]
        if shape.main is not None:
            thick = self._thicknesses.get(shape.main, ())
            if not thick:
                return  # its net fits no sheet: that counts
            homes = [n for n in homes if any(abs(self.project.sheets[n].thickness - t) <= FIT for t in thick)]
        if not homes:
            self.hopeless += 1
            return
        self._thicknesses[shape.index] = {self.project.sheets[n].thickness for n in homes}
        open_to_sticks = tuple(n for n in homes if self.project.sheets[n].use != "shell")
        self._nets.append(Item(size.length, size.width, tuple(homes)))
        self._indices.append(shape.index)
        self._corners.append(Corners(_regions(shape), open_to_sticks))
        self._clear[shape.index] = _clear(shape)
        if shape.main is None:
            self._add_frame(shape, homes)

    def _add_frame(self, shape: Shape, homes: Sequence[int]) -> None:
        variants: dict[float, list[Item]] = {}
        for number in homes:
            stock = self.project.sheets[number]
            if stock.thickness not in variants:
                sticks = self._sticks_of(shape, stock)
                self._frames[shape.index, stock.thickness] = sticks
                variants[stock.thickness] = [self._item(stick) for stick in sticks]
        if len(variants) == 1:
            (items,) = variants.values()
            self.hopeless += sum(not item.kinds for item in items)
            _count(self._sticks, items)
        else:
            _count(self._vague, min(variants.values(), key=lambda sticks: sum(s.length * s.width for s in sticks)))

    def _sticks_of(self, shape: Shape, stock: Sheet) -> list[Stick]:
        """The frame parts of a shelf cut from a stock."""
        settled = shape if stock is shape.stock else shape_of(self.project, shape.index, stock)
        thickness = self.project.frame.thickness or stock.thickness
        frame = frame_of(self.project, shape.shelf, stock.thickness, thickness, settled.section).frame
        return [Stick(p.id, p.length, p.width, p.thickness) for p in frame.parts] if frame else []

    def _item(self, stick: Stick) -> Item:
        kinds = (
            n
            for n, s in enumerate(self.project.sheets)
            if s.use != "shell" and abs(s.thickness - stick.thickness) <= FIT
        )
        return Item(stick.length, stick.width, tuple(n for n in kinds if self._takes(n, stick.length, stick.width)))

    def _takes(self, number: int, length: float, width: float) -> bool:
        stock = self.project.sheets[number]
        return stock.quantity > 0 and fits(trimmed(stock), length, width)


def _kind(stock: Sheet, priced: bool) -> Kind:
    room = trimmed(stock)
    length, width = max(0.0, room[2] - room[0]), max(0.0, room[3] - room[1])
    return Kind(length, width, price_of(stock, priced), stock.quantity if length and width else 0)


def _regions(shape: Shape) -> tuple[tuple[float, float], ...]:
    """What is free for frame parts beside the ends, at most: the seams' wood counted as if it could be used."""
    shelf, loss = shape.shelf, shape.section.loss
    depth = shelf.depth + shelf.scribe
    beside, ends = _beside_ends(shape)
    if shelf.ends_from == "front":
        return ((depth + loss, depth + loss),) * (len(beside) * ends)
    across = sum(depth if strip != "front" else shelf.height for strip in beside) + len(beside) * loss
    return ((shelf.height + loss, across),) * ends


def _clear(shape: Shape) -> list[tuple[float, float]]:
    """About what the plan leaves square through beside the ends."""
    shelf, loss, setback = shape.shelf, shape.section.loss, shape.section.setback
    depth = shelf.depth + shelf.scribe
    beside, ends = _beside_ends(shape)
    if shelf.ends_from == "front":
        regions = [(depth - loss, depth - setback)] * (len(beside) * ends)
    else:
        sizes = [depth if strip != "front" else shelf.height for strip in beside]
        regions = [(shelf.height - loss, size - setback) for size in sizes] * ends
    return [size for size in regions if min(size) > 0]


def _beside_ends(shape: Shape) -> tuple[list[str], int]:
    """The strips of the net that no end is cut from, and how many ends it has."""
    if shape.role is not None:
        return [], 0
    roles = {panel.role for panel in shape.net.panels}
    strips = ("bottom", "top") if shape.shelf.ends_from == "front" else ("top", "bottom", "front")
    beside = [strip for strip in strips if strip in roles and strip != shape.shelf.ends_from]
    return beside, len(roles & {"left", "right"})


def _count(counts: dict[Item, int], items: Iterable[Item]) -> None:
    for item in items:
        if item.kinds:
            counts[item] = counts.get(item, 0) + 1


def _counted(counts: dict[Item, int]) -> tuple[Item, ...]:
    return tuple(msgspec.structs.replace(item, count=n) for item, n in counts.items())
