"""The finishing schedule."""

from __future__ import annotations

from typing import Final

from core.drawing.measure import clean
from core.drawing.tables import Column, Table
from core.language import tr
from core.leaves.model import Leaf, Notice, Rows, Words
from core.lengths import Unit, show_thickness
from core.plan.model import Plan
from core.supplies import rates

COLUMNS: Final = (
    Column(tr("Step"), "right"),
    Column(tr("What")),
    Column(tr("How")),
    Column(tr("Then wait")),
    Column(tr("Done"), "tick"),
)
STEPS: Final = (
    (
        "filler",
        tr("Hairlines along the seams, tinted filler, pressed in across the seam and struck off flush"),
        tr("till it is hard"),
    ),
    (
        tr("80, lightly"),
        tr("Filler and squeeze-out alone, by a flat block, off again before the face is bare"),
        tr("no wait"),
    ),
    ("120", tr("Faces and seams, by a block along the grain, from a pencil scribble till it is gone"), tr("no wait")),
    ("180", tr("The same. Ease the arrises by block, no more than a 64th of an inch (0.4 mm)"), tr("no wait")),
    ("dust", tr("Brush, extractor, a dry cloth"), tr("no wait")),
    (tr("oil, on"), tr("A thin coat, show faces and inside, toe edges thin"), tr("about 15 min")),
    (
        tr("oil, off"),
        tr("Everything that has not gone in, with a dry cloth, along the grain"),
        tr("as the can says, often a night"),
    ),
    (tr("oil again"), tr("A second thin coat, on and off the same way"), tr("as the can says")),
)
RULES: Final = (
    tr("The can's own words come first; grits and times here are common practice."),
    tr("All shelves on one day, from one can, after a sample on the spare ends: write its number on the back."),
    tr("Finish before fixing. Low tack tape off within the day, pulled along the grain."),
    tr("Light darkens cherry and bleaches walnut: keep covers off, and things moving, for the first weeks."),
)
RAGS: Final = (
    tr(
        "Oily rags heat by themselves and can catch fire: spread them flat outdoors to dry, or "
        "put them under water in a lidded tin. Never leave them in a heap."
    ),
    tr("Mask and extractor while sanding. Old walls and paint may hold lead or asbestos."),
)


def finish_leaf(plan: Plan) -> Leaf:
    """Filler, grits, oil."""
    blocks = (
        Rows(finish_table(), wide=True),
        Notice(tr("The face is thin"), _veneer(plan)),
        Notice(tr("Rags"), RAGS),
        Words(tr("Rules"), RULES),
        Rows(sample_table()),
    )
    return Leaf(tr("Finish"), blocks)


def finish_table() -> Table:
    """The steps in order."""
    rows = tuple((str(n), *step, "") for n, step in enumerate(STEPS, 1))
    return Table("finish", "", COLUMNS, rows, ("",) * len(rows))


def sample_table() -> Table:
    """Blanks for what was tried."""
    columns = (Column(tr("Sample no.")), Column(tr("Sanded to")), Column(tr("Oil, coats")), Column(tr("Looks")))
    rows = tuple((f"{n}  ________", "________", "________", "________") for n in (1, 2, 3))
    return Table("samples", tr("Samples"), columns, rows, ("",) * 3)


def _veneer(plan: Plan) -> tuple[str, ...]:
    unit = Unit(plan.project.units)
    stocks = {sheet.stock: sheet.source for sheet in plan.sheets} or {s.id: s for s in plan.project.sheets}
    veneers = ", ".join(
        tr("{veneer} on sheet {clean}", veneer=show_thickness(stock.veneer, unit), clean=clean(stock.id, 40))
        for stock in list(stocks.values())[:6]
    )
    return (
        tr(
            "The face veneer is {veneers}: take off less than {VENEER_LEFT:.0%} of it, all grits "
            "together, then stop. Toes and arrises go through first; no machine on them.",
            veneers=veneers,
            VENEER_LEFT=rates.VENEER_LEFT,
        ),
    )
