"""make_plan: from a project to its plan. Pure: the same project gives the same plan."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from core.document.model import Project
from core.findings.areas import area_findings
from core.findings.guide import guide_findings
from core.findings.room import room_findings
from core.findings.saw import saw_findings
from core.frame.build import frame_of
from core.layout.bands import lay_out
from core.layout.model import Layout, Spot
from core.layout.names import sheet_names
from core.layout.proven.model import Proof
from core.layout.strips import Stick, allot
from core.plan.fixes import with_fixes, without_fixes
from core.plan.model import Finding, Frame, Plan
from core.plan.order import better_guides, in_order
from core.plan.results import cut_list, frames_cut, offcuts_of, overruns_of, placed_nets, stock_sheets, supplies_of
from core.plan.shapes import Place, Shape, apart_shape, apart_shapes, net_block, panels_of, seams_of, shape_of
from core.plan.sheets import SheetCut, cut_nets, rests_of, with_sticks
from core.sawing.steps import Guides, guides_of
from core.strength.load import load_of
from core.wall.findings import wall_findings

SEVERITIES = ("error", "warning", "note")  # the worst first
TRIES = 4  # layouts tried before frame parts that find no room are given up


def make_plan(project: Project, layout: Layout | None = None, proof: Proof | None = None) -> Plan:
    """The plan of a project.

    layout: keeps the nets where an earlier plan had them, as under a dragging hand (see `core.layout.hold`); then no
        ways out are looked for. Without it the nets are laid out anew and every fix is tried before it is offered.
    proof: the layout is one that `core.plan.least` found, with what is known of it; then fixes are tried too.
    Raises nothing for a design that cannot be built: what is wrong stands in `Plan.findings`.
    """
    if layout is not None and proof is not None:
        return with_fixes(proven_plan(project, layout, proof), best_plan)
    if layout is not None:
        return without_fixes(plan_of(project, shapes_of(project), layout))
    return with_fixes(best_plan(project), best_plan)


def proven_plan(project: Project, layout: Layout, proof: Proof) -> Plan:
    """The plan with the nets as `core.plan.least` laid them, its fixes not tried yet."""
    plan = plan_of(project, shapes_of(project), layout)
    return msgspec.structs.replace(plan, proof=proof)


def shapes_of(project: Project) -> list[Shape]:
    """The shapes of all shelves, each in the first stock it may come from, then those of panels cut apart."""
    shapes = [shape_of(project, i) for i in range(len(project.shelves))]
    return [*shapes, *apart_shapes(shapes)]


def best_plan(project: Project) -> Plan:
    """The best of the plans that the likeliest layouts give, its fixes not tried yet."""
    shapes = shapes_of(project)
    best: Plan | None = None
    for candidate in lay_out(project, [s.size for s in shapes])[:TRIES]:
        plan = plan_of(project, shapes, candidate)
        if best is None or _badness(plan) < _badness(best):
            best = plan
        if _badness(best)[:2] == (0, 0) and len(best.sheets) <= len(candidate.stocks):
            break
    assert best is not None
    return best


def _badness(plan: Plan) -> tuple[int, int, int]:
    """Shelves without room, then frame parts without room, then sheets."""
    return plan.layout.lacking, plan.homeless, len(plan.sheets)


def plan_of(project: Project, drafts: Sequence[Shape], layout: Layout) -> Plan:
    """The plan with the nets where a layout has them; its fixes are not tried yet."""
    shapes = settled(project, drafts, layout)
    spots = {spot.index: spot for spot in layout.spots}
    whole = shapes[: len(project.shelves)]
    frames, findings = frames_for(project, whole)
    loads = [
        load_of(project, shape.shelf, shape.stock.thickness, frame) for shape, frame in zip(whole, frames, strict=True)
    ]
    findings += [finding for load in loads for finding in load.findings]
    findings += wall_findings(project, whole, frames)
    sticks = [
        Stick(part.id, part.length, part.width, part.thickness)
        for shape, frame in zip(whole, frames, strict=True)
        if frame is not None and shape.index in spots
        for part in frame.parts
    ]
    guides = guides_of(project.saw)
    sheets, homeless = _cut(project, shapes, layout, sticks, guides)
    ordered = in_order([s for s in sheets if s.pieces])
    better = better_guides(ordered, guides)
    if better != guides:
        sheets, homeless = _cut(project, shapes, layout, sticks, better)
        ordered = in_order([s for s in sheets if s.pieces])
    used = [s for s in sheets if s.pieces]
    done_frames = frames_cut(frames, used)
    places = _places(shapes, layout, sheets)
    panels = [panel for shape in whole for panel in panels_of(shape, places[shape.index])]
    findings += saw_findings(project, shapes)
    findings += room_findings(project, shapes, layout, homeless)
    findings += area_findings(project, shapes, layout)
    cuts = cut_list(ordered)
    findings += guide_findings(project, shapes, used)
    offcuts, leftovers = offcuts_of(used)
    names = [s.name for s in sheets]
    return Plan(
        project=project,
        sheets=stock_sheets(sheets, panels, done_frames),
        nets=placed_nets(shapes, layout, names),
        panels=tuple(panels),
        seams=tuple(seam for shape in whole for seam in seams_of(shape)),
        frames=done_frames,
        cuts=cuts,
        offcuts=offcuts,
        leftovers=leftovers,
        loads=tuple(result.load for result in loads if result.load is not None),
        supplies=supplies_of(project, used, done_frames),
        findings=by_severity(findings),
        overruns=overruns_of(shapes, layout, names, {s.name for s in used}),
        shapes=tuple(shape.tree for shape in whole),
        layout=layout,
    )


def by_severity(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, the worst first; of those alike, a shelf off its wall comes before what follows from it."""
    return tuple(sorted(findings, key=lambda one: (SEVERITIES.index(one.severity), one.code != "off-wall")))


def settled(project: Project, drafts: Sequence[Shape], layout: Layout) -> list[Shape]:
    """The shapes in the thickness of the sheet each has found; those of `shapes_of`, where that is their first."""
    stocks = {spot.index: layout.stocks[spot.sheet] for spot in layout.spots}
    shapes: list[Shape] = []
    for draft in drafts:
        main = draft.shelf_index
        stock = stocks.get(main, draft.stock)
        if stock is draft.stock:
            shapes.append(draft)
        elif draft.role is None:
            shapes.append(shape_of(project, draft.index, stock))
        else:
            shapes.append(apart_shape(shapes[main], draft.role, draft.index))
    return shapes


def _places(shapes: Sequence[Shape], layout: Layout, sheets: Sequence[SheetCut]) -> dict[int, dict[str | None, Place]]:
    """Where each part of each shelf lies, by the shelf's index and the part's role; parts without room have none."""
    places: dict[int, dict[str | None, Place]] = {shape.index: {} for shape in shapes}
    for spot in layout.spots:
        shape, sheet = shapes[spot.index], sheets[spot.sheet]
        places[shape.shelf_index][shape.role] = Place(sheet.name, spot.x, spot.y, sheet.pieces)
    return places


def _cut(
    project: Project, shapes: Sequence[Shape], layout: Layout, sticks: Sequence[Stick], guides: Guides
) -> tuple[list[SheetCut], list[Stick]]:
    """All sheets cut up, and the sticks without room."""
    by_sheet: dict[int, list[Spot]] = {}
    for spot in layout.spots:
        by_sheet.setdefault(spot.sheet, []).append(spot)
    sheets = []
    for number, name in enumerate(sheet_names(project.sheets, layout.stocks)):
        blocks = tuple(net_block(shapes[spot.index], spot.x, spot.y) for spot in by_sheet.get(number, ()))
        sheets.append(cut_nets(name, layout.stocks[number], project.saw.kerf, guides, blocks))
    return _cut_frames(project, sheets, sticks, guides)


def frames_for(project: Project, shapes: Iterable[Shape]) -> tuple[list[Frame | None], list[Finding]]:
    """The frame of each shelf, its parts without a place, None where it can have none; and what is to be said of it."""
    frames: list[Frame | None] = []
    findings: list[Finding] = []
    for shape in shapes:
        thickness = project.frame.thickness or shape.stock.thickness
        result = frame_of(project, shape.shelf, shape.stock.thickness, thickness, shape.section)
        frames.append(result.frame)
        findings += result.findings
    return frames, findings


def _cut_frames(
    project: Project, sheets: list[SheetCut], sticks: Sequence[Stick], guides: Guides
) -> tuple[list[SheetCut], list[Stick]]:
    """Cut the frame sticks from what the shells leave, then from fresh sheets; returns the sticks without room too."""
    kerf = project.saw.kerf
    sheets = list(sheets)
    rests = [rests_of(sheet) if sheet.stock.use != "shell" else [] for sheet in sheets]
    left = allot(sticks, [rest for some in rests for rest in some], kerf)
    for stock in sorted(project.sheets, key=lambda s: s.use != "frame"):
        while left and stock.use != "shell" and sum(s.stock.id == stock.id for s in sheets) < stock.quantity:
            stocks = [*(s.stock for s in sheets), stock]
            fresh = cut_nets(sheet_names(project.sheets, stocks)[-1], stock, kerf, guides, ())
            here = rests_of(fresh)
            before = len(left)
            left = allot(left, here, kerf)
            if len(left) == before:
                break
            sheets.append(fresh)
            rests.append(here)
    return [with_sticks(sheet, some) for sheet, some in zip(sheets, rests, strict=True)], left
