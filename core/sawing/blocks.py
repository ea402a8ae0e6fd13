"""What is to be cut from a piece: blocks, each a rectangle with the tilt wanted at each edge."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from core.sawing.piece import TOUCH, Axis, Box

AXES: tuple[Axis, Axis] = ("y", "x")
Bevels = tuple[float, float, float, float]  # low_x, high_x, low_y, high_y [deg]
SQUARE: Bevels = (0.0, 0.0, 0.0, 0.0)


class Block(msgspec.Struct, frozen=True, gc=False):
    """A rectangle to be cut free; with `inner` it is cut out square first and then cut up further.

    run: nets of one run (equal row, depth and height) are ripped together; None for anything else.
    """

    name: str
    box: Box
    bevels: Bevels = SQUARE
    inner: tuple[Block, ...] = ()
    run: tuple[float, ...] | None = None


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


def merge_run(blocks: Sequence[Block]) -> Block | None:
    """One block for nets that are ripped together, or None where they are not one run."""
    run = blocks[0].run
    if run is None or any(b.run != run for b in blocks):
        return None
    inner = tuple(panel for b in blocks for panel in b.inner)
    return Block(blocks[0].name, bounds(blocks), SQUARE, inner)


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
