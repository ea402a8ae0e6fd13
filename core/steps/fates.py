"""What comes free at a cut, in words, by what becomes of it."""

from __future__ import annotations

from typing import Final

from core.drawing.measure import clean
from core.findings.words import length, limit
from core.language import tr
from core.plan.model import Plan
from core.steps.contents import MANY, ONE, listed, the, wood_in_words
from core.steps.model import Fall, FallKind, Step
from core.steps.section import OTHER
from core.steps.sides import side_word

FATES: Final[dict[FallKind, str]] = {
    "part": tr("Done"),
    "strip": tr("Name and put by"),
    "offcut": tr("Keep as offcut, its name written on it"),
    "waste": tr("Waste"),
}


def falls_in_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """What comes free, by what becomes of it: 'Name and put by, far side: the top and the front.'"""
    told: dict[tuple[FallKind, str], list[Fall]] = {}
    for fall in step.falls:
        if fall.kind != "triangle":
            side = side_word(step, step.guide if fall.lies == "guide" else OTHER[step.guide])
            told.setdefault((fall.kind, side), []).append(fall)
    return tuple(
        tr("{fate}, {side}: {listed}.", fate=FATES[kind], side=tr(f"{side} side"), listed=_fallen(plan, step, falls))
        for (kind, side), falls in told.items()
    )


def _fallen(plan: Plan, step: Step, falls: list[Fall]) -> str:
    """Those of one kind: by name; what has no name on the wood by its size across the cut."""
    kind = falls[0].kind
    if kind in ("part", "strip"):
        return wood_in_words([f"{fall.words.removesuffix(ONE)}{_off(fall)}" for fall in falls])
    across = tr("wide") if step.kind == "rip" else tr("long")
    if kind == "offcut":  # by the plan's name, its size as on the sheet's page and in the table of offcuts
        sizes = {o.piece: o.width if step.kind == "rip" else o.length for o in plan.offcuts}
        return listed(
            [f"{clean(f.piece)}, {limit(plan.project, sizes[f.piece])} {across}{_off(f)}" for f in falls],
        )
    wide = {fall.width: f"{length(plan.project, fall.width)} {across}" for fall in falls}
    told = list(dict.fromkeys(wide.values()))
    if len(told) <= MANY:
        return listed([tr("a piece {wide}", wide=one) for one in told])
    least, most = (length(plan.project, size(wide)) for size in (min, max))
    return tr("pieces, {least} to {most} {across}", least=least, most=most, across=across)


def _off(fall: Fall) -> str:
    """', off the top' where several strips are sawn in one pass, and it must be seen which end is which."""
    return tr(", off {the}", the=the(fall.of)) if fall.of else ""
