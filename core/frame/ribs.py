"""The ribs of a frame: doubled at the ends, evenly between them, clear of the screws' drivers.

        t/2  3t/2                                   layers of an end touch; between the innermost ones
|--||||--:----:--------:---------:--------:---||||   neighbours stand `thickness` to `spacing` apart,
0   end ribs          ribs             end ribs  length    centre to centre
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import Final, Literal

import msgspec

from core.frame.spread import FLOAT_TOL, Interval, Span, even_count, fewest_ribs, merged, spread_ribs

THINNEST: Final = 0.1  # mm: no rib is thinner; keeps the search away from sizes that only float numbers have
MOST_RIBS: Final = 2000  # more is a slip of the finger, and would only hold up the plan


class RibPlan(msgspec.Struct, frozen=True):
    """Centre lines of all ribs, from the frame's left end. [mm]"""

    ribs: tuple[float, ...]  # ascending, end ribs included
    end_layers: int
    shifts: tuple[float, ...]  # from equal spacing, right positive, one for each rib; all 0 where `wide` is not empty
    extra: int  # ribs more than equal spacing would take
    wide: tuple[Interval, ...]  # neighbours that could not keep the spacing
    refused: tuple[float, ...] = ()  # asked for by hand where no rib can stand

    def is_end(self, n: int) -> bool:
        """Whether rib n (from 0) belongs to a doubled end."""
        return n < self.end_layers or n >= len(self.ribs) - self.end_layers


class RibRefusal(msgspec.Struct, frozen=True):
    """Why there are no ribs: end ribs `meet`, spacing is `thin` (less than a rib), or there would be too `many`."""

    reason: Literal["meet", "thin", "many"]
    count: int = 0  # of ribs, where they are too many


@lru_cache(maxsize=512)
def place_ribs(
    length: float,
    thickness: float,
    end_layers: int,
    spacing: float,
    blocked: tuple[Interval, ...] = (),
    put: tuple[float, ...] = (),
) -> RibPlan | RibRefusal:
    """Fewest ribs that keep the spacing, then the least sum of shifts from equal spacing.

    length: of the frame; thickness: of a rib; spacing: centre to centre at most; all > 0. [mm]
    end_layers: ribs at each end, touching, >= 1.
    blocked: open intervals no rib's centre line may lie in; they do not move the end ribs. [mm]
    put: ribs put by hand, which stay where they are; the fewest, least moved ones fill up what lies between. [mm]
    Where blocked intervals leave no way to keep the spacing, ribs stand as close to both sides as they may, and the
    pair is listed in `wide`.
    """
    thickness = max(thickness, THINNEST)
    start, end = (end_layers - 0.5) * thickness, length - (end_layers - 0.5) * thickness
    if end - start <= thickness:
        return RibRefusal("meet")
    if spacing < thickness:
        return RibRefusal("thin")
    if (end - start) / spacing > MOST_RIBS:
        return RibRefusal("many", int((end - start) / spacing) + 2 * end_layers)
    whole = Span(start, end, thickness, spacing, merged(blocked, start, end))
    stay, refused = _standing(whole, put)
    between, shifts, wide = _filled(whole, stay)
    layers = [n * thickness for n in range(end_layers)]
    left = [thickness / 2.0 + layer for layer in layers]
    right = [end + layer for layer in layers]
    still = (0.0,) * end_layers
    return RibPlan(
        (*left, *between, *right),
        end_layers,
        (*still, *shifts, *still),
        len(between) - even_count(whole),
        wide,
        refused,
    )


def _standing(span: Span, put: tuple[float, ...]) -> tuple[list[float], tuple[float, ...]]:
    """Of ribs put by hand those that can stand there, ascending, and the others."""
    stay: list[float] = []
    refused: list[float] = []
    last = span.start
    for x in sorted(set(put)):
        if last + span.least - FLOAT_TOL <= x <= span.end - span.least + FLOAT_TOL and span.is_free(x):
            stay.append(x)
            last = x
        else:
            refused.append(x)
    return stay, tuple(refused)


def _filled(whole: Span, stay: list[float]) -> tuple[tuple[float, ...], tuple[float, ...], tuple[Interval, ...]]:
    """All ribs between the ends with their shifts, those that stay among them, and what could not keep the spacing."""
    ribs: list[float] = []
    shifts: list[float] = []
    wide: list[Interval] = []
    for start, end in pairwise((whole.start, *stay, whole.end)):
        span = whole._replace(start=start, end=end, ways=merged(whole.ways, start, end))
        between = spread_ribs(span)
        if between is None:
            between, gaps = _with_wide_gaps(span)
            wide += gaps
            shifts += [0.0] * len(between)
        else:
            shifts += [x - even for x, even in zip(between, span.even(len(between)), strict=True)]
        ribs += between
        if end < whole.end:
            ribs.append(end)
            shifts.append(0.0)
    return tuple(ribs), (0.0,) * len(ribs) if wide else tuple(shifts), tuple(wide)


def _with_wide_gaps(span: Span) -> tuple[tuple[float, ...], tuple[Interval, ...]]:
    """Ribs where the spacing cannot be kept everywhere: broken only where ribs can get no farther.

    Goes as far right as ribs reach, then on from the first place a rib may stand again.
    """
    ribs: list[float] = []
    wide: list[Interval] = []
    while True:
        _, far = fewest_ribs(span)
        if far > span.start:
            ribs += [*(spread_ribs(span._replace(end=far)) or ()), far]
        after = next((low for low, high in _free_after(span, far) if high >= low), span.end)
        wide.append((far, after))
        if after >= span.end:
            return tuple(ribs), tuple(wide)
        ribs.append(after)
        span = span._replace(start=after)
        rest = spread_ribs(span)
        if rest is not None:
            return (*ribs, *rest), tuple(wide)


def _free_after(span: Span, x: float) -> list[Interval]:
    """Where ribs may stand to the right of one at x."""
    return span._replace(start=x).windows()
