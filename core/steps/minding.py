"""What to mind at a step, in words: dangers, how the wood is held, where it chips."""

from __future__ import annotations

from core.document.model import Saw
from core.drawing.measure import clean
from core.drawing.names import part_name, shelf_letters
from core.findings.words import length, thickness
from core.language import tr
from core.lengths import Unit, show_thickness
from core.plan.model import Plan
from core.sawing.support import RUN
from core.steps.bench import TRIM
from core.steps.model import Step, Uneven, Untrue
from core.steps.sides import on_side


def dangers_in_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """What may hurt or spoil, in the order of the step's dangers."""
    if not step.dangers:
        return ()
    saw, project, by = plan.project.saw, plan.project, step.set_by
    thick = next(s.thickness for s in plan.sheets if s.id == step.sheet)
    base = max((f.width for f in step.falls if f.kind == "triangle"), default=0.0)
    reading = by.reading or 0.0
    close = (
        tr(
            "The guide is {project} wide on {project2} of wood, and nothing here packs it out: it tips.",
            project=length(project, saw.guide_width),
            project2=length(project, step.width),
        )
        if saw.kind == "guided"
        else tr("Only {project} between blade and fence: use a push stick.", project=length(project, reading))
    )
    words = {
        "trapped": tr(
            "The blade leans to the fence: the wood between them is trapped and may be thrown. Move "
            "the fence to the other side of the blade, or stop."
        ),
        "waste side": tr(
            "The {device} bears on the waste: nothing holds what is kept.{other_way}",
            device=by.device,
            other_way=_other_way(saw, step),
        ),
        "toe creeps": tr(
            "A sharp edge rides on the table and creeps under the fence: add a false fence tight to the table."
        )
        if by.device == "fence"
        else tr("A sharp edge creeps under the stop: a stop tight to the sled's floor."),
        "tall fence": tr(
            "The toe bears {thickness} up the fence: a flat tall fence, a tall push block.",
            thickness=thickness(project, thick),
        )
        if by.device == "fence"
        else tr(
            "The toe bears on the stop {thickness} up: an upright stop, taller than the wood.",
            thickness=thickness(project, thick),
        ),
        "narrow": close,
        "triangle": tr(
            "A triangle {project} wide drops: wait for the blade to stop, never reach for it.",
            project=length(project, base),
        ),
        "guide short": tr(
            "The cut is {project} long, the guide {project2}: the saw needs {project3} more to start and stop on.",
            project=length(project, step.length),
            project2=length(project, saw.guide_length),
            project3=length(project, RUN),
        ),
        "fence travel": tr(
            "The fence goes {project}, this needs {project2}: rough it out with a guided saw first.",
            project=length(project, saw.fence_travel),
            project2=length(project, reading),
        ),
    }
    return tuple(words[danger] for danger in step.dangers)


def _other_way(saw: Saw, step: Step) -> str:
    """How the fence comes to lie on what is kept; '' where it is told already."""
    if "trapped" in step.dangers:
        return ""
    return (
        tr(" Turn the show face up.") if saw.lean == "under" else tr(" Move the fence to the other side of the blade.")
    )


def care_in_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """How the wood is held, and where it chips."""
    words = {
        "bed": tr("Foam board under the whole piece."),
        "ticks": _ticks(plan, step) if "ticks" in step.support else "",
        "clamp": tr("Clamp the guide: a tilted saw pushes it aside."),
        "splitter": tr("Splitter in, insert tight to the blade; stand aside, never behind the wood."),
        "foam": tr("Foam under the triangle."),
        "long fall": tr("A long piece comes free: have a table or a hand behind the saw."),
        "large": tr("Too large for most sleds: sawn to the line with a guided saw it is as good."),
        "beside": tr(
            "Only {project} of wood along the guide: lay wood as thick on both sides, or it tips.",
            project=length(plan.project, step.length),
        ),
    }
    told = [words[support] for support in step.support]
    if step.chips is not None:
        told.append(
            tr(
                "Tape and score the show face {on_side}: it chips there.",
                on_side=on_side(step, step.chips),
            )
        )
    told += [_uneven_in_words(plan, pair) for pair in step.uneven]
    told += [_untrue_in_words(plan, one) for one in step.untrue]
    return tuple(told)


def _ticks(plan: Plan, step: Step) -> str:
    """Ticks and letters, where they are found, and by which end the wood is known when its trued edge is gone."""
    sheet = clean(step.sheet)
    if _has_trued_end(plan, step.cuts[0]):
        return tr(
            "First strike ticks across every seam, as on the page of sheet {sheet}: the trued end is the left one "
            "there. Part and seam letters on tape, as on the labels.",
            sheet=sheet,
        )
    return tr(
        "First strike ticks across every seam, as on the page of sheet {sheet}. Part and seam letters on tape, as on "
        "the labels.",
        sheet=sheet,
    )


def _has_trued_end(plan: Plan, number: int) -> bool:
    """Does the piece that a cut is made on reach to the sheet's trued end?"""
    cuts = plan.cuts[: next(n for n, cut in enumerate(plan.cuts) if cut.n == number) + 1]
    piece = cuts[-1].piece
    for cut in reversed(cuts):
        if piece in cut.makes:
            if cut.kind == "crosscut" and piece == cut.makes[1]:
                return cut.about == TRIM
            piece = cut.piece
    return True


def _untrue_in_words(plan: Plan, one: Untrue) -> str:
    words = {
        "part": part_name(one.part, _letters(plan)),
        "off": show_thickness(abs(one.longer), Unit(plan.project.units)),
    }
    if one.along and one.longer > 0.0:
        return tr("{part} comes out {off} longer than planned.", **words)
    if one.along:
        return tr("{part} comes out {off} shorter than planned.", **words)
    if one.longer > 0.0:
        return tr("{part} comes out {off} wider than planned.", **words)
    return tr("{part} comes out {off} narrower than planned.", **words)


def _letters(plan: Plan) -> dict[str, str]:
    return shelf_letters(plan) if len(plan.project.shelves) > 1 else {s.id: "" for s in plan.project.shelves}


def _uneven_in_words(plan: Plan, pair: Uneven) -> str:
    letters = _letters(plan)
    words = {
        "part": part_name(pair.part, letters),
        "mate": part_name(pair.mate, letters),
        "off": show_thickness(abs(pair.longer), Unit(plan.project.units)),
    }
    if pair.longer > 0.0:
        return tr("{part} comes out {off} longer than {mate}, which it meets: set this cut by {mate} itself.", **words)
    return tr("{part} comes out {off} shorter than {mate}, which it meets: set this cut by {mate} itself.", **words)
