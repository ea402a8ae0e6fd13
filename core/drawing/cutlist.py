"""The cut list: every panel and every part of the frames, with the sizes to saw."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.drawing.measure import clean
from core.drawing.names import part_name, shelf_letters
from core.drawing.tables import Column, Table
from core.geometry.net import EDGES, EdgeName
from core.language import tr
from core.lengths import Unit, show_angle, show_length, show_thickness
from core.plan.model import FramePart, Panel, Plan

COLUMNS = (
    Column(tr("Part")),
    Column(tr("With the grain"), "right"),
    Column(tr("Across"), "right"),
    Column(tr("Inside, with the grain"), "right"),
    Column(tr("Inside, across"), "right"),
    Column(tr("Thick"), "right"),
    Column(tr("Bevelled edges")),
    Column(tr("Sheet")),
    Column(tr("Piece")),
    Column(tr("Cut"), "tick"),
)
NOWHERE = tr("no room")
_EDGES: Final[dict[EdgeName, str]] = {
    "low_x": tr("left"),
    "high_x": tr("right"),
    "low_y": tr("lower"),
    "high_y": tr("upper"),
}


def cut_list_table(plan: Plan) -> Table:
    """One row for each panel and frame part, shelf by shelf in the project's order."""
    unit, letters = Unit(plan.project.units), shelf_letters(plan)
    rows: list[tuple[str, ...]] = []
    abouts: list[str] = []
    for shelf in plan.project.shelves:
        for about, row in _shelf_rows(plan, shelf.id, unit, letters):
            rows.append(row)
            abouts.append(about)
    names = tuple(tr("{letters} is {clean}", letters=letters[s.id], clean=clean(s.id)) for s in plan.project.shelves)
    notes = (
        tr(
            "Sizes of panels are of the show face, toe to toe. Edges are named as seen from the show "
            "face, grain running left to right, top of the shelf up."
        ),
        tr("Measure the real cavity before the frame is cut: its sizes are provisional until then."),
    )
    legend = (tr("Shelves: {join}.", join=", ".join(names)),) if names else ()
    return Table("cut list", tr("Cut list"), COLUMNS, tuple(rows), tuple(abouts), (*legend, *notes))


def _shelf_rows(plan: Plan, shelf: str, unit: Unit, letters: dict[str, str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    for panel in plan.panels:
        if panel.shelf == shelf:
            yield panel.id, _panel_row(panel, unit, letters)
    for frame in plan.frames:
        if frame.shelf == shelf:
            for part in frame.parts:
                yield part.id, _part_row(part, unit, letters)


def _panel_row(panel: Panel, unit: Unit, letters: dict[str, str]) -> tuple[str, ...]:
    sizes = [show_length(mm, unit) for mm in (*panel.show, *panel.inside)]
    return (
        part_name(panel.id, letters),
        *sizes,
        show_thickness(panel.thickness, unit),
        _bevels(panel),
        clean(panel.sheet or NOWHERE),
        clean(panel.piece or ""),
        "",
    )


def _bevels(panel: Panel) -> str:
    """Like 'left, right, lower 45.5°'."""
    edges = [_EDGES[edge] for edge in EDGES if panel.bevel_of(edge)]
    tilts = {show_angle(tilt) for tilt in panel.bevels.values() if tilt}
    return f"{', '.join(edges)} {' / '.join(sorted(tilts))}" if edges else tr("none")


def _part_row(part: FramePart, unit: Unit, letters: dict[str, str]) -> tuple[str, ...]:
    return (
        part_name(part.id, letters),
        show_length(part.length, unit),
        show_length(part.width, unit),
        "",
        "",
        show_thickness(part.thickness, unit),
        tr("none"),
        clean(part.sheet or NOWHERE),
        clean(part.piece or ""),
        "",
    )
