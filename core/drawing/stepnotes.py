"""What is written round the bench at a step: which face is up, where near is, the grain, the trued edge and end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from core.drawing.guides import guide_box, within
from core.drawing.measure import text_width
from core.drawing.model import Box, Item, Layer, Line, Point, Sign, Text
from core.drawing.panels import NO_SIZE
from core.language import tr
from core.sawing.piece import Axis, Piece
from core.steps.bench import TRIM
from core.steps.lying import Bench

NOTE_GAP: Final = 10.0  # from the drawing to the row of notes over it [points]
SLENDER: Final = 0.8  # of its height: a narrower picture has its notes in two rows
SLENDER_CLOSE: Final = 2.7  # the same of a small picture
TALL: Final = 1.6  # times its height: a small picture no wider stands in a narrow room
ROW: Final = 14.0  # points
ARROW: Final = 46.0  # points
BESIDE: Final = 6.0  # from the word to the arrow [points]
ON: Final = 1.0e-3  # mm: an edge this near to the trued one is on it
NAME: Final = 0.58  # along the trued edge: where its name stands, clear of numbers and notes
OFF: Final = 8.0  # from the trued edge to the middle of its name [points]
ROOM: Final = 70.0  # mm: a shorter stretch of it has no name

DATUMS: Final = ("datum edge", "datum end")

Seen = tuple[Piece, Box, Point]  # a piece, its box on the drawing, how far it was moved aside
Ends = tuple[Point, Point]


def datum_items(bench: Bench, seen: Iterable[Seen], picture: Box) -> Iterator[Item]:
    """The trued edge and end, on the pieces that have them, as far as they are seen; each named once."""
    longest: dict[Axis, Ends] = {}
    for piece, box, aside in seen:
        show = piece.show_box()
        if show[2] - show[0] <= NO_SIZE or show[3] - show[1] <= NO_SIZE:
            continue
        for axis, (side, place) in bench.datums:
            if abs(show[(0 if axis == "x" else 1) + (0 if side == "low" else 2)] - place) > ON:
                continue
            ends = _seen_line(axis, bench.turn.along(axis, place) + aside[0 if axis == "x" else 1], box)
            if ends is not None:
                yield Line("datum", ends, piece.name)
                longest[axis] = max(longest.get(axis, ends), ends, key=_long)
    for axis, ends in longest.items():
        if _long(ends) >= ROOM:
            yield _named(bench, axis, ends, picture)


def _seen_line(axis: Axis, at: float, box: Box) -> Ends | None:
    """A line across a box, None where it lies outside."""
    x0, y0, x1, y1 = box
    first, last = (x0, x1) if axis == "x" else (y0, y1)
    if not first - NO_SIZE <= at <= last + NO_SIZE:
        return None
    return ((at, y0), (at, y1)) if axis == "x" else ((x0, at), (x1, at))


def _long(ends: Ends) -> float:
    (x0, y0), (x1, y1) = ends
    return abs(x1 - x0) + abs(y1 - y0)


def _named(bench: Bench, axis: Axis, ends: Ends, box: Box) -> Text:
    """Beside the line: outside the wood, or inside where the fence or the guide lies outside or the waste falls."""
    side = next(datum[0] for one, datum in bench.datums if one == axis)
    out = 1.0 if bench.turn.side(axis, side) == "high" else -1.0
    (x0, y0), (x1, y1) = ends
    at = (x0 + NAME * (x1 - x0), y0 + NAME * (y1 - y0))
    index = int(axis == "y")
    reach = guide_box(bench)[index + 2] if out > 0.0 else guide_box(bench)[index]
    taken = bench.step.about == TRIM or (reach - at[index]) * out > NO_SIZE
    way = -out if bench.close or (bench.axis == axis and taken) else out
    shift, angle, words = (
        ((0.0, OFF * way), 0.0, tr("trued edge")) if axis == "y" else ((OFF * way, 0.0), 90.0, tr("trued end"))
    )
    layer: Layer = "note" if way == out else "datum"  # on the paper, or on the wood
    mine = bench.step.kind == ("rip" if axis == "y" else "crosscut") and bench.step.set_by.means in DATUMS
    told = mine or bench.step.about == TRIM
    room = box if bench.close else None  # in a small picture it gives way to numbers and names
    return Text(
        layer, at, words, 9.0, "middle", angle=angle, shift=shift, clear=way != out, room=room, slide=0.5, tidy=not told
    )


def note_items(bench: Bench, box: Box) -> Iterator[Item]:
    """Which face is up, and which way the grain runs, over the picture and over a guide rail that reaches out of it."""
    top = box[3]
    if bench.is_guided and bench.axis == "x":
        top = max(top, within(guide_box(bench), box, close=bench.close)[3])
    down = bench.step.face == "down"
    words = tr("show face down, seen from the back") if down else tr("show face up")
    if bench.is_guided and bench.step.kind == "rip":
        above = bench.turn.side("y", bench.step.datum) == "high"
        words += tr("; near side {above}", above=tr("at the top") if above else tr("at the bottom"))
    elif not bench.is_guided:
        words += tr("; fed {rest}", rest=tr("to the right") if bench.step.kind == "rip" else tr("upwards"))
    if bench.close and not down:  # which face is up stands beside a small picture
        words = words.partition("; ")[2]
    layer: Layer = "trouble" if down else "note"
    shape = (box[2] - box[0]) / (box[3] - box[1])
    middle = (box[0] + box[2]) / 2.0
    if bench.close and TALL < shape < SLENDER_CLOSE and not down:  # in one row, over the middle of the picture
        if words:
            yield Text(layer, (middle, top), words, 9.0, "right", shift=(-ARROW / 4.0, NOTE_GAP))
        half = (text_width(tr("grain"), 9.0) + BESIDE + ARROW) / 2.0
        yield from _grain((middle, top), 2.0 * half + ARROW / 4.0 if words else half)
        return
    if words:
        yield Text(
            layer,
            (box[0], top),
            words,
            9.0,
            shift=(0.0, NOTE_GAP + (ROW if shape < (SLENDER_CLOSE if bench.close else SLENDER) else 0.0)),
        )
    yield from _grain((box[2], top), 0.0)


def _grain(at: Point, right: float) -> Iterator[Item]:
    """The grain's arrow with its name; right: of a place its tip stands so many points."""
    tip = (right, NOTE_GAP)
    barbs = ((right - 7.0, NOTE_GAP - 3.5), tip, (right - 7.0, NOTE_GAP + 3.5))
    yield Sign("grain", at, (((right - ARROW, NOTE_GAP), tip), barbs))
    yield Text("grain", at, tr("grain"), 9.0, "right", shift=(right - ARROW - BESIDE, NOTE_GAP))
