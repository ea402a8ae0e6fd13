"""Least numbers of bars and sheets that no cutting can beat, from dual feasible functions.

A dual feasible function takes each size to another so that what fits a stock together still does. Sources: Martello,
Toth, Knapsack Problems (1990), bound L2; Fekete, Schepers, Math. Programming 91 (2001), which also holds for products
of one function along and one across.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

Image = Callable[[int], Fraction]

MOST_CUTS = 60  # thresholds tried along one direction
MOST_TIMES = 5


def identity(room: int) -> Image:
    """Each size as its share of the room."""
    return lambda size: Fraction(size, room)


def large_and_small(room: int, small: int) -> Image:
    """Sizes above room − `small` count as the whole room, sizes below `small` as nothing (small ≤ room / 2)."""

    def image(size: int) -> Fraction:
        if size > room - small:
            return Fraction(1)
        return Fraction(size, room) if size >= small else Fraction(0)

    return image


def steps(room: int, times: int) -> Image:
    """Shares rounded down to multiples of 1 / `times`, where they are not multiples of 1 / (times + 1) already."""

    def image(size: int) -> Fraction:
        if (times + 1) * size % room == 0:
            return Fraction(size, room)
        return Fraction((times + 1) * size // room, times)

    return image


def images(sizes: Sequence[int], room: int, most: int = MOST_CUTS) -> list[Image]:
    """The functions worth trying for these sizes."""
    cuts = sorted({min(size, room - size + 1) for size in sizes if 0 < min(size, room - size + 1) <= room / 2})
    if len(cuts) > most:
        cuts = cuts[:: -(-len(cuts) // most)]
    return [
        identity(room),
        *(large_and_small(room, cut) for cut in cuts),
        *(steps(room, n) for n in range(1, MOST_TIMES)),
    ]


def bars_needed(sizes: Sequence[int], demand: Sequence[int], room: int) -> int:
    """Bars of one length that the parts need at least."""
    totals = (
        sum((n * image(size) for size, n in zip(sizes, demand, strict=True)), Fraction(0))
        for image in images(sizes, room)
    )
    return max(-(-total.numerator // total.denominator) for total in totals)


def sheets_needed(
    sizes: Sequence[tuple[int, int]], demand: Sequence[int], room: tuple[int, int], most: int = MOST_CUTS // 2
) -> int:
    """Sheets of one size that rectangles, none turned, need at least."""
    along = _table([w for w, _ in sizes], room[0], most)
    across = _table([h for _, h in sizes], room[1], most)
    least = Fraction(0)
    for xs in along:
        weighted = [n * x for n, x in zip(demand, xs, strict=True)]
        for ys in across:
            least = max(least, sum((x * y for x, y in zip(weighted, ys, strict=True)), Fraction(0)))
    return -(-least.numerator // least.denominator)


def _table(sizes: Sequence[int], room: int, most: int) -> list[list[Fraction]]:
    rows = {tuple(image(size) for size in sizes) for image in images(sizes, room, most)}
    return [list(row) for row in rows]
