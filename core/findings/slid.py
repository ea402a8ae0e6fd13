"""Sliding a pinned net to the nearest place where it may lie."""

from __future__ import annotations

from collections.abc import Sequence

from core.document.model import Project, Sheet
from core.findings.words import ceiling, floor, need
from core.language import tr
from core.layout.allowed import first_allowed
from core.layout.clear import Point
from core.layout.model import FIT
from core.layout.slide import Neighbour, slide
from core.plan.model import Fix
from core.plan.shapes import Shape


def slid(project: Project, shapes: Sequence[Shape], index: int, stock: Sheet | None) -> Fix | None:
    """A pinned net slid on the first copy of a stock, with how far; None: no place is near.

    As little as need be, and on to the next whole 1/16 in or 1 mm from the trued end and edge where it fits there too.
    """
    shape = shapes[index]
    if stock is None or shape.role is not None or shape.shelf.at is None:
        return None
    others = [_where(s) for s in shapes if s.index != shape.index and _pinned_to(project, s, stock.id)]
    net, want = shape.net, shape.shelf.at
    room = (stock.trim, stock.length - stock.trim - net.length, stock.trim, stock.width - stock.trim - net.width)
    if room[0] > room[1] + FIT or room[2] > room[3] + FIT:
        return None
    inside = (min(max(want[0], room[0]), room[1]), min(max(want[1], room[2]), room[3]))

    def nearest(place: Point) -> Point:
        size, kerf = (net.length, net.width), project.saw.kerf
        found = slide(stock, size, place, others, kerf, 0.0, 0.0, net, stock.keep_clear)
        return found.x, found.y

    exact = nearest(inside)
    whole = _whole(project, stock.trim, want, exact)
    x, y = whole if nearest(whole) == whole and _inside(whole, room) else exact
    moves = (x - want[0], y - want[1])
    said = [
        f"{need(project, abs(move))} {ways[move > 0]}"
        for move, ways in zip(moves, ((tr("to the left"), tr("to the right")), ("down", "up")), strict=True)
        if abs(move) > FIT
    ]
    return (
        Fix(tr("Slide it {join}", join=tr(" and ").join(said)), {f"/shelves/{shape.index}/at": [x, y]})
        if said
        else None
    )


def _whole(project: Project, trim: float, want: Point, place: Point) -> Point:
    """The place on whole fractions from the trim, rounded the way the net has slid; along the other axis as it is."""
    along = []
    for start, end in zip(want, place, strict=True):
        rounded = floor(project, end - trim) if end < start else ceiling(project, end - trim)
        along.append(end if abs(end - start) <= FIT else trim + rounded)
    return along[0], along[1]


def _inside(place: Point, room: tuple[float, float, float, float]) -> bool:
    return room[0] - FIT <= place[0] <= room[1] + FIT and room[2] - FIT <= place[1] <= room[3] + FIT


def _pinned_to(project: Project, shape: Shape, stock: str) -> bool:
    """Is the net pinned to the first copy of that stock?"""
    first = first_allowed(shape.shelf, shape.size, project.sheets)
    return shape.role is None and shape.shelf.at is not None and first is not None and first.id == stock


def _where(shape: Shape) -> Neighbour:
    assert shape.shelf.at is not None
    x, y = shape.shelf.at
    return Neighbour(shape.shelf.id, (x, y, x + shape.net.length, y + shape.net.width))
