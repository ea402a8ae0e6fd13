"""What parts come to where all keep to the printed numbers: which do not come out alike, and which not as planned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.plan.model import Plan
from core.sawing.piece import Axis
from core.steps.model import Uneven, Untrue

AXES: Final[tuple[Axis, Axis]] = ("x", "y")
LINE: Final = 0.02  # mm: no pencil line is finer

Done = dict[str, tuple[float, int]]  # how long a part comes out along an axis, and the last step that has made it so
Sizes = dict[str, tuple[float, float]]  # of panels and parts of frames, along x and y [mm]


def mates(plan: Plan) -> Iterator[tuple[tuple[str, Axis], tuple[str, Axis]]]:
    """The pairs of panels that meet, each with the axis along the edge where they do."""
    for net in plan.shapes:
        for joint in net.joints:
            one, other = (
                (f"{net.owner}/{role}", AXES[not edge.endswith("_y")])
                for role, edge in zip(joint.panels, joint.edges, strict=True)
            )
            yield one, other


def uneven(plan: Plan, done: dict[str, Done]) -> dict[int, list[Uneven]]:
    """The pairs of panels that meet and come out unlike, by the step that is the last of both."""
    found: dict[int, list[Uneven]] = {}
    for pair in mates(plan):
        if all(part in done and axis in done[part] for part, axis in pair):
            ends = sorted((done[part][axis][1], part, done[part][axis][0]) for part, axis in pair)
            (_, mate, short), (last, part, long) = ends
            if abs(long - short) > LINE:
                found.setdefault(last, []).append(Uneven(part, mate, long - short))
    return found


def untrue(sizes: Sizes, done: dict[str, Done], limit: float) -> dict[int, list[Untrue]]:
    """The parts that come out further off their size than a limit [mm], by the step that is their last along it."""
    found: dict[int, list[Untrue]] = {}
    for part, made in done.items():
        for axis, size in zip("xy", sizes[part], strict=True):
            came, last = made.get(axis, (size, -1))
            if last >= 0 and abs(came - size) > limit:
                found.setdefault(last, []).append(Untrue(part, axis == "x", came - size))
    return found
