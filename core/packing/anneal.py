"""Quick layouts changed a little at a time: two parts change places, one moves, a rule changes.

A worse layout is taken now and then, ever more rarely as the time runs out. Source: Kirkpatrick, Gelatt, Vecchi,
Science 220 (1983).
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from math import exp
from typing import NamedTuple

from core.packing.clock import Clock
from core.packing.greedy import FITS, ORDERS, SPLITS, Greedy
from core.packing.rooms import Filled

WARMTH = 0.03  # of a sheet's area: how much worse is taken with a chance of 1 in e, at first
SHEET = 10.0  # what one step of cost counts against a whole sheet left free
LOOK = 16  # layouts between two looks at the clock

Take = Callable[[list[Filled]], float]  # is shown a layout, says how good it is: less is better


class Way(NamedTuple):
    """The order of the parts and the rules by which they are placed."""

    pieces: tuple[int, ...]
    kinds: tuple[int, ...]
    fit: int
    split: int
    anywhere: bool


def ways(greedy: Greedy) -> list[Way]:
    """The plain ways, from every order and every rule."""
    orders = [tuple(p for p in greedy.pieces(order) for _ in range(greedy.cover.demand[p])) for order in ORDERS]
    return [
        Way(pieces, kinds, fit, split, anywhere)
        for split in range(len(SPLITS))
        for fit in range(len(FITS))
        for pieces in dict.fromkeys(orders)
        for kinds in greedy.kind_orders
        for anywhere in (False, True)
    ]


def lay(greedy: Greedy, way: Way) -> list[Filled]:
    """The layout of a way."""
    return greedy.run(way.pieces, way.kinds, FITS[way.fit], SPLITS[way.split], anywhere=way.anywhere)


def anneal(greedy: Greedy, start: Way, take: Take, clock: Clock, seed: int = 1) -> Way:
    """Change a way until the time is up; `take` is shown every layout. Returns the best way met."""
    chance = random.Random(seed)
    whole = max(1e-9, clock.left())
    way, score, warmth = start, take(lay(greedy, start)), WARMTH
    best = score, way
    count = 0
    while True:
        count += 1
        if count % LOOK == 0:
            left = clock.left()
            if not left:
                return best[1]
            warmth = WARMTH * left / whole
        other = _changed(way, greedy.kind_orders, chance)
        found = take(lay(greedy, other))
        if found <= score or (warmth and chance.random() < exp(max(-700.0, (score - found) / warmth))):
            way, score = other, found
            best = min(best, (score, way), key=lambda pair: pair[0])


def _changed(way: Way, kind_orders: Sequence[tuple[int, ...]], chance: random.Random) -> Way:
    dice = chance.random()
    if dice < 0.9 and len(way.pieces) > 1:
        pieces = list(way.pieces)
        i, j = chance.randrange(len(pieces)), chance.randrange(len(pieces))
        if dice < 0.45:
            pieces[i], pieces[j] = pieces[j], pieces[i]
        else:
            pieces.insert(j, pieces.pop(i))
        return way._replace(pieces=tuple(pieces))
    if dice < 0.93:
        return way._replace(fit=chance.randrange(len(FITS)))
    if dice < 0.96:
        return way._replace(split=chance.randrange(len(SPLITS)))
    if dice < 0.98 or len(kind_orders) == 1:
        return way._replace(anywhere=not way.anywhere)
    return way._replace(kinds=chance.choice(kind_orders))
