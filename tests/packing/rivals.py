"""What the packing is measured against: first fit decreasing, and the best of all guillotine settings of rectpack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Any

from rectpack import (  # type: ignore[import-untyped]  # published without type hints
    PackingBin,
    PackingMode,
    guillotine,
    newPacker,
    packer,
)

Box = tuple[float, float, float, float]
Size = tuple[float, float]

RULES = [
    getattr(guillotine, f"Guillotine{fit}{split}")
    for fit, split in product(("Bssf", "Blsf", "Baf"), ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas"))
]
ORDERS = [getattr(packer, name) for name in dir(packer) if name.startswith("SORT_")]
BINS = (PackingBin.BNF, PackingBin.BFF, PackingBin.BBF, PackingBin.Global)
TENTH = 10  # rectpack is given whole tenths of a millimetre


def first_fit(lengths: Sequence[int], room: int) -> int:
    """Bars that first fit decreasing takes."""
    rooms: list[int] = []
    for length in sorted(lengths, reverse=True):
        place = next((i for i, left in enumerate(rooms) if left >= length), None)
        if place is None:
            rooms.append(room - length)
        else:
            rooms[place] -= length
    return len(rooms)


def settings() -> Iterator[dict[str, Any]]:
    """Every setting of rectpack's guillotine packing."""
    for rule, order, bins in product(RULES, ORDERS, BINS):
        yield {"pack_algo": rule, "sort_algo": order, "bin_algo": bins, "mode": PackingMode.Offline, "rotation": False}


def _packed(setting: dict[str, Any], sizes: Sequence[Size], sheet: Size, count: int) -> list[list[tuple[int, Box]]]:
    """The rectangles of each sheet: number and box, in the whole numbers given."""
    packing = newPacker(**setting)
    for number, (x, y) in enumerate(sizes):
        packing.add_rect(x, y, number)
    packing.add_bin(*sheet, count=count)
    packing.pack()
    return [[(r.rid, (r.x, r.y, r.x + r.width, r.y + r.height)) for r in sheet_of] for sheet_of in packing]


def best_value(items: Sequence[Sequence[int]], length: float, width: float) -> float:
    """The most value any setting gets on one sheet; the most valuable parts for their area come first."""
    parts = sorted(items, key=lambda item: -item[3] / (item[0] * item[1]))
    pieces = [(x, y, value) for x, y, n, value in parts for _ in range(n)]
    sizes = [(x, y) for x, y, _ in pieces]
    return max(
        sum(pieces[number][2] for sheet in _packed(setting, sizes, (length, width), 1) for number, _ in sheet)
        for setting in settings()
    )


def best_layout(sizes: Sequence[Size], length: float, width: float, kerf: float) -> tuple[int, float]:
    """Fewest sheets of any setting, and at that number the largest rectangle left of one [mm²]."""
    grown = [(round((x + kerf) * TENTH), round((y + kerf) * TENTH)) for x, y in sizes]
    sheet = round((length + kerf) * TENTH), round((width + kerf) * TENTH)
    best = len(sizes) + 1, 0.0
    for setting in settings():
        packed = _packed(setting, grown, sheet, len(sizes))
        if sum(map(len, packed)) == len(sizes) and len(packed) <= best[0]:
            boxes = [[_shrunk(box, kerf) for _, box in rectangles] for rectangles in packed]
            left = max(largest_left(each, length, width, kerf) for each in boxes)
            best = min(best, (len(packed), -left))
    return best[0], -best[1]


def _shrunk(box: Box, kerf: float) -> Box:
    x0, y0, x1, y1 = (value / TENTH for value in box)
    return (x0, y0, x1 - kerf, y1 - kerf)


def largest_left(boxes: Sequence[Box], length: float, width: float, kerf: float) -> float:
    """The largest rectangle that straight cuts can leave of a sheet with parts in given places. [mm²]"""
    best = 0.0
    pending = [((0.0, 0.0, length, width), tuple(boxes))]
    seen = set(pending)
    while pending:
        room, parts = pending.pop()
        area = max(0.0, room[2] - room[0]) * max(0.0, room[3] - room[1])
        if area <= best:
            continue
        if not parts:
            best = area
            continue
        for side in _sides(room, parts, kerf):
            if side not in seen:
                seen.add(side)
                pending.append(side)
    return best


def _sides(room: Box, parts: tuple[Box, ...], kerf: float) -> Iterator[tuple[Box, tuple[Box, ...]]]:
    """The two sides of every cut that starts where a part ends, or ends where one starts."""
    for low, high in ((0, 2), (1, 3)):
        for start in {part[high] for part in parts} | {part[low] - kerf for part in parts}:
            end = start + kerf
            if start <= room[low] or end >= room[high]:
                continue
            if any(part[low] < end - 1e-6 and part[high] > start + 1e-6 for part in parts):
                continue
            before, after = list(room), list(room)
            before[high], after[low] = start, end
            yield (before[0], before[1], before[2], before[3]), tuple(p for p in parts if p[low] < start)
            yield (after[0], after[1], after[2], after[3]), tuple(p for p in parts if p[low] >= start)
