"""All drawings of a plan by name.

'sheet' is all sheets, 'sheet A1' one of them; 'seam' is one seam of each kind, 'seam ledge/top-front' a certain one;
'step' is the bench at every step of sawing, 'step 7' at one of them, 'cut' and 'cut 7' their cuts in section;
'frame' is the frame of every shelf from above and its back rail from the front, 'frame ledge' that of one.
"""

from __future__ import annotations

from core.drawing.cutsection import draw_cut_section
from core.drawing.cutstep import draw_step
from core.drawing.frame import draw_frame
from core.drawing.model import Drawing
from core.drawing.names import shelf_thickness
from core.drawing.section import draw_seam
from core.drawing.sheet import draw_sheet
from core.plan.model import Plan
from core.steps.lying import day_of


def drawings(plan: Plan, name: str | None = None) -> tuple[Drawing, ...]:
    """The drawings of that name; without one, those of all sheets.

    Raises KeyError with a sentence that lists the known names where there is no such drawing.
    """
    kind, _, about = (name or "sheet").strip().partition(" ")
    about = about.strip()
    if kind == "sheet" and (not about or about in sheet_names(plan)):
        return tuple(draw_sheet(plan, sheet) for sheet in ([about] if about else sheet_names(plan)))
    if kind == "seam" and about in {seam.id for seam in plan.seams}:
        return (draw_seam(plan, about),)
    if kind == "seam" and not about and plan.seams:
        return tuple(draw_seam(plan, seam) for seam in seam_kinds(plan))
    if kind in ("step", "cut"):
        numbers = [bench.step.number for bench in day_of(plan).benches]
        chosen = [number for number in numbers if not about or about == str(number)]
        if chosen:
            return tuple((draw_step if kind == "step" else draw_cut_section)(plan, number) for number in chosen)
    framed = [frame.shelf for frame in plan.frames]
    if kind == "frame" and framed and (not about or about in framed):
        return tuple(draw_frame(plan, shelf) for shelf in framed if not about or shelf == about)
    raise KeyError(f'There is no drawing "{name}"; there are {", ".join(drawing_names(plan))}.')


def drawing_names(plan: Plan) -> tuple[str, ...]:
    """Every name that `drawings` knows for a plan."""
    seams = ("seam", *(f"seam {seam.id}" for seam in plan.seams)) if plan.seams else ()
    steps = ("step", "cut") if plan.cuts else ()
    frames = ("frame", *(f"frame {frame.shelf}" for frame in plan.frames)) if plan.frames else ()
    return ("sheet", *(f"sheet {sheet}" for sheet in sheet_names(plan)), *seams, *steps, *frames)


def sheet_names(plan: Plan) -> tuple[str, ...]:
    """The sheets that have a drawing: used, too small for something, or with areas to keep clear; never none."""
    used = [sheet.id for sheet in plan.sheets]
    stocks = {sheet.stock for sheet in plan.sheets} | set(used)
    missed = dict.fromkeys(over.sheet for over in plan.overruns if over.sheet not in stocks)
    shown = {sheet.stock for sheet in plan.sheets if sheet.areas} | set(used) | set(missed)
    marked = (stock.id for stock in plan.project.sheets if stock.keep_clear and stock.id not in shown)
    names = (*used, *missed, *marked)
    return names or tuple(sheet.id for sheet in plan.project.sheets[:1])


def seam_kinds(plan: Plan) -> tuple[str, ...]:
    """One seam of each kind: the first with a V for each thickness."""
    kinds: dict[float, str] = {}
    for seam in plan.seams:
        if seam.show_loss is not None:
            kinds.setdefault(shelf_thickness(plan, seam.shelf), seam.id)
    return tuple(kinds.values())
