"""What parts and sheets are called on drawings and in tables, and where their numbers come from."""

from __future__ import annotations

from functools import lru_cache

from core.document.model import Sheet
from core.drawing.measure import clean
from core.geometry.net import Net
from core.geometry.seam import SQUARE_CORNER, SeamSection, seam_section
from core.language import tr
from core.lengths import Rounding, Unit, show_length
from core.plan.model import Plan, StockSheet


def letter(index: int) -> str:
    """A, B ... Z, AA, AB ... for 0, 1 ..."""
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def shelf_letters(plan: Plan) -> dict[str, str]:
    """The letter of each shelf by its id, in the project's order. Shared: never change it."""
    return _letters(tuple(shelf.id for shelf in plan.project.shelves))


@lru_cache(maxsize=4)
def _letters(shelves: tuple[str, ...]) -> dict[str, str]:
    return {shelf: letter(i) for i, shelf in enumerate(shelves)}


def part_name(part_id: str, letters: dict[str, str]) -> str:
    """A part's name for its id 'shelf/part': 'A top', 'A rib 2'."""
    shelf, _, part = part_id.partition("/")
    return clean(f"{letters.get(shelf, shelf)} {part_word(part)}".strip())


def part_word(part: str) -> str:
    """A part by its name in the plan, in the program's language: 'front', 'rib 2'."""
    name, _, number = part.rpartition(" ")
    return f"{tr(name)} {number}" if number.isdigit() else tr(part)


def of_several(name: str) -> str:
    """A name, left without its number, of several: 'A ribs' for 'A rib'."""
    one = tr("rib")
    return f"{name.removesuffix(one)}{tr('ribs')}" if name.endswith(one) else name


def piece_names(plan: Plan) -> dict[str, str]:
    """What each piece that is used is called, by its id."""
    letters = shelf_letters(plan)
    names = {p.piece: part_name(p.id, letters) for p in plan.panels if p.piece}
    names |= {p.piece: part_name(p.id, letters) for f in plan.frames for p in f.parts if p.piece}
    return names | {o.piece: tr("offcut") for o in plan.offcuts}


def shapes_by_shelf(plan: Plan) -> dict[str, Net]:
    """The net of each shelf by the shelf's id."""
    return {net.owner: net for net in plan.shapes}


def find_sheet(plan: Plan, sheet_id: str) -> StockSheet:
    """A sheet of the job, or a stock sheet that none was taken from; KeyError where there is no such id."""
    for used in plan.sheets:
        if used.id == sheet_id:
            return used
    for stock in plan.project.sheets:
        if stock.id == sheet_id:
            return unused_sheet(stock)
    raise KeyError(f"no sheet {sheet_id}")


def unused_sheet(stock: Sheet) -> StockSheet:
    """A sheet that nothing is cut from."""
    size = (stock.length, stock.width, stock.thickness)
    return StockSheet(stock.id, stock.id, *size, 0.0, stock, stock.keep_clear, stock.photos)


def shelf_thickness(plan: Plan, shelf_id: str) -> float:
    """Thickness of the sheet a shelf is cut from; where it has no place, of the first it may come from. [mm]"""
    used = {p.sheet for p in plan.panels if p.shelf == shelf_id}
    for sheet in plan.sheets:
        if sheet.id in used:
            return sheet.thickness
    wanted = next((s.sheet for s in plan.project.shelves if s.id == shelf_id), None)
    sheets = plan.project.sheets
    named = [s for s in sheets if s.id == wanted] or [s for s in sheets if s.use != "frame"] or sheets
    return named[0].thickness


def section_of(plan: Plan, thickness: float, corner: float = SQUARE_CORNER) -> SeamSection:
    """The seam section of the project's saw at one thickness."""
    saw = plan.project.saw
    return seam_section(thickness, saw.kerf, saw.overcut, saw.allowance, plan.project.glue_line, corner)


def size_text(a: float, b: float, unit: Unit, *, rounding: Rounding = "nearest", marks: bool = False) -> str:
    """Two lengths as one text: 95" × 21", 2413 × 533.4 mm."""
    first = show_length(a, unit, marks=marks, rounding=rounding, unit_mark=unit is Unit.INCH)
    return f"{first} × {show_length(b, unit, marks=marks, rounding=rounding)}"
