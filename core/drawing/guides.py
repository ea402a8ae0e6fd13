"""What guides the saw at a step, seen from above: guide rail and packer, or fence, or the sled's stop."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Final

from core.drawing.model import Area, Box, Item, Line, Text
from core.drawing.panels import NO_SIZE, rectangle
from core.language import tr
from core.plan.model import Side
from core.sawing.piece import Axis, Piece
from core.steps.contents import ONE, Contents, piece_words
from core.steps.lying import Bench
from core.steps.section import SIGN

FENCE: Final = 45.0  # mm: how thick a fence is drawn
STOP: Final = (55.0, 70.0)  # mm: a stop on the sled, along the piece and across the fence
OVER: Final = 0.06  # of the picture: how far a guide is drawn past its edges
PACKED_END: Final = 330.0  # mm: how much of a packer is drawn that carries one end of a guide
STICK_ASIDE: Final = 0.33  # of a box's length: where its name stands clear of the gauge stick's number
KEPT: Final = 16  # benches: a drawing asks for the same of one bench many times
NEAR: Final = 12.0  # mm: pieces no further apart than this were neighbours on the sheet


def guide_items(bench: Bench, contents: Contents, box: Box) -> Iterator[Item]:
    """Packer, guide and cut line, in the order they lie."""
    yield from _packer(bench, contents, box)
    if bench.is_guided:
        area = guide_box(bench)
        shown = within(area, box, close=bench.close)
        yield Area("guide", rectangle(shown))
        packed = bench.step.packer is not None and not _is_seen(bench, box)
        yield _name(bench, shown, tr("guide on packer") if packed else "guide")
    elif bench.step.set_by.device == "fence":
        shown = within(guide_box(bench), box, close=bench.close)
        yield Area("guide", rectangle(shown))
        yield _name(bench, shown, "fence")
    elif not bench.step.set_by.on_line:
        yield Area("guide", rectangle(guide_box(bench)))
        _, y0, x1, _ = guide_box(bench)
        yield Text("guide", (x1, y0), "stop", 9.0, "right", valign="top", shift=(-2.0, -3.0), clear=True)
    yield Line("now", cut_line(bench))


@lru_cache(maxsize=KEPT)
def guide_box(bench: Bench) -> Box:
    """Where the guide rail lies, or the fence or the stop stands, as seen. [mm]

    A guide rail is as wide and as long as the saw's; of a fence only its length is known.
    """
    step, axis, side = bench.step, bench.axis, bench.step.guide
    first, last = travel(bench)
    if bench.is_guided:
        edge = step.at + SIGN[side] * (step.set_by.edge or 0.0)
        wide, long = bench.guide_width, bench.guide_length
    elif step.set_by.device == "fence":
        edge, wide, long = far_edge(bench), FENCE, bench.guide_length
    else:
        edge, wide, long = far_edge(bench), STOP[0], min(STOP[1], last - first)
        first, last = (last - long, last) if bench.turn.y else (first, first + long)  # on the sled's fence, seen below
    middle = (first + last) / 2.0
    out = edge + SIGN[side] * wide
    low, high = min(edge, out), max(edge, out)
    ends = (middle - long / 2.0, middle + long / 2.0)
    return bench.turn.box((low, ends[0], high, ends[1]) if axis == "x" else (ends[0], low, ends[1], high))


def room_beside(bench: Bench) -> float:
    """How far back the pieces lie that were beyond the work: room for a fence, a stop, or a packer from elsewhere.

    0 where a guide rail lies on them, or they are the packer. [mm]
    """
    if not bench.is_guided:
        return 1.35 * (FENCE if bench.step.set_by.device == "fence" else STOP[0])
    packer = bench.step.packer
    return 0.0 if packer is None or beside_work(bench) is not None else 1.08 * packer.width


def beside_work(bench: Bench) -> Piece | None:
    """The packer that was the work's neighbour on the sheet, and is only pushed up; None for any other."""
    packer, side = bench.step.packer, bench.step.guide
    if packer is None or len(packer.pieces) != 1 or packer.instead:
        return None
    found = next(one for one in bench.others if one.piece.name == packer.pieces[0])
    low, high = _span(found.piece, bench.axis)
    gap = far_edge(bench) - high if side == "low" else low - far_edge(bench)
    if packer.toe_to_toe or (found.sheet == bench.step.sheet and -NEAR <= gap <= NEAR):
        return found.piece
    return None


def cut_line(bench: Bench) -> tuple[tuple[float, float], tuple[float, float]]:
    """The cut on the show face, through all pieces of the pass, as seen."""
    first, last = travel(bench)
    at = bench.step.at
    ends = ((at, first), (at, last)) if bench.axis == "x" else ((first, at), (last, at))
    return (bench.turn.place(*ends[0]), bench.turn.place(*ends[1]))


@lru_cache(maxsize=KEPT)
def travel(bench: Bench) -> tuple[float, float]:
    """From where to where the blade goes, along the cut, on the sheet. [mm]"""
    along: Axis = "y" if bench.axis == "x" else "x"
    spans = [_span(piece, along) for piece in bench.work.before]
    return min(low for low, _ in spans), max(high for _, high in spans)


@lru_cache(maxsize=KEPT)
def far_edge(bench: Bench) -> float:
    """The edge against the fence or the stop: the furthest the wood reaches on the guide's side. [mm]"""
    spans = [_span(piece, bench.axis) for piece in bench.work.before]
    return min(low for low, _ in spans) if bench.step.guide == "low" else max(high for _, high in spans)


def _span(piece: Piece, axis: Axis) -> tuple[float, float]:
    """What a piece takes along an axis, on either face."""
    low = min(min(max(line[face] for line in piece.low(axis)) for face in (0, 1)), 1e9)
    high = max(min(line[face] for line in piece.high(axis)) for face in (0, 1))
    return low, high


def _packer(bench: Bench, contents: Contents, picture: Box) -> Iterator[Item]:
    """The wood that carries the guide: its neighbour where that serves, pushed up; else a piece laid beside it."""
    packer = bench.step.packer
    if packer is None:
        return
    for whole in packer_boxes(bench):
        box = within(whole, picture, close=True) if bench.close else whole
        yield Area("packer", rectangle(box))
        if not _is_seen(bench, picture):
            continue
        room = beside(box, guide_box(bench), 0.0)
        neighbour = beside_work(bench)
        words = (
            tr("packer: {piece_words}", piece_words=piece_words(contents, neighbour.name))
            if neighbour is not None
            else tr("packer")
        )
        name, short = words.removesuffix(ONE), tr("packer")
        yield Text(
            "packer", _beside_stick(bench, room), name, 9.0, "middle", room=room, short=short, clear=True, slide=1.0
        )


def _is_seen(bench: Bench, picture: Box) -> bool:
    """Does more of the packers reach out from under the guide than a sliver?"""
    guide = guide_box(bench)
    boxes = [within(box, picture, close=True) if bench.close else box for box in packer_boxes(bench)]
    return len(boxes) > 1 or any(
        box[0] < guide[0] - NEAR or box[1] < guide[1] - NEAR or box[2] > guide[2] + NEAR or box[3] > guide[3] + NEAR
        for box in boxes
    )


def packer_boxes(bench: Bench) -> tuple[Box, ...]:
    """Where the packers lie, as seen: pushed up against the wood, at least as wide as is wanting. [mm]"""
    packer, side = bench.step.packer, bench.step.guide
    if packer is None:
        return ()
    first, last = travel(bench)
    edge, wide = far_edge(bench), packer.width
    spans = [(first, last)]
    neighbour = beside_work(bench)
    if neighbour is not None:
        low, high = _span(neighbour, bench.axis)
        wide = high - low
    elif len(packer.pieces) > 1:
        short = min(PACKED_END, (last - first) / 3.0)
        spans = [(first, first + short), (last - short, last)]
    out = edge + SIGN[side] * wide
    low, high = min(edge, out), max(edge, out)
    return tuple(bench.turn.box((low, a, high, b) if bench.axis == "x" else (a, low, b, high)) for a, b in spans)


def beside(box: Box, guide: Box, least: float) -> Box:
    """The largest part of a box beside the guide; all of it where none is wider and higher than `least`. [mm]"""
    x0, y0, x1, y1 = box
    a0, b0, a1, b1 = guide
    if a0 >= x1 or a1 <= x0 or b0 >= y1 or b1 <= y0:
        return box
    parts = ((x0, y0, a0, y1), (a1, y0, x1, y1), (x0, y0, x1, b0), (x0, b1, x1, y1))
    best = max(parts, key=lambda part: max(0.0, part[2] - part[0]) * max(0.0, part[3] - part[1]))
    return best if min(best[2] - best[0], best[3] - best[1]) > least else box


def within(area: Box, box: Box, *, close: bool = False) -> Box:
    """An area cut off a little outside the picture; at its edge where that is looked at from near."""
    pad = 0.0 if close else OVER * max(box[2] - box[0], box[3] - box[1])
    x0, y0 = max(area[0], box[0] - pad), max(area[1], box[1] - pad)
    x1, y1 = min(area[2], box[2] + pad), min(area[3], box[3] + pad)
    return (x0, y0, max(x1, x0 + NO_SIZE), max(y1, y0 + NO_SIZE))


def _name(bench: Bench, area: Box, words: str) -> Text:
    """The guide's name near its end, out of the way of the names of pieces."""
    x0, y0, x1, y1 = area
    if bench.axis == "y":
        packer = bench.step.packer
        share = 0.5 if packer is not None and len(packer.pieces) > 1 else 0.06  # between packers at its ends
        return Text(
            "guide", (x0 + share * (x1 - x0), (y0 + y1) / 2.0), words, 9.0, "left", room=area, clear=True, slide=1.0
        )
    at = ((x0 + x1) / 2.0, y0 + 0.12 * (y1 - y0))
    return Text("guide", at, words, 9.0, "middle", room=area, clear=True, slide=0.5)


def _beside_stick(bench: Bench, box: Box) -> tuple[float, float]:
    """Where a name stands in a box: its middle, or to the left of a gauge stick that is drawn across it."""
    share = STICK_ASIDE if bench.axis == "y" and bench.step.set_by.stick is not None else 0.5
    return (box[0] + share * (box[2] - box[0]), (box[1] + box[3]) / 2.0)


def lies_on(bench: Bench, box: Box) -> Side | None:
    """On which side of the cut a box as seen lies wholly, of the sheet's own sides; None where on both."""
    a, b = bench.turn.place(box[0], box[1]), bench.turn.place(box[2], box[3])
    index = 0 if bench.axis == "x" else 1
    low, high = min(a[index], b[index]), max(a[index], b[index])
    at = bench.step.at
    return "low" if high <= at + NO_SIZE else "high" if low >= at - NO_SIZE else None
