"""A guillotine pattern as a tree: rectangles cut in two, down to the parts."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec


class Node(msgspec.Struct, frozen=True):
    """A rectangle in mm, without the kerf behind it.

    axis: "x" where it is cut across x, low and high lie side by side; "y" where high lies above low; None for a part
    or, where the part's number is −1, for a rest that is kept.
    low starts at the rectangle's own corner, high a kerf after low's end; what is left of the rectangle is waste.
    """

    length: float
    width: float
    axis: str | None = None
    low: Node | None = None
    high: Node | None = None
    part: int = -1
    turned: bool = False


class Place(msgspec.Struct, frozen=True):
    """A part on its sheet: number, lower left corner, size as it lies. [mm]"""

    part: int
    x: float
    y: float
    length: float
    width: float
    turned: bool


def join(axis: str, low: Node, high: Node, kerf: float) -> Node:
    """Two rectangles and the cut between them."""
    if axis == "x":
        return Node(low.length + kerf + high.length, max(low.width, high.width), "x", low, high)
    return Node(max(low.length, high.length), low.width + kerf + high.width, "y", low, high)


def places(node: Node, kerf: float, x: float = 0.0, y: float = 0.0) -> Iterator[Place]:
    """Where each part of a tree lies when its lower left corner is at x, y."""
    pending = [(node, x, y)]
    while pending:
        here, left, bottom = pending.pop()
        if here.low is None or here.high is None:
            if here.part >= 0:
                yield Place(here.part, left, bottom, here.length, here.width, here.turned)
            continue
        pending.append((here.low, left, bottom))
        if here.axis == "x":
            pending.append((here.high, left + here.low.length + kerf, bottom))
        else:
            pending.append((here.high, left, bottom + here.low.width + kerf))


def rest_of(node: Node, kerf: float) -> tuple[float, float, float, float] | None:
    """Lower left corner and size of the rest that is kept, None where there is none. [mm]"""
    pending = [(node, 0.0, 0.0)]
    while pending:
        here, left, bottom = pending.pop()
        if here.low is not None and here.high is not None:
            along = here.axis == "x"
            step = (here.low.length + kerf, 0.0) if along else (0.0, here.low.width + kerf)
            pending += [(here.low, left, bottom), (here.high, left + step[0], bottom + step[1])]
        elif here.part < 0:
            return (left, bottom, here.length, here.width)
    return None


def pruned(node: Node, left: dict[int, int], kerf: float) -> Node | None:
    """The tree with each part at most as often as `left` says (which is counted down); None if nothing remains."""
    if node.low is None or node.high is None:
        if not left.get(node.part, 0):
            return None
        left[node.part] -= 1
        return node
    low, high = pruned(node.low, left, kerf), pruned(node.high, left, kerf)
    if low is None or high is None:
        return low or high
    return join(node.axis or "x", low, high, kerf)
