"""What passes have to say of guide and fence, gathered, and said: one finding for each thing, with the worst number."""

from __future__ import annotations

import msgspec

from core.document.model import Project
from core.findings.words import ceiling, length, limit, need
from core.language import tr, within
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
    return tr("One cut") if told.passes == 1 else tr("{passes} cuts", passes=told.passes)


def _about(project: Project, told: Stretch) -> str:
    """A cut that trues a sheet is about the first shelf, like everything said of the saw."""
    shelves = [shelf.id for shelf in project.shelves]
    return told.about if {told.about, told.about.rpartition("/")[0]} & set(shelves) else shelves[0]


def _short(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    wanted = told.worst + RUN
    verb = "is" if told.passes == 1 else tr("are up to")
    text = tr(
        "{cuts} {verb} {need} long; the saw starts and stops on the guide, so it wants {need2} "
        "of it: it is {limit} long.",
        cuts=_cuts(told),
        verb=verb,
        need=need(project, told.worst),
        need2=need(project, wanted),
        limit=limit(project, project.saw.guide_length),
    )
    whole = ceiling(project, wanted)
    fix = Fix(tr("A guide of {project}", project=length(project, whole)), {"/saw/guide_length": whole})
    return [Finding("warning", "guide-short", _about(project, told), text, (fix,), wanted - project.saw.guide_length)]


def _bare(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    verb = "has" if told.passes == 1 else "have"
    text = tr(
        "{cuts} {verb} as little as {project} of wood under a guide {project2} wide, and nothing "
        "that thick lies there to pack it out.",
        cuts=_cuts(told),
        verb=verb,
        project=length(project, told.worst),
        project2=length(project, project.saw.guide_width),
    )
    return [Finding("warning", "narrow", _about(project, told), text, (), told.worst)]


def _far(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    verb, most = "wants" if told.passes == 1 else "want", project.saw.fence_travel
    text = tr(
        "{cuts} {verb} the fence at {need}; it goes to {limit}: rough the sheet out with a guided saw first.",
        cuts=_cuts(told),
        verb=verb,
        need=length(project, told.worst),  # as the cards print both
        limit=length(project, most),
    )
    severity: Severity = "warning" if told.bevelled else "note"
    return [Finding(severity, "fence-travel", _about(project, told), text, (), told.worst - most)]


def _close(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    verb = "leaves" if told.passes == 1 else "leave"
    text = tr(
        "{cuts} {verb} as little as {project} between blade and fence: a push stick, or the "
        "strip on the outside of the blade.",
        cuts=_cuts(told),
        verb=verb,
        project=length(project, told.worst),
    )
    severity: Severity = "warning" if told.bevelled else "note"
    return [Finding(severity, "narrow", _about(project, told), text, (), told.worst)]


def _trapped(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    text = tr(
        "The blade leans {worst} to the fence: in {lower} the wood between them is trapped and may be thrown.",
        worst=show_angle(told.worst),
        lower=within(_cuts(told)),
    )
    return [Finding("warning", "trapped", _about(project, told), text, (_on_what_is_kept(project),))]


def _on_waste(project: Project, told: Stretch) -> list[Finding]:
    if not told.passes:
        return []
    text = tr(
        "In {lower} the fence is on the waste, as little as {project} from the blade: nothing "
        "holds what is kept, and an edge that a cut has just left bears on the fence.",
        lower=within(_cuts(told)),
        project=length(project, told.worst),
    )
    return [Finding("warning", "waste-side", _about(project, told), text, (_on_what_is_kept(project),), told.worst)]


def _on_what_is_kept(project: Project) -> Fix:
    """The way a table saw cuts bevels: blade leaning away from the fence, the fence on what is kept, show face up."""
    turned = {"/saw/lean": tr("fence on the other side of the blade")} if project.saw.lean != "under" else {}
    turned |= {"/saw/face": tr("show face up")} if project.saw.face != "up" else {}
    text = tr(" and ").join(turned.values())
    right = {"/saw/lean": "under", "/saw/face": "up"}
    return Fix(text[:1].upper() + text[1:], {key: right[key] for key in turned})
