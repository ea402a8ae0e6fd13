"""What a number is measured from, in words: an edge by its side and kind, an arris, a toe."""

from __future__ import annotations

from core.language import tr
from core.steps.bench import TRIM
from core.steps.contents import ONE, the
from core.steps.model import Step
from core.steps.sides import edge_word, side_word


def from_words(step: Step) -> str:
    """What the toe is measured from: 'from its far square edge' where that is of what the guide is on."""
    by, several = step.set_by, len(step.cuts) > 1
    edge = f"{edge_word(step)}{'s' if several else ''}"
    # else it is the one against fence or stop
    side = f"{tr(side_word(step, by.side))} " if by.device == "mark" else ""
    mine = by.side == (step.keep if by.on_line else step.guide)
    its, of = (
        ("their" if several else "its", "") if mine else ("the", tr(" of {the}", the=the(by.of.removesuffix(ONE))))
    )
    if by.means == "raw edge":
        came = tr(f"from the {edge_word(step)} as it came")
        return came if step.about == TRIM else tr(f"from {{its}} bevelled {edge}{{of}}", its=its, of=of)
    if by.means == "datum edge":
        return tr("from the trued edge")
    if by.means == "datum end":
        return tr("from the trued end")
    if by.means == "square edge":
        return _spaced(tr(f"from {{its}} {{side}}square {edge}{{of}}", its=its, side=side, of=of))
    if by.means == "arris":
        return tr("on the new arris") if step.second else tr("on the arris")
    return _toe_words(step, its, of)


def _toe_words(step: Step, its: str, of: str) -> str:
    """From the toe on the other side; a square cut makes none itself."""
    several = len(step.cuts) > 1
    if step.bevel:
        return tr(f"from {{its}} other toe{'s' if several else ''}{{of}}", its=its, of=of)
    return tr(f"from {{its}} toe{'s' if several else ''}{{of}}", its=its, of=of)


def back_words(step: Step) -> str:
    """From the square back of what is kept: 'from its far square edge', 'from the trued edge'."""
    several = len(step.cuts) > 1
    edge = f"{edge_word(step)}{'s' if several else ''}"
    if step.set_by.back_edge == "datum":
        return tr("from the trued edge") if step.kind == "rip" else tr("from the trued end")
    side = f"{tr(side_word(step, step.keep))} "
    return _spaced(tr(f"from {{its}} {{side}}square {edge}{{of}}", its="their" if several else "its", side=side, of=""))


def _spaced(words: str) -> str:
    """Words with one blank between each two: what is told of an edge may be nothing, and stands after it elsewhere."""
    return " ".join(words.split())
