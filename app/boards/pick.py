"""What lies at a place of a sheet, and where a thing lies: by the plan's own numbers. No Qt here."""

from __future__ import annotations

from collections.abc import Iterator

from core.plan.model import Plan

Box = tuple[float, float, float, float]  # x0, y0, x1, y1 [mm]


def thing_at(plan: Plan, sheet: str, x: float, y: float, reach: float = 0.0) -> str:
    """Id of what lies at (x, y) on a sheet: seam, panel, part, offcut or shelf; '' for none.

    reach: how near counts as on a seam, which is a line to the hand. [mm]
    """
    hits = [(area, about) for about, box in seam_boxes(plan, sheet) if (area := _hit(box, x, y, reach)) is not None]
    if hits:
        return min(hits)[1]
    for about, box in _solid_boxes(plan, sheet):
        if _hit(box, x, y, 0.0) is not None:
            return about
    return ""


def boxes_of(plan: Plan, sheet: str, about: str) -> tuple[Box, ...]:
    """Where the thing with this id lies on a sheet: a shelf's panels, or the one box of anything else."""
    if not about:
        return ()
    found = [box for name, box in seam_boxes(plan, sheet) if name == about]
    found += [box for name, box in _solid_boxes(plan, sheet) if name == about or name.startswith(f"{about}/")]
    return tuple(dict.fromkeys(found))


def seam_box(plan: Plan, sheet: str, about: str) -> tuple[Box, ...]:
    """Where the V of the seam with this id lies on a sheet; empty for anything else."""
    if "-" not in about:
        return ()
    return tuple(box for name, box in seam_boxes(plan, sheet) if name == about)


def sheet_of(plan: Plan, about: str) -> str:
    """Id of the sheet a thing lies on, '' for none."""
    for sheet in plan.sheets:
        if about == sheet.id or boxes_of(plan, sheet.id, about):
            return sheet.id
    for over in plan.overruns:
        if about.partition("/")[0] == over.shelf:
            return over.sheet
    return ""


def seam_boxes(plan: Plan, sheet: str) -> Iterator[tuple[str, Box]]:
    """Every seam that has a V on this sheet, with the strip of show face that is lost there."""
    panels = {panel.id: panel for panel in plan.panels if panel.sheet == sheet}
    for seam in plan.seams:
        if seam.show_loss is None:
            continue
        first, second = panels.get(seam.between[0]), panels.get(seam.between[1])
        if first is None or second is None or first.x is None or second.x is None:
            continue
        if first.y is None or second.y is None:
            continue
        a = (first.x, first.y, first.x + first.show[0], first.y + first.show[1])
        b = (second.x, second.y, second.x + second.show[0], second.y + second.show[1])
        yield seam.id, _between(a, b)


def _between(a: Box, b: Box) -> Box:
    """The gap between two boxes that lie beside or above each other."""
    if min(a[2], b[2]) - max(a[0], b[0]) > min(a[3], b[3]) - max(a[1], b[1]):  # one above the other
        low, high = (a, b) if a[1] < b[1] else (b, a)
        return (max(a[0], b[0]), low[3], min(a[2], b[2]), high[1])
    left, right = (a, b) if a[0] < b[0] else (b, a)
    return (left[2], max(a[1], b[1]), right[0], min(a[3], b[3]))


def _solid_boxes(plan: Plan, sheet: str) -> Iterator[tuple[str, Box]]:
    for panel in plan.panels_on(sheet):
        if panel.x is not None and panel.y is not None:
            yield panel.id, (panel.x, panel.y, panel.x + panel.show[0], panel.y + panel.show[1])
    for part in plan.parts_on(sheet):
        if part.x is not None and part.y is not None:
            yield part.id, (part.x, part.y, part.x + part.length, part.y + part.width)
    for offcut in plan.offcuts:
        if offcut.sheet == sheet:
            yield offcut.piece, (offcut.x, offcut.y, offcut.x + offcut.length, offcut.y + offcut.width)
    for over in plan.overruns:
        if over.sheet == sheet:
            yield over.shelf, (over.x, over.y, over.x + over.length, over.y + over.width)


def _hit(box: Box, x: float, y: float, reach: float) -> float | None:
    """The box's area where (x, y) is in it or within reach, else None."""
    x0, y0, x1, y1 = box
    if x0 - reach <= x <= x1 + reach and y0 - reach <= y <= y1 + reach:
        return (x1 - x0) * (y1 - y0)
    return None
