"""Tables on paper: column widths from what stands in them, long texts wrapped."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Final

import msgspec

from app.paper.canvas import BODY, SMALL, words_of, wrapped
from core.drawing.measure import text_width, thousandths
from core.drawing.tables import Table

PAD: Final = 5.0  # between a text and its column's edge
LEADING: Final = 12.5  # from one line to the next
ROW: Final = 4.5  # more for a row than its lines
TICK: Final = 8.5  # side of a box to tick
MOST_LINES: Final = 12  # of one cell
WIDER: Final = 1.35  # most that columns are stretched to fill the page
HALVINGS: Final = 24  # when a width is looked for


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
        return max(map(len, self.cells)) * how.leading + how.row


def row_lines(text: str, width: float, how: Lettering = USUAL, *, strong: bool = False) -> tuple[str, ...]:
    """A cell's text in lines, as many as are printed."""
    lines = wrapped(text, how.body, width - 2.0 * PAD, strong=strong)
    return lines if len(lines) <= MOST_LINES else (*lines[: MOST_LINES - 1], "…")


def column_widths(table: Table, room: float, how: Lettering = USUAL, *, whole: bool = False) -> tuple[float, ...]:
    """Widths of the columns: what they need; where that is too much, the widest give way and wrap, but never so far
    that a word breaks where there is room for all words.

    whole: headings stand on one line where there is room.
    """
    wanted = _widths(table, how, _undivided, whole=whole)
    if sum(wanted) < room:
        return tuple(width * min(WIDER, room / sum(wanted)) for width in wanted)
    least = _widths(table, how, words_of)
    if sum(least) >= room:
        return tuple(width * room / sum(least) for width in least)
    low, high = 0.0, max(wanted)
    for _ in range(HALVINGS):
        cap = (low + high) / 2.0
        low, high = (cap, high) if _sum(least, wanted, cap) <= room else (low, cap)
    return tuple(max(a, min(b, low)) for a, b in zip(least, wanted, strict=True))


def _undivided(text: str) -> list[str]:
    return [text]


def has_room(table: Table, room: float, how: Lettering = USUAL) -> bool:
    """Is there room for the columns with no word broken?"""
    return sum(_widths(table, how, words_of)) <= room


def _sum(least: list[float], wanted: list[float], cap: float) -> float:
    return sum(max(a, min(b, cap)) for a, b in zip(least, wanted, strict=True))


def _widths(table: Table, how: Lettering, parts: Callable[[str], list[str]], *, whole: bool = False) -> list[float]:
    """What each column needs for the widest of its texts' parts. whole: a heading is one part."""
    found: list[float] = []
    for number, column in enumerate(table.columns):
        headings = [column.heading] if whole else column.heading.split()
        heading = max((text_width(word, how.body, True) for word in headings), default=0.0)
        widest = _widest(tuple([row[number] for row in table.rows]), parts) / 1000.0 * how.body
        found.append(max(heading, widest, TICK) + 2.0 * PAD + 2.0)
    return found


@lru_cache(maxsize=1 << 11)
def _widest(texts: tuple[str, ...], parts: Callable[[str], list[str]]) -> int:
    """Width of the widest part of some texts, in thousandths of its size."""
    return max((thousandths(part) for text in texts for part in parts(text)), default=0)
