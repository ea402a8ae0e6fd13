"""Spares: what the pieces left over are still good for at the bench, until the shelf hangs on the wall."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, tan
from typing import Literal

import msgspec

from core.geometry.net import Net, NetPanel
from core.layout.clear import Areas, first_clear
from core.layout.model import FIT
from core.plan.model import Cut, Plan, StockSheet

Use = Literal["spare end", "finish sample", "bevel test"]

# Least sizes, longer side first; sides may lie either way of the grain (common practice). [mm]
SAMPLE = (150.0, 100.0)  # what stain and finish are judged on
TEST = (100.0, 50.0)  # sawn across once at the bevel, it makes two pieces to close to a corner


Box = tuple[float, float, float, float]  # x0, y0, x1, y1


class Spare(msgspec.Struct, frozen=True):
    """A piece left over, square through (the rectangle both faces share), and the most it is good for.

    length, width: along and across the grain; x, y: its lower left corner on the sheet. [mm]
    use: what makes a spare end makes a sample too, what makes a sample a test.
    shelves: those for which it makes an end; its figure does not run on from theirs.
    """

    sheet: str
    piece: str
    length: float
    width: float
    x: float
    y: float
    use: Use
    shelves: tuple[str, ...] = ()


class _Blank(msgspec.Struct, frozen=True):
    """What an end of a shelf is cut from."""

    shelf: str
    stock: str
    length: float
    width: float

    def fits(self, length: float, width: float) -> bool:
        """Is a piece of that size large enough?"""
        return length >= self.length - FIT and width >= self.width - FIT


def spares(plan: Plan, sheet: str | None = None) -> tuple[Spare, ...]:
    """All pieces left over (with `sheet`, of that one) that are good for something, the largest first.

    An end needs its show face square through, and beside each mitred edge what the second cut of a V takes to clean
    the arris: its toe may be sawn on the piece's own arris, as in the V, with the blade in the air outside. So the
    corner squares beside the strips make ends from the front. Ends and samples come from the shelves' own kinds of
    sheet, and from beside what faces must keep clear of; tests come from any as thick.
    """
    blanks, stocks = list(_blanks(plan)), {s.id: s for s in plan.sheets}
    shells = [stocks[n.sheet] for n in plan.nets]
    kinds, thicknesses = {s.stock for s in shells}, {s.thickness for s in shells}
    found = []
    least = min((TEST[1], *(min(b.length, b.width) for b in blanks))) - FIT
    for home, piece, (x0, y0, x1, y1) in _left_over(plan, stocks, least, sheet):
        stock, length, width = stocks[home], x1 - x0, y1 - y0
        room = (x0, y0, x1, y1)
        ends = (b for b in blanks if b.stock == stock.stock and b.fits(length, width))
        if stock.areas:
            ends = (b for b in ends if _is_clear(room, b.length, b.width, stock.areas))
        shelves = tuple(dict.fromkeys(b.shelf for b in ends))
        use: Use | None = "spare end" if shelves else None
        if use is None and stock.thickness in thicknesses:
            face = stock.stock in kinds and _has_sample(room, stock.areas)
            use = _use(length, width, face)
        if use is not None:
            found.append(Spare(home, piece, length, width, x0, y0, use, shelves))
    return tuple(sorted(found, key=lambda s: -s.length * s.width))


def _blanks(plan: Plan) -> Iterator[_Blank]:
    sheets = {s.id: s.stock for s in plan.sheets}
    homes = {n.shelf: sheets[n.sheet] for n in plan.nets if n.panel is None}
    for net in plan.shapes:
        for panel in net.panels:
            if panel.role in ("left", "right") and net.owner in homes:
                yield _blank(net.owner, homes[net.owner], panel, plan.project.saw.allowance)


def _blank(shelf: str, stock: str, panel: NetPanel, clean: float) -> _Blank:
    along, across = (sum(map(bool, panel.bevels[n : n + 2])) for n in (0, 2))
    return _Blank(shelf, stock, panel.length + along * clean, panel.width + across * clean)


def _left_over(
    plan: Plan, stocks: dict[str, StockSheet], least: float, only: str | None
) -> Iterator[tuple[str, str, Box]]:
    """Every piece that is neither panel nor part: its sheet, its name, and the rectangle both faces share.

    least: narrower pieces are left out. [mm]
    only: of this sheet; None for all.
    """
    for o in plan.offcuts:
        if only in (None, o.sheet):
            yield o.sheet, o.piece, (o.x, o.y, o.x + o.length, o.y + o.width)
    sawn = (cut for cut in plan.cuts if only in (None, cut.sheet))
    cuts = {made: cut for cut in sawn for made in cut.makes if made is not None}
    for left in plan.leftovers:
        x0, y0, x1, y1 = left.box
        if only in (None, left.sheet) and min(x1 - x0, y1 - y0) >= least:
            yield left.sheet, left.piece, _clear_box(left.piece, stocks[left.sheet], cuts, plan.project.saw.kerf)


def _clear_box(piece: str, sheet: StockSheet, cuts: dict[str, Cut], kerf: float) -> Box:
    """What is square through of a piece: the sheet's rectangle less what each cut on the way to the piece took off."""
    box = [0.0, 0.0, sheet.length, sheet.width]
    while (cut := cuts.get(piece)) is not None:
        tilt = radians(cut.bevel)
        setback, footprint = sheet.thickness * tan(tilt), kerf / cos(tilt)
        axis, low = cut.kind == "rip", cut.makes[0] == piece
        if low == (cut.keep == "low"):  # the kept side: its show face ends at the line, its inside before
            edges = (cut.at, cut.at - setback if low else cut.at + setback)
        else:
            edges = (cut.at - footprint, cut.at + setback - footprint)
            if not low:
                edges = (cut.at + footprint, cut.at - setback + footprint)
        if low:
            box[axis + 2] = min(box[axis + 2], *edges)
        else:
            box[axis] = max(box[axis], *edges)
        piece = cut.piece
    return box[0], box[1], box[2], box[3]


def _is_clear(room: Box, length: float, width: float, areas: Areas) -> bool:
    """Is there so large a face in a room, clear of the areas?"""
    panel = NetPanel("", 0.0, 0.0, length, width, (0.0, 0.0, 0.0, 0.0))
    return first_clear(Net("", (panel,), (), length, width, 0.0), areas, room) is not None


def _has_sample(room: Box, areas: Areas) -> bool:
    """Is there a face for a sample, clear of the areas?"""
    long, short = SAMPLE
    return not areas or _is_clear(room, long, short, areas) or _is_clear(room, short, long, areas)


def _use(length: float, width: float, face: bool) -> Use | None:
    """The most a piece of that size does that makes no end. face: is its face that of a shelf?"""
    long, short = max(length, width), min(length, width)
    if face and long >= SAMPLE[0] and short >= SAMPLE[1]:
        return "finish sample"
    if long >= TEST[0] and short >= TEST[1]:
        return "bevel test"
    return None
