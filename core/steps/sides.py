"""The sides of a cut by the names a maker has for them: near, far, left, right, the fence's, the outer."""

from __future__ import annotations

from core.language import tr
from core.plan.model import Side
from core.steps.model import Step


def side_word(step: Step, side: Side) -> str:
    """Near or far for a rip, left or right for a crosscut; mirrored where the show face is down.

    On a table saw, where the wood is turned about and the fence stays, it is the fence's (or the stop's) side or outer;
    on a sled with no stop what is seen at the left, where the stop would be, or right.
    """
    if step.set_by.on_line and step.set_by.device == "stop":
        return "left" if side == step.guide else "right"
    if step.set_by.device != "mark":
        return step.set_by.device if side == step.guide else "outer"
    if step.kind == "rip":
        return "near" if side == step.datum else "far"
    return "left" if (side == "low") != (step.face == "down") else "right"


def on_side(step: Step, side: Side) -> str:
    """'on the near side'."""
    return tr(f"on the {side_word(step, side)} side")


def to_side(step: Step, side: Side) -> str:
    """'to the near side'."""
    return tr(f"to the {side_word(step, side)} side")


def edge_word(step: Step) -> str:
    """An edge along the grain, an end across it."""
    return "edge" if step.kind == "rip" else "end"
