"""What the fold board says of things and of itself. No Qt here."""

from __future__ import annotations

from app.fold.pose import Pose
from core.document.model import Project
from core.drawing.names import letter, part_name, shelf_letters, size_text
from core.language import tr
from core.lengths import Unit, show_thickness
from core.plan.model import Plan


def reading(plan: Plan, about: str, unit: Unit) -> str:
    """A thing's name and figure: 'Seam B–B, front to left: the grain wraps, 1/8" of it is lost'."""
    for seam in plan.seams:
        if seam.id == about:
            first, second = (panel.partition("/")[2] for panel in seam.between)
            name = tr("Seam {letter}–{letter}, {first} to {second}", letter=seam.letter, first=first, second=second)
            if seam.show_loss is None:
                broken = seam.broken
                return f"{name}: {tr('the figure is broken, one is cut apart') if broken else tr('the grain turns')}"
            return tr(
                "{name}: the grain wraps, {show_loss} is lost",
                name=name,
                show_loss=show_thickness(seam.show_loss, unit),
            )
    letters = shelf_letters(plan)
    for panel in plan.panels:
        if panel.id == about:
            return f"{part_name(about, letters)}, {size_text(*panel.show, unit)}: {_figure(plan, about)}"
    for frame in plan.frames:
        for part in frame.parts:
            if part.id == about:
                return f"{part_name(about, letters)}, {size_text(part.length, part.width, unit)}"
    return part_name(about, letters) if about else ""


def _figure(plan: Plan, panel: str) -> str:
    """Where a panel's figure runs on: 'wraps to front, turns at left and right'."""
    said = []
    for figure, broken, words in (
        ("wraps", False, tr("wraps to")),
        ("turns", False, tr("turns at")),
        ("turns", True, tr("is broken at")),
    ):
        others = [
            other.partition("/")[2]
            for seam in plan.seams
            if (seam.figure, seam.broken) == (figure, broken) and panel in seam.between
            for other in seam.between
            if other != panel
        ]
        if others:
            said.append(f"{words} {_listed(others)}")
    return ", ".join(said) or tr("on its own")


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else tr("{join} and {names}", join=", ".join(names[:-1]), names=names[-1])


def subtitle(project: Project, pose: Pose, shelf_index: int) -> str:
    """What the board shows: 'what it becomes; shelf B, half folded'."""
    if shelf_index < 0:
        return tr("what it becomes; there is no shelf yet")
    if pose.wall:
        off = [letter(at) for at, shelf in enumerate(project.shelves) if shelf.mount is None]
        rest = tr("; not on the wall yet: {join}", join=", ".join(off)) if off else ""
        return tr("what it becomes; the whole wall, {folded}{rest}", folded=folded(pose.fold), rest=rest)
    return tr("what it becomes; shelf {letter}, {folded}", letter=letter(shelf_index), folded=folded(pose.fold))


def folded(fold: float) -> str:
    """How far it is folded, in words."""
    if fold >= 0.995:
        return "closed"
    if fold <= 0.005:
        return tr("flat on the sheet")
    return tr("folded {fold} %", fold=round(fold * 100))
