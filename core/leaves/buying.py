"""The buying list's page."""

from __future__ import annotations

from typing import Final

from core.drawing.tables import Column, Table
from core.language import decimal, tr
from core.leaves.model import Leaf, Notice, Rows, Words
from core.plan.model import Plan
from core.supplies.buying import Purchase, buying_list

COLUMNS: Final = (
    Column(tr("What")),
    Column(tr("How much"), "right"),
    Column(tr("Where the number comes from")),
    Column(tr("Each"), "right"),
    Column(tr("Cost"), "right"),
    Column(tr("Have"), "tick"),
)
BLANK: Final = "________"
CHOOSING: Final = (
    tr("Straight or rift grain hides what a seam loses; cathedrals show it, and rotary veneer wanders."),
    tr(
        "All shelves from one bundle, one good face each: mark bruised corners, patches and leaf joints where they lie."
    ),
    tr(
        "Measure the thickness with calipers at six spots away from the edges before you cut, "
        "and plan by what you find."
    ),
    tr("Let the sheets lie flat or stand on stickers, both faces to the air, for a few days."),
    tr("Screws are never drywall screws: they are brittle."),
)


def buying_leaf(plan: Plan) -> Leaf:
    """What to buy, and what to look for."""
    blocks = (Rows(buying_table(plan), wide=True), *_trouble(plan), Words(tr("At the yard"), CHOOSING))
    return Leaf(tr("Buying list"), blocks)


def _trouble(plan: Plan) -> tuple[Notice, ...]:
    """What does not fit lies on no sheet: its sheets are not in the list."""
    words = tr("The plan does not fit yet: sheets for what has no room are not in this list.")
    return (Notice(tr("Do not buy yet"), (words,)),) if plan.errors else ()


def buying_table(plan: Plan) -> Table:
    """One row for each thing to buy; the cost is blank where no price is given."""
    items = buying_list(plan)
    rows = tuple(_row(item) for item in items)
    costs = [item.cost for item in items]
    known = sum(cost for cost in costs if cost is not None)
    notes = [
        tr("Quantities are rounded up. Rates of glue, tape, paper and oil are common practice; the tin comes first.")
    ]
    if any(cost is not None for cost in costs):
        notes.append(tr("What has a price comes to {known:.2f}.", known=known))
    return Table("buying list", "", COLUMNS, rows, ("",) * len(rows), tuple(notes))


def _row(item: Purchase) -> tuple[str, ...]:
    price = BLANK if item.price is None else decimal(f"{item.price:.2f}")
    cost = BLANK if item.cost is None else decimal(f"{item.cost:.2f}")
    amount = f"{decimal(f'{item.quantity:g}')} {tr(item.unit)}" if item.quantity else tr("none")
    return (item.what, amount, item.basis, price, cost, "")
