"""Spares: what the pieces left over are still good for at the bench, until the shelf hangs on the wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

import msgspec

from core.geometry.net import NetPanel
from core.layout.model import FIT
from core.plan.model import Plan
from core.sawing.replay import ReplaySheet, replay

Use = Literal["spare end", "finish sample", "bevel test"]

# Least sizes, longer side first; sides may lie either way of the grain (common practice). [mm]
SAMPLE = (150.0, 100.0)  # what stain and finish are judged on
TEST = (100.0, 50.0)  # sawn across once at the bevel, it makes two pieces to close to a corner


class Spare(msgspec.Struct, frozen=True):
    """A piece left over, square through (the rectangle both faces share), and the most it is good for.

    length, width: along and across the grain. [mm]
    use: what makes a spare end makes a sample too, what makes a sample a test.
    shelves: those for which it makes an end; its figure does not run on from theirs.
    """

    sheet: str
    piece: str
    length: float
    width: float
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


def spares(plan: Plan) -> tuple[Spare, ...]:
    """All pieces left over that are good for something, the largest first.

    An end needs its show face square through, and beside each mitred edge what the second cut of a V takes to clean
    the arris: its toe may be sawn on the piece's own arris, as in the V, with the blade in the air outside. So the
    corner squares beside the strips make ends from the front. Ends and samples come from the shelves' own kinds of
    sheet, tests from any as thick.
    Raises ReplayError where the plan's cuts cannot be replayed, which is a mistake in this program.
    """
    blanks, stocks = list(_blanks(plan)), {s.id: s for s in plan.sheets}
    shells = [stocks[n.sheet] for n in plan.nets]
    kinds, thicknesses = {s.stock for s in shells}, {s.thickness for s in shells}
    found = []
    for sheet, piece, length, width in _left_over(plan):
        stock = stocks[sheet]
        ends = (b for b in blanks if b.stock == stock.stock and b.fits(length, width))
        shelves = tuple(dict.fromkeys(b.shelf for b in ends))
        use: Use | None = "spare end" if shelves else None
        if use is None and stock.thickness in thicknesses:
            use = _use(length, width, face=stock.stock in kinds)
        if use is not None:
            found.append(Spare(sheet, piece, length, width, use, shelves))
    return tuple(sorted(found, key=lambda s: -s.length * s.width))


def _blanks(plan: Plan) -> Iterator[_Blank]:
    sheets = {s.id: s.stock for s in plan.sheets}
    homes = {n.shelf: sheets[n.sheet] for n in plan.nets}
    for net in plan.shapes:
        for panel in net.panels:
            if panel.role in ("left", "right") and net.owner in homes:
                yield _blank(net.owner, homes[net.owner], panel, plan.project.saw.allowance)


def _blank(shelf: str, stock: str, panel: NetPanel, clean: float) -> _Blank:
    along, across = (sum(map(bool, panel.bevels[n : n + 2])) for n in (0, 2))
    return _Blank(shelf, stock, panel.length + along * clean, panel.width + across * clean)


def _left_over(plan: Plan) -> Iterator[tuple[str, str, float, float]]:
    """Every piece that is neither panel nor part: its sheet, name, and size square through."""
    stock = [ReplaySheet(s.id, s.length, s.width, s.thickness) for s in plan.sheets]
    pieces = replay(stock, plan.cuts, plan.project.saw.kerf).pieces
    left = [(o.sheet, o.piece) for o in plan.offcuts] + [(w.sheet, w.piece) for w in plan.leftovers]
    for sheet, name in left:
        x0, y0, x1, y1 = pieces[name].clear_box()
        yield sheet, name, x1 - x0, y1 - y0


def _use(length: float, width: float, face: bool) -> Use | None:
    """The most a piece of that size does that makes no end. face: is its face that of a shelf?"""
    long, short = max(length, width), min(length, width)
    if face and long >= SAMPLE[0] and short >= SAMPLE[1]:
        return "finish sample"
    if long >= TEST[0] and short >= TEST[1]:
        return "bevel test"
    return None
