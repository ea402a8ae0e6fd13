"""The order of cuts: each cut with its place from the datum, its tilt, what is kept and what it makes."""

from __future__ import annotations

from core.drawing.measure import clean
from core.drawing.names import piece_names
from core.drawing.tables import Column, Table
from core.drawing.toes import upper_edge
from core.language import tr
from core.lengths import Unit, show_angle, show_length
from core.plan.model import Cut, Plan, StockSheet
from core.steps.model import Step
from core.steps.steps import steps_of
from core.steps.words import short_setting

COLUMNS = (
    Column(tr("Cut"), "right"),
    Column(tr("Piece")),
    Column(tr("Kind")),
    Column(tr("From datum"), "right"),
    Column(tr("Tilt"), "right"),
    Column(tr("Keep")),
    Column(tr("Guide")),
    Column(tr("Set by")),
    Column(tr("Makes")),
    Column(tr("Card"), "right"),
    Column(tr("Set-up"), "right"),
    Column(tr("Done"), "tick"),
)
NOTES = (
    tr(
        "Rips are measured from the trued edge (the upper one), crosscuts from the trued end "
        "(the left one), always to the toe on the show face. The first rip and the first "
        "crosscut of a sheet make that edge and end."
    ),
    tr(
        "Near: the side towards the datum ends at the line; far: the side away from it. The "
        "blade takes its kerf from the other side."
    ),
    tr(
        "Set by: the number the saw is set to. Where numbers before it are rounded it makes up for that, and may be a "
        "little off the place."
    ),
    tr("Guide: the side the guide rail, the fence or the sled's stop is on. A fence is read at table level."),
    tr(
        "Cuts of the same card are made in one go, the strips laid back toe to toe. Within a "
        "set-up neither tilt nor guide changes."
    ),
)


def cut_order_table(plan: Plan) -> Table:
    """One row for each cut, in the plan's order."""
    unit = Unit(plan.project.units)
    sheets = {sheet.id: sheet for sheet in plan.sheets}
    names = piece_names(plan)
    steps = {n: (step, short_setting(plan, step)) for step in steps_of(plan) for n in step.cuts}
    rows = tuple(_row(cut, sheets[cut.sheet], names, unit, *steps[cut.n]) for cut in plan.cuts)
    return Table("cut order", tr("Cut order"), COLUMNS, rows, tuple(cut.about for cut in plan.cuts), NOTES)


def _row(cut: Cut, sheet: StockSheet, names: dict[str, str], unit: Unit, step: Step, setting: str) -> tuple[str, ...]:
    made = [f"{clean(piece)} {_use(names.get(piece))}".strip() for piece in cut.makes if piece]
    return (
        str(cut.n),
        clean(cut.piece),
        tr(cut.kind),
        show_length(upper_edge(sheet) - cut.at if cut.kind == "rip" else cut.at - sheet.source.trim, unit),
        show_angle(cut.bevel) if cut.bevel else tr("square"),
        tr("near") if cut.keep == step.datum else tr("far"),
        tr("near") if step.guide == step.datum else tr("far"),
        setting,
        ", ".join(made),
        str(step.number),
        str(step.setup),
        "",
    )


def _use(name: str | None) -> str:
    return f"({name})" if name else ""
