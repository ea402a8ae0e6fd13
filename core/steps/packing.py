"""Packing out a guide rail that is wider than what lies under it, with wood of the same thickness."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.document.model import Saw
from core.language import tr
from core.plan.model import Side
from core.sawing.piece import Axis, Piece
from core.sawing.support import SAME, carries
from core.steps.bench import Lying, Pass
from core.steps.contents import ONE, Contents, listed, piece_words, the
from core.steps.edges import outermost, place_on
from core.steps.model import Packer
from core.steps.section import SIGN, Section

BESIDE: Final = 12.0  # mm: pieces of a sheet no further apart than this were neighbours


def packer(
    work: Pass,
    cut: Section,
    bench: dict[str, Lying],
    lack: float,
    length: float,
    contents: Contents,
    last: Packer | None = None,
) -> Packer | None:
    """What carries the guide beside the piece: its neighbour on the sheet, else any piece, else one for each end.

    Strips and sticks lie loose, one after the other under the guide: there what packed out the last cut stays.
    lack: width that is missing under the guide; length: of the cut [mm]; last: packer of the step before.
    """
    if lack <= 0:
        return None
    if contents.panels.isdisjoint(contents.parts.get(work.cuts[0].piece, ())):
        kept = () if last is None or not _serves(last, work, bench, lack, length) else last.pieces
        pieces = kept or _found(work, bench, contents, lack, length)
        return _laid(contents, pieces, lack, length) if pieces else None
    beside = _neighbour(work, cut, bench, lack, length)
    if beside is not None:
        toes = _is_toe(work.before[0], work.axis, cut.guide) and _is_toe(beside, work.axis, _facing(cut.guide))
        if toes or not _is_done(contents, beside.name):
            how = tr("pushed up toe to toe") if toes else tr("pushed up against it")
            words = f"{the(piece_words(contents, beside.name).removesuffix(ONE))} {how}"
            return Packer(lack, length, (beside.name,), words, toes)
    pieces = _found(work, bench, contents, lack, length)
    return _laid(contents, pieces, lack, length) if pieces else None


def _serves(last: Packer, work: Pass, bench: dict[str, Lying], lack: float, length: float) -> bool:
    """Does what packed out the last cut carry the guide at this one too, where it lies?"""
    lying = [bench[name] for name in last.pieces if name in bench]
    if last.instead or last.toe_to_toe:
        return False  # it may be a finished panel, and rougher wood may have come free
    if len(lying) < len(last.pieces) or any(abs(one.thickness - work.thickness) > SAME for one in lying):
        return False
    hows = [carries(*one.sides, lack, length) for one in lying]
    return hows == ["all"] if len(hows) == 1 else all(hows)


def _found(work: Pass, bench: dict[str, Lying], contents: Contents, lack: float, length: float) -> tuple[str, ...]:
    """One piece that carries the guide all along, or two for its ends, of the least good wood that does; none: ()."""
    ends = list[str]()
    for some in _likely(work, bench, contents):
        for lying in some:  # most often one of the first does
            how = carries(*lying.sides, lack, length)
            if how == "all":
                return (lying.piece.name,)
            if how:
                ends.append(lying.piece.name)
        if len(ends) >= 2:
            return tuple(ends[:2])
    return ()


def _laid(contents: Contents, pieces: tuple[str, ...], lack: float, length: float) -> Packer:
    """Pieces as packers: clamps mark a finished panel, so that scrap is asked for in its stead."""
    rough = [_called(contents, name) for name in pieces if not _is_done(contents, name)]
    done = [_called(contents, name) for name in pieces if _is_done(contents, name)]
    if len(pieces) == 1:
        words = tr("{rough} beside it", rough=rough[0] if rough else tr("scrap as thick"))
    elif len(rough) == 1:
        words = tr("{rough} at one end and scrap as thick at the other", rough=rough[0])
    else:
        words = tr("{it}, one at each end", it=tr(" and ").join(rough) or tr("scraps as thick"))
    return Packer(lack, length, pieces, words, False, listed(done) if done else "")


def _is_done(contents: Contents, name: str) -> bool:
    """Is it a panel that is sawn no more, or strips of them?"""
    return name not in contents.sawn and not contents.panels.isdisjoint(contents.parts.get(name, ()))


def _called(contents: Contents, name: str) -> str:
    """What a packer is called; what has no name but the plan's is told with it."""
    words = piece_words(contents, name)
    return the(words.removesuffix(ONE)) if contents.parts.get(name) else f"{words} {name}"


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


def _likely(work: Pass, bench: dict[str, Lying], contents: Contents) -> Iterator[Iterator[Lying]]:
    """Pieces of the same thickness: waste and offcuts first, then what is sawn on, finished panels last of all."""
    for grade in range(3):
        yield _graded(work, bench, contents, grade)


def _graded(work: Pass, bench: dict[str, Lying], contents: Contents, grade: int) -> Iterator[Lying]:
    for name, lying in bench.items():
        if abs(lying.thickness - work.thickness) > SAME or name == lying.sheet:  # whole sheets stay put
            continue
        if _grade(contents, lying.piece.name) == grade:
            yield lying


def _grade(contents: Contents, name: str) -> int:
    return 0 if not contents.parts.get(name) else 2 if _is_done(contents, name) else 1
