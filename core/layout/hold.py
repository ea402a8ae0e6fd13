"""Holding a layout still: under a dragging hand only what must move moves.

Nets keep their places. Where one has grown, its row closes up to the right and the rows above move up together, just
as far as they must. Only where that leaves a net without room is the whole layout made anew.
"""

from __future__ import annotations

from collections.abc import Sequence

from core.document.model import Project, Sheet
from core.layout.allowed import allows
from core.layout.bands import lay_out, matched, without_main
from core.layout.clear import Areas, areas_on, clear
from core.layout.model import FIT, Layout, Misfit, NetSize, Rect, Spot, pin_of, trimmed
from core.layout.slide import Neighbour, slide
from core.sawing.blocks import Block, separable


def hold(project: Project, nets: Sequence[NetSize], before: Layout) -> Layout:
    """The layout of changed nets that is nearest to an earlier one.

    nets: all of the project's, in its order; `before` may be of another number of nets or of changed sheets, and is
    then of no use.
    """
    held = _held(project, nets, before)
    if held is not None and not held.misfits:
        return held
    fresh = lay_out(project, nets)[0]
    if held is None or _lost(project, fresh) < _lost(project, held):
        return fresh
    return held


def _lost(project: Project, layout: Layout) -> tuple[int, int]:
    """How many nets, and how many of these and panels cut apart, lack room."""
    return sum(misfit.index < len(project.shelves) for misfit in layout.misfits), layout.lacking


def _held(project: Project, nets: Sequence[NetSize], before: Layout) -> Layout | None:
    stocks = _same_stocks(project, before)
    known = {s.index: s for s in before.spots} | {m.index: m for m in before.misfits}
    if stocks is None or set(known) != {n.index for n in nets} or any(m.sheet is None for m in before.misfits):
        return None
    spots: list[Spot] = []
    misfits: list[Misfit] = []
    for number, stock in enumerate(stocks):
        here = [n for n in nets if known[n.index].sheet == number]
        placed = _close_up(project, here, {n.index: (known[n.index].x, known[n.index].y) for n in here})
        rects = {n.index: (*placed[n.index], placed[n.index][0] + n.length, placed[n.index][1] + n.width) for n in here}
        inside = {i: r for i, r in rects.items() if _over(stock, r) == (0.0, 0.0)}
        if areas := areas_on(stocks, number):
            aside = _aside(project, nets, stock, areas, inside)
            if aside is None:
                return None
            rects |= aside
            inside = aside
        if not separable([Block("", r) for r in inside.values()], project.saw.kerf):
            return None
        spots += [Spot(i, number, r[0], r[1]) for i, r in inside.items()]
        misfits += [
            Misfit(i, "large", stock, number, r[0], r[1], *_over(stock, r)) for i, r in rects.items() if i not in inside
        ]
    if any(not _allowed(project, nets, s, stocks) for s in spots):
        return None
    if len(nets) > len(project.shelves):
        spots, lost = _with_their_nets(nets, stocks, spots, misfits)
        if lost is None:
            return None
        misfits += lost
    spots.sort(key=lambda s: s.index)
    return Layout(stocks, tuple(spots), tuple(sorted(misfits, key=lambda m: m.index)))


def _with_their_nets(
    nets: Sequence[NetSize], stocks: Sequence[Sheet], spots: list[Spot], misfits: Sequence[Misfit]
) -> tuple[list[Spot], list[Misfit] | None]:
    """Spots without the panels cut apart whose net has lost its room, and these; None where wood no longer matches."""
    kept = matched(nets, stocks, spots)
    lost = {spot.index for spot in spots} - {spot.index for spot in kept}
    homeless = {misfit.index for misfit in misfits}
    if any(nets[index].main not in homeless for index in lost):
        return kept, None
    return kept, [without_main(index) for index in sorted(lost)]


def _aside(
    project: Project, nets: Sequence[NetSize], stock: Sheet, areas: Areas, inside: dict[int, Rect]
) -> dict[int, Rect] | None:
    """The nets of a sheet, those on an area that must keep out of it moved to the nearest place; None: there is none.

    Pinned ones stay: the plan says that they are in the way.
    """
    found = dict(inside)
    for net in nets:
        if net.index not in found or net.form is None or pin_of(project, net.index) is not None:
            continue
        place = found[net.index][:2]
        if clear(net.form, place, areas):
            continue
        others = [Neighbour("", rect) for index, rect in found.items() if index != net.index]
        size = (net.length, net.width)
        there = slide(stock, size, place, others, project.saw.kerf, 0.0, 0.0, net.form, areas)
        if not there.snapped[0] and not there.snapped[1]:
            return None
        found[net.index] = (there.x, there.y, there.x + net.length, there.y + net.width)
    return found


def _same_stocks(project: Project, before: Layout) -> tuple[Sheet, ...] | None:
    """The sheets of the earlier layout as the project has them now, None where they are no longer there."""
    now = {s.id: s for s in project.sheets}
    stocks = tuple(now[s.id] for s in before.stocks if s.id in now)
    if len(stocks) != len(before.stocks):
        return None
    if any(sum(s is kind for s in stocks) > kind.quantity for kind in now.values()):
        return None
    return stocks


def _allowed(project: Project, nets: Sequence[NetSize], spot: Spot, stocks: Sequence[Sheet]) -> bool:
    net, pin = next(n for n in nets if n.index == spot.index), pin_of(project, spot.index)
    if pin is not None and (abs(pin[0] - spot.x) > FIT or abs(pin[1] - spot.y) > FIT):
        return False
    return allows(project.shelves[net.shelf], net, stocks[spot.sheet])


def _over(stock: Sheet, rect: Rect) -> tuple[float, float]:
    """How far a rectangle reaches past the trimmed area, along and across."""
    room = trimmed(stock)
    over_x = max(0.0, rect[2] - room[2], room[0] - rect[0])
    over_y = max(0.0, rect[3] - room[3], room[1] - rect[1])
    return (over_x if over_x > FIT else 0.0, over_y if over_y > FIT else 0.0)


def _close_up(
    project: Project, nets: Sequence[NetSize], places: dict[int, tuple[float, float]]
) -> dict[int, tuple[float, float]]:
    """New places for the nets of one sheet: rows of equal y stay rows, and give way only to what lies before them."""
    kerf = project.saw.kerf
    size = {n.index: n for n in nets}
    places = dict(places)
    for i in places:
        pin = pin_of(project, i)
        if pin is not None:
            places[i] = pin
    rows: dict[float, list[int]] = {}
    for i, (_, y) in places.items():
        rows.setdefault(round(y, 6), []).append(i)
    done: list[Rect] = []
    placed: dict[int, tuple[float, float]] = {}
    for _, row in sorted(rows.items()):
        members = sorted(row, key=lambda i: places[i][0])
        xs = _along(members, places, size, project, kerf)
        lift = min(places[i][1] for i in members)
        for i in members:
            x0, x1 = xs[i], xs[i] + size[i].length
            below = [r for r in done if r[0] < x1 + kerf - FIT and x0 < r[2] + kerf - FIT]
            lift = max([lift, *(r[3] + kerf for r in below if r[3] + kerf > lift + FIT)])
        for i in members:
            at_y = places[i][1] if pin_of(project, i) is not None else max(lift, places[i][1])
            placed[i] = (xs[i], at_y)
            done.append((xs[i], at_y, xs[i] + size[i].length, at_y + size[i].width))
    return placed


def _along(
    members: Sequence[int],
    places: dict[int, tuple[float, float]],
    size: dict[int, NetSize],
    project: Project,
    kerf: float,
) -> dict[int, float]:
    """Where each net of a row starts: at its old place, or a kerf after the net before it."""
    xs: dict[int, float] = {}
    end = float("-inf")
    for i in members:
        x = places[i][0]
        if pin_of(project, i) is None and x < end + kerf - FIT:
            x = end + kerf
        xs[i] = x
        end = x + size[i].length
    return xs
