"""How the wood lies at a step: which pieces there are, and which way round they are seen.

The bench is seen from above, rips from left to right, crosscuts upward. A guide rail goes where it is wanted and the
wood stays; on a table saw the wood is turned end for end, so that the fence is always below (the sled's stop at the
left). With the show face down the wood is turned over end for end, like a page.
"""

from __future__ import annotations

from functools import lru_cache

import msgspec

from core.kept import Same
from core.plan.model import Plan, Side
from core.sawing.piece import Axis, Box, Piece
from core.steps.bench import Datum, Lying, Pass, datums_of, pass_cuts, passes_of
from core.steps.contents import Contents, contents_of
from core.steps.model import Step
from core.steps.steps import steps_of

OTHER: dict[Side, Side] = {"low": "high", "high": "low"}


class Turn(msgspec.Struct, frozen=True, gc=False):
    """Which axes of a sheet are seen reversed. length, width: of the sheet. [mm]"""

    length: float
    width: float
    x: bool = False
    y: bool = False

    def place(self, x: float, y: float) -> tuple[float, float]:
        """Where a place of the sheet is seen; a second time it is the place again."""
        return (self.length - x if self.x else x, self.width - y if self.y else y)

    def box(self, box: Box) -> Box:
        """Where a box is seen."""
        (a, b), (c, d) = self.place(box[0], box[1]), self.place(box[2], box[3])
        return (min(a, c), min(b, d), max(a, c), max(b, d))

    def along(self, axis: Axis, at: float) -> float:
        """Where a coordinate of the sheet is seen."""
        return self.place(at, 0.0)[0] if axis == "x" else self.place(0.0, at)[1]

    def side(self, axis: Axis, side: Side) -> Side:
        """On which side a side of the sheet is seen: low is left or below."""
        return OTHER[side] if (self.x if axis == "x" else self.y) else side


class Bench(msgspec.Struct, frozen=True, eq=False, gc=False):
    """One step's wood: the pass, what else of the same sheet lies there, packers from other sheets, and the turn.

    Told apart by identity, so that what is found out about one is quickly found again.
    """

    step: Step
    work: Pass
    others: tuple[Lying, ...]
    turn: Turn
    guide_width: float
    guide_length: float  # of the guide rail, or of the fence [mm]
    datums: tuple[tuple[Axis, Datum], ...]  # the sheet's trued edge and end
    close: bool = False  # looked at from near: the work alone with what is beside it

    @property
    def axis(self) -> Axis:
        """The coordinate the cut sits at."""
        return self.work.axis

    @property
    def made(self) -> tuple[Piece, ...]:
        """The pieces the pass makes."""
        return tuple(piece for pair in self.work.made for piece in pair if piece is not None)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece of the sheet once the pass is made."""
        mine = (lying.piece for lying in self.others if lying.sheet == self.step.sheet)
        return (*mine, *self.made)

    @property
    def is_guided(self) -> bool:
        """Is it a guide rail's step, not a table saw's?"""
        return self.step.set_by.device == "mark"


class Day(msgspec.Struct, frozen=True, gc=False):
    """All steps of a plan with their wood."""

    benches: tuple[Bench, ...]
    contents: Contents


def day_of(plan: Plan) -> Day:
    """The steps of a plan with the pieces lying at each; remembered for the last plan asked for."""
    return _day(Same(plan))


@lru_cache(maxsize=2)
def _day(key: Same) -> Day:
    plan, saw = key.plan, key.plan.project.saw
    if not plan.cuts:
        return Day((), contents_of(plan))
    sizes = {sheet.id: (sheet.length, sheet.width) for sheet in plan.sheets}
    groups = pass_cuts(plan)
    datums = _datums(plan)
    benches = []
    by_sheet: dict[str, dict[str, Lying]] = {name: {} for name in sizes}
    fresh: dict[str, Lying] = by_sheet[groups[0][0].sheet]
    made: list[Piece] = []  # by the pass before
    for step, (work, lying) in zip(steps_of(plan), passes_of(plan, groups), strict=True):
        fresh.update((piece.name, lying[piece.name]) for piece in made if piece.name in lying)
        fresh = by_sheet[step.sheet]
        for piece in work.before:
            fresh.pop(piece.name, None)
        made = [piece for pair in work.made for piece in pair if piece is not None]
        packers = [lying[name] for name in (step.packer.pieces if step.packer else ())]
        others = (*fresh.values(), *(one for one in packers if one.sheet != step.sheet))
        turn = turn_of(step, *sizes[step.sheet])
        benches.append(Bench(step, work, others, turn, saw.guide_width, saw.guide_length, datums[step.sheet]))
    return Day(tuple(benches), contents_of(plan))


def _datums(plan: Plan) -> dict[str, tuple[tuple[Axis, Datum], ...]]:
    """The trued edge and end of each sheet, as far as it is cut along or across."""
    known = datums_of(plan)
    found: dict[str, dict[Axis, Datum]] = {}
    for cut in plan.cuts:
        axis: Axis = "y" if cut.kind == "rip" else "x"
        found.setdefault(cut.sheet, {})[axis] = known[cut.sheet, axis]
    return {sheet: tuple(datums.items()) for sheet, datums in found.items()}


def turn_of(step: Step, length: float, width: float) -> Turn:
    """Which way round the wood lies. length, width: of the sheet. [mm]"""
    over = step.face == "down"
    guide = OTHER[step.guide] if over and step.kind == "crosscut" else step.guide
    ended = step.set_by.device != "mark" and guide == "high"
    return Turn(length, width, over != ended, ended)
