"""Packing out a guide rail that is wider than what lies under it, with wood of the same thickness."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.document.model import Saw
from core.plan.model import Side
from core.sawing.piece import Axis, Piece
from core.sawing.support import SAME, carries
from core.steps.bench import Lying, Pass
from core.steps.contents import Contents, piece_words, the
from core.steps.edges import outermost, place_on
from core.steps.model import Packer
from core.steps.section import SIGN, Section

BESIDE: Final = 12.0  # mm: pieces of a sheet no further apart than this were neighbours


def packer(
    work: Pass, cut: Section, bench: dict[str, Lying], lack: float, length: float, contents: Contents
) -> Packer | None:
    """What carries the guide beside the piece: its neighbour on the sheet, else any piece, else one for each end.

    lack: width that is missing under the guide; length: of the cut. [mm]
    """
    if lack <= 0:
        return None
    beside = _neighbour(work, cut, bench, lack, length)
    if beside is not None:
        toes = _is_toe(work.before[0], work.axis, cut.guide) and _is_toe(beside, work.axis, _facing(cut.guide))
        how = "pushed up toe to toe" if toes else "pushed up against it"
        words = f"{the(piece_words(contents, beside.name))} {how}"
        return Packer(lack, length, (beside.name,), words, toes)
    ends = list[str]()
    for lying in _likely(work, bench, contents):
        how, name = carries(*lying.sides, lack, length), lying.piece.name
        if how == "all":
            return Packer(lack, length, (name,), f"{_called(contents, name)} beside it", False)
        if how:
            ends.append(name)
        if len(ends) == 2:
            break
    if len(ends) == 2:
        words = " and ".join(_called(contents, name) for name in ends)
        return Packer(lack, length, tuple(ends), f"{words}, one at each end", False)
    return None


def _called(contents: Contents, name: str) -> str:
    """What a packer is called; what has no name but the plan's is told with it."""
    words = piece_words(contents, name)
    return the(words) if contents.parts.get(name) else f"{words} {name}"


def packed_stick(work: Pass, cut: Section, bench: dict[str, Lying], by: Packer, saw: Saw) -> float | None:
    """Gauge stick from the packer's far edge to the guide's back, the packer pushed up; None where it lies loose."""
    lying = bench[by.pieces[0]]
    side, axis = cut.guide, work.axis
    gaps = [
        (place_on(lying.piece, axis, _facing(side), inside) - place_on(work.before[0], axis, side, inside)) * SIGN[side]
        for inside in (False, True)
    ]
    if lying.sheet != work.cuts[0].sheet or not 0.0 <= gaps[0] <= BESIDE:
        return None
    far = outermost(lying.piece, axis, side) - SIGN[side] * min(gaps)
    return abs(far - cut.at - SIGN[side] * cut.edge) - saw.guide_width


def _edge(work: Pass, cut: Section) -> float:
    return place_on(work.before[0], work.axis, cut.guide, False)


def _facing(side: Side) -> Side:
    return "high" if side == "low" else "low"


def _is_toe(piece: Piece, axis: Axis, side: Side) -> bool:
    show, inside = place_on(piece, axis, side, False), place_on(piece, axis, side, True)
    return (show - inside) * SIGN[side] > 0


def _neighbour(work: Pass, cut: Section, bench: dict[str, Lying], lack: float, length: float) -> Piece | None:
    """The piece that was beside it on the sheet, if it is wide enough and as long as the cut."""
    side = cut.guide
    along: Axis = "x" if work.axis == "y" else "y"
    edge = _edge(work, cut)
    low, high = place_on(work.before[0], along, "low", False), place_on(work.before[0], along, "high", False)
    sheet, last = work.cuts[0].sheet, 2 if work.axis == "x" else 3
    near = last - 2 if side == "high" else last
    for lying in bench.values():
        if lying.sheet != sheet or not 0.0 <= (lying.show[near] - edge) * SIGN[side] <= BESIDE:
            continue
        if carries(*lying.sides, lack, length - BESIDE) != "all" or _clear(lying.piece, work.axis) < lack:
            continue
        if min(high, lying.show[5 - last]) - max(low, lying.show[3 - last]) >= length - BESIDE:
            return lying.piece
    return None


def _wide(piece: Piece, axis: Axis) -> float:
    return outermost(piece, axis, "high") - outermost(piece, axis, "low")


def _clear(piece: Piece, axis: Axis) -> float:
    x0, y0, x1, y1 = piece.clear_box()
    return x1 - x0 if axis == "x" else y1 - y0


def _likely(work: Pass, bench: dict[str, Lying], contents: Contents) -> Iterator[Lying]:
    """Pieces of the same thickness: waste and offcuts first."""
    same = [
        lying
        for name, lying in bench.items()
        if abs(lying.thickness - work.thickness) <= SAME and name != lying.sheet  # whole sheets stay put
    ]
    yield from (lying for lying in same if not contents.parts.get(lying.piece.name))
    yield from (lying for lying in same if contents.parts.get(lying.piece.name))
