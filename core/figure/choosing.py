"""Choosing which figure lands on which shelf: a net turned end for end, two nets that exchange their places.

Sliding a net is `core.layout.slide`. Both edits keep every other net where it lies.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product

from core.document.model import Project
from core.geometry.parts import main_part
from core.language import tr
from core.layout.model import FIT, Rect
from core.layout.pin import (
    Place,
    all_pinned,
    index_of,
    keeps_places,
    pinned,
    placed_net,
    rect_of,
    sheet_under,
    shelf_of,
    with_shelf,
)
from core.layout.slide import Neighbour, may_lie, slide
from core.plan.make import best_plan
from core.plan.model import PlacedNet, Plan


def turned_over(plan: Plan, shelves: Iterable[str]) -> Project:
    """The project with these shelves' nets turned end for end where they lie.

    A turned net is as long and as wide and shares the same bands, so it stays by itself; where another layout would
    come of it (areas to keep clear, a layout that was searched for), the nets of its sheet are pinned.
    Raises KeyError where there is no such shelf.
    """
    project = plan.project
    turned = tuple(shelves)
    for shelf in turned:
        was = shelf_of(project, shelf)
        project = with_shelf(project, index_of(project, shelf), turned=not was.turned)
    after = best_plan(project)
    for shelf in turned:
        net, now = placed_net(plan, shelf), placed_net(after, shelf)
        if net is not None and not _is_there(net, now) and keeps_places(plan, sheet_under(plan, net)):
            project = all_pinned(project, plan, sheet_under(plan, net))
    return project


def _is_there(net: PlacedNet, now: PlacedNet | None) -> bool:
    return now is not None and now.sheet == net.sheet and abs(now.x - net.x) + abs(now.y - net.y) <= FIT


def no_exchange(plan: Plan, one: str, other: str) -> str:
    """Why two shelves' nets cannot exchange their places; '' where they can."""
    nets = [placed_net(plan, shelf) for shelf in (one, other)]
    for shelf, net in zip((one, other), nets, strict=True):
        if net is None:
            return tr("{shelf} lies on no sheet yet", shelf=shelf)
    homes = [sheet_under(plan, net) for net in nets if net is not None]
    if not any(keeps_places(plan, home) for home in homes):
        return tr("only on the first sheet {id} is a place kept", id=homes[0].stock)
    return ""


def exchanged(plan: Plan, one: str, other: str) -> Project:
    """The project with the places of two shelves' nets exchanged, all nets of their sheets pinned.

    Each is laid at a corner of the other's old place, so that both fit if that can be, else as near to it as it may
    lie; where it may lie nowhere it is pinned all the same, and the plan tells what it misses. On a sheet where no
    place is kept (a further copy of its stock) a net is left free.
    Raises ValueError where `no_exchange` says why not.
    """
    if why := no_exchange(plan, one, other):
        raise ValueError(why)
    first, second = placed_net(plan, one), placed_net(plan, other)
    assert first is not None
    assert second is not None
    project = plan.project
    for sheet in {net.sheet: sheet_under(plan, net) for net in (first, second)}.values():
        if keeps_places(plan, sheet):
            project = all_pinned(project, plan, sheet, but=(one, other))
    for net, home, place in zip((first, second), (second, first), _places(plan, first, second), strict=True):
        sheet, at = sheet_under(plan, home), index_of(project, net.shelf)
        if keeps_places(plan, sheet):
            project = pinned(with_shelf(project, at, at=None, sheet=None), net.shelf, sheet.stock, place)
        else:
            project = with_shelf(project, at, at=None, sheet=sheet.stock)
    return project


def _places(plan: Plan, first: PlacedNet, second: PlacedNet) -> tuple[Place, Place]:
    """Where the two come to lie: the first pair of corners at which both may."""
    corners = (list(_corners(first, rect_of(second))), list(_corners(second, rect_of(first))))
    for mine, its in product(*corners):
        if _fits(plan, first, second, mine, (second, its)) and _fits(plan, second, first, its, (first, mine)):
            return mine, its
    its = _near(plan, second, first, corners[1][0], None)
    return _near(plan, first, second, corners[0][0], (second, its)), its


def _corners(net: PlacedNet, room: Rect) -> Iterator[Place]:
    """The places of a net in the corners of another's room, the lower left one first, no two alike."""
    seen: set[Place] = set()
    for x, y in product((room[0], room[2] - net.length), (room[1], room[3] - net.width)):
        if (x, y) not in seen:
            seen.add((x, y))
            yield x, y


Moved = tuple[PlacedNet, Place]


def _others(plan: Plan, net: PlacedNet, home: PlacedNet, moved: Moved | None) -> tuple[Neighbour, ...]:
    """What lies on the sheet of `home`, without the two that exchange their places, but with the one that has moved."""
    two = (net.shelf, home.shelf)
    found = [
        Neighbour(one.shelf, rect_of(one))
        for one in plan.nets
        if one.sheet == home.sheet and one.panel is None and one.shelf not in two
    ]
    if moved is not None and net.sheet == home.sheet:
        x, y = moved[1]
        found.append(Neighbour(moved[0].shelf, (x, y, x + moved[0].length, y + moved[0].width)))
    return tuple(found)


def _fits(plan: Plan, net: PlacedNet, home: PlacedNet, place: Place, moved: Moved) -> bool:
    sheet, form = sheet_under(plan, home), main_part(plan.shapes[index_of(plan.project, net.shelf)])
    size, others = (net.length, net.width), _others(plan, net, home, moved)
    return may_lie(sheet.source, size, place, others, plan.project.saw.kerf, form, sheet.areas)


def _near(plan: Plan, net: PlacedNet, home: PlacedNet, place: Place, moved: Moved | None) -> Place:
    sheet, form = sheet_under(plan, home), main_part(plan.shapes[index_of(plan.project, net.shelf)])
    size, others = (net.length, net.width), _others(plan, net, home, moved)
    found = slide(sheet.source, size, place, others, plan.project.saw.kerf, 0.0, 0.0, form, sheet.areas)
    return found.x, found.y
