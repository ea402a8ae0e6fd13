"""Leaves on paper: blocks flowing over columns and pages."""

from __future__ import annotations

from typing import Final

import msgspec

from app.paper.canvas import LEAD, Canvas
from app.paper.flow import CLOSER, LARGER_ONES, PLAIN, UNDER_LINE, Piece, Setting, pieces_of
from app.paper.frame import NO_SCALE, Frame
from core.drawing.measure import shorten
from core.language import tr
from core.leaves.model import Block, Leaf, Picture, Rows

GUTTER: Final = 22.0  # points between columns
UNDER_TITLE: Final = 4.0
OVER: Final = 1.5  # points: a title's letters over those under it
FEW: Final = 0.5  # of a page: so little at the end is set closer, where that brings it onto the page before
MANY: Final = 12  # pages: of more, letters that are a tenth larger take one more at least
STEPS: Final = 40  # heights that are tried for columns of one length


class Placed(msgspec.Struct, frozen=True):
    """A piece at its place on a page. [points]"""

    x: float
    y: float
    piece: Piece


class LeafPage(msgspec.Struct, frozen=True):
    """One page of a leaf."""

    name: str
    heading: str
    placed: tuple[Placed, ...]
    part: str  # '' or like '2 of 3'
    letters: float = LEAD  # size of the title's [points]

    @property
    def title(self) -> str:
        """What the page is called."""
        return tr("{name}, part {part}", name=self.name, part=self.part) if self.part else self.name

    def scale_text(self, frame: Frame) -> str:
        """'Scale 1 : 12' where the page has one drawing."""
        scales = {round(one.piece.scale, 1) for one in self.placed if one.piece.scale is not None}
        return tr("Scale 1 : {scales:g}", scales=scales.pop()) if len(scales) == 1 else NO_SCALE

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw the title and everything on the page."""
        words = shorten(self.heading or self.title, self.letters, frame.right - frame.left, strong=True)
        canvas.text(frame.left, frame.top + self.letters, words, self.letters, strong=True)
        for one in self.placed:
            one.piece.draw(canvas, one.x, one.y)


def leaf_pages(leaf: Leaf, frame: Frame) -> list[LeafPage]:
    """A leaf on as many pages as it takes, in the largest letters that take no more."""
    pages, how = _pages(_translated(leaf), frame)
    count = len(pages)
    return [
        LeafPage(
            leaf.title,
            leaf.heading,
            tuple(page),
            tr("{number} of {count}", number=number, count=count) if count > 1 else "",
            _title_size(how),
        )
        for number, page in enumerate(pages, 1)
    ]


def _translated(leaf: Leaf) -> Leaf:
    """The leaf with the cells of its tables in the language of this process."""
    blocks = []
    for block in leaf.blocks:
        if isinstance(block, Rows):
            cells = tuple(tuple(map(tr, row)) for row in block.table.rows)
            block = msgspec.structs.replace(block, table=msgspec.structs.replace(block.table, rows=cells))
        blocks.append(block)
    return msgspec.structs.replace(leaf, blocks=tuple(blocks))


def _title_size(how: Setting) -> float:
    """A title is larger than what stands under it. [points]"""
    return max(LEAD, how.body + OVER)


def _pages(leaf: Leaf, frame: Frame) -> tuple[list[list[Placed]], Setting]:
    pages = _set(leaf, frame, PLAIN)
    if len(pages) > 1 and _used(pages[-1], frame) < FEW:  # rather than a few lines on a page of their own
        closer = ((_set(leaf, frame, how), how) for how in CLOSER)
        fewer = next((some for some in closer if len(some[0]) < len(pages)), None)
        if fewer is not None:
            return fewer
    if len(pages) > MANY:
        return pages, PLAIN
    larger = ((_set(leaf, frame, how), how) for how in LARGER_ONES)
    return next((some for some in larger if len(some[0]) <= len(pages) and _stays(some[0], frame)), (pages, PLAIN))


def _stays(pages: list[list[Placed]], frame: Frame) -> bool:
    """Does all of it end over the lower edge of the page's room, and no word break?"""
    placed = [one for page in pages for one in page]
    return all(one.y + one.piece.height <= frame.bottom + 0.1 and not one.piece.tight for one in placed)


def _set(leaf: Leaf, frame: Frame, how: Setting) -> list[list[Placed]]:
    setter = _Setter(frame, how)
    for wide, blocks in _bands(leaf):
        setter.add(blocks, 1 if wide else leaf.columns)
    return setter.finished()


def _used(page: list[Placed], frame: Frame) -> float:
    """Share of a page's height that is taken."""
    low = max((one.y + one.piece.height for one in page), default=frame.top)
    return (low - frame.top) / (frame.bottom - frame.top)


def _bands(leaf: Leaf) -> list[tuple[bool, list[Block]]]:
    """Blocks that follow each other and are all right across the page, or all in columns."""
    bands: list[tuple[bool, list[Block]]] = []
    for block in leaf.blocks:
        wide = isinstance(block, Picture) or (isinstance(block, Rows) and block.wide)
        if not bands or bands[-1][0] is not wide:
            bands.append((wide, []))
        bands[-1][1].append(block)
    return bands


class _Setter:
    """Stacks pieces from the top of the page's room, band after band."""

    def __init__(self, frame: Frame, how: Setting) -> None:
        self._how = how
        self._left, self._width = frame.left, frame.right - frame.left
        self._top, self._bottom = frame.top + _title_size(how) + UNDER_TITLE, frame.bottom
        self._pages: list[list[Placed]] = [[]]
        self._y = self._top

    def finished(self) -> list[list[Placed]]:
        """All pages."""
        return self._pages

    def add(self, blocks: list[Block], columns: int) -> None:
        """Set a band of blocks in so many columns."""
        width = (self._width - (columns - 1) * GUTTER) / columns
        height = self._bottom - self._top
        pieces = [piece for block in blocks for piece in pieces_of(block, width, height, self._how)]
        while pieces:
            room = self._bottom - self._y
            near = _near(pieces, columns * room)
            runs = _runs(near)
            total = sum(piece.height for piece in near)
            least = total / columns
            heights = (
                [least + (room - least) * step / STEPS for step in range(STEPS)] if least < room and columns > 1 else []
            )
            for high in (*heights, room):
                full = self._y == self._top and high == room
                taken, rest = _stacked(near, runs, high, self._leads(columns), full=full)
                if not rest:
                    break
            if not any(taken) or (rest and self._y > self._top and not self._worth(taken)):
                self._new_page()
                continue
            self._put(taken, width)
            pieces = [*rest, *pieces[len(near) :]]
            if pieces:
                self._new_page()

    def _worth(self, taken: list[list[Piece]]) -> bool:
        """Is what fits under a band more than a heading or two?"""
        return sum(not piece.held for column in taken for piece in column) > 1

    def _put(self, taken: list[list[Piece]], width: float) -> None:
        low = self._y
        for number, (column, lead) in enumerate(zip(taken, self._leads(len(taken)), strict=True)):
            y = self._y + (lead if column and not column[0].first else 0.0)
            for piece in column:
                self._pages[-1].append(Placed(self._left + number * (width + GUTTER), y, piece))
                y += piece.height
            low = max(low, y)
        self._y = low

    def _leads(self, columns: int) -> list[float]:
        """For each column the air over what goes on there, so that it starts on the line of a heading beside it."""
        how = self._how
        return [how.gap + how.body - how.space - how.line + UNDER_LINE if columns > 1 else 0.0] * columns

    def _new_page(self) -> None:
        self._pages.append([])
        self._y = self._top


def _stacked(
    pieces: list[Piece], runs: list[tuple[int, float]], height: float, leads: list[float], *, full: bool
) -> tuple[list[list[Piece]], list[Piece]]:
    """Pieces in columns of a height, and those left over.

    runs: of each piece, as `_runs` gives them; leads: for each column the air over what goes on from the one before;
    full: a piece higher than an empty column is set anyway.
    """
    taken: list[list[Piece]] = [[] for _ in leads]
    at = 0
    for column, lead in zip(taken, leads, strict=True):
        left = height if at >= len(pieces) or pieces[at].first else height - lead
        if at < len(pieces) and pieces[at].heading and at > 0:
            for head in pieces[at].heading:
                column.append(head)
                left -= head.height
        empty = True
        while at < len(pieces):
            end, need = runs[at]
            if need > left and not (full and empty):
                break
            column.extend(pieces[at:end])
            left -= need
            at = end
            empty = False
        if empty:
            column.clear()
    rest = pieces[at:]
    if rest and rest[0].heading:
        rest = [*rest[0].heading, *rest]
    return taken, rest


def _near(pieces: list[Piece], height: float) -> list[Piece]:
    """The first pieces, more than a height has room for: it, and one run of those that stand together after it."""
    high, runs = 0.0, 0
    for end, piece in enumerate(pieces, 1):
        high += piece.height
        runs += high > height and not piece.held
        if runs == 2:
            return pieces[:end]
    return pieces


def _runs(pieces: list[Piece]) -> list[tuple[int, float]]:
    """Of each piece where what must stand on the same page with it ends, headings with what follows them, and how high
    that is together."""
    runs: list[tuple[int, float]] = []
    for at in range(len(pieces) - 1, -1, -1):
        piece = pieces[at]
        if piece.held and runs:
            end, high = runs[-1]
            runs.append((end, piece.height + high))
        else:
            runs.append((at + 1, piece.height))
    return runs[::-1]
