"""What passes have to say of guide and fence, gathered, and said: one finding for each thing, with the worst number."""

from __future__ import annotations

import msgspec

from core.document.model import Project
from core.findings.words import ceiling, length, limit, need
from core.lengths import show_angle
from core.plan.model import Finding, Fix, Severity
from core.sawing.bench import SawnCut
from core.sawing.support import RUN


class Stretch(msgspec.Struct, gc=False):
    """Cuts of which one thing is to be said: how many passes, the worst amount, and what that cut is about."""

    passes: int = 0
    worst: float = 0.0
    about: str = ""
    bevelled: bool = False
    sense: float = 1.0  # -1 where the least amount is the worst

    def add(self, amount: float, cut: SawnCut) -> None:
        """Count a pass."""
        if not self.passes or (amount - self.worst) * self.sense > 0.0:
            self.worst, self.about = amount, cut.about
        self.passes += 1
        self.bevelled = self.bevelled or bool(cut.bevel)


class Told(msgspec.Struct, gc=False):
    """Everything the passes of a plan have to say."""

    short: Stretch
    bare: Stretch
    close: Stretch
    far: Stretch
    trapped: Stretch
    waste: Stretch


def findings_of(project: Project, told: Told) -> list[Finding]:
    """Everything that was gathered, as findings."""
    found = (
        _short(project, told.short),
        _bare(project, told.bare),
        _far(project, told.far),
        _close(project, told.close),
        _trapped(project, told.trapped),
        _on_waste(project, told.waste),
    )
    return [finding for some in found for finding in some]


def _cuts(told: Stretch) -> str:
    return "One cut" if told.passes == 1 else f"{told.passes} cuts"


def _about(project: Project, told: Stretch) -> str:
    """A cut that trues a sheet is about the first shelf, like everything said of the saw."""
    shelves = [shelf.id for shelf in project.shelves]
    return told.about if {told.about, told.about.rpartition("/")[0]} & set(shelves) else shelves[0]


def _short(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    wanted = told.worst + RUN
    verb = "is" if told.passes == 1 else "are up to"
    text = (
        f"{_cuts(told)} {verb} {need(project, told.worst)} long; the saw starts and stops on the guide, so it wants "
        f"{need(project, wanted)} of it: it is {limit(project, project.saw.guide_length)} long."
    )
    whole = ceiling(project, wanted)
    fix = Fix(f"A guide of {length(project, whole)}", {"/saw/guide_length": whole})
    return [Finding("warning", "guide-short", _about(project, told), text, (fix,), wanted - project.saw.guide_length)]


def _bare(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    verb = "has" if told.passes == 1 else "have"
    text = (
        f"{_cuts(told)} {verb} as little as {length(project, told.worst)} of wood under a guide "
        f"{length(project, project.saw.guide_width)} wide, and nothing that thick lies there to pack it out."
    )
    return [Finding("warning", "narrow", _about(project, told), text, (), told.worst)]


def _far(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    verb, most = "wants" if told.passes == 1 else "want", project.saw.fence_travel
    text = (
        f"{_cuts(told)} {verb} the fence at {need(project, told.worst)}; it goes to {limit(project, most)}: "
        "rough the sheet out with a guided saw first."
    )
    severity: Severity = "warning" if told.bevelled else "note"
    return [Finding(severity, "fence-travel", _about(project, told), text, (), told.worst - most)]


def _close(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    verb = "leaves" if told.passes == 1 else "leave"
    text = (
        f"{_cuts(told)} {verb} as little as {length(project, told.worst)} between blade and fence: "
        "a push stick, or the strip on the outside of the blade."
    )
    severity: Severity = "warning" if told.bevelled else "note"
    return [Finding(severity, "narrow", _about(project, told), text, (), told.worst)]


def _trapped(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    text = (
        f"The blade leans {show_angle(told.worst)} to the fence: in {_cuts(told).lower()} the wood between them is "
        "trapped and may be thrown."
    )
    return [Finding("warning", "trapped", _about(project, told), text, (_on_what_is_kept(project),))]


def _on_waste(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    text = (
        f"In {_cuts(told).lower()} the fence is on the waste, as little as {length(project, told.worst)} from the "
        "blade: nothing holds what is kept, and an edge that a cut has just left bears on the fence."
    )
    return [Finding("warning", "waste-side", _about(project, told), text, (_on_what_is_kept(project),), told.worst)]


def _on_what_is_kept(project: Project) -> Fix:
    """The way a table saw cuts bevels: blade leaning away from the fence, the fence on what is kept, show face up."""
    turned = {"/saw/lean": "fence on the other side of the blade"} if project.saw.lean != "under" else {}
    turned |= {"/saw/face": "show face up"} if project.saw.face != "up" else {}
    text = " and ".join(turned.values())
    right = {"/saw/lean": "under", "/saw/face": "up"}
    return Fix(text[:1].upper() + text[1:], {key: right[key] for key in turned})
