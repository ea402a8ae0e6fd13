"""The bench at one step: every piece of the sheet as it lies, the guide or the fence, the cut, and what falls.

Seen from above as the maker sees it (`core.steps.lying`); with the show face down that is from the back.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Final

import msgspec

from core.drawing.guides import (
    KEPT,
    NEAR,
    beside,
    beside_work,
    cut_line,
    far_edge,
    guide_box,
    guide_items,
    packer_boxes,
    room_beside,
)
from core.drawing.measure import clean
from core.drawing.model import Area, Box, Drawing, Item, Layer, Line, Point, Text
from core.drawing.panels import NO_SIZE, rectangle
from core.drawing.seen import ASIDE, broken, gap_of, is_box, line_in, outer, picture_box, seen_of, sides, under_guide
from core.drawing.settings import setting_items
from core.drawing.shortened import shortened
from core.drawing.stepnotes import datum_items, note_items
from core.language import tr
from core.plan.model import Plan, Side
from core.sawing.piece import Piece
from core.steps.bench import Lying
from core.steps.contents import ONE, Contents, piece_words
from core.steps.lying import Bench, day_of
from core.steps.section import SIGN

ENOUGH: Final = 0.05  # of the picture: so much of a piece beside the guide is room for its name
NAMED: Final = 0.68  # along what a crosscut keeps, from where it is measured: where its name stands
BESIDE: Final = 0.56  # along what a rip keeps: where its name stands, the number being at the left
TAPE: Final = 25.0  # mm: width of common tape


class Laid(msgspec.Struct, frozen=True, gc=False):
    """One piece as drawn: its box on the drawing, that of the face below, and how far it was moved aside. [mm]"""

    piece: Piece
    layer: Layer
    box: Box
    below: Box
    words: str
    aside: tuple[float, float] = (0.0, 0.0)
    outline: tuple[Point, ...] = ()  # broken where it goes on outside the picture; () is the box itself


def draw_step(plan: Plan, number: int, *, close: bool = False) -> Drawing:
    """The bench at a step, numbered from 1. Raises KeyError where there is no such step.

    close: never the whole sheet round the work, for small pictures.
    """
    bench = bench_at(plan, number, close=close)
    laid = lay_out(plan, number, close=close)
    box = picture_box(bench)
    gap = gap_of(bench, box)
    items: list[Item] = [Area(one.layer, one.outline or rectangle(one.box), one.piece.name) for one in laid]
    items += _hidden_edges(laid)
    items += _tape(bench, box)
    items += setting_items(plan, bench, box, gap)  # its words come before all others
    for item in guide_items(bench, day_of(plan).contents, box):
        items.append(line_in(item, box) if close and isinstance(item, Line) else item)
    covered = (*(one.box for one in laid if one.layer == "kept"), *packer_boxes(bench))
    hidden = (under_guide(one, bench, box) for one in covered)
    items += [line for line in hidden if line is not None]
    datums = list(datum_items(bench, ((one.piece, one.box, one.aside) for one in laid), box))
    told = [item for item in datums if isinstance(item, Text) and not item.tidy]  # what the number runs from
    items += [*told, *_names(laid, bench, box), *(item for item in datums if item not in told)]
    items += note_items(bench, box)
    drawing = Drawing(f"step {number}", tr("Step {number}", number=number), box, tuple(items))
    return drawing if gap is None else shortened(drawing, gap)


def bench_at(plan: Plan, number: int, *, close: bool = False) -> Bench:
    """The wood at a step, looked at from near or not. Raises KeyError where there is no such step."""
    benches = day_of(plan).benches
    if not 1 <= number <= len(benches):
        raise KeyError(f"no step {number}, there are {len(benches)}")
    return _near(benches[number - 1]) if close else benches[number - 1]


@lru_cache(maxsize=KEPT)
def _near(bench: Bench) -> Bench:
    return msgspec.structs.replace(bench, close=True)


def lay_out(plan: Plan, number: int, *, close: bool = False) -> tuple[Laid, ...]:
    """The pieces in the order they are drawn: put by first, the one just cut last."""
    bench, contents = bench_at(plan, number, close=close), day_of(plan).contents
    made = {piece.name for piece in bench.made}
    box, room = picture_box(bench), room_beside(bench)
    aside = ASIDE * max(sides(box))
    others = bench.others
    if close:  # what was put by lies elsewhere: a small picture has only what the guide has to lie on beside the work
        beside_it = "beside" in bench.step.support
        others = tuple(one for one in others if beside_it and _is_useful(contents, one.piece))
    near = (one.piece for one in others if one.sheet == bench.step.sheet and _is_near(bench, one, box, room))
    by = sorted((piece for piece in near if piece.name not in made), key=_has_no_face, reverse=True)
    far = bench.turn.along(bench.axis, far_edge(bench))
    lying = (_away(_put_by(bench, contents, piece), bench, room, far) for piece in by)
    seen = (_cut_off(one, box) for one in lying if _overlaps(one.box, box))
    fresh = _just_made(bench, contents, aside)
    if not close:
        return (*seen, *fresh)
    return (*seen, *(_cut_off(one, box) for one in fresh if _overlaps(one.box, box)))


def _is_near(bench: Bench, one: Lying, box: Box, room: float) -> bool:
    """Can anything of a piece be seen in the picture, before it is moved or after? Quick, and never a wrong no."""
    x0, y0, x1, y1 = bench.turn.box(one.show)  # its other face reaches no further than two thicknesses, moved or not
    slack = room + 2.0 * one.thickness
    return x0 - slack < box[2] and box[0] < x1 + slack and y0 - slack < box[3] and box[1] < y1 + slack


def _away(one: Laid, bench: Bench, room: float, far: float) -> Laid:
    """A piece beyond what is sawn, on the guide's side, moved back to give room. far: the guide's edge, as seen."""
    index = 0 if bench.axis == "x" else 1
    way = SIGN[bench.turn.side(bench.axis, bench.step.guide)]
    beyond = one.box[index + 2] <= far + NEAR if way < 0.0 else one.box[index] >= far - NEAR
    if not room or not beyond:
        return one
    move = (way * room, 0.0) if bench.axis == "x" else (0.0, way * room)
    return msgspec.structs.replace(one, box=_moved(one.box, move), below=_moved(one.below, move), aside=move)


def _overlaps(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _cut_off(one: Laid, shown: Box) -> Laid:
    """What is seen of a piece in a picture that does not show the whole sheet."""
    outline = broken(one.box, shown) if one.layer in ("kept", "work") else ()
    return msgspec.structs.replace(one, box=seen_of(one.box, shown), below=seen_of(one.below, shown), outline=outline)


def _has_no_face(piece: Piece) -> bool:
    """Is it a triangle, with no show face?"""
    return not is_box(piece.show_box())


def _faces(bench: Bench, piece: Piece) -> tuple[Box, Box]:
    """The face that is up and the one below; of a triangle twice the one it has."""
    up, below = piece.show_box(), piece.inside_box()
    if bench.step.face == "down":
        up, below = below, up
    if not is_box(up):
        up = below
    if not is_box(below):
        below = up
    return bench.turn.box(up), bench.turn.box(below)


def _is_useful(contents: Contents, piece: Piece) -> bool:
    return bool(contents.parts.get(piece.name)) or piece.name in contents.offcuts


def _put_by(bench: Bench, contents: Contents, piece: Piece) -> Laid:
    useful = _is_useful(contents, piece)
    layer: Layer = "bench" if useful else "waste" if _has_no_face(piece) else "fallen"
    return Laid(piece, layer, *_faces(bench, piece), piece_words(contents, piece.name) if useful else "waste")


def _just_made(bench: Bench, contents: Contents, aside: float) -> Iterator[Laid]:
    """What the pass made: kept, to be sawn on, or falling aside."""
    step, turn = bench.step, bench.turn
    falls = {fall.piece: fall for fall in step.falls}
    made = []
    for pair in bench.work.made:
        for side, piece in zip(("low", "high"), pair, strict=True):
            if piece is None:
                continue
            fall = falls.get(piece.name)
            up, below = _faces(bench, piece)
            words = piece_words(contents, piece.name)
            if piece.name in contents.offcuts:  # its name is to be written on it
                words = f"{words} {clean(piece.name)}"
            move = (0.0, 0.0)
            layer: Layer = "kept" if side == step.keep else "work"
            measured = step.set_by.side == side and step.set_by.device == "mark"  # its number runs from there
            if fall is not None and fall.lies == "off" and not (measured and step.set_by.back is None):
                away: Side = "low" if side == "low" else "high"
                under = _under(bench, piece, away) if fall.kind == "triangle" else 0.0
                way = (aside + under) * SIGN[turn.side(bench.axis, away)]
                move = (way, 0.0) if bench.axis == "x" else (0.0, way)
            if fall is not None and fall.kind in ("triangle", "waste"):
                layer, words = "fallen", tr("{words} falls", words=fall.words)
            made.append(Laid(piece, layer, _moved(up, move), _moved(below, move), words, move))
    yield from sorted(made, key=lambda one: one.layer != "fallen")


def _under(bench: Bench, piece: Piece, side: Side) -> float:
    """How far a piece on a side of the cut reaches under what is on the other. [mm]"""
    index = 0 if bench.axis == "x" else 1
    box, at = outer(piece), bench.step.at
    return max(0.0, at - box[index] if side == "high" else box[index + 2] - at)


def _moved(box: Box, move: tuple[float, float]) -> Box:
    return (box[0] + move[0], box[1] + move[1], box[2] + move[0], box[3] + move[1])


def _hidden_edges(laid: tuple[Laid, ...]) -> Iterator[Line]:
    """The edges of the face that is below, where the two differ, on what is not put by."""
    for one in laid:
        if one.layer in ("kept", "work"):
            x0, y0, x1, y1 = one.below
            for at, (up, below) in enumerate(zip(one.box, one.below, strict=True)):
                if abs(up - below) > NO_SIZE:
                    ends = ((below, y0), (below, y1)) if at in (0, 2) else ((x0, below), (x1, below))
                    yield Line("heel", ends, one.piece.name)


def _tape(bench: Bench, shown: Box) -> Iterator[Item]:
    """Tape along the line, on the side whose show face chips."""
    step = bench.step
    if step.chips is None:
        return
    start = step.at
    end = start + SIGN[step.chips] * TAPE
    for piece in bench.work.before:
        x0, y0, x1, y1 = piece.show_box()
        box = (
            (min(start, end), y0, max(start, end), y1)
            if bench.axis == "x"
            else (x0, min(start, end), x1, max(start, end))
        )
        yield Area("tape", rectangle(seen_of(bench.turn.box(box), shown)))


def _names(laid: tuple[Laid, ...], bench: Bench, box: Box) -> Iterator[Text]:
    """What each piece is, the one just cut first, beside the guide where there is room."""
    guide, least = guide_box(bench), ENOUGH * max(sides(box))
    packer = beside_work(bench)
    fallen = [one.box for one in laid if one.layer == "fallen"]
    for one in reversed(laid):
        if packer is not None and one.piece.name == packer.name:
            continue  # named as what it is now
        put_by = one.layer == "bench"
        layer: Layer = "waste" if one.layer == "fallen" else one.layer
        x0, y0, x1, y1 = room = beside(one.box, guide, least)
        if put_by and ((room == one.box and _overlaps(room, guide)) or any(_overlaps(room, box) for box in fallen)):
            continue  # all of it lies under the guide, or something fell on it
        share = 0.5
        if bench.close and layer == "kept":  # clear of the number
            share = BESIDE
            if bench.axis == "x":
                share = NAMED if bench.turn.side("x", bench.step.keep) == "low" else 1.0 - NAMED
        yield Text(
            layer,
            (x0 + share * (x1 - x0), (y0 + y1) / 2.0),
            one.words.removesuffix(ONE),
            9.0 if put_by or layer == "waste" else 11.0,
            "middle",
            room=room,
            about=one.piece.name,
            short=_short(one),
            clear=bench.close or layer in ("waste", "kept"),
            slide=1.0,
            tidy=put_by,
        )


def _short(one: Laid) -> str:
    """What a piece is called where there is no room for more."""
    if one.words.startswith(tr("stock for ")):
        return tr("stock")
    return tr("offcut") if one.words.startswith(tr("offcut")) else ""


def draw_where(plan: Plan, number: int) -> Drawing | None:
    """The whole sheet, small, with the work in it; None where the step's own drawing shows the whole sheet."""
    bench = bench_at(plan, number)
    sheet = (0.0, 0.0, bench.turn.length, bench.turn.width)
    if max(sides(picture_box(bench))) >= max(sides(sheet)):
        return None
    items: list[Item] = [Area("bench", rectangle(sheet))]
    items += [Area("work", rectangle(bench.turn.box(outer(piece))), piece.name) for piece in bench.work.before]
    items.append(Line("now", cut_line(bench)))
    return Drawing(f"where {number}", tr("Where step {number} is", number=number), sheet, tuple(items))
