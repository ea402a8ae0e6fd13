"""Steps in words: plain short sentences, every number with its unit.

Near is towards the sheet's trued edge, far away from it; left and right are as the drawing has them. With the show face
down the wood is turned over end for end, like a page, so that left and right change places and near stays near.
"""

from __future__ import annotations

from typing import Final

import msgspec

from core.document.model import Project
from core.drawing.measure import clean
from core.findings.words import length
from core.lengths import Unit, show_angle, show_length
from core.plan.model import Plan
from core.steps.bench import TRIM
from core.steps.contents import ONE, listed, the
from core.steps.edges import EdgeKind
from core.steps.minding import care_in_words, dangers_in_words
from core.steps.model import Fall, FallKind, Move, Step
from core.steps.section import OTHER
from core.steps.sides import edge_word, side_word
from core.steps.titles import step_title

ON: Final = 0.05  # mm: nearer than this is on it


class StepWords(msgspec.Struct, frozen=True, gc=False):
    """One step in words.

    title: what is made. number: the one that matters, with its unit, and what it is. do: in order. falls: what comes
    free. watch: dangers first. said: lines of `do` that say no more than the number does.
    """

    title: str
    number: str
    number_is: str
    do: tuple[str, ...]
    falls: tuple[str, ...]
    watch: tuple[str, ...]
    said: tuple[str, ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        """Everything but the title."""
        return (*self.do, *self.falls, *self.watch)


def step_words(plan: Plan, step: Step) -> StepWords:
    """A step in words, lengths in the project's unit."""
    number, number_is = _number(plan, step)
    line, device = _line(plan, step), _device(plan, step)
    by_scale = (step.set_by.reading is not None or step.set_by.stop is not None) and not step.set_by.on_line
    return StepWords(
        title=step_title(plan, step),
        number=number,
        number_is=number_is,
        do=(
            *moves_in_words(plan, step),
            *_guide(step),
            line,
            *_marked(step),
            *_squared(plan, step),
            *device,
            *_packing(plan, step),
        ),
        falls=_falls(plan, step),
        watch=(*dangers_in_words(plan, step), *care_in_words(plan, step)),
        said=device[:1] if by_scale else (line,),
    )


def from_words(step: Step) -> str:
    """What the toe is measured from: 'from its far square edge' where that is of what the guide is on."""
    by, several = step.set_by, len(step.cuts) > 1
    edge = f"{edge_word(step)}{'s' if several else ''}"
    side = f"{side_word(step, by.side)} " if by.device == "mark" else ""  # else it is the one against fence or stop
    mine = by.side == step.guide
    its, of = ("their" if several else "its", "") if mine else ("the", f" of {the(by.of.removesuffix(ONE))}")
    return {
        "raw edge": f"from the {edge_word(step)} as it came"
        if step.about == TRIM
        else f"from {its} bevelled {edge}{of}",
        "datum edge": "from the trued edge",
        "datum end": "from the trued end",
        "square edge": f"from {its} {side}square {edge}{of}",
        "arris": "on the new arris" if step.second else "on the arris",
        "other toe": f"from {its} other toe{'s' if several else ''}{of}",
    }[by.means]


def short_setting(plan: Plan, step: Step) -> str:
    """The setting as a table has room for: '10" to datum', '2-1/2" toe to toe', '1/32" off arris', 'fence 9-9/32"'.

    With a fence or a stop it is what that is set to.
    """
    by, project = step.set_by, plan.project
    if by.reading is not None and not by.on_line:
        return f"fence {length(project, by.reading)}"
    if by.stop is not None and not by.on_line:
        return f"stop {length(project, by.stop)}"
    if by.means == "arris":
        return f"{fine(project, by.toe)} off arris" if by.toe > ON else "on arris"
    to = {"raw edge": "to raw edge", "square edge": "to square edge", "other toe": "toe to toe"}
    return f"{length(project, by.toe)} {to.get(by.means, 'to datum')}"


def fine(project: Project, mm: float) -> str:
    """A small amount, to a 64th: what the second cut of a V takes off its arris."""
    return show_length(mm, Unit(project.units), 64)


def _number(plan: Plan, step: Step) -> tuple[str, str]:
    by, project = step.set_by, plan.project
    if by.on_line:
        return length(project, by.toe), from_words(step)
    if by.reading is not None:
        return length(project, by.reading), "blade to fence, at table level"
    if by.stop is not None:
        return length(project, by.stop), "stop to blade, at table level"
    if by.means == "arris":
        if by.toe <= ON:
            return from_words(step), ""
        return fine(project, by.toe), "off the new arris" if step.second else "off the arris"
    return length(project, by.toe), from_words(step)


def moves_in_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """What changes from the step before, in order."""
    guided = plan.project.saw.kind == "guided"
    several, lie = len(step.cuts) > 1, "laid toe to toe, ticks in line, taped across"
    back = "everything is then seen from the back, left and right change places"
    words: dict[Move, str] = {
        "new sheet": f"Take sheet {clean(step.sheet)}.",
        "turn over": f"Turn the wood over end for end, show face down: {back}."
        if step.face == "down"
        else "Turn the wood over, show face up.",
        "across": f"Turn to crosscuts: the strips {lie}; try it on scrap first." if several else "Turn to crosscuts.",
        "along": "Turn to rips, along the grain.",
        "tilt": f"Tilt the blade to {show_angle(step.bevel)}." if step.bevel else "Set the blade square.",
        "flip": "Flip the guide end for end and walk to the other end."
        if guided
        else "Turn the wood end for end, the same face up.",
    }
    told = tuple(words[move] for move in step.moves)
    if several and "across" not in step.moves:
        told = (*told, f"{len(step.cuts)} strips {lie}: one pass.")
    return told


def _guide(step: Step) -> tuple[str, ...]:
    if step.set_by.on_line:
        return _without_edge(step)
    what = {"mark": "Guide", "fence": "Fence", "stop": "Sled's stop"}[step.set_by.device]
    line = (
        f"{what} on the {side_word(step, step.guide)} side, on {the(step.words)}"
        if step.set_by.against is None
        else f"{what} against {the(step.words.removesuffix(ONE))}, {_bearing(step, step.set_by.against)}"
    )
    line += "; this side is kept" if step.keep == step.guide else "; the other side is kept"
    if step.foot is None:
        return (f"{line}.",)
    way = "under" if step.foot == step.guide else "away from"
    if step.set_by.device == "fence":
        return (f"{line}.", f"The blade's foot leans {way} the fence.")
    it = {"mark": f" {way} the guide,", "fence": "", "stop": ""}[step.set_by.device]
    return (f"{line}.", f"The blade's foot leans{it} to the {side_word(step, step.foot)} side.")


def _without_edge(step: Step) -> tuple[str, ...]:
    """A fence or a stop where there is no edge for it."""
    edge = "edge" if step.set_by.device == "fence" else "end"
    why = f"the {edge} as it came is not straight" if step.about == TRIM else f"a bevelled {edge} gives it no hold"
    if step.set_by.device == "stop":
        return (f"On the sled with no stop, for {why}; the {side_word(step, step.keep)} side is kept.",)
    return (f"A straight board fixed along {the(step.words)} runs on the fence, for {why}; this side is kept.",)


def _bearing(step: Step, against: EdgeKind) -> str:
    """The edge or end that bears on the fence or the stop: 'its trued edge', 'their square ends'."""
    edge = edge_word(step)
    several = len(step.cuts) > 1
    noun = {
        "datum": f"trued {edge}",
        "square": f"square {edge}",
        "toe": "toe",
        "heel": f"bevelled {edge}",
        "raw": f"{edge}{'s' if several else ''} as {'they' if several else 'it'} came",
    }[against]
    line = f"{'their' if several else 'its'} {noun}{'s' if several and against != 'raw' else ''}"
    twice = (against, step.set_by.opposite) == ("square", "datum")
    return f"{line}, not the trued one{'s' if several else ''}" if twice else line


def _line(plan: Plan, step: Step) -> str:
    """Where the toe or the line goes."""
    by, project = step.set_by, plan.project
    if by.means == "arris":
        line = (
            f"Set {from_words(step)}, taking {fine(project, by.toe)} off it."
            if by.toe > ON
            else f"Set {from_words(step)}."
        )
    else:
        how = {
            "datum edge": ", measured toe to datum",
            "datum end": ", measured toe to datum",
            "other toe": ", toe to toe",
        }
        line = (
            f"Toe {length(project, by.toe)} {from_words(step)}{how.get(by.means, '')}."
            if step.bevel
            else (f"Line {length(project, by.toe)} {from_words(step)}.")
        )
    return line


def _marked(step: Step) -> tuple[str, ...]:
    return ("The show face is underneath: mark it on the back.",) if step.face == "down" else ()


def _squared(plan: Plan, step: Step) -> tuple[str, ...]:
    """What the first end is trued square to, where an edge was trued before it."""
    if step.about != TRIM or step.kind != "crosscut":
        return ()
    first = step.cuts[0]
    if not any(c.n < first and c.sheet == step.sheet and c.about == TRIM and c.kind == "rip" for c in plan.cuts):
        return ()
    if step.set_by.device == "mark":
        return ("Square it from the trued edge.",)
    return ("The trued edge goes against the sled's own fence.",)


def _device(plan: Plan, step: Step) -> tuple[str, ...]:
    """The guide's edge, the gauge stick, the fence's reading, the stop."""
    by, project = step.set_by, plan.project
    if by.on_line:
        return ()
    if by.stop is not None:
        stop = f"Stop {length(project, by.stop)} from the blade, read at table level."
        return (stop, "A stop on the sled, never the fence, for a crosscut.") if "across" in step.moves else (stop,)
    if by.reading is not None:
        return (f"Fence {length(project, by.reading)} from the blade, read at table level.",)
    if by.seen is not None:
        told = f"Seen from the back: the guide's edge goes {length(project, by.seen)} from the edge above that arris"
    elif by.edge is not None and abs(by.edge) > ON:
        where = "short of" if by.edge > 0 else "beyond"
        told = f"The guide's edge goes {length(project, abs(by.edge))} {where} the toe"
    else:
        told = "The guide's edge goes on the line"
    if by.stick is not None:
        whose = "the packer's outer edge" if step.packer else "the outer edge"
        flush = f"its back flush with {whose}"
        stick = f"gauge stick {length(project, by.stick)}, from {whose} to the guide's back"
        told += f"; {stick if by.stick > ON else flush}"
    return (f"{told}.",)


def _packing(plan: Plan, step: Step) -> tuple[str, ...]:
    if step.packer is None:
        return ()
    packer, wide = step.packer, length(plan.project, step.packer.width)
    more = "" if packer.toe_to_toe else " Scrap as thick does as well."
    if packer.instead:  # clamps would mark it
        more = f" Only where there is no scrap: {packer.instead}, show face down on clean foam."
    return (f"Pack the guide out with {packer.words}: at least {wide} wide, clamped and taped down.{more}",)


FATES: Final[dict[FallKind, str]] = {
    "part": "Done", "strip": "Put by", "offcut": "Keep as offcut", "waste": "Waste",
}  # fmt: skip


def _loose(plan: Plan, step: Step, fall: Fall) -> str:
    """What has no name on the wood: an offcut by the plan's name, each with its size across the cut."""
    wide = f"{length(plan.project, fall.width)} {'wide' if step.kind == 'rip' else 'long'}"
    return f"{clean(fall.piece)}, {wide}" if fall.kind == "offcut" else f"a piece {wide}"


def _falls(plan: Plan, step: Step) -> tuple[str, ...]:
    """What comes free, by what becomes of it: 'Put by, far side: the top and the front.'"""
    told: dict[tuple[str, str], list[str]] = {}
    for fall in step.falls:
        if fall.kind != "triangle":
            side = side_word(step, step.guide if fall.lies == "guide" else OTHER[step.guide])
            name = the(fall.words.removesuffix(ONE)) if fall.kind in ("part", "strip") else _loose(plan, step, fall)
            told.setdefault((FATES[fall.kind], side), []).append(name)
    return tuple(f"{fate}, {side} side: {listed(names)}." for (fate, side), names in told.items())
