"""The plan set: every kind of page in the order it is read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

import msgspec

from app.paper.cards import card_pages
from app.paper.cautions import CAUTIONS, setup_numbers
from app.paper.frame import Frame
from app.paper.labels import label_pages
from app.paper.leaf import leaf_pages
from app.paper.leaves import (
    as_cut_pages,
    buying_pages,
    cover_pages,
    finish_pages,
    frame_pages,
    glue_pages,
    install_pages,
    setup_pages,
    wall_pages,
)
from app.paper.page import Page, Pages
from app.paper.reader import reader_pages
from app.paper.sheets import SeamPage, SheetPage
from app.paper.templates import template_pages
from core.drawing.catalog import drawings, seam_kinds
from core.drawing.cutlist import cut_list_table
from core.drawing.cutorder import cut_order_table
from core.drawing.loads import load_table
from core.drawing.measure import clean
from core.drawing.names import shelf_thickness
from core.drawing.offcuts import offcut_table
from core.drawing.section import draw_seam
from core.drawing.tables import Column, Table
from core.language import tr
from core.leaves.model import Leaf, Rows
from core.plan.model import Plan

LONGEST: Final = 1500  # characters of a finding that are printed


def _sheets(plan: Plan, frame: Frame) -> Iterator[Page]:
    trouble = tuple(clean(finding.message, LONGEST) for finding in plan.errors)
    for number, drawing in enumerate(drawings(plan)):
        yield SheetPage(drawing, plan.project.units, trouble if number == 0 else ())


def listings(table: Table, frame: Frame) -> list[Page]:
    """A table on pages of its own; each has the headings, the last the notes."""
    shown = msgspec.structs.replace(table, title="")
    return list(leaf_pages(Leaf(table.title, (Rows(shown, wide=True),)), frame))


def _cut_list(plan: Plan, frame: Frame) -> Iterable[Page]:
    return listings(cut_list_table(plan), frame)


def _cut_order(plan: Plan, frame: Frame) -> Iterable[Page]:
    table = cut_order_table(plan)
    return listings(table, frame) if table.rows else ()


def _offcuts(plan: Plan, frame: Frame) -> Iterable[Page]:
    table = offcut_table(plan)
    return listings(table, frame) if table.rows else ()


def _loads(plan: Plan, frame: Frame) -> Iterable[Page]:
    table = load_table(plan)
    return listings(table, frame) if table.rows else ()


def _saw(plan: Plan, frame: Frame) -> Iterator[Page]:
    for number, seam in enumerate(seam_kinds(plan)):
        shelf = next(s.shelf for s in plan.seams if s.id == seam)
        numbers = setup_numbers(plan, shelf_thickness(plan, shelf))
        yield SeamPage(draw_seam(plan, seam), numbers, CAUTIONS if number == 0 else ())


def _findings(plan: Plan, frame: Frame) -> Iterable[Page]:
    if not plan.findings:
        return ()
    columns = (Column(""), Column(tr("About")), Column(tr("What")))
    rows = tuple((f.severity, clean(f.about) or tr("the whole job"), clean(f.message, LONGEST)) for f in plan.findings)
    table = Table("findings", tr("Findings"), columns, rows, tuple(f.about for f in plan.findings))
    return listings(table, frame)


def _reader(plan: Plan, frame: Frame) -> Iterator[Page]:
    return reader_pages(plan, frame, tuple(pages for pages in PLAN_SET if pages.public))


# In the order they are read. A new page: a function like these in a module of its own, and its line here.
PLAN_SET: Final[tuple[Pages, ...]] = (
    Pages("cover", cover_pages),
    Pages("buying list", buying_pages, public=True),
    Pages("wall", wall_pages),
    Pages("sheets", _sheets, public=True),
    Pages("saw", _saw, public=True),
    Pages("set-ups", setup_pages, public=True),
    Pages("cut cards", card_pages, public=True),
    Pages("as-cut log", as_cut_pages),
    Pages("cut list", _cut_list, public=True),
    Pages("labels", label_pages),
    Pages("cut order", _cut_order),
    Pages("offcuts", _offcuts),
    Pages("glue up", glue_pages, public=True),
    Pages("frame", frame_pages, public=True),
    Pages("templates", template_pages),
    Pages("install", install_pages),
    Pages("loads", _loads, asked=True),  # the install sheet has them too
    Pages("finish", finish_pages, public=True),
    Pages("findings", _findings),
    Pages("reader", _reader, asked=True),
)


class UnknownPagesError(ValueError):
    """There are no pages of that name; `str()` says which there are."""


def page_names() -> tuple[str, ...]:
    """Every name that pages can be asked for by."""
    return tuple(pages.name for pages in PLAN_SET)


def wanted_names(text: str) -> tuple[str, ...]:
    """The names in a list like 'sheets, cut-list': commas between, hyphens or blanks in a name, any case.

    Raises UnknownPagesError, a sentence that lists the names.
    """
    words = [" ".join(word.replace("-", " ").replace("_", " ").lower().split()) for word in text.split(",")]
    known = {name.replace("-", " "): name for name in page_names()}
    for word in words:
        if word not in known:
            raise UnknownPagesError(
                tr('there are no pages "{clean}"; there are {join}', clean=clean(word), join=", ".join(page_names()))
            )
    return tuple(known[word] for word in dict.fromkeys(words))


def kinds_of(names: Iterable[str] | None = None) -> tuple[Pages, ...]:
    """The kinds of pages of those names, by default all that need not be asked for, in reading order."""
    if names is None:
        return tuple(pages for pages in PLAN_SET if not pages.asked)
    chosen = frozenset(names)
    return tuple(pages for pages in PLAN_SET if pages.name in chosen)


def pages_of(plan: Plan, frame: Frame, names: Iterable[str] | None = None) -> list[Page]:
    """The pages of those names, by default all but the reader's edition, in reading order; one that says so of none."""
    found = [page for pages in kinds_of(names) for page in pages.make(plan, frame)]
    return found or listings(Table("nothing", tr("Nothing to print"), (Column(""),), (), ()), frame)
