"""A first layout in bands: nets of one depth and height side by side in a band, bands across the sheet.

Several simple orders are tried and the best kept: fewest nets without room, then fewest sheets, then fewest bands,
then the largest free room. Pinned nets are placed first and everything else flows round them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

import msgspec

from core.document.model import Project, Sheet
from core.layout.allowed import allows, named
from core.layout.clear import Areas, Axis, Point, areas_on, clear, first_clear
from core.layout.model import FIT, Layout, Misfit, NetSize, Reason, Rect, Spot, pin_of, trimmed
from core.layout.rooms import beside, fits, split
from core.sawing.blocks import Block, separable

Order = Callable[[NetSize], tuple[float, ...]]

ORDERS: tuple[Order, ...] = (
    lambda n: (),  # wall order: as the project lists them
    lambda n: (-n.width, -n.band[0], -n.length),
    lambda n: (-n.length, -n.width),
    lambda n: (-n.length * n.width,),
)


class _Filling:
    """One attempt: sheets being filled. Rooms carry the band they continue, if any."""

    def __init__(self, project: Project, fresh: Sequence[Sheet] | None = None, first: Axis = "y") -> None:
        self.project = project
        self.fresh = project.sheets if fresh is None else fresh
        self.kerf = project.saw.kerf
        self.stocks: list[Sheet] = []
        self.rooms: list[list[tuple[Rect, tuple[float, ...] | None]]] = []
        self.opened: dict[str, int] = {}
        self.spots: list[Spot] = []
        self.misfits: list[Misfit] = []
        self.bands = 0
        self.first = first  # past an area: "y" for the lowest place, "x" for the leftmost
        self.areas: list[Areas] = []  # of each sheet, to keep clear

    def allows(self, net: NetSize, stock: Sheet) -> bool:
        """May the net come from that stock?"""
        if net.main is not None and not self._as_thick(net.main, stock):
            return False
        return allows(self.project.shelves[net.shelf], net, stock)

    def _as_thick(self, main: int, stock: Sheet) -> bool:
        """Is the stock as thick as what the net of that shelf is cut from, as far as that is known?"""
        homes = (self.stocks[spot.sheet] for spot in self.spots if spot.index == main)
        return all(abs(home.thickness - stock.thickness) <= FIT for home in homes)

    def allowed(self, net: NetSize) -> list[Sheet]:
        """The stock a net may come from, in the project's order."""
        return [s for s in self.project.sheets if self.allows(net, s)]

    def open_sheet(self, stock: Sheet) -> int | None:
        """A fresh copy of a stock, if one is left."""
        count = self.opened.get(stock.id, 0)
        if count >= stock.quantity:
            return None
        self.opened[stock.id] = count + 1
        self.stocks.append(stock)
        self.areas.append(areas_on(self.stocks, len(self.stocks) - 1))
        room = trimmed(stock)
        self.rooms.append([(room, None)] if room[2] > room[0] and room[3] > room[1] else [])
        return len(self.stocks) - 1

    def _close_last(self) -> None:
        """Put the sheet back that was opened last, with nothing on it."""
        self.opened[self.stocks.pop().id] -= 1
        self.areas.pop()
        self.rooms.pop()

    def place(self, net: NetSize) -> None:
        """Put a net into the snuggest room of the earliest sheet, or a fresh sheet, or among the misfits."""
        if net.main is not None and any(misfit.index == net.main for misfit in self.misfits):
            self.misfits.append(without_main(net.index))
            return
        for i, stock in enumerate(self.stocks):
            if self.allows(net, stock) and self._settle(net, i):
                return
        for stock in self.fresh:
            if self.allows(net, stock) and fits(trimmed(stock), net.length, net.width):
                while (number := self.open_sheet(stock)) is not None:
                    if self._settle(net, number):
                        return
                    if self.opened[stock.id] == stock.quantity:
                        self._close_last()
                        break
        self.misfits.append(self._misfit(net))

    def _settle(self, net: NetSize, number: int) -> bool:
        best: tuple[bool, float, float, int] | None = None
        for i, (room, band) in enumerate(self.rooms[number]):
            if fits(room, net.length, net.width):
                spare = room[3] - room[1] - net.width
                score = (not (band == net.band and spare <= FIT), spare, room[2] - room[0] - net.length, i)
                if (best is None or score < best) and self._place_in(net, number, room) is not None:
                    best = score
        if best is None:
            return False
        room, _ = self.rooms[number].pop(best[3])
        place = self._place_in(net, number, room)
        assert place is not None
        self.bands += best[0]
        self.spots.append(Spot(net.index, number, *place))
        for rest in self._rests(net, room, place):
            beside_it = rest[1] == place[1]
            self.rooms[number].append((rest, net.band if beside_it else None))
        return True

    def _place_in(self, net: NetSize, number: int, room: Rect) -> Point | None:
        """Where in a room that is large enough the net is clear of its sheet's areas; None for nowhere."""
        if not self.areas[number] or net.form is None:
            return room[:2]
        place = first_clear(net.form, self.areas[number], room, self.first)
        return place or first_clear(net.form, self.areas[number], room, "x" if self.first == "y" else "y")

    def _rests(self, net: NetSize, room: Rect, place: Point) -> list[Rect]:
        """What is left of a room round a net."""
        if place == room[:2]:
            return split(room, net.length, net.width, self.kerf)
        x, y = place
        return beside(room, [(x, y, x + net.length, y + net.width)], self.kerf)

    def _misfit(self, net: NetSize) -> Misfit:
        """The room the net comes nearest to fitting: least total overrun."""
        best: tuple[float, Misfit] | None = None
        rooms: list[tuple[Sheet, int | None, Rect]] = [
            (self.stocks[n], n, room)
            for n, rooms in enumerate(self.rooms)
            if self.allows(net, self.stocks[n])
            for room, _ in rooms
        ]
        stocks = self.allowed(net)
        rooms += [(s, None, trimmed(s)) for s in stocks if self.opened.get(s.id, 0) < s.quantity]
        for stock, number, room in rooms:
            over = max(0.0, net.length - (room[2] - room[0])), max(0.0, net.width - (room[3] - room[1]))
            if best is None or sum(over) < best[0]:
                found = Misfit(net.index, "large", stock, number, room[0], room[1], *over)
                if not any(over):
                    found = self._kept_off(net, found, room)
                    over = (found.over_x, found.over_y)
                if best is None or sum(over) < best[0]:
                    best = (sum(over), found)
        if best is not None:
            return best[1]
        return self.without_sheet(net)

    def _kept_off(self, net: NetSize, misfit: Misfit, room: Rect) -> Misfit:
        """The misfit of a net that its room is large enough for, but for areas: how far past them it would reach."""
        number, stock = misfit.sheet, misfit.stock
        if net.form is None or stock is None:
            return misfit
        areas = areas_on((*self.stocks, stock), len(self.stocks)) if number is None else self.areas[number]
        if not areas:
            return misfit
        ways = []
        axes: tuple[tuple[Axis, int], ...] = (("x", 0), ("y", 1))
        for axis, low in axes:
            endless = (*room[: low + 2], float("inf"), *room[low + 3 :])
            place = first_clear(net.form, areas, (endless[0], endless[1], endless[2], endless[3]), axis)
            if place is not None:
                over = place[low] + (net.length, net.width)[low] - room[low + 2]
                ways.append((over, place, (over, 0.0) if axis == "x" else (0.0, over)))
        over, (x, y), (over_x, over_y) = min(ways)
        here = next(a.kind for a in areas if not clear(net.form, room[:2], (a,)))
        return msgspec.structs.replace(misfit, x=x, y=y, over_x=over_x, over_y=over_y, clear_of=here)

    def without_sheet(self, net: NetSize) -> Misfit:
        """A net for which no sheet is left, or whose every sheet is too thick for it."""
        shelf = self.project.shelves[net.shelf]
        stock = next(iter(self.allowed(net)), None)
        reason: Reason = "no-sheet"
        if stock is None and any(named(shelf, s) for s in self.project.sheets):
            reason = "thick"
        return Misfit(net.index, reason, stock, None, 0.0, 0.0, 0.0, 0.0)


def lay_out(project: Project, nets: Sequence[NetSize]) -> list[Layout]:
    """Layouts of the nets on the project's sheets, best first, no two alike.

    A net that fits nowhere becomes a misfit; nothing is raised.
    """
    found: dict[tuple[float, ...], Layout] = {}
    firsts: tuple[Axis, ...] = ("y", "x") if any(stock.keep_clear for stock in project.sheets) else ("y",)
    for order in ORDERS:
        for first in firsts:
            filled = fill(project, nets, sorted(nets, key=order), first=first)
            found.setdefault(filled.score, filled.layout)
    return [found[score] for score in sorted(found)]


class Filled(NamedTuple):
    """A layout, how good it is (less is better), and the rooms that are free on each of its sheets."""

    score: tuple[float, ...]
    layout: Layout
    rooms: list[list[Rect]]


def fill(
    project: Project,
    nets: Sequence[NetSize],
    ordered: Sequence[NetSize],
    stocks: Sequence[Sheet] | None = None,
    first: Axis = "y",
) -> Filled:
    """One layout, the nets laid down one after the other.

    nets: all of the project's, in its order; ordered: the same as they are laid down, after those that are pinned.
    stocks: in which order fresh sheets are taken; default the project's.
    first: beside an area to keep clear a net takes the lowest place ("y") or the leftmost ("x").
    """
    filling = _Filling(project, stocks, first)
    loose = {net.index for net in _place_pins(filling, nets)}
    for net in _nets_first(ordered):
        if net.index in loose:
            filling.place(net)
    return Filled(_score(filling, nets), _done(filling), [[room for room, _ in rooms] for rooms in filling.rooms])


def _nets_first(nets: Sequence[NetSize]) -> Sequence[NetSize]:
    """The same order, but panels cut apart last: they take the room that nets leave, as thick as their own."""
    apart = [net for net in nets if net.main is not None]
    return [*(net for net in nets if net.main is None), *apart] if apart else nets


def without_main(index: int) -> Misfit:
    """A panel cut apart whose net found no room: without that it is not cut."""
    return Misfit(index, "main", None, None, 0.0, 0.0, 0.0, 0.0)


def matched(nets: Sequence[NetSize], stocks: Sequence[Sheet], spots: Sequence[Spot]) -> list[Spot]:
    """Spots without those of panels cut apart whose net lies nowhere, or in wood of another thickness."""
    thick = {spot.index: stocks[spot.sheet].thickness for spot in spots}

    def is_matched(spot: Spot) -> bool:
        main = nets[spot.index].main
        return main is None or abs(thick.get(main, float("inf")) - thick[spot.index]) <= FIT

    return [spot for spot in spots if is_matched(spot)]


def resume(project: Project, nets: Sequence[NetSize], stocks: Sequence[Sheet], spots: Sequence[Spot]) -> Layout:
    """A layout begun elsewhere, the nets it lacks laid down in what it leaves.

    Nets of `spots` that lie on an area they must keep out of are laid down anew, and so are panels cut apart that lie
    in wood of another thickness than their net.
    """
    filling = _Filling(project)
    spots = [spot for spot in spots if _is_clear(nets[spot.index], spot, areas_on(stocks, spot.sheet))]
    spots = matched(nets, stocks, spots)
    for stock in stocks:
        number = filling.open_sheet(stock)
        assert number is not None
        here = [(nets[s.index], s) for s in spots if s.sheet == number]
        rects = [(s.x, s.y, s.x + net.length, s.y + net.width) for net, s in here]
        filling.rooms[number] = [(room, None) for room in beside(trimmed(stock), rects, filling.kerf)]
    filling.spots.extend(spots)
    there = {spot.index for spot in spots}
    for net in _nets_first(nets):
        if net.index not in there:
            filling.place(net)
    return _done(filling)


def _is_clear(net: NetSize, spot: Spot, areas: Areas) -> bool:
    return not areas or net.form is None or clear(net.form, (spot.x, spot.y), areas)


def _done(filling: _Filling) -> Layout:
    return Layout(
        tuple(filling.stocks),
        tuple(sorted(filling.spots, key=lambda s: s.index)),
        tuple(sorted(filling.misfits, key=lambda m: m.index)),
    )


def _score(filling: _Filling, nets: Sequence[NetSize]) -> tuple[float, ...]:
    missing = {m.index for m in filling.misfits}
    lost = sum(n.length * n.width for n in nets if n.index in missing)
    areas = ((r[2] - r[0]) * (r[3] - r[1]) for rooms in filling.rooms for r, _ in rooms)
    used = len({spot.sheet for spot in filling.spots})
    return (len(missing), lost, used, filling.bands, -max(areas, default=0.0))


def _place_pins(filling: _Filling, nets: Sequence[NetSize]) -> list[NetSize]:
    """Place the pinned nets; returns the others. A pin that cannot hold becomes a misfit."""
    loose, taken = [], dict[str, list[tuple[int, Rect]]]()
    for net in nets:
        pin = pin_of(filling.project, net.index)
        if pin is None:
            loose.append(net)
            continue
        stocks = filling.allowed(net)
        stock = stocks[0] if stocks else None
        if stock is None or stock.quantity < 1:
            filling.misfits.append(filling.without_sheet(net))
            continue
        x, y = pin
        rect = (x, y, x + net.length, y + net.width)
        misfit = _pin_trouble(filling, net, stock, rect, taken.get(stock.id, []))
        if misfit is None:
            taken.setdefault(stock.id, []).append((net.index, rect))
        else:
            filling.misfits.append(misfit)
    for stock in filling.project.sheets:
        if stock.id in taken:
            number = filling.open_sheet(stock)
            assert number is not None
            rects = [rect for _, rect in taken[stock.id]]
            filling.spots.extend(Spot(i, number, r[0], r[1]) for i, r in taken[stock.id])
            filling.rooms[number] = [(room, None) for room in beside(trimmed(stock), rects, filling.kerf)]
    return loose


def _pin_trouble(
    filling: _Filling, net: NetSize, stock: Sheet, rect: Rect, taken: Iterable[tuple[int, Rect]]
) -> Misfit | None:
    room = trimmed(stock)
    over_x = max(0.0, room[0] - rect[0], rect[2] - room[2])
    over_y = max(0.0, room[1] - rect[1], rect[3] - room[3])
    if over_x > FIT or over_y > FIT:
        return Misfit(net.index, "pin-outside", stock, None, rect[0], rect[1], over_x, over_y)
    kerf = filling.kerf
    for other, there in taken:
        apart_x = max(there[0] - rect[2], rect[0] - there[2])
        apart_y = max(there[1] - rect[3], rect[1] - there[3])
        if max(apart_x, apart_y) < kerf - FIT:
            over = (max(0.0, kerf - apart_x), 0.0) if apart_x >= apart_y else (0.0, max(0.0, kerf - apart_y))
            return Misfit(net.index, "pin-overlap", stock, None, rect[0], rect[1], *over, other)
    if not separable([Block("", r) for _, r in [*taken, (net.index, rect)]], kerf):
        return Misfit(net.index, "pin-parting", stock, None, rect[0], rect[1], 0.0, 0.0)
    return None
