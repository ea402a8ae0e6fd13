"""The order of cuts: each cut with its place from the datum, its tilt, what is kept and what it makes."""

from __future__ import annotations

from core.drawing.measure import clean
from core.drawing.names import piece_names
from core.drawing.tables import Column, Table
from core.drawing.toes import upper_edge
from core.lengths import Unit, show_angle, show_length
from core.plan.model import Cut, Plan, StockSheet

COLUMNS = (
    Column("Cut", "right"),
    Column("Sheet"),
    Column("Piece"),
    Column("Kind"),
    Column("From datum", "right"),
    Column("Tilt", "right"),
    Column("Keep"),
    Column("Makes"),
    Column("Pass", "right"),
    Column("Done", "tick"),
)
NOTES = (
    "Rips are measured from the trued edge (the upper one), crosscuts from the trued end (the left one), always to the "
    "toe on the show face. The first rip and the first crosscut of a sheet make that edge and end.",
    "Near: the side towards the datum ends at the line; far: the side away from it. The blade takes its kerf from "
    "the other side.",
    "Cuts of the same pass are made in one go, the strips laid back toe to toe.",
)


def cut_order_table(plan: Plan) -> Table:
    """One row for each cut, in the plan's order."""
    unit = Unit(plan.project.units)
    sheets = {sheet.id: sheet for sheet in plan.sheets}
    names = piece_names(plan)
    rows = tuple(_row(cut, sheets[cut.sheet], names, unit) for cut in plan.cuts)
    return Table("cut order", "Cut order", COLUMNS, rows, tuple(cut.about for cut in plan.cuts), NOTES)


def _row(cut: Cut, sheet: StockSheet, names: dict[str, str], unit: Unit) -> tuple[str, ...]:
    made = [f"{clean(piece)} {_use(names.get(piece))}".strip() for piece in cut.makes if piece]
    return (
        str(cut.n),
        clean(cut.sheet),
        clean(cut.piece),
        cut.kind,
        show_length(upper_edge(sheet) - cut.at if cut.kind == "rip" else cut.at - sheet.source.trim, unit),
        show_angle(cut.bevel) if cut.bevel else "square",
        "near" if (cut.keep == "high") == (cut.kind == "rip") else "far",
        ", ".join(made),
        str(cut.pass_),
        "",
    )


def _use(name: str | None) -> str:
    return f"({name})" if name else ""
