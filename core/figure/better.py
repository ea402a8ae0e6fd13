"""Where else on its sheet a net could lie, for the best match of the seams the eye sees."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final

import msgspec

from core.face.stopping import StoppedError
from core.figure.match import Bytes, match, side_at
from core.figure.places import SeamPlace, seam_places
from core.figure.seen import seen_places
from core.layout.model import trimmed
from core.layout.slide import Neighbour, slide
from core.plan.model import PlacedNet, Plan, StockSheet

COARSE: Final = 30.0  # mm between the first places tried
FINE: Final = 4.0  # and between those round the best of them
KEPT: Final = 3  # of the best, looked round finely
LEAST: Final = 1.0  # mm: nearer places are the same


class Better(msgspec.Struct, frozen=True):
    """A place and how well the seams the eye sees match there; tried: share of all places, 0..1."""

    x: float
    y: float
    match: float
    tried: float


def better_places(
    plan: Plan, shelf: str, coarse: Bytes, fine: Bytes, stop: Callable[[], bool] = lambda: False
) -> Iterator[Better]:
    """The best place so far, again and again, beginning with where the net lies.

    coarse, fine: the sheet's face, small for the first look and large for the second, (down, across, 3) each.
    The other nets stay where they lie. Raises StoppedError once `stop` says True.
    """
    net = next((net for net in plan.nets if net.shelf == shelf and net.panel is None), None)
    if net is None:
        return
    sheet = next(one for one in plan.sheets if one.id == net.sheet)
    wish = next(one for one in plan.project.shelves if one.id == shelf)
    places = seen_places([place for place in seam_places(plan, shelf) if place.sheet == sheet.id], wish)
    if not places:
        return
    spots = _spots(plan, net, sheet, COARSE, None)
    scored: list[Better] = []
    for n, (x, y) in enumerate(spots):
        if stop():
            raise StoppedError
        scored.append(Better(x, y, _score(coarse, sheet, places, (x - net.x, y - net.y)), 0.5 * n / len(spots)))
    best = Better(net.x, net.y, _score(fine, sheet, places, (0.0, 0.0)), 0.5)
    yield best
    scored.sort(key=lambda one: -one.match)
    for number, start in enumerate(scored[:KEPT]):
        near = _spots(plan, net, sheet, FINE, (start.x, start.y))
        for n, (x, y) in enumerate(near):
            if stop():
                raise StoppedError
            found = _score(fine, sheet, places, (x - net.x, y - net.y))
            if found > best.match:
                best = Better(x, y, found, 0.5 + 0.5 * (number + n / len(near)) / KEPT)
                yield best
    yield msgspec.structs.replace(best, tried=1.0)


def _score(face: Bytes, sheet: StockSheet, places: Sequence[SeamPlace], way: tuple[float, float]) -> float:
    """The match of the seams moved by `way`, each weighed by its length."""
    total = weight = 0.0
    for place in places:
        off, along = (way[1], way[0]) if place.runs == "x" else way
        there = msgspec.structs.replace(
            place, low=place.low + off, high=place.high + off, start=place.start + along, end=place.end + along
        )
        span = (sheet.length, sheet.width)
        length = place.end - place.start
        sides = (side_at(face, span, there, is_high=is_high) for is_high in (False, True))
        total += length * match(*sides)
        weight += length
    return total / weight


def _spots(
    plan: Plan, net: PlacedNet, sheet: StockSheet, step: float, about: tuple[float, float] | None
) -> list[tuple[float, float]]:
    """Allowed places `step` apart, all over the sheet or about one."""
    others = tuple(
        Neighbour(one.shelf, (one.x, one.y, one.x + one.length, one.y + one.width))
        for one in plan.nets
        if one.sheet == net.sheet and one is not net
    )
    shape = next(one for one in plan.shapes if one.owner == net.shelf)
    room = trimmed(sheet.source)
    if about is None:
        low, high = (room[0], room[1]), (room[2] - net.length, room[3] - net.width)
    else:
        low, high = (about[0] - COARSE / 2, about[1] - COARSE / 2), (about[0] + COARSE / 2, about[1] + COARSE / 2)
    found: list[tuple[float, float]] = []
    for x in _steps(low[0], high[0], step):
        for y in _steps(low[1], high[1], step):
            spot = slide(
                sheet.source, (net.length, net.width), (x, y), others, plan.project.saw.kerf, 0.0, LEAST, shape,
                sheet.areas,
            )  # fmt: skip
            if not any(abs(spot.x - a) < LEAST and abs(spot.y - b) < LEAST for a, b in found):
                found.append((spot.x, spot.y))
    return found or [(net.x, net.y)]


def _steps(low: float, high: float, step: float) -> list[float]:
    if high <= low:
        return [low]
    count = max(1, round((high - low) / step))
    return [low + (high - low) * n / count for n in range(count + 1)]
