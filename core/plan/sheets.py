"""One sheet being cut up: trims, panels, then frame sticks from the rests.

Both steps are pure and remembered: under a dragging hand most sheets are the same as a moment ago.
"""

from __future__ import annotations

from functools import lru_cache

import msgspec

from core.document.model import Sheet
from core.layout.strips import Rest, new_rest, strip_plans
from core.sawing.bench import Bench, SawnCut
from core.sawing.blocks import Block
from core.sawing.cutting import cut_up
from core.sawing.piece import Axis, Keep, Piece
from core.sawing.steps import TRIM, TURNS, Guides, Steps
from core.sawing.sticks import StripPlan, cut_sticks

REMEMBERED = 48  # sheets


class SheetCut(msgspec.Struct, frozen=True, eq=False, gc=False):
    """What has come of a sheet so far: never changed once made, so it can be shared and remembered."""

    name: str
    stock: Sheet
    kerf: float
    cuts: tuple[SawnCut, ...]
    pieces: dict[str, Piece]  # by panel or part
    rest: tuple[Piece, ...]
    trimmed: tuple[Piece, ...]  # what the trims took off: waste, whatever its size
    fallen: int  # pieces named so far


@lru_cache(maxsize=REMEMBERED)
def cut_nets(name: str, stock: Sheet, kerf: float, guides: Guides, nets: tuple[Block, ...]) -> SheetCut:
    """Trim a sheet and cut its nets apart, down to panels."""
    bench = Bench(name, stock.length, stock.width, stock.thickness, kerf, 0, _steps(guides))
    cuts: list[SawnCut] = []
    rest: list[Piece] = []
    trimmed: list[Piece] = []
    pieces: dict[str, Piece] = {}
    core = _trim(bench, stock, cuts, trimmed)
    if core is not None and nets:
        done = cut_up(bench, core, nets)
        cuts += done.cuts
        rest += done.rest
        pieces = done.pieces
    elif core is not None:
        rest.append(core)
    return SheetCut(name, stock, kerf, tuple(cuts), pieces, tuple(rest), tuple(trimmed), bench.fallen)


@lru_cache(maxsize=8)
def _steps(guides: Guides) -> Steps:
    return Steps(guides)


def _trim(bench: Bench, stock: Sheet, cuts: list[SawnCut], trimmed: list[Piece]) -> Piece | None:
    """True all four edges: first the edge (the upper one) and the end (the left one) that everything is measured from.

    A rip follows a crosscut, so that the guide, laid anew each time, is never flipped.
    """
    trim = stock.trim
    core: Piece | None = bench.whole
    if trim <= 0:
        return core
    edges: tuple[tuple[Axis, float, Keep], ...] = (
        ("y", stock.width - trim, "low"),
        ("x", trim, "high"),
        ("y", trim, "high"),
        ("x", stock.length - trim, "low"),
    )
    for turn, (axis, at, keep) in enumerate(edges):
        if core is None:
            return None
        cut, low, high = bench.saw(core, axis, at, 0.0, keep, "trim", None, TRIM * TURNS + turn)
        cuts.append(cut)
        core, waste = (high, low) if keep == "high" else (low, high)
        if waste is not None:
            trimmed.append(waste)
    return core


def rests_of(sheet: SheetCut) -> list[Rest]:
    """What frame sticks can be cut from."""
    name, thickness = sheet.name, sheet.stock.thickness
    boxes = zip(sheet.rest, _clear_boxes(sheet), strict=True)
    return [new_rest(piece.name, box, thickness, sawn=piece.name != name) for piece, box in boxes]


@lru_cache(maxsize=REMEMBERED)
def _clear_boxes(sheet: SheetCut) -> tuple[tuple[float, float, float, float], ...]:
    return tuple(p.clear_box() for p in sheet.rest)


def with_sticks(sheet: SheetCut, rests: list[Rest]) -> SheetCut:
    """The sheet with the sticks cut that were put into its rests."""
    strips = tuple((rest.name, tuple(strip_plans(rest, sheet.kerf))) for rest in rests if rest.strips)
    return _cut_sticks(sheet, strips) if strips else sheet


@lru_cache(maxsize=REMEMBERED)
def _cut_sticks(sheet: SheetCut, strips: tuple[tuple[str, tuple[StripPlan, ...]], ...]) -> SheetCut:
    stock = sheet.stock
    bench = Bench(sheet.name, stock.length, stock.width, stock.thickness, sheet.kerf, sheet.fallen)
    plans = dict(strips)
    done = cut_sticks(bench, [(piece, plans[piece.name]) for piece in sheet.rest if piece.name in plans])
    rest = [*(piece for piece in sheet.rest if piece.name not in plans), *done.rest]
    cuts, pieces = (*sheet.cuts, *done.cuts), sheet.pieces | done.pieces
    return SheetCut(sheet.name, stock, sheet.kerf, cuts, pieces, tuple(rest), sheet.trimmed, bench.fallen)
