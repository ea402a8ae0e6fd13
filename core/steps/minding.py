"""What to mind at a step, in words: dangers, how the wood is held, where it chips."""

from __future__ import annotations

from core.document.model import Saw
from core.findings.words import length, thickness
from core.plan.model import Plan
from core.sawing.support import RUN
from core.steps.model import Step
from core.steps.sides import side_word


def dangers_in_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """What may hurt or spoil, in the order of the step's dangers."""
    saw, project, by = plan.project.saw, plan.project, step.set_by
    thick = next(s.thickness for s in plan.sheets if s.id == step.sheet)
    base = max((f.width for f in step.falls if f.kind == "triangle"), default=0.0)
    reading = by.reading or 0.0
    close = (
        f"The guide is {length(project, saw.guide_width)} wide on {length(project, step.width)} of wood, and nothing "
        "here packs it out: it tips."
        if saw.kind == "guided"
        else f"Only {length(project, reading)} between blade and fence: use a push stick."
    )
    words = {
        "trapped": "The blade leans to the fence: the wood between them is trapped and may be thrown. "
        "Move the fence to the other side of the blade, or stop.",
        "waste side": f"The {by.device} bears on the waste: nothing holds what is kept.{_other_way(saw, step)}",
        "toe creeps": "A sharp edge rides on the table and creeps under the fence: "
        "add a false fence tight to the table."
        if by.device == "fence"
        else "A sharp edge creeps under the stop: a stop tight to the sled's floor.",
        "tall fence": f"The toe bears {thickness(project, thick)} up the fence: a flat tall fence, a tall push block."
        if by.device == "fence"
        else f"The toe bears on the stop {thickness(project, thick)} up: an upright stop, taller than the wood.",
        "narrow": close,
        "triangle": f"A triangle {length(project, base)} wide drops: wait for the blade to stop, never reach for it.",
        "guide short": f"The cut is {length(project, step.length)} long, the guide "
        f"{length(project, saw.guide_length)}: the saw needs {length(project, RUN)} more to start and stop on.",
        "fence travel": f"The fence goes {length(project, saw.fence_travel)}, this needs {length(project, reading)}: "
        "rough it out with a guided saw first.",
    }
    return tuple(words[danger] for danger in step.dangers)


def _other_way(saw: Saw, step: Step) -> str:
    """How the fence comes to lie on what is kept; '' where it is told already."""
    if "trapped" in step.dangers:
        return ""
    return " Turn the show face up." if saw.lean == "under" else " Move the fence to the other side of the blade."


def care_in_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """How the wood is held, and where it chips."""
    words = {
        "bed": "Foam board under the whole piece.",
        "ticks": "First strike ticks across every seam, part and seam letters on tape.",
        "clamp": "Clamp the guide: a tilted saw pushes it aside.",
        "splitter": "Splitter in, insert tight to the blade; stand aside, never behind the wood.",
        "foam": "Foam under the triangle.",
        "long fall": "A long piece comes free: have a table or a hand behind the saw.",
        "large": "Too large for most sleds: sawn to the line with a guided saw it is as good.",
        "beside": f"Only {length(plan.project, step.length)} of wood along the guide: lay wood as thick on both sides, "
        "or it tips.",
    }
    told = [words[support] for support in step.support]
    if step.chips is not None:
        told.append(f"Tape and score the show face on the {side_word(step, step.chips)} side: it chips there.")
    return tuple(told)
