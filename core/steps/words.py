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
from core.language import tr
from core.lengths import Unit, show_angle, show_length
from core.plan.model import Plan
from core.steps.bench import TRIM
from core.steps.contents import ONE, alike, the, wood_in_words
from core.steps.edges import EdgeKind
from core.steps.fates import falls_in_words
from core.steps.minding import care_in_words, dangers_in_words
from core.steps.model import Move, Step
from core.steps.origins import back_words, from_words
from core.steps.sides import edge_word, on_side, side_word, to_side
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
    number, number_is = number_in_words(plan, step)
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
            *_on_its_page(step),
            *_squared(plan, step),
            *device,
            *_packing(plan, step),
        ),
        falls=falls_in_words(plan, step),
        watch=(*dangers_in_words(plan, step), *care_in_words(plan, step)),
        said=device[:1] if by_scale else () if step.set_by.back is not None else (line,),
    )


def short_setting(plan: Plan, step: Step) -> str:
    """The setting as a table has room for: '10" to datum', '2-1/2" toe to toe', '1/32" off arris', 'fence 9-9/32"'.

    With a fence or a stop it is what that is set to.
    """
    by, project = step.set_by, plan.project
    if by.reading is not None and not by.on_line:
        return tr("fence {project}", project=length(project, by.printed))
    if by.stop is not None and not by.on_line:
        return tr("stop {project}", project=length(project, by.printed))
    if by.back is not None:
        return f"{length(project, by.printed)} {tr('to datum') if by.back_edge == 'datum' else tr('to square edge')}"
    if by.means == "arris":
        return tr("{fine} off arris", fine=fine(project, by.toe)) if by.toe > ON else tr("on arris")
    to = {"raw edge": tr("to raw edge"), "square edge": tr("to square edge"), "other toe": tr("toe to toe")}
    return f"{length(project, by.printed)} {to.get(by.means, tr('to datum'))}"


def fine(project: Project, mm: float) -> str:
    """A small amount, to a 64th with no mark: what the second cut of a V takes off its arris."""
    return show_length(mm, Unit(project.units), 64, marks=False)


def number_in_words(plan: Plan, step: Step) -> tuple[str, str]:
    """The number that matters, with its unit, and what it is."""
    by, project = step.set_by, plan.project
    if by.on_line and by.means != "arris":
        return length(project, by.printed), from_words(step)
    if by.reading is not None:
        return length(project, by.printed), tr("blade to fence, at table level")
    if by.stop is not None:
        return length(project, by.printed), tr("stop to blade, at table level")
    if by.back is not None:
        return length(project, by.printed), back_words(step)
    if by.means == "arris":
        if by.toe <= ON:
            return from_words(step), ""
        return fine(project, by.toe), tr("off the new arris") if step.second else tr("off the arris")
    return length(project, by.printed), from_words(step)


def moves_in_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """What changes from the step before, in order."""
    guided = plan.project.saw.kind == "guided"
    several, lie = len(step.cuts) > 1, tr("laid toe to toe, ticks in line, taped across")
    back = tr("everything is then seen from the back, left and right change places")
    words: dict[Move, str] = {
        "new sheet": _taken(step),
        "turn over": tr("Turn the wood over end for end, show face down: {back}.", back=back)
        if step.face == "down"
        else tr("Turn the wood over, show face up."),
        "across": tr("Turn to crosscuts: the strips {lie}; try it on scrap first.", lie=lie)
        if several
        else tr("Turn to crosscuts."),
        "along": tr("Turn to rips, along the grain."),
        "tilt": tr("Tilt the blade to {bevel}.", bevel=show_angle(step.bevel))
        if step.bevel
        else tr("Set the blade square."),
        "flip": tr("Flip the guide end for end and walk to the other end.")
        if guided
        else tr("Turn the wood end for end, the same face up."),
    }
    told = tuple(words[move] for move in step.moves)
    if step.take and "new sheet" not in step.moves:
        told = (_taken(step), *told)
    if several and "across" not in step.moves:
        told = (*told, tr("{cuts} strips {lie}: one pass.", cuts=len(step.cuts), lie=lie))
    return told


def _taken(step: Step) -> str:
    """The wood that is taken up: a whole sheet, or what was put by."""
    sheet = clean(step.sheet)
    if not step.take:
        return tr("Take sheet {clean}.", clean=sheet)
    wood = wood_in_words(alike(step.take))
    if "new sheet" in step.moves:
        return tr("Take {wood}, of sheet {sheet}.", wood=wood, sheet=sheet)
    return tr("Take {wood}.", wood=wood)


def _guide(step: Step) -> tuple[str, ...]:
    if step.set_by.on_line:
        return _without_edge(step)
    what = {"mark": tr("Guide"), "fence": tr("Fence"), "stop": tr("Sled's stop")}[step.set_by.device]
    line = (
        tr(
            "{what} {on_side}, on {the}",
            what=what,
            on_side=on_side(step, step.guide),
            the=the(step.words),
        )
        if step.set_by.against is None
        else tr(
            "{what} against {the}, {bearing}",
            what=what,
            the=the(step.words.removesuffix(ONE)),
            bearing=_bearing(step, step.set_by.against),
        )
    )
    line += tr("; this side is kept") if step.keep == step.guide else tr("; the other side is kept")
    if step.foot is None:
        return (f"{line}.",)
    way = "under" if step.foot == step.guide else "away from"
    if step.set_by.device == "fence":
        return (f"{line}.", tr("The blade's foot leans {way} the fence.", way=way))
    it = {"mark": tr(" {way} the guide,", way=way), "fence": "", "stop": ""}[step.set_by.device]
    return (
        f"{line}.",
        tr("The blade's foot leans{it} {to_side}.", it=it, to_side=to_side(step, step.foot)),
    )


def _without_edge(step: Step) -> tuple[str, ...]:
    """A fence or a stop where there is no edge for it."""
    edge = "edge" if step.set_by.device == "fence" else "end"
    why = (
        tr(f"the {edge} as it came is not straight")
        if step.about == TRIM
        else tr(f"a bevelled {edge} gives it no hold")
    )
    if step.set_by.means != "raw edge":
        why = tr("the blade runs where it would stand")
    if step.set_by.device == "stop":
        return (
            tr(
                "On the sled with no stop, for {why}; the {side} is kept.",
                why=why,
                side=tr(f"{side_word(step, step.keep)} side"),
            ),
        )
    return (
        tr(
            "A straight board fixed along {the} runs on the fence, for {why}; this side is kept.",
            the=the(step.words),
            why=why,
        ),
    )


def _bearing(step: Step, against: EdgeKind) -> str:
    """The edge or end that bears on the fence or the stop: 'its trued edge', 'their square ends'."""
    several = len(step.cuts) > 1
    edge = f"{edge_word(step)}{'s' if several else ''}"
    noun = {
        "datum": tr(f"trued {edge}"),
        "square": tr(f"square {edge}"),
        "toe": tr("toes") if several else tr("toe"),
        "heel": tr(f"bevelled {edge}"),
        "raw": tr(f"{edge} as they came") if several else tr(f"{edge} as it came"),
    }[against]
    line = tr("their {noun}", noun=noun) if several else tr("its {noun}", noun=noun)
    if (against, step.set_by.opposite) == ("square", "datum"):
        line += tr(", not the trued ones") if several else tr(", not the trued one")
    elif (against, step.set_by.opposite) == ("square", "square"):
        back = tr(", the {part}'s back", part=step.set_by.back_of) if step.set_by.back_of else ""
        line += tr(", the one just sawn") if step.set_by.fresh else back
    return line


def _line(plan: Plan, step: Step) -> str:
    """Where the toe or the line goes."""
    by, project = step.set_by, plan.project
    if by.back is not None:
        off = fine(project, by.toe)
        line = (
            tr("Its toe then lies {off} off the new arris, which the cut cleans: look before you saw.", off=off)
            if by.toe > ON
            else tr("Its toe then lies on the new arris: look before you saw.")
        )
    elif by.means == "arris":
        line = (
            tr("Set {from_words}, taking {fine} off it.", from_words=from_words(step), fine=fine(project, by.toe))
            if by.toe > ON
            else tr("Set {from_words}.", from_words=from_words(step))
        )
    else:
        how = {
            "datum edge": tr(", measured toe to datum"),
            "datum end": tr(", measured toe to datum"),
            "other toe": tr(", toe to toe"),
        }
        line = (
            tr(
                "Toe {project} {from_words}{get}.",
                project=length(project, by.printed_toe),
                from_words=from_words(step),
                get=how.get(by.means, ""),
            )
            if step.bevel
            else tr(
                "Line {project} {from_words}.", project=length(project, by.printed_toe), from_words=from_words(step)
            )
        )
    return line


def _marked(step: Step) -> tuple[str, ...]:
    return (tr("The show face is underneath: mark it on the back."),) if step.face == "down" else ()


def _on_its_page(step: Step) -> tuple[str, ...]:
    """Which edge or end of the sheet is trued first: its drawing has the wood the other way up for all others."""
    if step.about != TRIM or step.keep == step.datum:
        return ()
    if step.kind == "rip":
        if step.set_by.device == "mark":
            return (tr("On the sheet's page it is the upper edge, with the show face up: near is that side."),)
        return (tr("On the sheet's page it is the upper edge, with the show face up."),)
    if step.set_by.device == "stop" and step.guide == "high":
        return (
            tr("On the sheet's page it is the left end: here the sheet lies turned end for end, the same face up."),
        )
    if step.set_by.device == "mark":
        return (tr("On the sheet's page it is the left end: left and right are as there."),)
    return (tr("On the sheet's page it is the left end."),)


def _squared(plan: Plan, step: Step) -> tuple[str, ...]:
    """What the first end is trued square to, where an edge was trued before it."""
    if step.about != TRIM or step.kind != "crosscut":
        return ()
    first = step.cuts[0]
    trued = [c for c in plan.cuts if c.n < first and c.sheet == step.sheet and c.about == TRIM and c.kind == "rip"]
    if not trued:
        return ()
    if step.set_by.device == "mark":
        return (tr("Square it from the trued edge."),)
    # the sled's fence is below, where the sheet's upper edge lies only when it is turned end for end
    if len(trued) > 1 and (trued[0].keep == "low") != (step.guide == "high"):
        return (tr("The edge trued last, below in the picture, goes against the sled's own fence."),)
    return (tr("The trued edge goes against the sled's own fence."),)


def _device(plan: Plan, step: Step) -> tuple[str, ...]:
    """The guide's edge, the gauge stick, the fence's reading, the stop."""
    by, project = step.set_by, plan.project
    if by.on_line:
        return ()
    if by.stop is not None:
        stop = tr("Stop {project} from the blade, read at table level.", project=length(project, by.printed))
        return (stop, tr("A stop on the sled, never the fence, for a crosscut.")) if "across" in step.moves else (stop,)
    if by.reading is not None:
        return (tr("Fence {project} from the blade, read at table level.", project=length(project, by.printed)),)
    if by.seen is not None:
        told = tr(
            "Seen from the back: the guide's edge goes {project} from the edge above that arris",
            project=length(project, by.seen),
        )
    elif by.edge is not None and abs(by.edge) > ON:
        where = tr("short of") if by.edge > 0 else "beyond"
        told = tr("The guide's edge goes {project} {where} the toe", project=length(project, abs(by.edge)), where=where)
    else:
        told = tr("The guide's edge goes on the line")
    stick = stick_in_words(plan, step)
    return (f"{told}; {stick}." if stick else f"{told}.",)


def stick_in_words(plan: Plan, step: Step) -> str:
    """The gauge stick, and between what it lies; '' where there is none."""
    stick = step.set_by.printed_stick
    if stick is None:
        return ""
    whose = tr("the packer's outer edge") if step.packer else tr("the outer edge")
    if stick <= ON:
        return tr("its back flush with {whose}", whose=whose)
    return tr(
        "gauge stick {project}, from {whose} to the guide's back", project=length(plan.project, stick), whose=whose
    )


def _packing(plan: Plan, step: Step) -> tuple[str, ...]:
    if step.packer is None:
        return ()
    packer, wide = step.packer, length(plan.project, step.packer.width)
    more = "" if packer.toe_to_toe else tr(" Scrap as thick does as well.")
    if packer.instead:  # clamps would mark it
        more = tr(" Only where there is no scrap: {instead}, show face down on clean foam.", instead=packer.instead)
    return (
        tr(
            "Pack the guide out with {words}: at least {wide} wide, clamped and taped down.{more}",
            words=packer.words,
            wide=wide,
            more=more,
        ),
    )
