"""Cut cards: what a maker reads at one pass of the saw, sorted as a card has it."""

from __future__ import annotations

from functools import lru_cache
from typing import Final, Literal

import msgspec

from core.drawing.measure import clean
from core.kept import Same
from core.language import tr
from core.lengths import show_angle
from core.plan.model import Cut, Plan
from core.steps.contents import ONE, piece_words, the, wood_in_words
from core.steps.lying import day_of
from core.steps.minding import care_in_words, dangers_in_words
from core.steps.model import Step, Support, Value
from core.steps.runs import Run, as_one, runs_of
from core.steps.sides import on_side, to_side
from core.steps.steps import steps_of
from core.steps.words import moves_in_words, number_in_words, step_words

Shift = Literal["rail", "wood"]

STAYS = tr("Tilt, side and number stay as they are.")
NEW_NUMBER = tr("Tilt and side stay as they are; the number is new.")
LEANS = tr("The blade's foot leans")  # told with the facts
TICKS: Final[Support] = "ticks"  # support that comes first


class Card(Value, frozen=True):
    """One card in words.

    number, last: of its first and its last cut, which are set alike. of: how many cuts all cards have. changes: what is
    done before the cut can be set. setting: the number that matters, with its unit, and what it is. facts: guide,
    blade, face and a flip in the fewest words. do, falls, dangers, care: sentences. flips: what is turned end for end.
    own: asks for a number of the maker's own.
    """

    number: int
    last: int
    of: int
    setup: int
    title: str
    changes: tuple[str, ...]
    setting: str
    setting_is: str
    facts: tuple[str, ...]
    do: tuple[str, ...]
    falls: tuple[str, ...]
    dangers: tuple[str, ...]
    care: tuple[str, ...]
    flips: Shift | None
    own: str

    @property
    def numbers(self) -> str:
        """'3', or '3 to 7'."""
        first = str(self.number)
        return first if self.number == self.last else tr("{first} to {last}", first=first, last=str(self.last))

    @property
    def times(self) -> int:
        """How many cuts it is for."""
        return self.last - self.number + 1


def cards_of(plan: Plan) -> tuple[Card, ...]:
    """One card for each run of steps with one setting, in order; remembered for the last plan asked for."""
    return _cards(Same(plan))


@lru_cache(maxsize=1)
def _cards(key: Same) -> tuple[Card, ...]:
    plan = key.plan
    runs, count = runs_of(plan), len(steps_of(plan))
    frame = {part.id for frame in plan.frames for part in frame.parts}
    return tuple(_card(plan, run, count, frame.issuperset(run[0].abouts)) for run in runs)


def _card(plan: Plan, run: Run, of: int, framing: bool) -> Card:
    step = as_one(run)
    words, moves = step_words(plan, step), moves_in_words(plan, step)
    flips = "flip" in step.moves
    guided = plan.project.saw.kind == "guided"
    return Card(
        number=step.number,
        last=run[-1].number,
        of=of,
        setup=step.setup,
        title=words.title,
        changes=changes_of(plan, step),
        setting=words.number,
        setting_is=_setting_is(step, words.number_is),
        facts=facts_of(step),
        do=(*_first(plan, run), *(line for line in words.do[len(moves) :] if _is_told(line, words.said))),
        falls=words.falls,
        dangers=dangers_in_words(plan, step),
        care=_care(plan, step),
        flips=("rail" if guided else "wood") if flips else None,
        own=tr(
            "Frame: measure the cavity of the glued shell first. Your number, {which} on the frame's page:",
            which=_which(step),
        )
        if framing
        else "",
    )


def _care(plan: Plan, step: Step) -> tuple[str, ...]:
    support = tuple(one for one in step.support if one != TICKS)
    return care_in_words(plan, msgspec.structs.replace(step, support=support))


def _which(step: Step) -> str:
    """Which of the three numbers on a frame's page a cut goes by."""
    if step.kind == "rip":
        return tr("High")
    return tr("Ribs") if all("/rib " in about for about in step.abouts) else tr("Long")


def _is_told(line: str, said: tuple[str, ...]) -> bool:
    return line not in said and not line.startswith(LEANS)


def _first(plan: Plan, run: Run) -> tuple[str, ...]:
    """What comes before all else: marks on wood that is whole yet, and which wood is taken, one after the other."""
    if len(run) == 1:
        marks = msgspec.structs.replace(run[0], support=(TICKS,), chips=None, uneven=(), untrue=())
        return care_in_words(plan, marks) if TICKS in run[0].support else ()
    cuts, contents = _cuts(Same(plan)), day_of(plan).contents
    own = [cuts[n] for step in run for n in step.cuts]
    made = {name for cut in own for name in cut.makes}
    wood = [piece_words(contents, cut.piece).removesuffix(ONE) for cut in own if cut.piece not in made]
    if len(wood) == 1:
        return (tr("Out of {wood}, one after the other.", wood=the(wood[0])),)
    return (tr("Taken in this order: {wood}.", wood=wood_in_words(wood)),)


@lru_cache(maxsize=1)
def _cuts(key: Same) -> dict[int, Cut]:
    return {cut.n: cut for cut in key.plan.cuts}


def changes_of(plan: Plan, step: Step) -> tuple[str, ...]:
    """What is done before a cut can be set, in sentences."""
    moves = moves_in_words(plan, step)
    if step.number == 1:
        return (*_start(plan, step), *moves)
    if step.moves:
        return moves
    number = number_in_words(plan, step)[0]
    return (*moves, STAYS if number_in_words(plan, steps_of(plan)[step.number - 2])[0] == number else NEW_NUMBER)


def _start(plan: Plan, step: Step) -> tuple[str, ...]:
    """The first card has no step before it."""
    tilt = tr("Tilt the blade to {bevel}.", bevel=show_angle(step.bevel)) if step.bevel else tr("Set the blade square.")
    return (tr("Take sheet {clean}.", clean=clean(step.sheet)), tilt)


def _setting_is(step: Step, words: str) -> str:
    """What the number is, with what it goes to where it is measured on the wood: the toe, or a square cut's line."""
    by = step.set_by
    if (by.device != "mark" and not by.on_line) or (by.means == "arris" and by.back is None):
        return words
    to_toe = by.means == "other toe"
    return (
        tr("toe to toe, {words}", words=words)
        if to_toe and step.bevel
        else f"{tr('toe') if step.bevel else tr('line')}, {words}"
    )


def facts_of(step: Step) -> tuple[str, ...]:
    """Guide, blade, face, and flip where there is one, in the fewest words.

    Like 'guide on the near side', 'blade 45.5°, foot under the guide, to the near side', 'show face up'.
    """
    device = {"mark": "guide", "fence": "fence", "stop": "stop"}[step.set_by.device]
    kept = tr("on what is kept") if step.guide == step.keep else tr("on the other side")
    where = on_side(step, step.guide) if step.set_by.device == "mark" else kept
    first = f"{tr(device)} {where}"
    if step.set_by.on_line:
        first = tr("no stop") if step.set_by.device == "stop" else tr("no sound edge for the fence")
    blade = tr("blade square")
    if step.foot is not None:
        way = "under" if step.foot == step.guide else "away from"
        side = f", {to_side(step, step.foot)}" if step.set_by.device == "mark" else ""
        blade = tr(
            "blade {bevel}, foot {way} the {device}{side}",
            bevel=show_angle(step.bevel),
            way=way,
            device=device,
            side=side,
        )
    flip = (tr("flip"),) if "flip" in step.moves else ()
    return (first, blade, tr("show face {face}", face=step.face), *flip)
