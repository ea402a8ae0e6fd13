"""Layouts in bands, the nets laid down in many orders and fresh sheets taken in several; always the same ones."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import permutations
from random import Random

import msgspec

from core.document.model import Project, Sheet
from core.layout.bands import ORDERS, Filled, fill
from core.layout.model import Layout, NetSize
from core.layout.proven.aim import bands, price_of
from core.layout.strips import Stick, allot, new_rest
from core.packing.clock import Clock

FEW = 4  # nets: up to here every order is tried
TRIED = 40  # orders, for larger jobs
STEPS = 600  # of a climb to a layout with room for all frame parts
LATE = 12  # how many steps back a climb compares itself with

Score = tuple[float, ...]
Scored = tuple[Score, Layout]


class Frames(msgspec.Struct, frozen=True):
    """What frames take and nets leave. sticks: by shelf and thickness of its sheet; corners: about, by shelf. [mm]"""

    sticks: Mapping[tuple[int, float], Sequence[Stick]]
    corners: Mapping[int, Sequence[tuple[float, float]]]


class Orders:
    """Lays nets down in orders. The score of a layout, less is better, compares what a plan of it would come to:

    nets without room (how many, what area), cost of the sheets, area of frame parts without room, bands, largest room.
    """

    def __init__(self, project: Project, nets: Sequence[NetSize], priced: bool, frames: Frames) -> None:
        self.project, self.nets, self.priced, self.frames = project, nets, priced, frames
        self.stocks = stock_orders(project, priced)

    def plain(self, clock: Clock) -> list[Scored]:
        """Layouts from plain orders and some near them, best first, no two alike in their score."""
        found: dict[Score, Layout] = {}
        for stocks in self.stocks:
            for order in self._some():
                score, layout = self._lay(order, stocks)
                found.setdefault(score, layout)
                if clock.over():
                    break
        return sorted(found.items(), key=lambda item: item[0])

    def climb(self, most: float, clock: Clock) -> Iterator[Scored]:
        """Layouts that cost no more than `most`, each with more room for frame parts than the one before."""
        chance = Random(1)
        starts = [(self._lay(order, stocks), order, stocks) for stocks in self.stocks for order in self._starts()]
        (score, _), order, _ = min(starts, key=lambda start: start[0][0])
        best = score
        history = [score] * LATE
        for step in range(STEPS):
            if clock.over() or _done(best, most):
                return
            changed = _changed(order, chance)
            others = chance.choice(self.stocks)
            new, layout = self._lay(changed, others)
            if new <= max(score, history[step % LATE]):
                order, score = changed, new
            history[step % LATE] = score
            if new < best:
                best = new
                if (new[0], new[2]) <= (0, most):
                    yield new, layout

    def _lay(self, order: Sequence[NetSize], stocks: Sequence[Sheet]) -> Scored:
        filled = fill(self.project, self.nets, order, stocks)
        layout = filled.layout
        cost = sum(price_of(stock, self.priced) for stock in layout.stocks)
        homeless = self._homeless(filled)
        return (*filled.score[:2], cost, homeless, bands(layout, self.nets), filled.score[4]), layout

    def _homeless(self, filled: Filled) -> float:
        """About how much of the frame parts finds no room on the layout's sheets. [mm²]"""
        stocks = filled.layout.stocks
        rests = [
            new_rest("", room, stock.thickness)
            for stock, rooms in zip(stocks, filled.rooms, strict=True)
            if stock.use != "shell"
            for room in rooms
        ]
        sticks: list[Stick] = []
        for spot in filled.layout.spots:
            stock = stocks[spot.sheet]
            sticks += self.frames.sticks.get((spot.index, stock.thickness), ())
            if stock.use != "shell":
                corners = self.frames.corners.get(spot.index, ())
                rests += [new_rest("", (0.0, 0.0, *size), stock.thickness) for size in corners]
        return sum(stick.length * stick.width for stick in allot(sticks, rests, self.project.saw.kerf))

    def _starts(self) -> list[list[NetSize]]:
        plain = [sorted(self.nets, key=key) for key in ORDERS]
        plain.append(sorted(self.nets, key=lambda n: (-n.width, n.band, n.length)))
        plain.append(sorted(self.nets, key=lambda n: (n.band, -n.length)))
        return plain

    def _some(self) -> Iterator[list[NetSize]]:
        starts = self._starts()
        yield from starts
        if len(self.nets) <= FEW:
            yield from (list(order) for order in permutations(self.nets))
            return
        chance = Random(1)
        for number in range(TRIED):
            yield _changed(starts[number % len(starts)], chance)


def stock_orders(project: Project, priced: bool) -> list[tuple[Sheet, ...]]:
    """The project's order; the largest sheets first; what is cheapest for its size first; what is cheapest first."""
    sheets = project.sheets
    by_size = sorted(sheets, key=lambda s: -s.length * s.width)
    by_price = sorted(sheets, key=lambda s: price_of(s, priced) / (s.length * s.width))
    one = sorted(sheets, key=lambda s: (price_of(s, priced), -s.length * s.width))
    return list(dict.fromkeys((sheets, tuple(by_size), tuple(by_price), tuple(one))))


def _changed(order: Sequence[NetSize], chance: Random) -> list[NetSize]:
    """An order with a net or three moved elsewhere."""
    changed = list(order)
    for _ in range(1 + chance.randrange(3)):
        net = changed.pop(chance.randrange(len(changed)))
        changed.insert(chance.randrange(len(changed) + 1), net)
    return changed


def _done(score: Score, most: float) -> bool:
    return (score[0], score[3]) == (0, 0.0) and score[2] <= most
