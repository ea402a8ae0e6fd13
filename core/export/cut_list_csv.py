"""The cut list as a CSV file (RFC 4180): one row for each panel and each frame part.

Lengths stand twice: in millimetres as numbers, and as a maker reads them in the project's unit. The
latter keep their unit mark: a spreadsheet takes a bare 3/16 for the sixteenth of March.
"""

from __future__ import annotations

import csv
import io
import itertools
from collections.abc import Iterator, Sequence

from core.geometry.net import EDGES
from core.lengths import Unit, show_length, show_thickness
from core.plan.model import FramePart, Panel, Plan

SIZES = ("length", "width", "inside length", "inside width", "thickness")
COLUMNS = (
    "shelf",
    "part",
    "count",
    "sheet",
    "piece",
    *(f"{size} (mm)" for size in SIZES),
    "bevel at left edge (degrees)",
    "bevel at right edge (degrees)",
    "bevel at lower edge (degrees)",
    "bevel at upper edge (degrees)",
    "grain",
)
# What makes a spreadsheet take a text for a formula, the full-width forms too.
_FORMULA = tuple("=+-@＝＋－＠")

Cell = str | int | float


def csv_bytes(plan: Plan) -> bytes:
    """The cut list in UTF-8."""
    return cut_list(plan).encode()


def cut_list(plan: Plan) -> str:
    """The cut list; edges are named as seen from the show face, the grain left to right, the shelf's top up.

    Length is along the grain for panels, along the stick for frame parts. Sizes are of the show face and, for
    panels, of the inside face. Sheet and piece are empty for what found no place.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    unit = Unit(plan.project.units)
    writer.writerow([*COLUMNS, *(f"{size} to read ({unit})" for size in SIZES)])
    for row in _rows(plan, unit):
        writer.writerow([_safe(cell) if isinstance(cell, str) else cell for cell in row])
    return text.getvalue()


def _rows(plan: Plan, unit: Unit) -> Iterator[list[Cell]]:
    """Shelf by shelf, panels first."""
    rows: dict[str, list[list[Cell]]] = {shelf.id: [] for shelf in plan.project.shelves}
    for panel in plan.panels:
        rows[panel.shelf].append(_panel_row(panel, unit))
    for frame in plan.frames:
        rows[frame.shelf].extend(_part_row(frame.shelf, part, unit) for part in frame.parts)
    return itertools.chain.from_iterable(rows.values())


def _panel_row(panel: Panel, unit: Unit) -> list[Cell]:
    sizes = (*panel.show, *panel.inside, panel.thickness)
    bevels = [_number(panel.bevel_of(edge)) for edge in EDGES]
    begin: list[Cell] = [panel.shelf, panel.role, 1, panel.sheet or "", panel.piece or ""]
    return [*begin, *map(_number, sizes), *bevels, "along the length", *_shown(sizes, unit)]


def _part_row(shelf: str, part: FramePart, unit: Unit) -> list[Cell]:
    sizes = (part.length, part.width, None, None, part.thickness)
    begin: list[Cell] = [shelf, part.id.removeprefix(f"{shelf}/"), 1, part.sheet or "", part.piece or ""]
    return [*begin, *map(_number, sizes), *[0] * len(EDGES), "either way", *_shown(sizes, unit)]


def _number(value: float | None) -> Cell:
    """To 0.1 µm (or as fine a part of a degree), whole numbers without a point, "" for none."""
    if value is None:
        return ""
    rounded = round(value, 4)
    return int(rounded) if rounded.is_integer() else rounded


def _shown(sizes: Sequence[float | None], unit: Unit) -> list[str]:
    """Lengths as a maker reads them, in plain ASCII: spreadsheets guess the coding of a file.

    The last of `sizes` is a thickness, the others are lengths.
    """
    *lengths, thickness = sizes
    texts = ["" if mm is None else show_length(mm, unit) for mm in lengths]
    texts.append("" if thickness is None else show_thickness(thickness, unit))
    return [text.replace("−", "-") for text in texts]


def _safe(text: str) -> str:
    """A text that no spreadsheet takes for a formula: an apostrophe is put before one that might be."""
    return "'" + text if text.lstrip().startswith(_FORMULA) else text
