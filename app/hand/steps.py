"""Arrow keys without a drag: one step of what is chosen. No widgets here."""

from __future__ import annotations

from app.hand.drag import Readout, select_for
from app.hand.grip import Grip, Handle, Point
from app.rule.subject import sentence
from app.store import Store
from core.document.errors import ProjectError


def nudge(store: Store, grip: Grip, way: Point, fine: bool) -> Readout:
    """Move what is held one step (1/16 in or 1 mm; fine: 1/64 in or 0.1 mm) in a direction of the board.

    Steps of one kind, one after the other, are one step of undo. Returns what to say of it.
    """
    unit = store.unit
    values = grip.stepped(grip.values, way, unit, fine)
    numbers = grip.numbers
    complaints = (n.limits.complaint(v, unit) for n, v in zip(numbers, values, strict=True) if n.limits)
    trouble = next((sentence(complaint) for complaint in complaints if complaint), "")
    shown, caught = grip.values, ""
    if not trouble:
        edit = grip.put(values)
        key = f"step {grip.label} {grip.key if isinstance(grip, Handle) else ''}"
        try:
            store.apply(grip.label, lambda _: edit.project, key, select_for(store, grip.about))
            shown, caught, trouble = edit.values, edit.caught, edit.stop
        except ProjectError as error:
            trouble = sentence(error.why)
    lines = tuple((n.words, n.show(v, unit)) for n, v in zip(numbers, shown, strict=True))
    return Readout(lines, caught, trouble)
