"""The plan while a hand moves: nets, panels, seams, frames and what they say are the project's own; the rest waits.

Cutting up the sheets is most of a plan, and what falls off jumps about with every millimetre. So while the hand moves,
cuts, loads, frame parts' places and what is left over stay as they were in the last whole plan, less what a panel
has come to lie on. When the hand pauses, the plan is made whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from operator import is_

import msgspec

from core.document.model import APART, Project
from core.findings.areas import area_findings
from core.findings.room import room_findings
from core.findings.saw import saw_findings
from core.layout.model import FIT, Layout, Rect, trimmed
from core.layout.names import sheet_names
from core.plan.make import by_severity, frames_for, settled, shapes_of
from core.plan.model import Finding, Frame, FramePart, Leftover, Offcut, Panel, Plan
from core.plan.results import overruns_of, placed_nets
from core.plan.shapes import Place, panels_of, seams_of
from core.wall.findings import wall_findings

# What is said of cuts and loads; like these it waits.
WAITING = frozenset({"guide-short", "narrow", "fence-travel", "trapped", "load", "overhang"})


def moving_plan(project: Project, layout: Layout, whole: Plan) -> Plan | None:
    """The plan of a project as far as it is known at once, its nets where a layout has them.

    layout: as `core.layout.hold` gives it. whole: the last whole plan of nearly the same project.
    None where too much is different: then only a whole plan will do.
    """
    if not _is_near(project, layout, whole):
        return None
    shapes = settled(project, shapes_of(project), layout)
    names = sheet_names(project.sheets, layout.stocks)
    if {names[spot.sheet] for spot in layout.spots} != {net.sheet for net in whole.nets}:
        return None
    used = {sheet.id for sheet in whole.sheets}
    shelves = shapes[: len(project.shelves)]
    drafts, findings = frames_for(project, shelves)
    findings += wall_findings(project, shelves, drafts)
    findings += saw_findings(project, shapes)
    findings += room_findings(project, shapes, layout, ())
    findings += area_findings(project, shapes, layout)
    findings += [finding for finding in whole.findings if _waits(finding)]
    places: dict[int, dict[str | None, Place]] = {shape.index: {} for shape in shelves}
    for spot in layout.spots:
        shape = shapes[spot.index]
        places[shape.shelf_index][shape.role] = Place(names[spot.sheet], spot.x, spot.y, {})
    panels = tuple(panel for shape in shelves for panel in panels_of(shape, places[shape.index]))
    taken = _Taken(project, whole, panels)
    offcuts, leftovers = taken.left()
    return msgspec.structs.replace(
        whole,
        project=project,
        nets=placed_nets(shapes, layout, names),
        panels=panels,
        seams=tuple(seam for shape in shelves for seam in seams_of(shape)),
        frames=tuple(taken.frame(draft) for draft in drafts if draft is not None),
        offcuts=offcuts,
        leftovers=leftovers,
        findings=by_severity(msgspec.structs.replace(finding, fixes=()) for finding in findings),
        overruns=overruns_of(shapes, layout, names, used),
        shapes=tuple(shape.tree for shape in shelves),
        layout=layout,
        proof=None,
        whole=whole,
    )


def _is_near(project: Project, layout: Layout, whole: Plan) -> bool:
    """Are sheets, saw and shelves those of the whole plan, a size or a place apart?"""
    before = whole.project
    return (
        layout.stocks == whole.layout.stocks
        and project.sheets == before.sheets
        and project.saw == before.saw
        and project.frame == before.frame
        and project.units == before.units
        and [(s.id, s.apart) for s in project.shelves] == [(s.id, s.apart) for s in before.shelves]
    )


def _waits(finding: Finding) -> bool:
    part = finding.about.partition("/")[2]
    return finding.code in WAITING or (finding.code == "no-room" and part not in ("", *APART))


class _Taken:
    """What lies where panels have come to lie."""

    def __init__(self, project: Project, whole: Plan, panels: Iterable[Panel]) -> None:
        self._whole = whole
        self._frames = {frame.shelf: frame for frame in whole.frames}
        self._trimmed = {sheet.id: trimmed(sheet.source) for sheet in whole.sheets}
        kerf = project.saw.kerf
        before = {panel.id: (panel.sheet, panel.x, panel.y, panel.show) for panel in whole.panels}
        self._moved: dict[str, list[Rect]] = {}
        for panel in panels:
            x, y, sheet = panel.x, panel.y, panel.sheet
            if x is None or y is None or sheet is None or before.get(panel.id) == (sheet, x, y, panel.show):
                continue
            box = (x - kerf, y - kerf, x + panel.show[0] + kerf, y + panel.show[1] + kerf)
            self._moved.setdefault(sheet, []).append(box)

    def _is_free(self, sheet: str, box: Rect) -> bool:
        return not any(_overlap(box, moved) for moved in self._moved.get(sheet, ()))

    def left(self) -> tuple[tuple[Offcut, ...], tuple[Leftover, ...]]:
        """What is left over; offcuts a panel has come to lie on are nothing to be counted on."""
        kept: list[Offcut] = []
        lost: list[Leftover] = []
        for offcut in self._whole.offcuts:
            box = (offcut.x, offcut.y, offcut.x + offcut.length, offcut.y + offcut.width)
            if self._is_free(offcut.sheet, box):
                kept.append(offcut)
            else:
                lost.append(Leftover(offcut.sheet, offcut.piece, box))
        if not lost:
            return self._whole.offcuts, self._whole.leftovers
        return tuple(kept), (*self._whole.leftovers, *lost)

    def frame(self, draft: Frame) -> Frame:
        """A frame, those of its parts in their place that still have it for themselves."""
        before = self._frames.get(draft.shelf)
        if before is None:
            return draft
        parts = tuple(self._parts(draft.parts, before.parts))
        if len(parts) == len(before.parts) and all(map(is_, parts, before.parts)):
            parts = before.parts
        return msgspec.structs.replace(draft, parts=parts)

    def _parts(self, parts: Sequence[FramePart], before: Sequence[FramePart]) -> Iterator[FramePart]:
        known = {part.id: part for part in before}
        for part in parts:
            old = known.get(part.id)
            if old is None or old.x is None or old.y is None or old.sheet is None:
                yield part
                continue
            box = (old.x, old.y, old.x + part.length, old.y + part.width)
            grown = part.length > old.length + FIT or part.width > old.width + FIT
            if not self._is_free(old.sheet, box) or (grown and not self._has_room(old, box)):
                yield part
            elif part.length == old.length and part.width == old.width and part.thickness == old.thickness:
                yield old
            else:
                yield msgspec.structs.replace(part, sheet=old.sheet, piece=old.piece, x=old.x, y=old.y)

    def _has_room(self, old: FramePart, box: Rect) -> bool:
        """May a part that has grown be shown where it was?"""
        room = self._trimmed[old.sheet or ""]
        if box[2] > room[2] + FIT or box[3] > room[3] + FIT:
            return False
        others: list[Rect] = []
        for panel in self._whole.panels_on(old.sheet or ""):
            if panel.x is not None and panel.y is not None:
                others.append((panel.x, panel.y, panel.x + panel.show[0], panel.y + panel.show[1]))
        for part in self._whole.parts_on(old.sheet or ""):
            if part.id != old.id and part.x is not None and part.y is not None:
                others.append((part.x, part.y, part.x + part.length, part.y + part.width))
        return not any(_overlap(box, other) for other in others)


def _overlap(one: Rect, other: Rect) -> bool:
    return one[0] < other[2] - FIT and other[0] < one[2] - FIT and one[1] < other[3] - FIT and other[1] < one[3] - FIT
