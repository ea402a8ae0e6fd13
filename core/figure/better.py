"""Where else on its sheet a net could lie, and which way round, for the best match of the seams the eye sees."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

import msgspec

from core.face.stopping import StoppedError
from core.figure.match import Bytes, match, side_at
from core.figure.places import SeamPlace, seam_places
from core.figure.seen import seen_places
from core.geometry.net import turned
from core.geometry.parts import main_part
from core.layout.model import trimmed
from core.layout.pin import index_of, placed_net, rect_of, sheet_under, shelf_of
from core.layout.slide import Neighbour, slide
from core.plan.model import PlacedNet, Plan, StockSheet

COARSE: Final = 30.0  # mm between the first places tried
FINE: Final = 4.0  # and between those round the best of them
LIKELY: Final = 200  # of the best by the small face, looked at once on the large one
KEPT: Final = 3  # of the best of these, looked round finely
LEAST: Final = 1.0  # mm: nearer places are the same

Shift = tuple[float, float]


class Better(msgspec.Struct, frozen=True):
    """A place and how well the seams the eye sees match there.

    over: the net is turned end for end from how it lies. tried: share of all places, 0..1.
    """

    x: float
    y: float
    match: float
    tried: float
    over: bool = False


def better_places(
    plan: Plan, shelf: str, coarse: Bytes, fine: Bytes, stop: Callable[[], bool] = lambda: False
) -> Iterator[Better]:
    """The best place so far, again and again, beginning with where the net lies.

    coarse, fine: the sheet's face, small for the first look and large for the second, (down, across, 3) each.
    The other nets stay where they lie. Raises StoppedError once `stop` says True.
    """
    net = placed_net(plan, shelf)
    if net is None:
        return
    search = _Search(plan, net, stop)
    if not search.places[False]:
        return
    spots = [(x, y, over) for over in (False, True) for x, y in search.spots(over, COARSE, None)]
    scored: list[Better] = []
    for n, (x, y, over) in enumerate(spots):
        scored.append(Better(x, y, search.score(coarse, x, y, over), 0.5 * n / len(spots), over))
    best = Better(net.x, net.y, search.score(fine, net.x, net.y, False), 0.5)
    yield best
    scored.sort(key=lambda one: -one.match)
    likely = [msgspec.structs.replace(s, match=search.score(fine, s.x, s.y, s.over)) for s in scored[:LIKELY]]
    likely.sort(key=lambda one: -one.match)
    for number, start in enumerate(likely[:KEPT]):
        near = search.spots(start.over, FINE, (start.x, start.y))
        for n, (x, y) in enumerate(near):
            found = search.score(fine, x, y, start.over)
            if found > best.match:
                best = Better(x, y, found, 0.5 + 0.5 * (number + n / len(near)) / KEPT, start.over)
                yield best
    yield msgspec.structs.replace(best, tried=1.0)


class _Search:
    """One net, as it lies and turned end for end."""

    def __init__(self, plan: Plan, net: PlacedNet, stop: Callable[[], bool]) -> None:
        self._plan, self._net, self._stop = plan, net, stop
        self._sheet: StockSheet = sheet_under(plan, net)
        places = [place for place in seam_places(plan, net.shelf) if place.sheet == net.sheet]
        seen = seen_places(places, shelf_of(plan.project, net.shelf))
        self.places = {False: seen, True: tuple(_turned(place, net) for place in seen)}
        form = main_part(plan.shapes[index_of(plan.project, net.shelf)])
        self._forms = {False: form, True: turned(form)}

    def score(self, face: Bytes, x: float, y: float, over: bool) -> float:
        """The match of the seams with the net at a place, each weighed by its length."""
        if self._stop():
            raise StoppedError
        span, way = (self._sheet.length, self._sheet.width), (x - self._net.x, y - self._net.y)
        total = weight = 0.0
        for place in self.places[over]:
            there, length = _moved(place, way), place.end - place.start
            total += length * match(*(side_at(face, span, there, is_high=is_high) for is_high in (False, True)))
            weight += length
        return total / weight

    def spots(self, over: bool, step: float, about: Shift | None) -> list[Shift]:
        """Allowed places `step` apart, all over the sheet or about one."""
        plan, net, sheet = self._plan, self._net, self._sheet
        others = tuple(
            Neighbour(one.shelf, rect_of(one)) for one in plan.nets if one.sheet == net.sheet and one is not net
        )
        room = trimmed(sheet.source)
        if about is None:
            low, high = (room[0], room[1]), (room[2] - net.length, room[3] - net.width)
        else:
            low, high = (about[0] - COARSE / 2, about[1] - COARSE / 2), (about[0] + COARSE / 2, about[1] + COARSE / 2)
        size, kerf, form = (net.length, net.width), plan.project.saw.kerf, self._forms[over]
        found: list[Shift] = []
        for x in _steps(low[0], high[0], step):
            for y in _steps(low[1], high[1], step):
                spot = slide(sheet.source, size, (x, y), others, kerf, 0.0, LEAST, form, sheet.areas)
                if not any(abs(spot.x - a) < LEAST and abs(spot.y - b) < LEAST for a, b in found):
                    found.append((spot.x, spot.y))
        return found or [(net.x, net.y)]


def _moved(place: SeamPlace, way: Shift) -> SeamPlace:
    off, along = (way[1], way[0]) if place.runs == "x" else way
    return msgspec.structs.replace(
        place, low=place.low + off, high=place.high + off, start=place.start + along, end=place.end + along
    )


def _turned(place: SeamPlace, net: PlacedNet) -> SeamPlace:
    """Where a seam lies once its net is turned by half about its own middle."""
    across, along = 2.0 * net.y + net.width, 2.0 * net.x + net.length
    if place.runs == "y":
        across, along = along, across
    return msgspec.structs.replace(
        place, low=across - place.high, high=across - place.low, start=along - place.end, end=along - place.start
    )


def _steps(low: float, high: float, step: float) -> list[float]:
    if high <= low:
        return [low]
    count = max(1, round((high - low) / step))
    return [low + (high - low) * n / count for n in range(count + 1)]
