"""The frame's sticks as boxes in shelf space, standing in the shell's cavity.

           wall side, z low
+------------------------------+  back rails, the outermost against the wall plane
| | rib            rib       | |  ribs at their centre lines, between the rails
+------------------------------+  front rails
       play, then the front
"""

from __future__ import annotations

import msgspec

from core.document.model import Shelf
from core.frame.studs import shift_of
from core.plan.model import Frame, FramePart

Point = tuple[float, float, float]

BACK_RAIL, FRONT_RAIL = "back rail", "front rail"


class FrameSolid(msgspec.Struct, frozen=True):
    """One stick of a frame: opposite corners of its box in shelf space. [mm]"""

    part: FramePart
    low: Point
    high: Point


def frame_solids(frame: Frame, shelf: Shelf, thickness: float, slip: float = 0.0) -> tuple[FrameSolid, ...]:
    """Every stick of a frame, as a box in shelf space.

    thickness: of the shell's panels; the frame's own is in `frame`. [mm]
    slip: how far the shell still has to go: it stands this much towards the viewer of its place on the frame,
        so the frame lies this much deeper in shelf space; 0 is home. [mm]
    The frame's back is in the wall plane, z = -(depth + scribe); side play is the same at both ends, unless it is
    slid in it (no side is left out where an end is open) and height play the same above and below.
    """
    wall = -(shelf.depth + shelf.scribe) - slip
    play = (frame.cavity[0] - frame.length) / 2.0
    left = (thickness if shelf.left == "mitred" else 0.0) + play + shift_of(shelf, play)
    bottom = (shelf.height - frame.height) / 2.0
    solids = []

    def box(part: FramePart, x0: float, x1: float, z0: float, z1: float) -> None:
        low, high = (left + x0, bottom, wall + z0), (left + x1, bottom + frame.height, wall + z1)
        solids.append(FrameSolid(part, low, high))

    back = [p for p in frame.parts if p.role == BACK_RAIL]
    front = [p for p in frame.parts if p.role == FRONT_RAIL]
    ribs = [p for p in frame.parts if p.role not in (BACK_RAIL, FRONT_RAIL)]
    for layer, part in enumerate(back):
        box(part, 0.0, frame.length, layer * frame.thickness, (layer + 1) * frame.thickness)
    start = len(back) * frame.thickness
    for centre, part in zip(frame.ribs, ribs, strict=True):
        half = frame.thickness / 2.0
        box(part, centre - half, centre + half, start, start + frame.rib_length)
    for layer, part in enumerate(front):
        z1 = frame.depth - layer * frame.thickness
        box(part, 0.0, frame.length, z1 - frame.thickness, z1)
    return tuple(solids)
