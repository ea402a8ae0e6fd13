"""Blocks of a leaf set in type: pieces that are never cut apart, each with its height, to be stacked in columns."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

import msgspec

from app.paper.canvas import BODY, HAIRLINE, LARGER, PIXELS, SMALL, Canvas, wrapped
from app.paper.listing import LEADING, PAD, ROW, TICK, Row, column_widths, row_lines
from core.drawing.fit import View
from core.drawing.flatten import extent
from core.drawing.measure import shorten
from core.drawing.model import Drawing
from core.leaves.model import Block, Notice, Picture, Rows, Words

LINE: Final = 13.0  # points from one line of a sentence to the next
SPACE: Final = 3.0  # over a sentence
GAP: Final = 9.0  # over a block
INDENT: Final = 12.0  # of a sentence with a box to tick
FRAME: Final = 8.0  # from a notice's box to its words
TOGETHER: Final = 10  # rows: a table no longer stands on one page
ROUNDS: Final = 6
LEAST: Final = (
    0.75  # of the scale that fills the width: no smaller, for the sake of height, are drawings of much length
)
LONG: Final = 4.0  # times its height: so long is a drawing of much length
SAFE: Final = 0.998  # of a scale found in rounds
TRUE: Final = PIXELS * 72.0 / 25.4  # device pixels in a mm

Draw = Callable[[Canvas, float, float], None]  # canvas, left, top


class Piece(msgspec.Struct, frozen=True):
    """Something that stands on one page. height: of all of it; held: keep what follows on the same page; heading: set
    anew at the top of a page where its block goes on."""

    height: float
    draw: Draw
    held: bool = False
    heading: tuple[Piece, ...] = ()
    first: bool = False  # of its block: at the top of a column the gap over it falls away
    scale: float | None = None  # of a drawing: how many times smaller than true


def pieces_of(block: Block, width: float, height: float) -> list[Piece]:
    """A block's pieces from the top down. width: of its column; height: of the page's room. [points]"""
    if isinstance(block, Words):
        return list(_words(block, width))
    if isinstance(block, Notice):
        return [_notice(block, width)]
    if isinstance(block, Rows):
        return list(_rows(block, width))
    assert isinstance(block, Picture)
    return [_picture(block, width, height)]


def _words(block: Words, width: float) -> Iterator[Piece]:
    heading = _line(block.heading, width)
    if block.heading:
        yield heading
    indent = INDENT if block.tick else 0.0
    for number, sentence in enumerate(block.lines):
        lines = wrapped(sentence, BODY, width - indent)
        yield Piece(
            SPACE + LINE * len(lines),
            _sentence(tuple(lines), indent, block.tick),
            first=number == 0 and not block.heading,
        )


def _line(words: str, width: float) -> Piece:
    text = shorten(words, BODY, width, strong=True)

    def draw(canvas: Canvas, x: float, y: float) -> None:
        canvas.text(x, y + GAP + BODY, text, BODY, strong=True)

    return Piece(GAP + LINE, draw, held=True, first=True)


def _sentence(lines: tuple[str, ...], indent: float, tick: bool) -> Draw:
    def draw(canvas: Canvas, x: float, y: float) -> None:
        base = y + SPACE - 2.5
        for number, line in enumerate(lines):
            base += LINE
            if tick and number == 0:
                canvas.box(x, base - 7.0, 6.5, 6.5, 0.6)
            canvas.text(x + indent, base, line, BODY)

    return draw


def _notice(block: Notice, width: float) -> Piece:
    sentences = [wrapped(sentence, BODY, width - 2.0 * FRAME) for sentence in block.lines]
    count = sum(len(lines) for lines in sentences) + bool(block.heading)
    height = GAP + 2.0 * FRAME + LINE * count + SPACE * len(sentences) - 2.0

    def draw(canvas: Canvas, x: float, y: float) -> None:
        canvas.box(x, y + GAP, width, height - GAP, 1.6)
        base = y + GAP + FRAME - 2.5
        if block.heading:
            base += LINE
            canvas.text(x + FRAME, base, block.heading, BODY, strong=True)
        for lines in sentences:
            base += SPACE
            for line in lines:
                base += LINE
                canvas.text(x + FRAME, base, line, BODY)

    return Piece(height, draw, first=True)


def _rows(block: Rows, width: float) -> Iterator[Piece]:
    table = block.table
    widths = column_widths(table, width, whole=True)
    title = Piece(0.0, _nothing, held=True, first=True)
    if table.title:
        title = _line(table.title, width)
    heading = Row(tuple(row_lines(c.heading, w, strong=True) for c, w in zip(table.columns, widths, strict=True)))
    head = _row(table.columns, widths, heading, strong=True)
    yield title
    yield head
    for number, cells in enumerate(table.rows, 1):
        row = Row(tuple(row_lines(text, w) for text, w in zip(cells, widths, strict=True)))
        made = _row(table.columns, widths, row, strong=False)
        held = number < len(table.rows) <= TOGETHER
        yield msgspec.structs.replace(made, heading=() if held else (head,), held=held)
    for note in table.notes:
        lines = tuple(wrapped(note, SMALL, width))
        yield Piece(SPACE + LEADING * len(lines), _small(lines))


def _nothing(canvas: Canvas, x: float, y: float) -> None:
    """Draw nothing."""


def _small(lines: tuple[str, ...]) -> Draw:
    def draw(canvas: Canvas, x: float, y: float) -> None:
        for number, line in enumerate(lines, 1):
            canvas.text(x, y + SPACE + LEADING * number - 2.0, line, SMALL)

    return draw


def _row(columns: tuple[object, ...], widths: tuple[float, ...], row: Row, *, strong: bool) -> Piece:
    def draw(canvas: Canvas, x: float, y: float) -> None:
        left = x
        for column, width, lines in zip(columns, widths, row.cells, strict=True):
            align = getattr(column, "align", "left")
            if align == "tick" and not strong:
                canvas.box(left + PAD, y + (row.height - TICK) / 2.0, TICK, TICK, 0.6)
            for number, line in enumerate(lines):
                base = y + ROW / 2.0 + LEADING * (number + 1) - 3.0
                if align == "right":
                    canvas.text(left + width - PAD, base, line, BODY, strong=strong, align="right")
                else:
                    canvas.text(left + PAD, base, line, BODY, strong=strong)
            left += width
        canvas.line(x, y + row.height, x + sum(widths), y + row.height, 1.0 if strong else HAIRLINE)

    return Piece(row.height, draw, held=strong)


def _picture(block: Picture, width: float, height: float) -> Piece:
    drawing, points = block.drawing, PIXELS * LARGER
    scale = _scale(drawing, width * PIXELS, (block.share * height - GAP) * PIXELS, TRUE * block.most)
    x0, y0, x1, y1 = extent(drawing, points / scale)
    tall = (y1 - y0) * scale / PIXELS

    def draw(canvas: Canvas, x: float, y: float) -> None:
        middle = (x + width / 2.0) * PIXELS - scale * (x0 + x1) / 2.0
        canvas.drawing(drawing, View(scale, middle, (y + GAP) * PIXELS + scale * y1, 1.0, points))

    return Piece(tall + GAP, draw, first=True, scale=TRUE / scale)


def _scale(drawing: Drawing, width: float, height: float, most: float) -> float:
    """The largest scale at which a drawing with its numbers is no wider than `width` and, where they leave room for it,
    no higher than `height`. [device pixels/mm]"""
    x0, y0, x1, y1 = drawing.box
    scale = bare = min(width / (x1 - x0), most)
    least = LEAST if x1 - x0 > LONG * (y1 - y0) else 0.05
    for _ in range(ROUNDS):
        left, low, right, high = extent(drawing, PIXELS * LARGER / scale)
        across = (width - ((right - left) - (x1 - x0)) * scale) / (x1 - x0)
        up = (height - ((high - low) - (y1 - y0)) * scale) / (y1 - y0)
        scale = min(max(min(across, max(up, least * bare)), 0.05 * bare), most)
    return scale * SAFE
