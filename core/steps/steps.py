"""The steps of a plan: its cuts, pass by pass, as they are made at the bench.

Computed when asked for, from the cuts alone: pieces are replayed, so any order of cuts that can be sawn gives true
instructions.
"""

from __future__ import annotations

from functools import lru_cache

import msgspec

from core.document.model import Saw
from core.drawing.names import part_word
from core.kept import Same
from core.language import tr
from core.plan.model import CutKind, Plan, Side
from core.sawing.piece import TOUCH
from core.sawing.setups import setup_numbers
from core.sawing.support import NARROW, OVERHANG, RUN
from core.steps.bench import TRIM, Lying, Pass, pass_cuts, passes_of
from core.steps.contents import ENDS, ONE, Contents, contents_of, piece_words, side_words
from core.steps.edges import edge_kind, place_on
from core.steps.falling import chips_of, falls_of, supports_of
from core.steps.model import Danger, Move, Packer, SetBy, Step, Support
from core.steps.packing import packed_stick, packer
from core.steps.printed import as_printed
from core.steps.section import OTHER, section
from core.steps.setting import is_second, set_by, width_under


def steps_of(plan: Plan) -> tuple[Step, ...]:
    """All steps of a plan in order, one for each pass. Raises nothing for a plan that replays."""
    return _steps(Same(plan))


@lru_cache(maxsize=2)
def _steps(key: Same) -> tuple[Step, ...]:
    plan = key.plan
    contents, setups, groups = contents_of(plan), setup_numbers(plan.cuts, plan.project.saw), pass_cuts(plan)
    coming = [{cut.piece for cut in group} for group in [*groups[1:], ()]][: len(groups)]
    steps: list[Step] = []
    works: list[Pass] = []
    last: dict[CutKind, Step] = {}
    bevelled = set[str]()
    done = 0
    for (work, bench), next_up in zip(passes_of(plan, groups), coming, strict=True):
        works.append(work)
        desk = _Desk(plan.project.saw, work, bench, contents, next_up, steps[-1].packer if steps else None)
        step = desk.step(len(steps) + 1, setups[done])
        step = _fetched(step, work, works[-2] if steps else None, contents)
        step = _compared(step, steps[-1] if steps else None, last.get(step.kind), plan.project.saw.kind == "table")
        if step.bevel:
            step = _prepared(step, step.sheet not in bevelled, plan.project.saw.kind == "table")
            bevelled.add(step.sheet)
        steps.append(step)
        last[step.kind] = step
        done += len(work.cuts)
    return as_printed(plan, tuple(steps), works, contents)


class _Desk:
    """One pass, and everything its step is read from."""

    def __init__(
        self,
        saw: Saw,
        work: Pass,
        bench: dict[str, Lying],
        contents: Contents,
        next_up: set[str],
        last: Packer | None,
    ) -> None:
        self.saw, self.work, self.bench, self.contents = saw, work, bench, contents
        first = work.cuts[0]
        self.cut = section(saw, work.thickness, first.at, first.bevel, first.keep)
        self.width = width_under(work, self.cut, saw)
        self.length = sum(cut.length for cut in work.cuts)
        self.falls = falls_of(work, self.cut, contents, next_up)
        self.packer = self._packer(last)
        self.set_by = self._set_by()

    def step(self, number: int, setup: int) -> Step:
        """The step, not compared with the one before it yet."""
        work, cut = self.work, self.cut
        under = self._pieces(cut.guide)
        abouts = self._abouts()
        return Step(
            number=number,
            setup=setup,
            cuts=tuple(c.n for c in work.cuts),
            sheet=work.cuts[0].sheet,
            kind=work.cuts[0].kind,
            at=cut.at,
            bevel=cut.bevel,
            keep=cut.keep,
            length=self.length,
            about=work.cuts[0].about,
            abouts=abouts,
            seams=self._seams(abouts),
            second=is_second(work, cut),
            datum=work.datum[0],
            guide=cut.guide,
            under=under,
            parts=tuple(part for name in under for part in self.contents.parts.get(name, ())),
            words=self._words(cut.guide),
            width=self.width,
            foot=cut.foot,
            face=cut.face,
            flip=False,
            moves=(),
            set_by=self.set_by,
            packer=self.packer,
            falls=self.falls,
            support=supports_of(work, self.falls, self.saw),
            chips=chips_of(work, cut, self.saw, self.contents),
            dangers=self._dangers(),
        )

    def _abouts(self) -> tuple[str, ...]:
        """What the edges made are of: what the cuts are about, and of a bevel all panels of a band that end there.

        An end is not told beside the strip it is cut from.
        """
        abouts = dict.fromkeys(c.about for c in self.work.cuts)
        if not self.cut.bevel:
            return tuple(abouts)
        places, strips = self.contents.places, self.contents.strips
        column = (0 if self.work.axis == "x" else 1) + (2 if self.cut.keep == "low" else 0)
        ids = [part for name in self._pieces(self.cut.keep) for part in self.contents.parts.get(name, ())]
        there = (part for part in ids if part in places and abs(places[part][column] - self.cut.at) <= TOUCH)
        abouts |= dict.fromkeys(there)
        shelves = list(self.contents.letters)
        alone = [part for part in abouts if strips.get(part) not in abouts]
        return tuple(sorted(alone, key=lambda part: shelves.index(part.rpartition("/")[0])))

    def _seams(self, abouts: tuple[str, ...]) -> tuple[str, ...]:
        """Letters of the seams that the edges made go to."""
        if not self.cut.bevel:
            return ()
        edge = f"{OTHER[self.cut.keep]}_{self.work.axis}"
        letters = (self.contents.seams.get((about, edge)) for about in abouts)
        return tuple(dict.fromkeys(letter for letter in letters if letter))

    def _pieces(self, side: Side) -> tuple[str, ...]:
        """The pieces made on one side of the cut."""
        return tuple(made.name for pair in self.work.made if (made := pair[side == "high"]) is not None)

    def _words(self, side: Side) -> str:
        """What lies on one side of the cut, in words."""
        if self.work.cuts[0].about == TRIM:
            return tr("the sheet")
        return side_words(self.contents, self.work, self._pieces(side))

    def _packer(self, last: Packer | None) -> Packer | None:
        lack = self.saw.guide_width - self.width
        if self.saw.kind == "table" or lack <= OVERHANG:
            return None
        return packer(self.work, self.cut, self.bench, lack, self.length, self.contents, last)

    def _set_by(self) -> SetBy:
        by = set_by(self.work, self.cut, self.saw, {"low": self._words("low"), "high": self._words("high")})
        by = self._with_back(by)
        if self.packer is None or len(self.packer.pieces) != 1 or self.packer.instead:
            return by
        return msgspec.structs.replace(by, stick=packed_stick(self.work, self.cut, self.bench, self.packer, self.saw))

    def _with_back(self, by: SetBy) -> SetBy:
        """With the size of what is kept, where the cut is set on an arris and that is a panel with a square back."""
        if by.means != "arris":
            return by
        keep, axis = self.cut.keep, self.work.axis
        column = (0 if axis == "x" else 1) + (2 if keep == "high" else 0)
        kind = edge_kind(self.work, self.work.before[0], keep)
        for cut, piece in zip(self.work.cuts, self.work.before, strict=True):
            box, far = self.contents.places.get(cut.about), place_on(piece, axis, keep, False)
            if kind not in ("datum", "square") or box is None or abs(box[column] - far) > TOUCH:
                return msgspec.structs.replace(by, stick=None)  # the arris alone sets it
        back = abs(place_on(self.work.before[0], axis, keep, False) - self.cut.at)
        return msgspec.structs.replace(by, back=back, back_edge=kind)

    def _dangers(self) -> tuple[Danger, ...]:
        by, saw = self.set_by, self.saw
        table, lack = saw.kind == "table", saw.guide_width - self.width > OVERHANG
        waste = table and self.cut.guide != self.cut.keep
        close = by.reading is not None and by.reading < NARROW and not waste
        told: dict[Danger, bool] = {
            "trapped": by.device == "fence" and bool(self.cut.bevel) and saw.lean == "away",
            "waste side": waste,
            "toe creeps": by.bears == "toe down",
            "tall fence": by.bears == "toe up",
            "narrow": close if table else lack and self.packer is None,
            "triangle": any(fall.kind == "triangle" for fall in self.falls),
            "guide short": not table and self.length > saw.guide_length - RUN + TOUCH,
            "fence travel": by.reading is not None and by.reading > saw.fence_travel + TOUCH,
        }
        return tuple(danger for danger, holds in told.items() if holds)


def _fetched(step: Step, work: Pass, last: Pass | None, contents: Contents) -> Step:
    """The step with the wood that is taken up for it, and whether its fence bears on the edge sawn just before."""
    if last is None:
        return step
    mine = [piece.name for piece in work.before]
    sides: dict[str, Side] = {}  # of what the pass before has made: where it was sawn
    for low, high in last.made:
        sides |= {low.name: "high"} if low is not None else {}
        sides |= {high.name: "low"} if high is not None else {}
    fresh = len(mine) == 1 and last.axis == work.axis and sides.get(mine[0]) == step.guide
    take: tuple[str, ...] = ()
    if mine[0] != step.sheet and not sides.keys() >= set(mine):
        take = tuple(piece_words(contents, name).removesuffix(ONE) for name in mine)
    by = msgspec.structs.replace(step.set_by, fresh=fresh, back_of=_back_at_fence(step, work, contents))
    return msgspec.structs.replace(step, take=take, set_by=by)


def _back_at_fence(step: Step, work: Pass, contents: Contents) -> str:
    """The panel whose back bears on the fence, where the edge across the cut is as square; '' where there is none."""
    if step.set_by.device != "fence" or (step.set_by.against, step.set_by.opposite) != ("square", "square"):
        return ""
    piece, column = work.before[0], 1 if step.guide == "low" else 3
    edge = place_on(piece, work.axis, step.guide, False)
    there = [part for part in contents.parts.get(piece.name, ()) if part in contents.places]
    roles = {part.rpartition("/")[2] for part in there if abs(contents.places[part][column] - edge) <= TOUCH} - {*ENDS}
    return part_word(roles.pop()) if len(roles) == 1 else ""


def _compared(step: Step, before: Step | None, same: Step | None, fenced: bool) -> Step:
    """The step with what changes from the one before it, and the flip from the last of its kind."""
    flip = same is not None and same.guide != step.guide
    if not fenced and (before is None or before.sheet != step.sheet):
        step = msgspec.structs.replace(step, support=("bed", *step.support))
    if before is None:
        return step
    changes: dict[Move, bool] = {
        "new sheet": before.sheet != step.sheet,
        "turn over": before.face != step.face,
        "across": before.kind != step.kind and step.kind == "crosscut",
        "along": before.kind != step.kind and step.kind == "rip",
        "tilt": before.bevel != step.bevel,
        "flip": flip and before.kind == step.kind,
    }
    return msgspec.structs.replace(step, flip=flip, moves=tuple(move for move, holds in changes.items() if holds))


def _prepared(step: Step, first: bool, fenced: bool) -> Step:
    """What is made ready before bevels: ticks while the sheet is whole, the guide clamped, splitter and insert.

    first: is it the sheet's first bevel?
    """
    found: list[Support] = ["ticks"] if first else []
    if fenced and first:
        found.append("splitter")
    if not fenced and step.moves:
        found.append("clamp")
    return msgspec.structs.replace(step, support=(*found, *step.support))
