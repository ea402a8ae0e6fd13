"""Which of two layouts is better: fewest (cheapest) sheets, then fewest bands, then wall order."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from core.document.model import Project, Sheet
from core.layout.model import Layout, NetSize


def price_of(stock: Sheet, priced: bool) -> float:
    """What one sheet counts."""
    return stock.price if priced and stock.price is not None else 1.0


def all_priced(project: Project) -> bool:
    """Has every sheet that there is a price? Then the cheapest sheets are looked for, else the fewest."""
    there = [stock for stock in project.sheets if stock.quantity]
    return bool(there) and all(stock.price is not None for stock in there)


def bands(layout: Layout, nets: Sequence[NetSize]) -> int:
    """How many bands are ripped: nets of one depth and height side by side share one."""
    return len({(spot.sheet, round(spot.y, 3), nets[spot.index].band) for spot in layout.spots})


def disorder(layout: Layout) -> int:
    """How often a net lies before one that comes earlier on the wall."""
    lying = [spot.index for spot in sorted(layout.spots, key=lambda s: (s.sheet, s.y, s.x))]
    return sum(after < before for before, after in pairwise(lying))
