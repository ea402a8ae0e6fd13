"""The load estimates in words: lines for the window, a table for paper."""

from __future__ import annotations

from typing import Final

from core.document.model import Shelf, WallKind
from core.drawing.measure import clean
from core.drawing.names import shelf_letters
from core.drawing.tables import Column, Table
from core.language import decimal, tr
from core.lengths import Unit, show_mass
from core.plan.model import Load, Plan
from core.strength.load import CAUTION

COLUMNS: Final = (
    Column(tr("Shelf")),
    Column(tr("Good for")),
    Column(tr("Spread"), "right"),
    Column(tr("Front edge"), "right"),
    Column(tr("Own weight"), "right"),
    Column(tr("What governs")),
    Column(tr("To raise it")),
)


def load_lines(load: Load, unit: Unit) -> tuple[str, ...]:
    """What a shelf may carry, a line for each thing."""
    lines = (
        f"{load.band[:1].upper()}{load.band[1:]}.",
        tr(
            "Spread: {spread_kg}. Front edge: {front_edge_kg}.",
            spread_kg=show_mass(load.spread_kg, unit),
            front_edge_kg=show_mass(load.front_edge_kg, unit),
        ),
        tr("Factor {factor:g}; beside its own {own_kg}.", factor=load.factor, own_kg=show_mass(load.own_kg, unit)),
        tr("Governs: {governs}.", governs=load.governs),
    )
    return (*lines, tr("To raise it: {raise_by}.", raise_by=load.raise_by)) if load.raise_by else lines


def no_load_words(shelf: Shelf | None, kind: WallKind = "timber stud") -> str:
    """Why there is no estimate."""
    if shelf is None:
        return tr("No shelf yet.")
    if shelf.mount is None:
        return tr("This shelf has no place on the wall yet, so no load is planned.")
    if kind != "timber stud":
        return tr("Fixings are planned for timber studs alone, so no load is planned.")
    return tr("No screws hold this shelf, so it carries nothing.")


def load_table(plan: Plan) -> Table:
    """One row for each shelf that has an estimate."""
    unit, letters = Unit(plan.project.units), shelf_letters(plan)
    rows = tuple(
        (
            clean(f"{letters[load.shelf]} {load.shelf}"),
            load.band,
            *(show_mass(kg, unit) for kg in (load.spread_kg, load.front_edge_kg, load.own_kg)),
            tr(load.governs),
            load.raise_by or tr("nothing found"),
        )
        for load in plan.loads
    )
    factors = ", ".join(dict.fromkeys(decimal(f"{load.factor:g}") for load in plan.loads))
    notes = (
        (
            tr(
                "By the {rules} design rules, factor {factors} taken off. {CAUTION}",
                rules=plan.project.rules,
                factors=factors,
                CAUTION=CAUTION,
            ),
        )
        if rows
        else ()
    )
    return Table("loads", tr("Load, an estimate"), COLUMNS, rows, tuple(load.shelf for load in plan.loads), notes)
