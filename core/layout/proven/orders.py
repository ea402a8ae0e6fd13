"""Layouts in bands, the nets laid down in many orders and fresh sheets taken in several; always the same ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations
from random import Random

from core.document.model import Project, Sheet
from core.layout.bands import ORDERS, fill
from core.layout.model import Layout, NetSize
from core.layout.proven.aim import bands, price_of
from core.packing.clock import Clock

FEW = 4  # nets: up to here every order is tried
TRIED = 60  # orders, for larger jobs
SHUFFLES = 2  # neighbours changed at once in an order that is good

Score = tuple[float, ...]
Scored = tuple[Score, Layout]


def laid_out(project: Project, nets: Sequence[NetSize], priced: bool, clock: Clock, tried: int = TRIED) -> list[Scored]:
    """Layouts by how good they are without their frames, best first, no two alike in that."""
    found: dict[Score, Layout] = {}
    for stocks in stock_orders(project, priced):
        for order in _orders(nets, tried):
            score, layout = fill(project, nets, order, stocks)
            cost = sum(price_of(stock, priced) for stock in layout.stocks)
            found.setdefault((*score[:2], cost, bands(layout, nets), score[4]), layout)
            if clock.over():
                break
    return sorted(found.items(), key=lambda item: item[0])


def stock_orders(project: Project, priced: bool) -> list[tuple[Sheet, ...]]:
    """The project's order; the largest sheets first; what is cheapest for its size first."""
    sheets = project.sheets
    by_size = sorted(sheets, key=lambda s: -s.length * s.width)
    by_price = sorted(sheets, key=lambda s: price_of(s, priced) / (s.length * s.width))
    one = sorted(sheets, key=lambda s: (price_of(s, priced), -s.length * s.width))
    return list(dict.fromkeys((sheets, tuple(by_size), tuple(by_price), tuple(one))))


def _orders(nets: Sequence[NetSize], tried: int) -> Iterator[list[NetSize]]:
    plain = [sorted(nets, key=key) for key in ORDERS]
    plain.append(sorted(nets, key=lambda n: (-n.width, n.band, n.length)))
    plain.append(sorted(nets, key=lambda n: (n.band, -n.length)))
    yield from plain
    if len(nets) <= FEW:
        yield from (list(order) for order in permutations(nets))
        return
    chance = Random(1)
    for number in range(tried):
        order = list(plain[number % len(plain)])
        for _ in range(SHUFFLES + number % 3):
            a, b = chance.randrange(len(order)), chance.randrange(len(order))
            order[a], order[b] = order[b], order[a]
        yield order
