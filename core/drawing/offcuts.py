"""What is left of the sheets: the table of offcuts and spares, and the words on the sheet that mark the spares."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.drawing.clear import words_room
from core.drawing.measure import clean
from core.drawing.model import Item, Text
from core.drawing.names import shelf_letters
from core.drawing.tables import Column, Table
from core.language import tr
from core.layout.spares import Spare, spares
from core.lengths import Unit, show_length, show_thickness
from core.plan.model import Plan, StockSheet

COLUMNS: Final = (
    Column(tr("What")),
    Column(tr("With the grain"), "right"),
    Column(tr("Across"), "right"),
    Column(tr("Thick"), "right"),
    Column(tr("Sheet")),
    Column(tr("Piece")),
    Column(tr("Good for")),
    Column(tr("Kept"), "tick"),
)
LINE: Final = 11.0  # from an offcut's size down to what it is good for [points]
NEXT_JOB: Final = tr("the next job")
LARGE: Final = 600.0  # mm: so long a piece is for another job first, and is marked as a spare only in the table


def offcut_table(plan: Plan) -> Table:
    """One row for each offcut and each spare, the largest usable first; mere waste is not listed."""
    unit, letters, good = Unit(plan.project.units), shelf_letters(plan), {s.piece: s for s in spares(plan)}
    thick = {sheet.id: sheet.thickness for sheet in plan.sheets}
    offcuts = {o.piece for o in plan.offcuts}
    left = [(o.sheet, o.piece, o.length, o.width) for o in plan.offcuts]
    left += [(s.sheet, s.piece, s.length, s.width) for s in good.values() if s.piece not in offcuts]
    left.sort(key=lambda piece: -piece[2] * piece[3])
    rows = tuple(
        (
            "offcut" if piece in offcuts else "spare",
            *(show_length(mm, unit, rounding="down") for mm in (length, width)),
            show_thickness(thick[sheet], unit),
            clean(sheet),
            clean(piece),
            _good_for(good.get(piece), letters, max(length, width) >= LARGE),
            "",
        )
        for sheet, piece, length, width in left
    )
    ends = dict.fromkeys(shelf for spare in good.values() for shelf in spare.shelves)
    names = ", ".join(
        tr("{letters} is {clean}", letters=letters[shelf], clean=clean(shelf)) for shelf in letters if shelf in ends
    )
    notes = (
        tr("Sizes are square through, rounded down. Keep the longest, and the spares, until the shelf is on the wall."),
        tr("A spare end has the colour of its sheet; its figure does not run on from the shelf's."),
    )
    legend = (tr("Shelves: {names}.", names=names),) if names else ()
    return Table(
        "offcuts", tr("Offcuts and spares"), COLUMNS, rows, tuple(piece for _, piece, *_ in left), notes + legend
    )


def spare_marks(plan: Plan, sheet: StockSheet) -> Iterator[Item]:
    """What each small spare of a sheet is good for, below its size; whose end, where it does not make them all."""
    letters, offcuts = shelf_letters(plan), {o.piece for o in plan.offcuts}
    found = [spare for spare in spares(plan, sheet.id) if max(spare.length, spare.width) < LARGE]
    everyone = {shelf for spare in found for shelf in spare.shelves}
    for spare in found:
        room = words_room((spare.x, spare.y, spare.x + spare.length, spare.y + spare.width), sheet)
        at = ((room[0] + room[2]) / 2.0, (room[1] + room[3]) / 2.0)
        known = spare.piece in offcuts
        words = (
            tr(spare.use) if set(spare.shelves) == everyone else f"{tr(spare.use)} {_letters(spare, letters)}".rstrip()
        )
        yield Text(
            "offcut" if known else "waste",
            at,
            words,
            9.0,
            "middle",
            room=room,
            about=spare.piece,
            short=words.partition(" ")[2],
            shift=(0.0, -LINE if known else 0.0),
            clear=True,
        )


def _good_for(spare: Spare | None, letters: dict[str, str], large: bool) -> str:
    """Like 'spare end for A, B'."""
    if spare is None:
        return NEXT_JOB
    words = (
        tr("{use} for {letters}", use=spare.use, letters=_letters(spare, letters)) if spare.shelves else tr(spare.use)
    )
    return f"{NEXT_JOB}; {words}" if large else words


def _letters(spare: Spare, letters: dict[str, str]) -> str:
    return ", ".join(letters[shelf] for shelf in spare.shelves)
