"""The best layout so far: its cost, its sheets, and the offcut of its last one; and the search by changing layouts."""

from __future__ import annotations

from collections.abc import Sequence

from core.packing.anneal import SHEET, Way, anneal, lay, ways
from core.packing.clock import Clock
from core.packing.cover import Pattern
from core.packing.job import Job
from core.packing.offcut import most_left
from core.packing.rest import last_contents
from core.packing.rooms import Filled
from core.packing.tree import Node

BLEND = 0.5  # what all free area of the sheet with the offcut counts beside the offcut's own
KEPT = 6  # last sheets with little on them, worth laying out anew


class Layouts:
    """The best so far, by cost and then by offcut.

    area: of the offcut [steps²]. roomiest: other parts for a last sheet at that cost that may leave more, with the
    sheets beside it.
    """

    def __init__(self, job: Job) -> None:
        self.job = job
        self.cost = job.cover.cost([])
        self.patterns: list[Pattern] = []
        self.last: Pattern | None = None
        self.tree: Node | None = None
        self.area = -1.0
        self.way: Way | None = None
        self.roomiest: dict[Pattern, tuple[float, list[Pattern]]] = {}
        self._pieces = sum(job.cover.demand)
        self._least_kept = 0.0
        self._unit = float(max(job.cover.rooms, default=1))
        self._step = float(max((c for c in job.cover.costs if c), default=1))

    def hope(self, kind: int, content: int) -> float:
        """The most a sheet with so much on it can leave."""
        return most_left(*self.job.sheets[kind], content, self.job.kerf)

    def thinkable(self) -> float:
        """No offcut is larger at this cost."""
        contents = last_contents(self.job.cover, self.cost)
        return max((self.hope(kind, content) for kind, content in enumerate(contents)), default=0.0)

    def offer(self, cost: int, patterns: Sequence[Pattern], last: Pattern, area: float, tree: Node) -> None:
        """Keep a layout that is cheaper, or leaves more of its last sheet."""
        if (cost, -area) < (self.cost, -self.area):
            if cost < self.cost:
                self.roomiest.clear()
                self._least_kept = 0.0
            self.cost, self.patterns, self.last, self.area, self.tree = cost, list(patterns), last, area, tree

    def take(self, filled: list[Filled]) -> float:
        """Keep a quick layout if it is the best; returns how good it is, less is better."""
        cover, kerf = self.job.cover, self.job.kerf
        if sum(sheet.pieces for sheet in filled) == self._pieces:
            cost = sum(cover.costs[sheet.kind] for sheet in filled)
        else:
            cost = cover.cost(_patterns(filled))
        area, best = -1.0, None
        for sheet in filled:
            for cell in sheet.free:
                free = (cell.w - kerf) * (cell.h - kerf) if cell.w > kerf and cell.h > kerf else 0.0
                if free > area:
                    area, best = free, (sheet, cell)
        if filled and (cost, -area) < (self.cost, -self.area):
            sheet, cell = best or (filled[-1], filled[-1].root)
            tree = self.job.tree_of_room(sheet.root, cell)
            assert tree is not None
            self.offer(cost, self._noted(filled), Pattern(sheet.kind, sheet.counts()), max(area, 0.0), tree)
        if cost == self.cost and len(filled) > 1:
            self._keep_roomiest(filled)
        empty = 0.0 if best is None else self.job.cover.rooms[best[0].kind] - best[0].content
        return SHEET * cost / self._step - (area + BLEND * empty) / self._unit

    def _noted(self, filled: list[Filled]) -> list[Pattern]:
        return [self.job.note(sheet) for sheet in filled]

    def _keep_roomiest(self, filled: list[Filled]) -> None:
        number = min(range(len(filled)), key=lambda i: filled[i].content)
        sheet = filled[number]
        hope = self.hope(sheet.kind, sheet.content)
        if hope <= max(self.area, self._least_kept):
            return
        last = Pattern(sheet.kind, sheet.counts())
        if last in self.roomiest:
            return
        patterns = self._noted(filled)
        self.roomiest[last] = (hope, patterns[:number] + patterns[number + 1 :])
        if len(self.roomiest) > KEPT:
            del self.roomiest[min(self.roomiest, key=lambda p: self.roomiest[p][0])]
            self._least_kept = min(hope for hope, _ in self.roomiest.values())

    def plain(self, clock: Clock) -> None:
        """Try every plain way."""
        best = float("inf")
        for way in ways(self.job.greedy):
            score = self.take(lay(self.job.greedy, way))
            if score < best:
                best, self.way = score, way
            if clock.over():
                return

    def anneal(self, clock: Clock, seed: int = 1) -> None:
        """Change the best way met until the time is up."""
        if self.way is not None and sum(self.job.cover.demand) > 1:
            self.way = anneal(self.job.greedy, self.way, self.take, clock, seed)


def _patterns(filled: list[Filled]) -> list[Pattern]:
    return [Pattern(sheet.kind, sheet.counts()) for sheet in filled]
