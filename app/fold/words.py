"""What the fold board says of things and of itself. No Qt here."""

from __future__ import annotations

from app.fold.pose import Pose
from core.document.model import Project
from core.drawing.names import letter, part_name, shelf_letters, size_text
from core.lengths import Unit, show_thickness
from core.plan.model import Plan


def reading(plan: Plan, about: str, unit: Unit) -> str:
    """A thing's name and figure: 'Seam B–B, front to left: the grain wraps, 1/8" of it is lost'."""
    for seam in plan.seams:
        if seam.id == about:
            first, second = (panel.partition("/")[2] for panel in seam.between)
            name = f"Seam {seam.letter}–{seam.letter}, {first} to {second}"
            if seam.show_loss is None:
                return f"{name}: {'the figure is broken, one is cut apart' if seam.broken else 'the grain turns'}"
            return f"{name}: the grain wraps, {show_thickness(seam.show_loss, unit)} is lost"
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
        ("wraps", False, "wraps to"),
        ("turns", False, "turns at"),
        ("turns", True, "is broken at"),
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
    return ", ".join(said) or "on its own"


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def subtitle(project: Project, pose: Pose, shelf_index: int) -> str:
    """What the board shows: 'what it becomes; shelf B, half folded'."""
    if shelf_index < 0:
        return "what it becomes; there is no shelf yet"
    if pose.wall:
        off = [letter(at) for at, shelf in enumerate(project.shelves) if shelf.mount is None]
        rest = f"; not on the wall yet: {', '.join(off)}" if off else ""
        return f"what it becomes; the whole wall, {folded(pose.fold)}{rest}"
    return f"what it becomes; shelf {letter(shelf_index)}, {folded(pose.fold)}"


def folded(fold: float) -> str:
    """How far it is folded, in words."""
    if fold >= 0.995:
        return "closed"
    if fold <= 0.005:
        return "flat on the sheet"
    return f"folded {round(fold * 100)} %"
