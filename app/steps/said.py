"""Everything the board says of a step, and its set-ups by name. No Qt here."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import msgspec

from app.boards.words import counted
from app.steps.words import Said
from core.language import tr
from core.lengths import show_angle
from core.plan.model import Plan
from core.steps.model import Step
from core.steps.words import step_words


class Setup(msgspec.Struct, frozen=True, gc=False):
    """One set-up: its number, its first step, and what it is called."""

    number: int
    first: int
    words: str


def setup_words(step: Step) -> str:
    """`square rips`, `45.5° crosscuts`."""
    if not step.bevel:
        return tr("square rips") if step.kind == "rip" else tr("square crosscuts")
    return (
        tr("{bevel} rips", bevel=show_angle(step.bevel))
        if step.kind == "rip"
        else tr("{bevel} crosscuts", bevel=show_angle(step.bevel))
    )


def setups(steps: Sequence[Step]) -> tuple[Setup, ...]:
    """All set-ups in order."""
    found = []
    for number, group in groupby(steps, key=lambda step: step.setup):
        some = list(group)
        found.append(Setup(number, some[0].number, f"{number}  {setup_words(some[0])}, {counted(len(some), 'cut')}"))
    return tuple(found)


def said_of(plan: Plan, steps: Sequence[Step], number: int) -> Said:
    """What is said of a step, numbered from 1."""
    step = steps[number - 1]
    words = step_words(plan, step)
    moves, dangers = len(step.moves), len(step.dangers)
    last = steps[-1].setup
    return Said(
        where=tr("Cut {number} of {steps}", number=number, steps=len(steps)),
        setup=tr("Set-up {setup} of {last}: {setup_words}", setup=step.setup, last=last, setup_words=setup_words(step)),
        moves=words.do[:moves] or ((tr("Square the blade."),) if number == 1 and not step.bevel else ()),
        title=words.title,
        number=words.number,
        number_is=words.number_is,
        do=tuple(line for line in words.do[moves:] if line not in words.said),
        falls=words.falls,
        dangers=words.watch[:dangers],
        care=words.watch[dangers:],
        after=_after(plan, steps, number),
    )


def _after(plan: Plan, steps: Sequence[Step], number: int) -> str:
    """What changes at the next step."""
    if number == len(steps):
        return tr("Next: nothing, this is the last cut.")
    following = steps[number]
    moves = step_words(plan, following).do[: len(following.moves)]
    return tr("Next: {moves}", moves=" ".join(moves) if moves else tr("the same set-up again."))
