"""One sheet being cut up: trims, panels, then frame parts from the rests."""

from __future__ import annotations

from collections.abc import Sequence

from core.document.model import Sheet
from core.layout.strips import Rest, new_rest, strip_plans
from core.sawing.bench import Bench, SawnCut
from core.sawing.blocks import Block
from core.sawing.choosing import PART, TRIM
from core.sawing.cutting import cut_up
from core.sawing.piece import Piece
from core.sawing.sticks import cut_sticks


class CutSheet:
    """A sheet on the bench and everything that has come of it so far."""

    def __init__(self, name: str, stock: Sheet, kerf: float) -> None:
        self.name = name
        self.stock = stock
        self.bench = Bench(name, stock.length, stock.width, stock.thickness, kerf)
        self.cuts: list[SawnCut] = []
        self.pieces: dict[str, Piece] = {}
        self.rest: list[Piece] = []
        self._core = self.bench.whole
        self._waiting: dict[str, Rest] = {}

    def cut_nets(self, nets: Sequence[Block]) -> None:
        """Trim the sheet and cut its nets apart, down to panels."""
        core = self._trim()
        if core is None:
            return
        if nets:
            done = cut_up(self.bench, core, nets, PART)
            self.cuts.extend(done.cuts)
            self.pieces.update(done.pieces)
            self.rest.extend(done.rest)
        else:
            self.rest.append(core)

    def _trim(self) -> Piece | None:
        """True all four edges: first the edge and the end that everything is measured from."""
        trim, stock = self.stock.trim, self.stock
        core: Piece | None = self.bench.whole
        if trim <= 0:
            return core
        for axis, at, high in (
            ("y", trim, True),
            ("x", trim, True),
            ("y", stock.width - trim, False),
            ("x", stock.length - trim, False),
        ):
            if core is None:
                return None
            cut, low, high_side = self.bench.saw(
                core, "x" if axis == "x" else "y", at, 0.0, "high" if high else "low", "trim", None, TRIM
            )
            self.cuts.append(cut)
            core, waste = (high_side, low) if high else (low, high_side)
            if waste is not None:
                self.rest.append(waste)
        return core

    def rests(self) -> list[Rest]:
        """What frame parts can be cut from; parts put into these rests are cut by `cut_strips`."""
        self._waiting = {p.name: new_rest(p.name, p.clear_box(), self.stock.thickness) for p in self.rest}
        return list(self._waiting.values())

    def cut_strips(self) -> None:
        """Cut the frame parts that were put into the rests."""
        kept = []
        for piece in self.rest:
            waiting = self._waiting.get(piece.name)
            strips = strip_plans(waiting) if waiting else []
            if not strips:
                kept.append(piece)
                continue
            done = cut_sticks(self.bench, piece, strips)
            self.cuts.extend(done.cuts)
            self.pieces.update(done.pieces)
            kept.extend(done.rest)
        self.rest = kept
        self._waiting = {}
