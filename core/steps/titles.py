"""What each step makes, in a few words."""

from __future__ import annotations

from core.drawing.measure import clean
from core.drawing.names import part_word, shelf_letters
from core.language import tr
from core.plan.model import Plan
from core.steps.bench import TRIM
from core.steps.contents import ENDS, MANY, ONE, ORDER, in_series, listed, the
from core.steps.model import Step
from core.steps.section import OTHER
from core.steps.sides import side_word


def step_title(plan: Plan, step: Step) -> str:
    """What the step makes: 'Bevel rip: front, seam B', 'Square crosscut: true the left end'."""
    how = tr("Bevel {kind}", kind=step.kind) if step.bevel else tr("Square {kind}", kind=step.kind)
    if step.about == TRIM:
        edge = "edge" if step.kind == "rip" else "end"
        which = side_word(step, OTHER[step.keep])
        if step.set_by.device != "mark":  # its wood is turned about: sides are those of the fence
            which = "first" if step.keep != step.datum else "other"
        return tr(f"{{how}}: true the {{which}} {edge}", how=how, which=which)
    names = _stock(step) or _names(plan, step.abouts)
    if step.words.startswith(tr("nets of {whose}", whose="")) and step.guide == step.keep:
        names = the(step.words.removesuffix(ONE))  # more nets than the one the cut is about
    if step.seams:
        names += f", {tr('seams') if len(step.seams) > 1 else tr('seam')} {listed(step.seams)}"
    return f"{how}: {names}"


def _stock(step: Step) -> str:
    """'stock for rib 3 and rib 4' where nothing that is kept is a part of a frame yet; '' where some is, or a panel."""
    side = "guide" if step.keep == step.guide else "off"
    kept = [fall.words for fall in step.falls if fall.kind == "strip" and fall.lies == side]
    if step.seams or len(kept) != len(step.abouts) or not all(words.startswith(tr("stock for ")) for words in kept):
        return ""
    return kept[0] if len(kept) == 1 else tr("{count} strips for the frames", count=len(kept))


def _names(plan: Plan, abouts: tuple[str, ...]) -> str:
    """'A front, B top'; the same of several shelves, or several of one: 'front of A and B', 'top and front of A'."""
    if len(plan.project.shelves) > 1 and len(abouts) > 1:
        letters = shelf_letters(plan)
        whose: dict[str, list[str]] = {}
        for shelf, _, part in (about.rpartition("/") for about in abouts):
            whose.setdefault(tr("{part} end", part=part) if part in ENDS else part_word(part), []).append(
                letters.get(shelf, "")
            )
        some = next(iter(whose.values()))
        panels = all(about.rpartition("/")[2] in ORDER for about in abouts)
        most = MANY if panels else len(some)  # parts of frames have their names from the card
        if all(some) and all(shelves == some for shelves in whose.values()):
            return clean(
                tr(
                    "{listed} of {rest}",
                    listed=listed(in_series(list(whose))),
                    rest=listed(some) if len(some) <= most else tr("{some} shelves", some=len(some)),
                )
            )
    return listed(in_series([_name(plan, about) for about in abouts]))


def _name(plan: Plan, about: str) -> str:
    letters = shelf_letters(plan) if len(plan.project.shelves) > 1 else {}
    if "/" not in about:  # a shelf's own id
        return tr("the net {get}", get=letters.get(about, "")).strip()
    shelf, _, part = about.rpartition("/")
    word = tr("{part} end", part=part) if part in ENDS else part_word(part)
    return clean(f"{letters.get(shelf, '')} {word}".strip())
