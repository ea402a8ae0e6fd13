"""Tables on paper: column widths from what stands in them, long texts wrapped, rows flowing over pages."""

from __future__ import annotations

from typing import Final

import msgspec

from app.paper.canvas import BODY, HAIRLINE, LEAD, SMALL, Canvas, wrapped
from app.paper.frame import NO_SCALE, Frame
from core.drawing.measure import text_width
from core.drawing.tables import Table
from core.language import tr

PAD: Final = 5.0  # between a text and its column's edge
LEADING: Final = 12.5  # from one line to the next
ROW: Final = 4.5  # more for a row than its lines
TICK: Final = 8.5  # side of a box to tick
MOST_LINES: Final = 12  # of one cell
WIDER: Final = 1.35  # most that columns are stretched to fill the page
LEAST: Final = 46.0  # a column of wrapped texts is never narrower


class Lettering(msgspec.Struct, frozen=True):
    """Sizes of letters, and how close rows stand. [points]"""

    body: float = BODY
    small: float = SMALL
    leading: float = LEADING
    row: float = ROW


USUAL: Final = Lettering()


class Row(msgspec.Struct, frozen=True):
    """One row's texts, each in lines."""

    cells: tuple[tuple[str, ...], ...]

    def height(self, how: Lettering = USUAL) -> float:
        """Room it takes. [points]"""
        return max(len(lines) for lines in self.cells) * how.leading + how.row


class Listing(msgspec.Struct, frozen=True):
    """The part of a table that stands on one page."""

    table: Table
    widths: tuple[float, ...]
    heading: Row
    rows: tuple[Row, ...]
    notes: tuple[str, ...]  # in lines
    part: str  # '' or like '2 of 3'

    @property
    def title(self) -> str:
        """What the page is called."""
        return tr("{title}, part {part}", title=self.table.title, part=self.part) if self.part else self.table.title

    def scale_text(self, frame: Frame) -> str:
        """A table has no scale."""
        return NO_SCALE

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw title, headings, rows and notes."""
        y = frame.top + LEAD
        canvas.text(frame.left, y, self.title, LEAD, strong=True)
        y += 10.0
        y = self._draw_row(canvas, frame.left, y, self.heading, strong=True)
        canvas.line(frame.left, y, frame.left + sum(self.widths), y, 1.0)
        for row in self.rows:
            y = self._draw_row(canvas, frame.left, y, row, strong=False)
            canvas.line(frame.left, y, frame.left + sum(self.widths), y, HAIRLINE)
        if not self.table.rows:
            canvas.text(frame.left + PAD, y + LEADING, tr("Nothing yet."), BODY)
            y += LEADING + ROW
        y += 6.0
        for line in self.notes:
            y += LEADING
            canvas.text(frame.left, y, line, SMALL)

    def _draw_row(self, canvas: Canvas, x: float, y: float, row: Row, *, strong: bool) -> float:
        for column, width, lines in zip(self.table.columns, self.widths, row.cells, strict=True):
            if column.align == "tick" and not strong:
                canvas.box(x + PAD, y + (row.height() - TICK) / 2.0, TICK, TICK, 0.6)
            for number, line in enumerate(lines):
                base = y + ROW / 2.0 + LEADING * (number + 1) - 3.0
                if column.align == "right":
                    canvas.text(x + width - PAD, base, line, BODY, strong=strong, align="right")
                else:
                    canvas.text(x + PAD, base, line, BODY, strong=strong)
            x += width
        return y + row.height()


def listings(table: Table, frame: Frame) -> list[Listing]:
    """A table cut into pages; each has the headings, the last the notes."""
    width, room = frame.right - frame.left, frame.bottom - frame.top - LEAD - 10.0
    widths = column_widths(table, width)
    heading = Row(tuple(row_lines(c.heading, w, strong=True) for c, w in zip(table.columns, widths, strict=True)))
    rows = [Row(tuple(row_lines(tr(text), w) for text, w in zip(cells, widths, strict=True))) for cells in table.rows]
    notes = tuple(line for note in table.notes for line in wrapped(note, SMALL, width))
    pages: list[list[Row]] = [[]]
    left = room - heading.height()
    for row in rows:
        if row.height() > left and pages[-1]:
            pages.append([])
            left = room - heading.height()
        pages[-1].append(row)
        left -= row.height()
    if notes and len(notes) * LEADING + 12.0 > left:
        pages.append([pages[-1].pop()] if len(pages[-1]) > 1 else [])  # no page has notes alone
    return [
        Listing(
            table,
            widths,
            heading,
            tuple(page),
            notes if number == len(pages) else (),
            tr("{number} of {pages}", number=number, pages=len(pages)) if len(pages) > 1 else "",
        )
        for number, page in enumerate(pages, 1)
    ]


def row_lines(text: str, width: float, how: Lettering = USUAL, *, strong: bool = False) -> tuple[str, ...]:
    """A cell's text in lines, as many as are printed."""
    lines = wrapped(text, how.body, width - 2.0 * PAD, strong=strong)
    return tuple(lines if len(lines) <= MOST_LINES else [*lines[: MOST_LINES - 1], "…"])


def column_widths(table: Table, room: float, how: Lettering = USUAL, *, whole: bool = False) -> tuple[float, ...]:
    """Widths of the columns: what they need; where that is too much, the widest give way and wrap.

    whole: headings stand on one line where there is room.
    """
    wanted: list[float] = []
    for number, column in enumerate(table.columns):
        words = [column.heading] if whole else column.heading.split()
        heading = max((text_width(word, how.body, True) for word in words), default=0.0)
        cells = max((text_width(tr(row[number]), how.body) for row in table.rows), default=0.0)
        wanted.append(max(heading, cells, TICK) + 2.0 * PAD + 2.0)
    if sum(wanted) < room:
        return tuple(width * min(WIDER, room / sum(wanted)) for width in wanted)
    over = sum(wanted) - room
    while over > 0.01:
        widest = max(wanted)
        if widest <= LEAST:
            return tuple(width * room / sum(wanted) for width in wanted)
        count = sum(width >= widest - 1e-9 for width in wanted)
        next_widest = max((width for width in wanted if width < widest - 1e-9), default=LEAST)
        step = min(over / count, widest - max(next_widest, LEAST)) or over / count
        wanted = [width - step if width >= widest - 1e-9 else width for width in wanted]
        over = sum(wanted) - room
    return tuple(wanted)
