"""A job through core.packing: exact bounds, and layouts made of its answers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from core.document.model import Project, Sheet
from core.layout.bands import ORDERS, fill, resume
from core.layout.model import Layout, NetSize, Spot, trimmed
from core.layout.proven.aim import bands
from core.layout.proven.demand import Demand, Group, Item, long_sticks
from core.packing.clock import Clock
from core.packing.job import Job
from core.packing.pack import PackAnswer, PackQuestion, SheetKind, cost_bound, pack_all
from core.packing.tree import places
from core.packing.two_d import Rectangle

OFFCUT_NETS, OFFCUT_SECONDS = 9, 0.3  # up to how many nets, and how long, the last sheet's offcut is looked for

Sheets = list[tuple[int, list[tuple[int, float, float]]]]  # kind; and number of each net with its place inside the trim


class Packed:
    """What came of packing one group: `bound`, no layout costs less; `sheets`, one after the other, better ones last.

    short: it is known that the group does not fit its sheets.
    """

    def __init__(self, demand: Demand, group: Group) -> None:
        self.demand, self.group = demand, group
        self.bound = 0.0
        self.short = False
        self.sheets: list[Sheets] = []

    def look(self) -> None:
        """The bound that is known at once with the frame parts that lie beside the nets in any case."""
        job = Job(self._question(sticks=True))
        self.bound = max(self.bound, cost_bound(job) * job.cost_step)

    def _question(self, sticks: bool) -> PackQuestion:
        demand, group = self.demand, self.group
        items = [demand.nets[n] for n in group.nets]
        if sticks:
            items += _merged(long_sticks(demand, group))
        at = {kind: n for n, kind in enumerate(group.kinds)}
        parts = tuple(Rectangle(i.length, i.width, i.count, kinds=tuple(at[k] for k in i.kinds)) for i in items)
        kinds = tuple(SheetKind(k.length, k.width, k.cost, k.count) for k in map(demand.kinds.__getitem__, group.kinds))
        return PackQuestion(parts, kinds, demand.kerf)

    def pack(self, clock: Clock, sticks: bool) -> None:
        """Pack the group's nets; sticks: and the frame parts that lie beside them in any case."""
        question = self._question(sticks)
        if not question.parts:
            return
        started = clock.left()
        settled = False

        def stop() -> bool:
            enough = settled and (len(question.parts) > OFFCUT_NETS or started - clock.left() > OFFCUT_SECONDS)
            return enough or clock.over()

        def report(answer: PackAnswer) -> None:
            nonlocal settled
            settled = answer.cost.proven
            self._take(answer)

        answer = pack_all(question, clock.left(), stop, report)
        self._take(answer)
        if not any(answer.missing):
            self.bound = max(self.bound, answer.cost.bound)
        elif answer.cost.proven:
            self.short = True

    def _take(self, answer: PackAnswer) -> None:
        nets = self.group.nets
        sheets: Sheets = []
        for sheet in answer.sheets:
            lying = [(nets[p.part], p.x, p.y) for p in places(sheet.tree, self.demand.kerf) if p.part < len(nets)]
            if lying:
                sheets.append((self.group.kinds[sheet.sheet], lying))
        if sheets and sheets not in self.sheets:
            self.sheets.append(sheets)


def _merged(items: Iterable[Item]) -> list[Item]:
    counts: dict[Item, int] = {}
    for item in items:
        one = msgspec.structs.replace(item, count=1)
        counts[one] = counts.get(one, 0) + item.count
    return [msgspec.structs.replace(item, count=n) for item, n in counts.items()]


def layout_of(
    project: Project, nets: Sequence[NetSize], demand: Demand, packed: Sequence[Sheets], regain: bool
) -> Layout:
    """The layout of groups' packed sheets, what they lack laid down after.

    regain: each sheet's nets are laid down anew where that gives fewer bands.
    """
    found: list[tuple[int, list[tuple[int, float, float]]]] = []
    for sheets in packed:
        for kind, lying in sheets:
            stock = project.sheets[kind]
            room = trimmed(stock)
            here = [(demand.indices[n], room[0] + x, room[1] + y) for n, x, y in lying]
            found.append((kind, _in_bands(project, nets, stock, here) if regain else here))
    found.sort(key=lambda sheet: (sheet[0], min(spot[0] for spot in sheet[1])))
    stocks = [project.sheets[kind] for kind, _ in found]
    spots = [Spot(index, n, x, y) for n, (_, lying) in enumerate(found) for index, x, y in lying]
    return resume(project, nets, stocks, spots)


def _in_bands(
    project: Project, nets: Sequence[NetSize], stock: Sheet, lying: list[tuple[int, float, float]]
) -> list[tuple[int, float, float]]:
    """The same nets on their sheet with fewer bands, where a plain order gives that."""
    ours = [nets[index] for index, _, _ in lying]
    fewest = bands(Layout((stock,), tuple(Spot(i, 0, x, y) for i, x, y in lying), ()), nets)
    best = lying
    alone = _only(project, stock)
    for key in (*ORDERS, lambda n: (n.band, -n.length)):
        layout = fill(alone, ours, sorted(ours, key=key)).layout
        if layout.misfits:
            continue
        count = bands(layout, nets)
        if count < fewest:
            fewest, best = count, [(s.index, s.x, s.y) for s in layout.spots]
    return best


def _only(project: Project, stock: Sheet) -> Project:
    return msgspec.structs.replace(project, sheets=(msgspec.structs.replace(stock, quantity=1),))
