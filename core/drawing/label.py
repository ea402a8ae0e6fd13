"""A label for one part: its name, seam letters at their edges, which way is up, which way the grain runs. True size."""

from __future__ import annotations

from typing import Final

import msgspec

from core.drawing.measure import shorten
from core.drawing.model import Area, Drawing, Item, Line, Sign, Text
from core.drawing.names import part_name, shelf_letters, size_text
from core.drawing.panels import rectangle
from core.geometry.net import EDGES, EdgeName, upright
from core.language import tr
from core.lengths import Unit
from core.plan.model import Plan

SKETCH: Final = (0.34, 0.58)  # shares of the label's width and height that the part's sketch takes
PAD: Final = 3.0  # mm
UP: Final = (((0.0, -5.0), (0.0, 5.0)), ((-3.0, 1.0), (0.0, 5.0), (3.0, 1.0)))  # points
GRAIN: Final = (
    ((-9.0, 0.0), (9.0, 0.0)),
    ((-6.0, 2.5), (-9.0, 0.0), (-6.0, -2.5)),
    ((6.0, 2.5), (9.0, 0.0), (6.0, -2.5)),
)
POINT: Final = 25.4 / 72.0  # mm


class Label(msgspec.Struct, frozen=True):
    """What stands on one label. letters: of the seams by edge; panel: False for a stick of a frame."""

    name: str
    size: str
    letters: dict[EdgeName, str]
    panel: bool


def labels_of(plan: Plan) -> tuple[Label, ...]:
    """One label for each panel and each part of a frame, shelf by shelf."""
    unit, names = Unit(plan.project.units), shelf_letters(plan)
    edges: dict[str, dict[EdgeName, str]] = {}
    seams = {seam.id: seam.letter for seam in plan.seams}
    for net in map(upright, plan.shapes):
        for joint in net.joints:
            for role, edge in zip(joint.panels, joint.edges, strict=True):
                edges.setdefault(f"{net.owner}/{role}", {})[edge] = seams.get(f"{net.owner}/{joint.name}", "")
    frames = {frame.shelf: frame for frame in plan.frames}
    found: list[Label] = []
    for shelf in plan.project.shelves:
        for panel in plan.panels:
            if panel.shelf == shelf.id:
                size = size_text(*panel.show, unit)
                found.append(Label(part_name(panel.id, names), size, edges.get(panel.id, {}), True))
        if shelf.id in frames:
            for part in frames[shelf.id].parts:
                found.append(Label(part_name(part.id, names), size_text(part.length, part.width, unit), {}, False))
    return tuple(found)


def draw_label(label: Label, width: float, height: float) -> Drawing:
    """The label in a field of that size. [mm]"""
    items: list[Item] = []
    wide, high = SKETCH[0] * width if label.panel else 0.0, SKETCH[1] * height
    room = (width - wide - 3.0 * PAD) / POINT
    name, size = shorten(label.name, 12.0, room, strong=True), shorten(label.size, 9.0, room)
    middle = height / 2.0
    items.append(Text("label", (PAD, middle), name, 12.0, shift=(0.0, 9.0)))
    items.append(Text("note", (PAD, middle), size, 9.0, shift=(0.0, -5.0)))
    if label.panel:
        box = (width - PAD - wide, middle - high / 2.0, width - PAD, middle + high / 2.0)
        items += _sketch(label, box)
    else:
        items.append(Text("note", (PAD, middle), tr("frame, hidden"), 9.0, shift=(0.0, -16.0)))
    return Drawing(f"label {label.name}", label.name, (0.0, 0.0, width, height), tuple(items))


def _sketch(label: Label, box: tuple[float, float, float, float]) -> list[Item]:
    """A panel's outline with letters inside its edges; an edge that meets none, the back, is a thick line."""
    x0, y0, x1, y1 = box
    corners = rectangle(box)
    sides = {"low_y": (0, 1), "high_x": (1, 2), "high_y": (2, 3), "low_x": (3, 0)}
    middle = ((x0 + x1) / 2.0, (y0 + y1) / 2.0)
    places: dict[EdgeName, tuple[tuple[float, float], tuple[float, float]]] = {
        "low_x": ((x0, middle[1]), (7.0, 0.0)),
        "high_x": ((x1, middle[1]), (-7.0, 0.0)),
        "low_y": ((middle[0], y0), (0.0, 7.0)),
        "high_y": ((middle[0], y1), (0.0, -7.0)),
    }
    items: list[Item] = [Area("panel", corners)]
    for edge in EDGES:
        if edge in label.letters:
            at, shift = places[edge]
            items.append(Text("label", at, label.letters[edge], 9.0, "middle", shift=shift))
        else:
            start, end = sides[edge]
            items.append(Line("now", (corners[start], corners[end])))
    items.append(Sign("mark", (x0 + 0.26 * (x1 - x0), middle[1]), UP))
    items.append(Sign("grain", (x0 + 0.6 * (x1 - x0), middle[1]), GRAIN))
    return items
