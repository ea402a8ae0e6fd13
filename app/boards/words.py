"""What the window says of a plan as a whole. No Qt here."""

from __future__ import annotations

from typing import Final

from core.drawing.names import part_name, shelf_letters, size_text
from core.language import tr
from core.lengths import Unit
from core.plan.model import Offcut, Plan

# Tools of more than one board: name, words, tip.
TURN: Final = (
    "turn",
    tr("Turn"),
    tr("Turn the net end for end where it lies: another figure lands on each face (Ctrl+T)."),
)
SWAP: Final = ("swap", tr("Swap"), tr("Two nets swap their places (Ctrl+Shift+T)."))


def calm(plan: Plan) -> str:
    """What to say when nothing stands in the way: what comes out, and what was checked."""
    shelves, sheets, cuts = len(plan.project.shelves), len(plan.sheets), len(plan.cuts)
    if not shelves:
        return tr("Nothing to cut yet: add a shelf.")
    what = {1: tr("The shelf comes"), 2: tr("Both shelves come")}.get(
        shelves, tr("All {shelves} shelves come", shelves=shelves)
    )
    return tr(
        "{what} from {counted} in {counted2}. Checked: room on the sheet, tilt and reach of the "
        "saw, room for the frame.",
        what=what,
        counted=counted(sheets, "sheet"),
        counted2=counted(cuts, "cut"),
    )


def counted(number: int, word: str) -> str:
    """`1 sheet`, `3 sheets`."""
    return f"{number} {tr(word if number == 1 else f'{word}s')}"


def largest_offcut(plan: Plan, sheet: str) -> Offcut | None:
    """The largest piece worth keeping of a sheet."""
    found = [offcut for offcut in plan.offcuts if offcut.sheet == sheet]
    return max(found, key=lambda offcut: offcut.length * offcut.width, default=None)


def left_over(plan: Plan, sheet: str, unit: Unit) -> str:
    """`left over: 95" × 21"`; '' for nothing worth keeping. Rounded down: so much there is for certain."""
    offcut = largest_offcut(plan, sheet)
    return (
        tr("left over: {size_text}", size_text=size_text(offcut.length, offcut.width, unit, rounding="down"))
        if offcut
        else ""
    )


def subject_of(plan: Plan, about: str) -> str:
    """What a finding is about, in words: `Shelf A`, `A rib 8`, `Sheet oak1`; '' for the whole job."""
    letters = shelf_letters(plan)
    if about.partition("/")[0] in letters:
        return part_name(about, letters) if "/" in about else tr("Shelf {letters}", letters=letters[about])
    return tr("Sheet {about}", about=about) if about else ""
