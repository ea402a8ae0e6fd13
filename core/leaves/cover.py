"""The cover: the shelves on their wall, and their sizes in both units."""

from __future__ import annotations

from typing import Final

from core.document.model import Shelf
from core.drawing.cover import draw_cover
from core.drawing.measure import clean
from core.drawing.names import letter
from core.drawing.tables import Column, Table
from core.language import tr
from core.leaves.model import Leaf, Notice, Picture, Rows
from core.lengths import Unit, show_both
from core.plan.model import Plan

COLUMNS: Final = (
    Column(tr("Shelf")),
    Column(tr("Long"), "right"),
    Column(tr("Deep"), "right"),
    Column(tr("High"), "right"),
    Column(tr("Mitred ends")),
    Column(tr("Top from the floor"), "right"),
)
LEAST: Final = 0.5  # of the page is the picture's
PLAIN: Final = COLUMNS[:-1]  # without the wall


def cover_leaf(plan: Plan, *, wall: bool = True) -> Leaf:
    """Picture and sizes. wall: False leaves out where shelves hang, and leaves room for words."""
    title = clean(plan.project.name) or tr("No name")
    rows = len(plan.project.shelves) + 3 * bool(plan.errors)
    share = max(LEAST, (0.88 if wall else 0.66) - 0.045 * rows)
    blocks = (Picture(draw_cover(plan.project), share), Rows(size_table(plan, wall=wall), wide=True), *_trouble(plan))
    return Leaf(tr("Cover"), blocks, columns=1, heading=title)


def size_table(plan: Plan, *, wall: bool = True) -> Table:
    """One row for each shelf: outside sizes, toe to toe, in both units."""
    unit = Unit(plan.project.units)
    rows = tuple(_row(n, shelf, unit, wall) for n, shelf in enumerate(plan.project.shelves))
    notes = (tr("Sizes are outside, toe to toe; deep is from the wall to the front."),) if rows else ()
    return Table("sizes", "", COLUMNS if wall else PLAIN, rows, tuple(s.id for s in plan.project.shelves), notes)


def _row(number: int, shelf: Shelf, unit: Unit, wall: bool) -> tuple[str, ...]:
    ends = [side for side in ("left", "right") if getattr(shelf, side) == "mitred"]
    words = (
        tr("{join}, from the {ends_from}", join=tr(" and ").join(map(tr, ends)), ends_from=shelf.ends_from)
        if ends
        else tr("none")
    )
    sizes = (show_both(mm, unit) for mm in (shelf.length, shelf.depth, shelf.height))
    place = show_both(shelf.mount.top, unit) if shelf.mount is not None else tr("no place yet")
    return (f"{letter(number)}  {clean(shelf.id, 60)}", *sizes, words, *((place,) if wall else ()))


def _trouble(plan: Plan) -> tuple[Notice, ...]:
    count = len(plan.errors)
    if not count:
        return ()
    words = "error" if count == 1 else "errors"
    return (
        Notice(
            tr("Do not cut"),
            (
                tr(
                    "The plan has {count} {words}; what is wrong stands on the first sheet's page.",
                    count=count,
                    words=words,
                ),
            ),
        ),
    )
