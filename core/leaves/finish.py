"""The finishing schedule."""

from __future__ import annotations

from typing import Final

from core.drawing.measure import clean
from core.drawing.tables import Column, Table
from core.leaves.model import Leaf, Notice, Rows, Words
from core.lengths import Unit, show_thickness
from core.plan.model import Plan
from core.supplies import rates

COLUMNS: Final = (
    Column("Step", "right"),
    Column("What"),
    Column("How"),
    Column("Then wait"),
    Column("Done", "tick"),
)
STEPS: Final = (
    (
        "filler",
        "Hairlines along the seams, tinted filler, pressed in across the seam and struck off flush",
        "till it is hard",
    ),
    ("80, lightly", "Filler and squeeze-out alone, by a flat block, off again before the face is bare", "-"),
    ("120", "Faces and seams, by a block along the grain, from a pencil scribble till it is gone", "-"),
    ("180", "The same. Ease the arrises by block, no more than a 64th of an inch (0.4 mm)", "-"),
    ("dust", "Brush, extractor, a dry cloth", "-"),
    ("oil, on", "A thin coat, show faces and inside, toe edges thin", "about 15 min"),
    (
        "oil, off",
        "Everything that has not gone in, with a dry cloth, along the grain",
        "as the can says, often a night",
    ),
    ("oil again", "A second thin coat, on and off the same way", "as the can says"),
)
RULES: Final = (
    "The can's own words come first; grits and times here are common practice.",
    "All shelves on one day, from one can, after a sample on the spare ends: write its number on the back.",
    "Finish before fixing. Low tack tape off within the day, pulled along the grain.",
    "Light darkens cherry and bleaches walnut: keep covers off, and things moving, for the first weeks.",
)
RAGS: Final = (
    "Oily rags heat by themselves and can catch fire: spread them flat outdoors to dry, or put them under water in a "
    "lidded tin. Never leave them in a heap.",
    "Mask and extractor while sanding. Old walls and paint may hold lead or asbestos.",
)


def finish_leaf(plan: Plan) -> Leaf:
    """Filler, grits, oil."""
    blocks = (
        Rows(finish_table(), wide=True),
        Notice("The face is thin", _veneer(plan)),
        Notice("Rags", RAGS),
        Words("Rules", RULES),
        Rows(sample_table()),
    )
    return Leaf("Finish", blocks)


def finish_table() -> Table:
    """The steps in order."""
    rows = tuple((str(n), *step, "") for n, step in enumerate(STEPS, 1))
    return Table("finish", "", COLUMNS, rows, ("",) * len(rows))


def sample_table() -> Table:
    """Blanks for what was tried."""
    columns = (Column("Sample no."), Column("Sanded to"), Column("Oil, coats"), Column("Looks"))
    rows = tuple((f"{n}  ________", "________", "________", "________") for n in (1, 2, 3))
    return Table("samples", "Samples", columns, rows, ("",) * 3)


def _veneer(plan: Plan) -> tuple[str, ...]:
    unit = Unit(plan.project.units)
    stocks = {sheet.stock: sheet.source for sheet in plan.sheets} or {s.id: s for s in plan.project.sheets}
    veneers = ", ".join(
        f"{show_thickness(stock.veneer, unit)} on sheet {clean(stock.id, 40)}" for stock in list(stocks.values())[:6]
    )
    return (
        f"The face veneer is {veneers}: take off less than {rates.VENEER_LEFT:.0%} of it, all grits together, "
        "then stop. "
        "Toes and arrises go through first; no machine on them.",
    )
