"""The numbers of the steps as they are printed, so that a maker who keeps to them gets the parts.

A number is printed to a 64th of an inch (1/32 with + or −) or 0.1 mm. Rounded each by itself, numbers that build on
each other drift, and the second cut of a V may pass beside its arris. So the cuts are replayed with what is printed:

- a number that is a part's own size stays as it is: parts that meet have it alike
- any other makes up for what those before it, as printed, have left over or taken too much
- where a second cut would miss its arris all the same, the number before it that is no part's size moves on by one
- where a part would come out further off than a number is fine, so does the number of one of its ends
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, cos, floor, radians, tan
from typing import Final, NamedTuple

import msgspec

from core.lengths import INCH_MM
from core.plan.model import FramePart, Panel, Plan, Side
from core.sawing.piece import Axis, Box, Piece, saw_piece, whole_sheet
from core.steps.bench import Pass
from core.steps.contents import Contents
from core.steps.edges import lines_of, outermost, place_on
from core.steps.model import Step
from core.steps.outcome import AXES, LINE, Done, Sizes, mates, uneven, untrue
from core.steps.section import OTHER, SIGN, section

UNITS: Final = {"in": INCH_MM / 64.0, "mm": 0.1}  # mm: as fine as numbers are printed
TRUE: Final = {"in": 0.4, "mm": 0.1}  # mm: what parts may be off with printed numbers kept to; more is told
TRIES: Final = 24
MOST: Final = 8  # steps of the grid that a number may be moved on
NEAR: Final = 1e-9  # mm
TIE: Final = 1e-6  # of a step of the grid
NEAR_TIE: Final = 2e-3  # of a step: nearer to the middle of two a length may be written as either (`core.lengths.show`)
SAME: Final = 1e-6  # mm

NEW: Final[tuple[Side, Side]] = ("high", "low")  # the side that is new of the low piece, and of the high one

Edge = tuple[Axis, Side]
End = tuple[str, Axis]  # a piece's two ends along an axis


def as_printed(plan: Plan, steps: tuple[Step, ...], works: list[Pass], contents: Contents) -> tuple[Step, ...]:
    """The steps, each with the number it is to be printed with where that is not its own, rounded."""
    sizes = {p.id: p.show for p in plan.panels}
    sizes |= {p.id: (p.length, p.width) for f in plan.frames for p in f.parts}
    parts: list[Panel | FramePart] = [*plan.panels, *(part for frame in plan.frames for part in frame.parts)]
    bevelled = {(p.id, edge) for p in plan.panels for edge in p.bevels}
    told, done = list(steps), dict[str, Done]()
    pieces = {p.id: p.piece for p in plan.panels if p.piece}
    pairs = [((pieces[a], x), (pieces[b], y)) for (a, x), (b, y) in mates(plan) if a in pieces and b in pieces]
    for sheet in dict.fromkeys(step.sheet for step in steps):  # a cut in one sheet is nothing to another
        own = [k for k, step in enumerate(steps) if step.sheet == sheet]
        bench = _Bench(plan, [steps[k] for k in own], [works[k] for k in own], contents, sizes, bevelled)
        while not bench.settled():
            pass
        bench.true({p.piece: sizes[p.id] for p in parts if p.sheet == sheet and p.piece}, pairs)
        for k, step in zip(own, bench.told(), strict=True):
            told[k] = step
        done |= {p.id: bench.done(p.piece, own) for p in parts if p.sheet == sheet and p.piece}
    for k, unlike in uneven(plan, done).items():
        told[k] = msgspec.structs.replace(told[k], uneven=tuple(unlike))
    for k, some in untrue(sizes, done, TRUE[plan.project.units] + NEAR).items():
        told[k] = msgspec.structs.replace(told[k], untrue=tuple(some))
    return tuple(told)


class _Fault(NamedTuple):
    """How far a part is off beyond a step of the grid, how far those that meet are apart in all [mm], and where."""

    over: float = 0.0
    apart: float = 0.0
    ends: tuple[End, ...] = ()


class _Sawn(NamedTuple):
    """One step as it was sawn: its number moved on so far, the wood, the names of what was made, and the piece in which
    it missed its arris."""

    moved: int
    there: list[Piece]
    made: list[str]
    missed: Piece | None


class _Bench:
    """The cuts of one sheet, replayed with printed numbers."""

    def __init__(
        self,
        plan: Plan,
        steps: list[Step],
        works: list[Pass],
        contents: Contents,
        sizes: Sizes,
        bevelled: set[tuple[str, str]],
    ) -> None:
        self._steps, self._works = steps, works
        self._grid = UNITS[plan.project.units]
        self._moved = [0] * len(steps)
        self._numbers = [0.0] * len(steps)
        self._toes = [step.set_by.toe for step in steps]  # how far from the edge that is named
        self._ways: dict[int, int] = {}  # which way a step's number may be moved
        self._left: set[int] = set()  # steps that miss their arris whatever is done
        sheet, (length, width) = steps[0].sheet, works[0].sheet
        self._pieces = {sheet: whole_sheet(sheet, length, width)}  # what there is after the steps that are sawn
        self._sawn: list[_Sawn] = []
        self._before: list[int | None] = [None] * len(steps)  # the step that made the edge it is measured from
        self._makers: dict[str, dict[Edge, int]] = {}  # the step that made an edge of a piece
        self._fixed = [_is_own(step, work, contents, sizes, bevelled) for step, work in zip(steps, works, strict=True)]
        self._on_waste = any(_reference(s) != s.keep and s.set_by.reads_scale for s in steps)  # few come out alike
        saw = plan.project.saw
        tilts = [radians(step.bevel) for step in steps]
        self._lost = [  # by the bevel on the inside, and to the blade along a face [mm]
            (work.thickness * tan(tilt), saw.kerf / cos(tilt)) for tilt, work in zip(tilts, works, strict=True)
        ]
        self._cuts = [
            section(saw, work.thickness, step.at, step.bevel, step.keep)
            for step, work in zip(steps, works, strict=True)
        ]

    def _rounded(self, mm: float) -> float:
        return floor(mm / self._grid + 0.5 + TIE) * self._grid  # halves up, whatever a sum of floats makes of them

    def replay(self) -> list[tuple[int, Piece]]:
        """Saw everything, from the first step on that another number has been moved to since the last time; returns the
        second cuts that miss their arris, with the piece they are made in."""
        alike = (sawn.moved == moved for sawn, moved in zip(self._sawn, self._moved, strict=False))
        self._take_back(next((k for k, same in enumerate(alike) if not same), len(self._sawn)))
        for k in range(len(self._sawn), len(self._steps)):
            self._sawn.append(self._step(k))
        return [(k, sawn.missed) for k, sawn in enumerate(self._sawn) if sawn.missed is not None]

    def _take_back(self, first: int) -> None:
        """Take back all steps from one on."""
        for sawn in reversed(self._sawn[first:]):
            for name in sawn.made:
                self._pieces.pop(name, None)
            self._pieces.update((piece.name, piece) for piece in sawn.there)
        del self._sawn[first:]

    def _step(self, k: int) -> _Sawn:
        """Saw one step."""
        step, work, pieces = self._steps[k], self._works[k], self._pieces
        there, missed = [pieces.pop(cut.piece) for cut in work.cuts if cut.piece in pieces], None
        if len(there) == len(work.cuts):  # else it is a plan that does not replay
            at = self._at(k, step, work.axis, there)
            if step.bevel and self._fixed[k] and k not in self._left:
                other = OTHER[step.keep]
                gaps = [(place_on(piece, work.axis, other, False) - at) * SIGN[other] for piece in there]
                worst = min(range(len(gaps)), key=gaps.__getitem__)
                missed = there[worst] if gaps[worst] < -LINE else None
            return _Sawn(self._moved[k], there, self._saw(k, work, there, at), missed)
        return _Sawn(self._moved[k], there, [], None)

    def _at(self, k: int, step: Step, axis: Axis, there: list[Piece]) -> float:
        """Where the kept side's show face comes to end by the number that is printed."""
        by, offset, first = step.set_by, 0.0, there[0]
        side = _reference(step)
        if by.reads_scale:
            ends = [outermost(piece, axis, side) for piece in there]
            edge = min(ends) if side == "low" else max(ends)
            first = there[ends.index(edge)]
            offset = self._cuts[k].at_table - step.at
        else:
            edge = place_on(first, axis, side, False)
        self._before[k] = self._makers.get(first.name, {}).get((axis, side))
        own = self._rounded(by.number)
        wanted = (edge - step.at - offset) * SIGN[side]
        by_waste = side != step.keep and by.reads_scale  # then both ends of what is kept come from places, not sizes
        if not self._fixed[k] and (by_waste or abs(own - wanted) > self._grid / 2.0 + NEAR):
            own = max(0.0, self._rounded(wanted))
        self._numbers[k] = own + self._moved[k] * self._grid
        if not step.bevel and not self._fixed[k]:
            least = edge - offset - SIGN[side] * self._numbers[k] - _innermost(there, axis, OTHER[step.keep])
            lack = max(0.0, least * SIGN[OTHER[step.keep]] - LINE)  # a square cut takes all of a bevel off
            self._numbers[k] -= SIGN[step.keep] * SIGN[side] * ceil(lack / self._grid) * self._grid
        at = edge - offset - SIGN[side] * self._numbers[k]
        self._toes[k] = abs(place_on(there[0], axis, by.side, False) - at)
        return at

    def _saw(self, k: int, work: Pass, there: list[Piece], at: float) -> list[str]:
        """Make a step's cuts; returns the names of the pieces made."""
        names: list[str] = []
        setback, footprint = self._lost[k]
        for cut, piece in zip(work.cuts, there, strict=True):
            called = (cut.makes[0] or "", cut.makes[1] or "")
            before = self._makers.get(piece.name, {})
            made = saw_piece(piece, work.axis, at, cut.keep, setback, footprint, called)
            for one, side in zip(made, NEW, strict=True):
                if one is not None:
                    names.append(one.name)
                    self._pieces[one.name] = one
                    was, now = lines_of(piece, work.axis, side), lines_of(one, work.axis, side)
                    uncut = was is now  # the blade ran beside the wood
                    self._makers[one.name] = before if uncut else {**before, (work.axis, side): k}
        return names

    def _move_on(self, missed: list[tuple[int, Piece]]) -> bool:
        """Move a number before each second cut that misses; False where there is none to move."""
        moved: dict[int, int] = {}
        for k, piece in missed:
            free = [(one, by) for one, by in self._movable(k, piece) if self._may_move(one, by)]
            if free and not any(moved.get(one) == by for one, by in free):
                moved.update(free[:1])
        for one, by in moved.items():
            self._moved[one] += by
        return bool(moved)

    def _may_move(self, step: int, by: int) -> bool:
        """Numbers move one way only."""
        there = self._moved[step]
        return there * by >= 0 and abs(there) < MOST and self._ways.get(step, by) == by

    def _movable(self, k: int, piece: Piece) -> list[tuple[int, int]]:
        """The steps whose numbers bring a cut and its arris apart, and which way each would move."""
        step, axis, way = self._steps[k], self._works[k].axis, int(SIGN[self._steps[k].keep])
        makers = self._makers.get(piece.name, {})
        edge, arris = (self._free(makers.get((axis, side))) for side in (_reference(step), OTHER[step.keep]))
        if edge == arris:
            return []  # they move together
        ways = [(one, to) for one, to in ((edge, way), (arris, -way)) if one is not None]
        ways.sort(key=lambda pair: self._steps[pair[0]].bevel)  # square: more wood round the net spoils nothing
        return [(one, to * -int(SIGN[_reference(self._steps[one])])) for one, to in ways]

    def _claims(self, missed: list[tuple[int, Piece]]) -> bool:
        """Where a number was moved that should go the other way, keep it from that the next time."""
        for k, piece in missed:
            for one, by in self._movable(k, piece):
                if self._moved[one] * by < 0 and one not in self._ways:
                    self._ways[one] = by
                    return True
        return False

    def _free(self, step: int | None) -> int | None:
        """The step that an edge's place comes from: its own where its number is no part's size, else one before it.

        What was cut before that makes no difference: its number makes up for it.
        """
        while step is not None and self._fixed[step]:
            step = self._before[step]
        return step

    def settled(self) -> bool:
        """Move numbers on till no cut misses its arris; those that do all the same are left alone, to begin anew."""
        self._moved = [0] * len(self._steps)
        for _ in range(TRIES):
            missed = self.replay()
            if not missed:
                return True
            if not self._move_on(missed):
                break
        if self._claims(missed):
            return False
        self._take_back(missed[0][0])
        for k, _ in missed:
            self._left.add(k)
            if self._steps[k].set_by.back is not None:  # set on the arris alone
                by = msgspec.structs.replace(self._steps[k].set_by, back=None, back_edge=None, stick=None)
                self._steps[k] = msgspec.structs.replace(self._steps[k], set_by=by)
        return False

    def true(self, parts: Sizes, mates: list[tuple[End, End]]) -> None:
        """Move on the numbers of ends that are no part's size where a part would come out further off than a step of
        the grid, or two that meet unlike. parts, mates: by the names of their pieces."""
        fault, tried = self._fault(parts, mates), False
        for _ in range(TRIES if fault.ends else 0):
            before, tries, tried = list(self._moved), [], True
            for step in sorted({step for end in fault.ends for step in self._from(*end)}):
                for by in (1, -1):
                    if self._goes(step, by):
                        tries.append((self._fault(parts, mates), list(self._moved)))
                    self._moved = list(before)
            best = min(tries, default=(fault, before))
            if best[0][:2] >= fault[:2]:
                break
            fault, self._moved = best
        if tried:
            self.replay()

    def _goes(self, step: int, by: int) -> bool:
        """Move a number on, and others after it where a cut would miss its arris; False where one does all the same."""
        self._moved[step] += by
        ways = {step: 0}  # which way others go: one only
        for _ in range(MOST):
            missed = self.replay()
            others = [[(k, to) for k, to in self._movable(*one) if ways.get(k, to) == to] for one in missed]
            if not missed or not all(others):
                break
            ways |= (moves := dict(some[0] for some in others))
            for k, to in moves.items():
                self._moved[k] += to
        return not missed

    def _fault(self, parts: Sizes, mates: list[tuple[End, End]]) -> _Fault:
        """What is worst of the parts, and which ends it is about."""
        found, boxes = _Fault(), {name: self._pieces[name].show_box() for name in parts if name in self._pieces}
        for name, (x0, y0, x1, y1) in boxes.items():
            for axis, made, size in zip(AXES, (x1 - x0, y1 - y0), parts[name], strict=True):
                if (over := round(abs(made - size) - self._grid, 6)) > found.over:
                    found = _Fault(over, ends=((name, axis),))
        apart, ends = 0.0, found.ends
        for (one, axis), (other, side) in mates if not self._on_waste else ():
            if one in boxes and other in boxes:
                off = abs(_long(boxes[one], axis) - _long(boxes[other], side))
                apart += off if off > LINE else 0.0
                ends = ends or (((one, axis), (other, side)) if off > LINE else ())
        return _Fault(found.over, round(apart, 6), ends)

    def _from(self, name: str, axis: Axis) -> set[int]:
        """The steps that a piece's ends come from and whose numbers are no part's size."""
        makers = self._makers.get(name, {})
        steps = {self._free(makers.get((axis, side))) for side in SIGN}
        return {step for step in steps if step is not None}

    def done(self, name: str, steps: list[int]) -> Done:
        """What a piece has come to. steps: the numbers of this sheet's steps among all."""
        piece, makers = self._pieces.get(name), self._makers.get(name, {})
        if piece is None:
            return {}
        x0, y0, x1, y1 = piece.show_box()
        last = {axis: max((steps[k] for (one, _), k in makers.items() if one == axis), default=-1) for axis in "xy"}
        return {"x": (x1 - x0, last["x"]), "y": (y1 - y0, last["y"])}

    def told(self) -> tuple[Step, ...]:
        """The steps with their printed numbers; set on the arris alone where a size would miss it."""
        return tuple(self._told(k, step) for k, step in enumerate(self._steps))

    def _told(self, k: int, step: Step) -> Step:
        by = step.set_by
        if by.reads_scale and by.means != "arris" and abs(self._toes[k] - by.toe) > LINE:
            by = msgspec.structs.replace(by, told_toe=self._toes[k])
            step = msgspec.structs.replace(step, set_by=by)
        off = self._numbers[k] - self._rounded(by.number)
        if (abs(off) < NEAR and not self._is_tie(by.number)) or (
            by.means == "arris" and by.back is None and not by.reads_scale
        ):
            return step
        stick = None if by.stick is None or _reference(step) != step.guide else max(0.0, by.stick + off)
        told = msgspec.structs.replace(by, told=self._numbers[k], told_stick=stick)
        return msgspec.structs.replace(step, set_by=told)

    def _is_tie(self, mm: float) -> bool:
        """Is a number half way between two that can be printed?"""
        return abs(mm / self._grid % 1.0 - 0.5) < NEAR_TIE


def _long(box: Box, axis: Axis) -> float:
    return box[2] - box[0] if axis == "x" else box[3] - box[1]


def _innermost(pieces: list[Piece], axis: Axis, side: Side) -> float:
    """Where all pieces are whole from face to face, on a side."""
    ends = [place_on(piece, axis, side, inside) for piece in pieces for inside in (False, True)]
    return max(ends) if side == "low" else min(ends)


def _is_own(step: Step, work: Pass, contents: Contents, sizes: Sizes, bevelled: set[tuple[str, str]]) -> bool:
    """Is the number a part's own size, or what trues an edge or lies on an arris? Then it stays as it is.

    bevelled: panels with their edges that are: a square cut there is not the one that gives the size.
    """
    by = step.set_by
    if by.means == "raw edge" or (by.means == "arris" and not by.reads_scale and by.back is None):
        return True
    if _reference(step) != step.keep:
        return False
    index = 0 if work.axis == "x" else 1
    size = abs(place_on(work.before[0], work.axis, step.keep, False) - step.at)
    kept = (pair[step.keep == "high"] for pair in work.made)
    parts: Iterable[str] = (part for piece in kept if piece is not None for part in contents.parts.get(piece.name, ()))
    edge = f"{OTHER[step.keep]}_{work.axis}"
    return any(
        part in sizes and abs(sizes[part][index] - size) < SAME and (step.bevel or (part, edge) not in bevelled)
        for part in parts
    )


def _reference(step: Step) -> Side:
    """The side of the cut the number is measured from."""
    by = step.set_by
    return step.guide if by.reads_scale else step.keep if by.back is not None else by.side
