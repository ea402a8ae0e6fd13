"""Ribs between two that stay: the fewest that keep the spacing, then the least moved from equal spacing.

Between ribs at `start` and `end`, ribs x1 < ... < xn, neighbours `least` to `most` apart, none inside a driver's
way, with the least sum of |xi - ei|, ei the equally spaced places. The ways make this a problem with gaps in it,
but few places come into question:

    Take a best answer and a rib right of its even place, xi > ei. Something keeps it from moving left: the right
    edge of a way, or a neighbour at its limit, and then that neighbour is at least as far right of its own even
    place (xi = x(i-1) + least with even gaps >= least, or xi = x(i+1) - most with even gaps <= most). Going
    from neighbour to neighbour ends at a rib at the right edge of a way: if it did not, all ribs met on the way
    could move left together, which is better. So xi is the right edge of a way, plus `least` for each rib passed
    going right or minus `most` for each rib passed going left, with every rib passed right of its even place.
    A rib left of its even place is the mirror image, and all others stand at their even places.

`_candidates` lists exactly these, and one pass from rib to rib picks the best: exact, and polynomial.
Fewest: of any three neighbours in an answer with fewest ribs the outer two are more than `most` apart, or the middle
one could go; so more than 2 (end - start) / most ribs are never needed.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from math import ceil, inf
from typing import Final, NamedTuple

FLOAT_TOL: Final = 1e-9  # mm: float noise of a sum, for places
LIMIT_TOL: Final = 1e-7  # mm: the same for a gap between two sums; far below anything sawn

Interval = tuple[float, float]


class Span(NamedTuple):
    """Room between two ribs that stay. All in mm; ways are open intervals, ascending, disjoint."""

    start: float
    end: float
    least: float  # centre to centre
    most: float
    ways: tuple[Interval, ...] = ()

    def even(self, count: int) -> list[float]:
        """The equally spaced places of `count` ribs."""
        gap = (self.end - self.start) / (count + 1)
        return [self.start + n * gap for n in range(1, count + 1)]

    def is_free(self, x: float) -> bool:
        """Whether a rib may stand at x as far as the ways are concerned."""
        n = bisect_left(self.ways, (x, x)) - 1  # the last way that starts left of x
        return n < 0 or not self.ways[n][0] + FLOAT_TOL < x < self.ways[n][1] - FLOAT_TOL

    def free_before(self, x: float) -> float:
        """The last place at or before x that no way covers."""
        n = bisect_left(self.ways, (x, x)) - 1
        return self.ways[n][0] if n >= 0 and x < self.ways[n][1] - FLOAT_TOL else x

    def free_after(self, x: float) -> float:
        """The first place at or after x that no way covers."""
        n = bisect_left(self.ways, (x, x)) - 1
        return self.ways[n][1] if n >= 0 and self.ways[n][0] + FLOAT_TOL < x < self.ways[n][1] else x

    def windows(self) -> list[Interval]:
        """Where ribs may stand: closed intervals between the ways, clear of start and end."""
        found, low, last = [], self.start + self.least, self.end - self.least
        for left, right in self.ways:
            if left >= low:
                found.append((low, min(left, last)))
            low = max(low, right)
        found.append((low, last))
        return [window for window in found if window[0] <= window[1]]


def merged(blocked: tuple[Interval, ...], start: float, end: float) -> tuple[Interval, ...]:
    """Open intervals that reach between start and end, ascending; those that overlap are one. [mm]"""
    ways: list[Interval] = []
    for low, high in sorted(blocked):
        if not low < high or high <= start or low >= end:
            continue
        if ways and low < ways[-1][1] - FLOAT_TOL:
            ways[-1] = (ways[-1][0], max(ways[-1][1], high))
        else:
            ways.append((low, high))
    return tuple(ways)


def spread_ribs(span: Span) -> tuple[float, ...] | None:
    """Centre lines of the ribs between start and end, None where no number of ribs keeps the spacing."""
    count = even_count(span)
    even = span.even(count)
    if (span.end - span.start) / (count + 1) >= span.least - FLOAT_TOL and all(map(span.is_free, even)):
        return tuple(even)
    latest = _latest(span)
    if latest is None:
        return None
    found = _least_moved(span, latest)  # as few as the spacing alone allows, unless ribs get too close
    if found is None and (fewest := fewest_ribs(span)[0]) is not None:
        found = _least_moved(span, _latest_of(span, fewest))
    return found


def even_count(span: Span) -> int:
    """Ribs that equal spacing would take with nothing in the way."""
    return max(0, ceil((span.end - span.start) / span.most - FLOAT_TOL) - 1)


def fewest_ribs(span: Span) -> tuple[int | None, float]:
    """The fewest ribs that keep the spacing (None: no number does), and the farthest place ribs reach.

    Follows all places the 1st, 2nd, ... rib can have, as intervals.
    """
    windows, reach, far = span.windows(), [(span.start, span.start)], span.start
    for count in range(int(2.0 * (span.end - span.start) / span.most) + 3):
        nearest, farthest = span.end - span.least + FLOAT_TOL, span.end - span.most - FLOAT_TOL
        if any(low <= nearest and high >= farthest for low, high in reach):
            return count, far
        reach = _next_reach(reach, windows, span)
        if not reach:
            break
        far = max(far, reach[-1][1])
    return None, far


def _next_reach(reach: list[Interval], windows: list[Interval], span: Span) -> list[Interval]:
    """Where the next rib can stand when this one can stand anywhere in `reach`."""
    grown: list[Interval] = []
    for low, high in reach:
        low, high = low + span.least, high + span.most
        if grown and low <= grown[-1][1]:
            grown[-1] = (grown[-1][0], max(grown[-1][1], high))
        else:
            grown.append((low, high))
    found: list[Interval] = []
    for low, high in grown:
        n = max(0, bisect_right(windows, (low, inf)) - 1)
        while n < len(windows) and windows[n][0] <= high:
            left, right = max(low, windows[n][0]), min(high, windows[n][1])
            if left <= right:
                found.append((left, right))
            n += 1
    return found


def _latest(span: Span) -> list[float] | None:
    """The last place each rib can have, counting from the start, until the end is within reach; None if it never is.

    Minds the ways and the spacing, not that ribs may get too close: as many ribs as are needed, or too few.
    """
    latest: list[float] = []
    x = span.start
    while x + span.most < span.end - LIMIT_TOL:
        x, before = span.free_before(x + span.most), x
        if x <= before:
            return None
        latest.append(x)
    return latest


def _latest_of(span: Span, count: int) -> list[float]:
    """The same for a given number of ribs."""
    latest: list[float] = []
    x = span.start
    for n in range(count, 0, -1):
        x = span.free_before(min(x + span.most, span.end - n * span.least))
        latest.append(x)
    return latest


def _earliest(span: Span, count: int) -> list[float]:
    """The first place each rib can have, counting from the end."""
    earliest: list[float] = []
    x = span.end
    for n in range(count, 0, -1):
        x = span.free_after(max(x - span.most, span.start + n * span.least))
        earliest.append(x)
    return earliest[::-1]


def _least_moved(span: Span, latest: list[float]) -> tuple[float, ...] | None:
    """The best places of as many ribs as `latest` has: one pass over the candidates, cheapest way to each."""
    even = span.even(len(latest))
    # Each entry: place, cost so far, entry before. Ascending by place.
    layer: list[tuple[float, float, int]] = [(span.start, 0.0, -1)]
    layers = []
    for places, goal in zip([*_candidates(span, even, latest), [span.end]], [*even, span.end], strict=True):
        found, first = [], 0
        for x in places:
            low, high = x - span.most - LIMIT_TOL, x - span.least + LIMIT_TOL
            while first < len(layer) and layer[first][0] < low:
                first += 1
            best, via = inf, -1
            for n in range(first, len(layer)):
                if layer[n][0] > high:
                    break
                if layer[n][1] < best:
                    best, via = layer[n][1], n
            if via >= 0:
                found.append((x, best + abs(x - goal), via))
        layers.append(layer)
        layer = found
    if not layer:
        return None
    answer, via = [], layer[0][2]
    for entries in reversed(layers[1:]):
        answer.append(entries[via][0])
        via = entries[via][2]
    return tuple(reversed(answer))


def _candidates(span: Span, even: list[float], latest: list[float]) -> list[list[float]]:
    """For each rib, every place it can have in a best answer, ascending; see the head of the module."""
    earliest = _earliest(span, len(even))
    bounds = list(zip(earliest, latest, strict=True))
    found = [[x] if span.is_free(x) else [] for x in even]
    for way in span.ways:
        for edge, side in zip(way, (-1.0, 1.0), strict=True):
            first = bisect_left(latest, edge - LIMIT_TOL)
            for n in range(first, bisect_right(earliest, edge + LIMIT_TOL)):
                if (edge - even[n]) * side > 0.0:
                    found[n].append(edge)
                    _add_held(span, (even, bounds, found), n, side)
    return [sorted(places) for places in found]


def _add_held(span: Span, ribs: tuple[list[float], list[Interval], list[list[float]]], n: int, side: float) -> None:
    """The neighbours that rib n, just put at the edge of a way, holds on `side` of their even places."""
    even, bounds, found = ribs
    edge = found[n][-1]
    for step, gap in ((1, span.least if side > 0 else span.most), (-1, span.most if side > 0 else span.least)):
        m, x = n + step, edge + step * gap
        while 0 <= m < len(even) and (x - even[m]) * side > 0.0:
            if not bounds[m][0] - LIMIT_TOL <= x <= bounds[m][1] + LIMIT_TOL or not span.is_free(x):
                break
            found[m].append(x)
            m, x = m + step, edge + (m + step - n) * gap
