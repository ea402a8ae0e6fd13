"""Which stick of a frame lies at a place of its drawing: by the frame's own numbers. No Qt here."""

from __future__ import annotations

from core.drawing.frame import APART
from core.drawing.names import shelf_thickness
from core.frame.studs import shift_of
from core.plan.model import Frame, Plan


def stick_at(plan: Plan, frame: Frame, x: float, y: float) -> str:
    """Id of the stick at (x, y) of `core.drawing.frame`'s drawing; '' for none."""
    wish = plan.project.frame
    shelf = next(one for one in plan.project.shelves if one.id == frame.shelf)
    x -= shift_of(shelf, wish.side_play)
    if not 0.0 <= x <= frame.length:
        return ""
    front, back = wish.front_layers * frame.thickness, frame.depth - wish.back_layers * frame.thickness
    top = -(wish.front_play + shelf_thickness(plan, frame.shelf)) - APART
    if top - frame.height <= y <= top:  # the back rail from the front
        return _layer(frame, "back rail", 0)
    if back <= y <= frame.depth:
        return _layer(frame, "back rail", int((frame.depth - y) / frame.thickness))
    if 0.0 <= y < front:
        return _layer(frame, "front rail", int(y / frame.thickness))
    if not front <= y < back:
        return ""
    near = (n for n, rib in enumerate(frame.ribs) if abs(rib - x) <= frame.thickness / 2.0)
    return next((f"{frame.shelf}/rib {n + 1}" for n in near), "")


def _layer(frame: Frame, role: str, at: int) -> str:
    found = [part.id for part in frame.parts if part.role == role]
    return found[min(at, len(found) - 1)] if found else ""
