"""Cuts that follow each other with one setting: a card has them together, and the maker ticks one after the other.

Only parts of a frame are told so: they are alike, and what is cut from which strip is seen by the strip's name.
"""

from __future__ import annotations

from collections.abc import Hashable
from functools import lru_cache
from itertools import chain

import msgspec

from core.kept import Same
from core.language import tr
from core.plan.model import Plan
from core.steps.minding import dangers_in_words
from core.steps.model import Fall, Packer, Step, Support
from core.steps.steps import steps_of
from core.steps.words import number_in_words, stick_in_words

Run = tuple[Step, ...]


def runs_of(plan: Plan) -> tuple[Run, ...]:
    """All steps in order, those with one setting together; remembered for the last plan asked for."""
    return _runs(Same(plan))


@lru_cache(maxsize=1)
def _runs(key: Same) -> tuple[Run, ...]:
    plan = key.plan
    frame = {part.id for one in plan.frames for part in one.parts}
    runs: list[list[Step]] = []
    last: Hashable = None
    for step in steps_of(plan):
        setting = _setting(plan, step) if frame.issuperset(step.abouts) else None
        if setting is not None and setting == last and not step.moves:
            runs[-1].append(step)
        else:
            runs.append([step])
        last = setting
    return tuple(map(tuple, runs))


def _setting(plan: Plan, step: Step) -> Hashable:
    """What must be alike for two cuts to share a card."""
    by = step.set_by
    return (
        *(step.sheet, step.kind, step.keep, step.guide, step.face, step.bevel),
        *(by.device, by.on_line, by.against, by.opposite, number_in_words(plan, step), stick_in_words(plan, step)),
        *(dangers_in_words(plan, step), step.packer and (step.packer.pieces, step.packer.words, step.packer.instead)),
    )


def as_one(run: Run) -> Step:
    """A run told as one step: what is made and what falls is of all its cuts, the rest is alike."""
    first = run[0]
    if len(run) == 1:
        return first
    support: dict[Support, None] = dict.fromkeys(chain.from_iterable(step.support for step in run))
    return msgspec.structs.replace(
        first,
        abouts=tuple(dict.fromkeys(chain.from_iterable(step.abouts for step in run))),
        parts=tuple(dict.fromkeys(chain.from_iterable(step.parts for step in run))),
        words=tr("the wood for each in turn"),
        take=(),  # it is told what each is cut from
        set_by=msgspec.structs.replace(first.set_by, fresh=all(step.set_by.fresh for step in run)),
        length=min(step.length for step in run if "beside" not in support or "beside" in step.support),
        falls=_fallen(run),
        support=tuple(support),
        untrue=tuple(chain.from_iterable(step.untrue for step in run)),
        packer=_widest([step.packer for step in run if step.packer is not None]),
    )


def _fallen(run: Run) -> tuple[Fall, ...]:
    """What falls at all its cuts; where each gives a part on the same side they are told once."""
    falls = tuple(fall for step in run for fall in step.falls)
    parts = [fall for fall in falls if fall.kind == "part"]
    if len(parts) < len(run) or len({part.lies for part in parts}) > 1:
        return falls
    named = msgspec.structs.replace(parts[0], words=tr("the parts named above"))
    return (named, *(fall for fall in falls if fall.kind != "part"))


def _widest(packers: list[Packer]) -> Packer | None:
    return max(packers, key=lambda packer: packer.width, default=None)
