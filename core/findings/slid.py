"""Sliding a pinned net to the nearest place where it may lie."""

from __future__ import annotations

from collections.abc import Sequence

from core.document.model import Project, Sheet
from core.findings.words import need
from core.layout.allowed import first_allowed
from core.layout.model import FIT
from core.layout.slide import Neighbour, slide
from core.plan.model import Fix
from core.plan.shapes import Shape


def slid(project: Project, shapes: Sequence[Shape], index: int, stock: Sheet | None) -> Fix | None:
    """A pinned net slid as little as need be on the first copy of a stock, with how far; None: no place is near."""
    shape = shapes[index]
    if stock is None or shape.shelf.at is None:
        return None
    others = [_where(s) for s in shapes if s.index != shape.index and _pinned_to(project, s, stock.id)]
    net, want = shape.net, shape.shelf.at
    room = (stock.trim, stock.length - stock.trim - net.length, stock.trim, stock.width - stock.trim - net.width)
    if room[0] > room[1] + FIT or room[2] > room[3] + FIT:
        return None
    inside = (min(max(want[0], room[0]), room[1]), min(max(want[1], room[2]), room[3]))
    found = slide(stock, (net.length, net.width), inside, others, project.saw.kerf, 0.0, 0.0, net, stock.keep_clear)
    moves = (found.x - want[0], found.y - want[1])
    said = [
        f"{need(project, abs(move))} {ways[move > 0]}"
        for move, ways in zip(moves, (("to the left", "to the right"), ("down", "up")), strict=True)
        if abs(move) > FIT
    ]
    return Fix(f"Slide it {' and '.join(said)}", {f"/shelves/{shape.index}/at": [found.x, found.y]}) if said else None


def _pinned_to(project: Project, shape: Shape, stock: str) -> bool:
    """Is the net pinned to the first copy of that stock?"""
    first = first_allowed(shape.shelf, shape.size, project.sheets)
    return shape.shelf.at is not None and first is not None and first.id == stock


def _where(shape: Shape) -> Neighbour:
    assert shape.shelf.at is not None
    x, y = shape.shelf.at
    return Neighbour(shape.shelf.id, (x, y, x + shape.net.length, y + shape.net.width))
