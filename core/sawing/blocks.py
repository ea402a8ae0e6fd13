"""What is to be cut from a piece: blocks, each a rectangle with the tilt wanted at each edge."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

import msgspec

from core.sawing.piece import TOUCH, Axis, Box

AXES: tuple[Axis, Axis] = ("y", "x")
Bevels = tuple[float, float, float, float]  # low_x, high_x, low_y, high_y [deg]
SQUARE: Bevels = (0.0, 0.0, 0.0, 0.0)
Footprint = Callable[[float], float]  # of the blade at a tilt


class Block(msgspec.Struct, frozen=True, gc=False):
    """A rectangle to be cut free; with `inner` it is cut out square first and then cut up further.

    run: nets of one run (equal row, depth and height) are ripped together; None for anything else.
    end: an end of a shelf, which cannot be made anew from another strip: its last cut comes last.
    """

    name: str
    box: Box
    bevels: Bevels = SQUARE
    inner: tuple[Block, ...] = ()
    run: tuple[float, ...] | None = None
    end: bool = False


def bounds(blocks: Sequence[Block]) -> Box:
    """The box round some blocks."""
    if len(blocks) == 1:
        return blocks[0].box
    boxes = [b.box for b in blocks]
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return (min(x0), min(y0), max(x1), max(y1))


def groups_along(blocks: Sequence[Block], axis: Axis, kerf: float) -> list[list[Block]]:
    """Blocks parted by every cut, a kerf wide, that touches none of them; in order along the axis."""
    low = 0 if axis == "x" else 1
    groups: list[list[Block]] = []
    reach = 0.0
    for block in sorted(blocks, key=lambda b: b.box[low]):
        if groups and block.box[low] < reach + kerf - TOUCH:
            groups[-1].append(block)
            reach = max(reach, block.box[low + 2])
        else:
            groups.append([block])
            reach = block.box[low + 2]
    return groups


def outer_bevel(blocks: Sequence[Block], side: int) -> float | None:
    """The tilt of the edges furthest out at a side (0 low_x, 1 high_x, 2 low_y, 3 high_y); None where they differ."""
    if len(blocks) == 1:
        return blocks[0].bevels[side]
    column = (0, 2, 1, 3)[side]
    places = [b.box[column] for b in blocks]
    best = max(places) if side in (1, 3) else min(places)
    tilts = {b.bevels[side] for b in blocks if abs(b.box[column] - best) <= TOUCH}
    return tilts.pop() if len(tilts) == 1 else None


def merge_run(blocks: Sequence[Block], footprint: Footprint) -> Block | None:
    """One block for nets that are ripped together, or None where they are not one run.

    Neighbours whose facing edges want a bevel that has no room beside the square cut between them are no run: that cut
    must come before the bevels, or the blade would have to be tilted twice more.
    """
    run = blocks[0].run
    if run is None or any(b.run != run for b in blocks):
        return None
    in_order = sorted(blocks, key=_low_x)
    if any(_too_near(a, b, footprint) for a, b in pairwise(in_order)):
        return None
    inner = tuple(panel for b in blocks for panel in b.inner)
    return Block(blocks[0].name, bounds(blocks), SQUARE, inner)


def _low_x(block: Block) -> float:
    return block.box[0]


def _too_near(left: Block, right: Block, footprint: Footprint) -> bool:
    """Is there no room for a bevel between two facing panels of neighbouring nets?"""
    for a in left.inner:
        for b in right.inner:
            bevel = max(a.bevels[1], b.bevels[0])
            if (
                bevel
                and min(a.box[3], b.box[3]) - max(a.box[1], b.box[1]) > TOUCH
                and b.box[0] - a.box[2] < footprint(bevel) - TOUCH
            ):
                return True
    return False


def separable(blocks: Sequence[Block], kerf: float) -> bool:
    """Can straight edge-to-edge cuts part these rectangles?"""
    pending = [list(blocks)]
    while pending:
        some = pending.pop()
        if len(some) < 2:
            continue
        for axis in AXES:
            groups = groups_along(some, axis, kerf)
            if len(groups) > 1:
                pending.extend(groups)
                break
        else:
            return False
    return True
