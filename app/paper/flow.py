"""Blocks of a leaf set in type: pieces that are never cut apart, each with its height, to be stacked in columns."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

import msgspec

from app.paper.canvas import BODY, HAIRLINE, LARGER, PIXELS, Canvas, wrapped
from app.paper.listing import PAD, TICK, Lettering, Row, column_widths, has_room, row_lines
from core.drawing.fit import View
from core.drawing.flatten import Outline
from core.drawing.measure import shorten
from core.drawing.model import Box
from core.drawing.tables import Column
from core.language import tr
from core.leaves.model import Block, Notice, Picture, Rows, Words

INDENT: Final = 12.0  # of a sentence with a box to tick
FRAME: Final = 8.0  # from a notice's box to its words
TOGETHER: Final = 10  # rows: a table no longer stands on one page
ROUNDS: Final = 6
LEAST: Final = (
    0.75  # of the scale that fills the width: no smaller, for the sake of height, are drawings of much length
)
LONG: Final = 4.0  # times its height: so long is a drawing of much length
SAFE: Final = 0.998  # of a scale found in rounds
CLOSE: Final = 1e-4  # of a scale: what a round no longer need find out
TRUE: Final = PIXELS * 72.0 / 25.4  # device pixels in a mm

Draw = Callable[[Canvas, float, float], None]  # canvas, left, top


class Setting(Lettering, frozen=True):
    """How close a leaf is set. [points]"""

    line: float = 13.0  # from one line of a sentence to the next
    space: float = 3.0  # over a sentence
    gap: float = 9.0  # over a block
    share: float = 1.0  # of the height that pictures may have


PLAIN: Final = Setting()
# A closer one is taken where it saves a page. The smallest letters stay over 9 points.
CLOSER: Final = (
    Setting(body=10.2, leading=11.9, row=3.6, line=12.3, space=2.2, gap=7.5),
    *(
        Setting(body=9.8, small=9.3, leading=11.3, row=3.0, line=11.6, space=1.6, gap=6.0, share=share)
        for share in (1.0, 0.95, 0.9, 0.85, 0.8, 0.75)
    ),
)
# A larger one is taken where it costs no page: what hangs on a wall is read from further off. The largest first.
LARGER_ONES: Final = (
    Setting(body=17.0, small=13.0, leading=20.0, row=8.5, line=21.5, space=6.5, gap=15.0),
    Setting(body=15.0, small=12.0, leading=17.8, row=7.5, line=19.0, space=5.8, gap=13.5),
    Setting(body=13.5, small=11.0, leading=16.0, row=6.5, line=17.0, space=5.0, gap=12.0),
    Setting(body=12.5, small=10.5, leading=14.9, row=5.8, line=15.6, space=4.2, gap=11.0),
    Setting(body=11.5, small=10.0, leading=13.7, row=5.0, line=14.3, space=3.6, gap=10.0),
)
UNDER_LINE: Final = 2.5  # from a sentence's line to the end of its room
BIG: Final = 15.0  # points: numbers of a table that is read at arm's length
ENOUGH: Final = 3  # rows: so many at least of a table go on to the next page


class Piece(msgspec.Struct, frozen=True):
    """Something that stands on one page. height: of all of it; held: keep what follows on the same page; heading: set
    anew at the top of a page where its block goes on."""

    height: float
    draw: Draw
    held: bool = False
    heading: tuple[Piece, ...] = ()
    first: bool = False  # of its block: at the top of a column the gap over it falls away
    tight: bool = False  # words are broken in it
    scale: float | None = None  # of a drawing: how many times smaller than true


def pieces_of(block: Block, width: float, height: float, how: Setting = PLAIN) -> list[Piece]:
    """A block's pieces from the top down. width: of its column; height: of the page's room. [points]"""
    if isinstance(block, Words):
        return list(_words(block, width, how))
    if isinstance(block, Notice):
        return [_notice(block, width, how)]
    if isinstance(block, Rows):
        return list(_rows(block, width, how))
    assert isinstance(block, Picture)
    return [_picture(block, width, height, how)]


def _words(block: Words, width: float, how: Setting) -> Iterator[Piece]:
    heading = _line(block.heading, width, how)
    if block.heading:
        yield heading
    indent = INDENT if block.tick else 0.0
    for number, sentence in enumerate(block.lines):
        lines = wrapped(sentence, how.body, width - indent)
        yield Piece(
            how.space + how.line * len(lines),
            _sentence(tuple(lines), indent, block.tick, how),
            first=number == 0 and not block.heading,
        )


def _line(words: str, width: float, how: Setting) -> Piece:
    text = shorten(words, how.body, width, strong=True)

    def draw(canvas: Canvas, x: float, y: float) -> None:
        canvas.text(x, y + how.gap + how.body, text, how.body, strong=True)

    return Piece(how.gap + how.line, draw, held=True, first=True)


def _sentence(lines: tuple[str, ...], indent: float, tick: bool, how: Setting) -> Draw:
    def draw(canvas: Canvas, x: float, y: float) -> None:
        base = y + how.space - UNDER_LINE
        for number, line in enumerate(lines):
            base += how.line
            if tick and number == 0:
                canvas.box(x, base - 7.0, 6.5, 6.5, 0.6)
            canvas.text(x + indent, base, line, how.body)

    return draw


def _notice(block: Notice, width: float, how: Setting) -> Piece:
    sentences = [wrapped(sentence, how.body, width - 2.0 * FRAME) for sentence in block.lines]
    count = sum(len(lines) for lines in sentences) + bool(block.heading)
    height = how.gap + 2.0 * FRAME + how.line * count + how.space * len(sentences) - 2.0

    def draw(canvas: Canvas, x: float, y: float) -> None:
        canvas.box(x, y + how.gap, width, height - how.gap, 1.6)
        base = y + how.gap + FRAME - UNDER_LINE
        if block.heading:
            base += how.line
            canvas.text(x + FRAME, base, block.heading, how.body, strong=True)
        for lines in sentences:
            base += how.space
            for line in lines:
                base += how.line
                canvas.text(x + FRAME, base, line, how.body)

    return Piece(height, draw, first=True)


def _rows(block: Rows, width: float, how: Setting) -> Iterator[Piece]:
    table = block.table
    if block.big:
        grown = max(BIG / how.body, 1.0)
        how = msgspec.structs.replace(
            how, body=grown * how.body, leading=grown * how.leading, row=grown * how.row, line=grown * how.line
        )
    widths = column_widths(table, width, how, whole=True)
    title = Piece(0.0 if block.wide else how.gap, _nothing, held=True, first=True)
    if table.title:
        title = _line(table.title, width, how)
    heading = Row(tuple(row_lines(c.heading, w, how, strong=True) for c, w in zip(table.columns, widths, strict=True)))
    head = _row(table.columns, widths, heading, how, strong=True)
    head = msgspec.structs.replace(head, tight=not has_room(table, width, how))
    yield title
    yield head
    if not table.rows:
        yield Piece(how.space + how.leading, _small((tr("Nothing yet."),), how))
    count = len(table.rows)
    for number, cells in enumerate(table.rows, 1):
        row = Row(tuple(row_lines(text, w, how) for text, w in zip(cells, widths, strict=True)))
        made = _row(table.columns, widths, row, how, strong=False)
        held = number > count - ENOUGH if count > TOGETHER else True
        held = held and (number < count or bool(table.notes))  # what a table's note says stands under its rows
        yield msgspec.structs.replace(made, heading=() if held and count <= TOGETHER else (head,), held=held)
    for number, note in enumerate(table.notes, 1):
        lines = tuple(wrapped(note, how.small, width))
        yield Piece(how.space + how.leading * len(lines), _small(lines, how), held=number < len(table.notes))


def _nothing(canvas: Canvas, x: float, y: float) -> None:
    """Draw nothing."""


def _small(lines: tuple[str, ...], how: Setting) -> Draw:
    def draw(canvas: Canvas, x: float, y: float) -> None:
        for number, line in enumerate(lines, 1):
            canvas.text(x, y + how.space + how.leading * number - 2.0, line, how.small)

    return draw


def _row(columns: tuple[Column, ...], widths: tuple[float, ...], row: Row, how: Setting, *, strong: bool) -> Piece:
    high = row.height(how)

    def draw(canvas: Canvas, x: float, y: float) -> None:
        left = x
        for column, width, lines in zip(columns, widths, row.cells, strict=True):
            align = column.align
            if align == "tick" and not strong:
                side = TICK * how.body / BODY
                canvas.box(left + PAD, y + (how.row + how.leading - side) / 2.0, side, side, 0.6)
            for number, line in enumerate(lines):
                base = y + how.row / 2.0 + how.leading * (number + 1) - 3.0
                if align == "right":
                    canvas.text(left + width - PAD, base, line, how.body, strong=strong, align="right")
                else:
                    canvas.text(left + PAD, base, line, how.body, strong=strong)
            left += width
        canvas.line(x, y + high, left, y + high, 1.0 if strong else HAIRLINE)

    return Piece(high, draw, held=strong)


def _picture(block: Picture, width: float, height: float, how: Setting) -> Piece:
    drawing, points = block.drawing, PIXELS * LARGER
    room = (width * PIXELS, (how.share * block.share * height - how.gap) * PIXELS)
    outline = Outline(drawing)
    scale = _scale(drawing.box, outline, room, TRUE * block.most)
    x0, y0, x1, y1 = outline.at(points / scale)
    tall = (y1 - y0) * scale / PIXELS

    def draw(canvas: Canvas, x: float, y: float) -> None:
        middle = (x + width / 2.0) * PIXELS - scale * (x0 + x1) / 2.0
        canvas.drawing(drawing, View(scale, middle, (y + how.gap) * PIXELS + scale * y1, 1.0, points))

    return Piece(tall + how.gap, draw, first=True, scale=TRUE / scale)


def _scale(box: Box, outline: Outline, room: tuple[float, float], most: float) -> float:
    """The largest scale at which a drawing with its numbers is no wider than its room and, where they leave room for
    it, no higher. [device pixels/mm]"""
    (width, height), (x0, y0, x1, y1) = room, box
    scale = bare = min(width / (x1 - x0), most)
    least = LEAST if x1 - x0 > LONG * (y1 - y0) else 0.05
    for _ in range(ROUNDS):
        left, low, right, high = outline.at(PIXELS * LARGER / scale)
        across = (width - ((right - left) - (x1 - x0)) * scale) / (x1 - x0)
        up = (height - ((high - low) - (y1 - y0)) * scale) / (y1 - y0)
        before, scale = scale, min(max(min(across, max(up, least * bare)), 0.05 * bare), most)
        if abs(scale - before) <= CLOSE * scale:
            break
    return scale * SAFE
