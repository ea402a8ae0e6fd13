"""The sheet drawing: what is cut from one sheet and where, seen from the show face."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from core.drawing.clear import area_items, words_room
from core.drawing.measure import clean, text_width
from core.drawing.model import Area, Box, Drawing, Item, Line, Ordinates, Sign, Text
from core.drawing.names import (
    find_sheet,
    part_name,
    section_of,
    shapes_by_shelf,
    shelf_letters,
    size_text,
)
from core.drawing.offcuts import spare_marks
from core.drawing.ordinates import reach
from core.drawing.overrun import overrun_box, overrun_items
from core.drawing.panels import NO_SIZE, panel_faces, panel_marks, rectangle
from core.drawing.toes import sheet_ordinates
from core.geometry.net import Net
from core.geometry.parts import part_of
from core.kept import Kept
from core.language import tr
from core.lengths import Unit, show_thickness
from core.plan.model import Overrun, Panel, PlacedNet, Plan, Seam, StockSheet
from core.steps.marks import net_ticks, tick_lines

REMEMBERED: Final = 64  # shelves
NOTE_GAP: Final = 10.0  # from the drawing to the row of notes over it [points]
WORDS_OVER: Final = 16.0  # height of the words that say what is too wide
ARROW: Final = 46.0  # length of the grain arrow [points]
FACE_MARK: Final = (((-5.0, -10.0), (0.0, -1.0), (5.0, -10.0)),)  # its point on the trued edge
END_MARK: Final = (((10.0, -5.0), (1.0, 0.0), (10.0, 5.0)),)


def draw_sheet(plan: Plan, sheet_id: str) -> Drawing:
    """The drawing of one sheet, by the id of a sheet of the job, or of a stock sheet none was taken from.

    Raises KeyError where there is no such sheet.
    """
    sheet = find_sheet(plan, sheet_id)
    unit = Unit(plan.project.units)
    letters = shelf_letters(plan)
    panels = [p for p in plan.panels_on(sheet.id) if p.x is not None]
    overruns = overruns_on(plan, sheet)
    ordinates = sheet_ordinates(sheet, panels, unit)
    items: list[Item] = [
        Area("sheet", rectangle((0.0, 0.0, sheet.length, sheet.width)), sheet.id),
        *area_items(sheet),
        *_left_over(plan, sheet, unit, overruns),
        *_frame_parts(plan, sheet, letters),
    ]
    runs: list[tuple[str, int, int]] = []
    for shelf, shell in _shells(plan, sheet, panels, letters, unit):
        runs.append((shelf, len(items), len(items) + len(shell)))
        items += shell
    items += (*_datum(sheet), *ordinates, *(() if overruns else _spares(plan, sheet)))
    box = (0.0, 0.0, sheet.length, sheet.width)
    if overruns:
        worst = max(overruns, key=lambda o: max(o.over_x, o.over_y))
        tree = shapes_by_shelf(plan).get(worst.shelf)
        shape = part_of(tree, worst.panel) if tree is not None else None
        items += overrun_items(worst, shape, sheet, letters, unit, (_beyond(ordinates, "y"), _beyond(ordinates, "x")))
        box = overrun_box(worst, sheet)
    items += _notes(sheet, ordinates, box, overruns)
    return Drawing(f"sheet {sheet.id}", sheet_title(sheet, unit), box, tuple(items), tuple(runs))


def sheet_title(sheet: StockSheet, unit: Unit) -> str:
    """Like 'Sheet A1, 96" × 48", 0.717" thick'."""
    size = size_text(sheet.length, sheet.width, unit)
    return tr(
        "Sheet {clean}, {size}, {thickness} thick",
        clean=clean(sheet.id),
        size=size,
        thickness=show_thickness(sheet.thickness, unit),
    )


def overruns_on(plan: Plan, sheet: StockSheet) -> list[Overrun]:
    """The overruns drawn on a sheet: those of its stock are drawn on the first copy."""
    first = next((s.id for s in plan.sheets if s.stock == sheet.stock), sheet.id)
    return [o for o in plan.overruns if o.sheet == sheet.id or (o.sheet == sheet.stock and first == sheet.id)]


def _left_over(plan: Plan, sheet: StockSheet, unit: Unit, overruns: list[Overrun]) -> Iterator[Item]:
    kept = {o.piece for o in plan.offcuts}
    for left in plan.leftovers:
        x0, y0, x1, y1 = left.box
        if left.sheet == sheet.id and left.piece not in kept and min(x1 - x0, y1 - y0) > NO_SIZE:
            yield Area("waste", rectangle(left.box), left.piece)
    for offcut in plan.offcuts:
        if offcut.sheet == sheet.id:
            x, y, length, width = offcut.x, offcut.y, offcut.length, offcut.width
            box = (x, y, x + length, y + width)
            yield Area("offcut", rectangle(box), offcut.piece)
            if any(
                o.x < box[2] and box[0] < o.x + o.length and o.y < box[3] and box[1] < o.y + o.width for o in overruns
            ):
                continue  # something that does not fit is drawn here: its words come first
            size = size_text(length, width, unit, rounding="down")
            room = words_room(box, sheet)
            yield Text(
                "offcut",
                ((room[0] + room[2]) / 2.0, (room[1] + room[3]) / 2.0),
                tr("left over: {size}", size=size),
                9.0,
                "middle",
                room=room,
                about=offcut.piece,
                short=size,
                clear=True,
            )


def _frame_parts(plan: Plan, sheet: StockSheet, letters: dict[str, str]) -> Iterator[Item]:
    for part in plan.parts_on(sheet.id):
        if part.x is None or part.y is None:
            continue
        box = (part.x, part.y, part.x + part.length, part.y + part.width)
        yield Area("frame", rectangle(box), part.id)
        yield Text(
            "frame",
            ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0),
            part_name(part.id, letters),
            9.0,
            "middle",
            room=box,
            about=part.id,
            short=letters.get(part.id.partition("/")[0], ""),
            clear=True,
        )


def _shells(
    plan: Plan, sheet: StockSheet, panels: list[Panel], letters: dict[str, str], unit: Unit
) -> Iterator[tuple[str, Shell]]:
    """What is drawn of each shelf's net, and of its panels cut apart."""
    setback = section_of(plan, sheet.thickness).setback
    shapes = shapes_by_shelf(plan)
    seams: dict[str, list[Seam]] = {}
    for seam in plan.seams:
        seams.setdefault(seam.shelf, []).append(seam)
    nets: dict[str, list[PlacedNet]] = {}
    for net in plan.nets:
        if net.sheet == sheet.id:
            nets.setdefault(net.shelf, []).append(net)
    shelves: dict[str, list[Panel]] = {}
    for panel in panels:
        shelves.setdefault(panel.shelf, []).append(panel)
    for shelf, roles in shelves.items():
        letter, here, about = letters.get(shelf, shelf), tuple(nets.get(shelf, ())), tuple(seams.get(shelf, ()))
        yield shelf, _shell(tuple(roles), shapes[shelf], setback, about, here, letter, unit)


def _spares(plan: Plan, sheet: StockSheet) -> Iterable[Item]:
    """What spares are good for; while a hand moves, those of the last whole plan that are still there."""
    whole = plan.whole
    if whole is None:
        return _SPARES.get(sheet.id, plan, lambda: tuple(spare_marks(plan, sheet)))
    there = find_sheet(whole, sheet.id)
    marks = _SPARES.get(sheet.id, whole, lambda: tuple(spare_marks(whole, there)))
    if plan.offcuts is whole.offcuts:
        return marks
    gone = {offcut.piece for offcut in whole.offcuts} - {offcut.piece for offcut in plan.offcuts}
    return tuple(mark for mark in marks if not (isinstance(mark, Text) and mark.about in gone))


Shell = tuple[Item, ...]
_SHELLS: Kept[Shell] = Kept(REMEMBERED)
_SPARES: Kept[tuple[Item, ...]] = Kept(REMEMBERED)


def _shell(
    panels: tuple[Panel, ...],
    net: Net,
    setback: float,
    seams: tuple[Seam, ...],
    placed: tuple[PlacedNet, ...],
    letter: str,
    unit: Unit,
) -> Shell:
    """Faces of one shelf and marks on them: remembered, since under a dragging hand most lie where they lay."""
    shelf, source = panels[0].shelf, (panels, net, setback, seams, placed, letter, unit)

    def draw() -> Shell:
        roles = {panel.role: panel for panel in panels}
        boxes = ((one.x, one.y, one.x + one.length, one.y + one.width) for one in placed)
        marks = panel_marks(roles, net, {seam.id: seam for seam in seams}, {shelf: letter}, unit)
        ticks = net_ticks(net, roles, {seam.id: seam.letter for seam in seams}, panels[0].sheet or "")
        nets = (Area("net", rectangle(box), shelf) for box in boxes)
        return (*panel_faces(roles, net, setback), *nets, *marks, *tick_lines(ticks))

    return _SHELLS.get((shelf, panels[0].sheet), source, draw)


def _datum(sheet: StockSheet) -> Iterator[Item]:
    """The trimmed area, and the edge (the upper one) and the end (the left one) that all numbers run from."""
    trim = sheet.source.trim
    x1, y1 = sheet.length - trim, sheet.width - trim
    if trim > 0.0:
        yield Area("trim", rectangle((trim, trim, x1, y1)), sheet.id)
    yield Line("datum", ((x1, y1), (trim, y1), (trim, trim)), sheet.id)
    yield Sign("datum", (trim + 0.96 * (x1 - trim), y1), FACE_MARK)
    yield Sign("datum", (trim, trim + 0.04 * (y1 - trim)), END_MARK)


def _beyond(ordinates: tuple[Ordinates, ...], axis: str) -> float:
    """How far numbers stand out above the sheet (axis x) or to its right (axis y). [points]"""
    return max((reach(o) for o in ordinates if o.axis == axis and o.side == "high"), default=0.0)


def _notes(sheet: StockSheet, ordinates: tuple[Ordinates, ...], box: Box, overruns: list[Overrun]) -> Iterator[Item]:
    """The row over the drawing: what numbers run from, which face is up, which way the grain runs."""
    at = (0.0, box[3])
    too_wide = any(o.over_y > 0.0 for o in overruns)
    rise = NOTE_GAP + _beyond(ordinates, "x") + (WORDS_OVER if too_wide else 0.0)
    for line, words in enumerate((tr("and upper trued edge"), tr("from trued end"))):
        yield Text("note", at, words, 9.0, "right", shift=(-12.0, rise + 7.0 + 11.0 * line))
    words = tr("show face up")
    yield Text("note", at, words, 9.0, shift=(0.0, rise))
    start = text_width(words, 9.0) + 22.0
    head = start + ARROW
    yield Sign(
        "grain",
        at,
        (
            ((start, rise), (head, rise)),
            ((head - 7.0, rise - 3.5), (head, rise), (head - 7.0, rise + 3.5)),
        ),
    )
    yield Text("grain", at, "grain", 9.0, shift=(head + 6.0, rise))
    if len(overruns) > 1:
        more = tr("{overruns} more that do not fit are not drawn", overruns=len(overruns) - 1)
        yield Text("trouble", at, more, 9.0, shift=(head + 60.0, rise))
