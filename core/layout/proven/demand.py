"""A job as plain rectangles: what its nets and frame parts take from the sheets, and the bound from its wood."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from core.layout.model import FIT


class Kind(msgspec.Struct, frozen=True, gc=False):
    """A kind of sheet inside its trim: how long, how wide, what one costs, how many there are. [mm]"""

    length: float
    width: float
    cost: float
    count: int


class Item(msgspec.Struct, frozen=True, gc=False):
    """A rectangle that is wanted: its size [mm], the numbers of the kinds it may come from, how often."""

    length: float
    width: float
    kinds: tuple[int, ...]
    count: int = 1


class Corners(msgspec.Struct, frozen=True, gc=False):
    """What is free inside one net for frame parts: the regions' sizes at most, and the kinds they come with. [mm]"""

    regions: tuple[tuple[float, float], ...]
    kinds: tuple[int, ...]


class Demand(msgspec.Struct, frozen=True):
    """What a job wants. sticks: of frames; vague: those whose size depends on the sheet, each as small as it may be."""

    kerf: float
    kinds: tuple[Kind, ...]
    nets: tuple[Item, ...]  # in the project's order, without those that fit no sheet there is
    indices: tuple[int, ...]  # of their shelves
    corners: tuple[Corners, ...]  # of the same nets
    sticks: tuple[Item, ...]
    vague: tuple[Item, ...] = ()

    def area(self, items: Iterable[Item]) -> float:
        """Wood and sawdust the items take: n in a row need their lengths and n kerfs of a row one kerf longer. [mm²]"""
        k = self.kerf
        return sum(item.count * (item.length + k) * (item.width + k) for item in items)


class Group(msgspec.Struct, frozen=True):
    """A part of the job that shares no sheet with the rest of it: numbers of its kinds, nets, sticks, vague ones."""

    kinds: tuple[int, ...]
    nets: tuple[int, ...]
    sticks: tuple[int, ...]
    vague: tuple[int, ...]


def groups(demand: Demand) -> list[Group]:
    """The job in parts that share no sheet."""
    of = list(range(len(demand.kinds)))

    def root(kind: int) -> int:
        while of[kind] != kind:
            kind = of[kind]
        return kind

    for item in (*demand.nets, *demand.sticks, *demand.vague):
        for kind in item.kinds[1:]:
            of[root(kind)] = root(item.kinds[0])

    def mine(items: Sequence[Item], number: int) -> tuple[int, ...]:
        return tuple(i for i, item in enumerate(items) if item.kinds and root(item.kinds[0]) == number)

    found = []
    for number in sorted({root(kind) for kind in range(len(of))}):
        kinds = tuple(kind for kind in range(len(of)) if root(kind) == number)
        group = Group(kinds, mine(demand.nets, number), mine(demand.sticks, number), mine(demand.vague, number))
        if group.nets or group.sticks or group.vague:
            found.append(group)
    return found


def long_sticks(demand: Demand, group: Group) -> list[Item]:
    """The frame parts that no net of the group has room for: longer than two corners side by side, or wider."""
    lengths, widths = [0.0], [0.0]
    for number in group.nets:
        corners = demand.corners[number]
        if corners.kinds:
            lengths += [length for length, _ in corners.regions]
            widths += [width for _, width in corners.regions]
    longest, widest = 2 * max(lengths) + demand.kerf, max(widths)
    sticks = [demand.sticks[number] for number in group.sticks]
    return [stick for stick in sticks if stick.length > longest + FIT or stick.width > widest + FIT]


def wood_bound(demand: Demand, group: Group) -> float:
    """A cost no layout of the group can beat, from areas; infinite where its sheets have not so much wood.

    Every part takes its size and a kerf on two sides, every sheet has a kerf more each way; short sticks may lie in
    the corners of nets.
    """
    sticks = [demand.sticks[n] for n in group.sticks] + [demand.vague[n] for n in group.vague]
    long = demand.area(long_sticks(demand, group))
    free = 0.0
    for number in group.nets:
        corners = demand.corners[number]
        free += demand.area(Item(*size, ()) for size in corners.regions if corners.kinds)
    need = demand.area(demand.nets[n] for n in group.nets) + long + max(0.0, demand.area(sticks) - long - free)
    return _cost_of(demand, [demand.kinds[n] for n in group.kinds], need * (1 - 1e-9))


def _cost_of(demand: Demand, kinds: Sequence[Kind], need: float) -> float:
    """The least cost of so much wood: in whole sheets where all cost alike, else the last one in part."""
    alike = len({kind.cost for kind in kinds}) == 1
    sized = [(demand.area([Item(kind.length, kind.width, ())]), kind) for kind in kinds if kind.count]
    cost = 0.0
    for area, kind in sorted(sized, key=lambda pair: (pair[1].cost / max(pair[0], 1e-9), -pair[0])):
        if need <= 0:
            break
        used = min(float(kind.count), need / max(area, 1e-9))
        if alike and used < kind.count:
            used = float(-int(-used // 1))
        cost += used * kind.cost
        need -= used * area
    return cost if need <= 0 else float("inf")
