"""What a page of words, tables and pictures is made of, with no thought of its paper.

A leaf is a list of blocks; a surface lets them flow over as many pages as it needs. Pictures go right across the page,
so do tables that are `wide`; all else flows in columns.
"""

from __future__ import annotations

import msgspec

from core.drawing.model import Drawing
from core.drawing.tables import Table


class Block(msgspec.Struct, frozen=True, gc=False):
    """Base of what a leaf is made of."""


class Picture(Block, frozen=True, gc=False):
    """A drawing, as large as the page's width or `share` of its height let it be; `most`: no larger than so many
    times its true size."""

    drawing: Drawing
    share: float = 0.62
    most: float = 1.0


class Words(Block, frozen=True, gc=False):
    """Sentences under a heading; `tick`: each with a box to tick."""

    heading: str
    lines: tuple[str, ...]
    tick: bool = False


class Notice(Block, frozen=True, gc=False):
    """Sentences in a box: what must not be overlooked."""

    heading: str
    lines: tuple[str, ...]


class Rows(Block, frozen=True, gc=False):
    """A table; `big`: read at arm's length, its numbers are large."""

    table: Table
    wide: bool = False
    big: bool = False


class Leaf(msgspec.Struct, frozen=True, gc=False):
    """One subject's page, or pages. heading: what stands over it where that is not its title."""

    title: str
    blocks: tuple[Block, ...]
    columns: int = 2
    heading: str = ""
