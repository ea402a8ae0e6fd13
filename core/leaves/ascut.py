"""The as-cut log: each card's number as planned, a box for what it came to, and one for the next card's new number."""

from __future__ import annotations

from typing import Final

from core.drawing.tables import Column, Table
from core.language import tr
from core.leaves.model import Leaf, Rows, Words
from core.plan.model import Plan
from core.steps.cards import cards_of

COLUMNS: Final = (
    Column(tr("Card"), "right"),
    Column(tr("Cut")),
    Column(tr("Planned"), "right"),
    Column(tr("What it is")),
    Column(tr("Measured")),
    Column(tr("A later card's new number")),
    Column(tr("Done"), "tick"),
)
BLANK: Final = "__________"
NEXT: Final = tr("card") + " ____ : __________"
# A cut that is off, and what keeps the figure: common practice.
REPAIRS: Final = (
    tr(
        "Write the real figure after every cut, toe to where it is measured from, on the show face. Off by more than a "
        "64th (0.4 mm)? Plan anew with it before the next card; only cuts not yet made may change."
    ),
    tr("Front too low, ends not cut yet: accept it, front and ends shrink together. The cavity and the frame follow."),
    tr("A top, a bottom or an end too short in depth: take the others to it, off their backs."),
    tr("Too short along: saw top, front and bottom again together at the same end."),
    tr("A chipped toe: shift that cut a little and slide all that follow within the spare margin."),
    tr("An end lost: a corner square of the top's or the bottom's strip, at the wall's side: its figure is broken."),
    tr("A front lost: stop. That is a new plan."),
)


def as_cut_leaf(plan: Plan) -> Leaf | None:
    """The log; None where nothing is cut."""
    table = as_cut_table(plan)
    return (
        Leaf(tr("As-cut log"), (Rows(table, wide=True), Words(tr("When a cut is off"), REPAIRS)))
        if table.rows
        else None
    )


def as_cut_table(plan: Plan) -> Table:
    """One row for each card."""
    cards = cards_of(plan)
    rows = tuple((c.numbers, c.title, c.setting, c.setting_is, BLANK, NEXT, "") for c in cards)
    return Table("as cut", "", COLUMNS, rows, ("",) * len(rows))
