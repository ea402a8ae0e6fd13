"""The areas of a sheet that are kept clear: crossed hatch, what each is, and what keeps out of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.document.areas import box_of
from core.document.model import KeepClear, KeptOut, Sheet
from core.drawing.model import Area, Box, Item, Text
from core.language import tr
from core.layout.clear import bounds
from core.plan.model import StockSheet

OUT: Final[dict[KeptOut, str]] = {"net": tr("no net"), "faces": tr("no show face"), "front": tr("no front")}


def area_name(stock: Sheet, number: int) -> str:
    """The id of an area, by which it is selected."""
    return f"{stock.id} keep clear {number + 1}"


def area_items(sheet: StockSheet) -> Iterator[Item]:
    """Outline, hatch and words of each area of a sheet."""
    for number, area in enumerate(sheet.areas):
        name = area_name(sheet.source, number)
        yield Area("clear", area.corners, name)
        room = _room(area)
        at = ((room[0] + room[2]) / 2.0, (room[1] + room[3]) / 2.0)
        words = f"{area.kind}: {OUT[area.of]}"
        yield Text("clear", at, words, 9.0, "middle", room=room, about=name, short=area.kind, clear=True)


def words_room(box: Box, sheet: StockSheet) -> Box:
    """The largest part of a box beside the areas of a sheet: where its words can be read."""
    for area in sheet.areas:
        x0, y0, x1, y1 = bounds(area.corners)
        a0, b0, a1, b1 = box
        if x0 < a1 and a0 < x1 and y0 < b1 and b0 < y1:
            sides = ((a0, b0, x0, b1), (x1, b0, a1, b1), (a0, b0, a1, y0), (a0, y1, a1, b1))
            largest = max(sides, key=lambda side: max(0.0, side[2] - side[0]) * max(0.0, side[3] - side[1]))
            if largest[0] < largest[2] and largest[1] < largest[3]:
                box = largest
    return box


def _room(area: KeepClear) -> Box:
    """The box that words may take: of a polygon the middle part, which mostly lies inside."""
    box = box_of(area)
    if box is not None:
        return box
    x, y = _middle(area)
    x0, y0, x1, y1 = bounds(area.corners)
    wide, high = min(x - x0, x1 - x), min(y - y0, y1 - y)
    return x - wide, y - high, x + wide, y + high


def _middle(area: KeepClear) -> tuple[float, float]:
    """The centre of gravity of a polygon."""
    corners = area.corners
    x0, y0 = corners[0]
    total = x = y = 0.0
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        turn = (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
        total += turn
        x += turn * (ax + bx - 2 * x0)
        y += turn * (ay + by - 2 * y0)
    return x0 + x / (3.0 * total), y0 + y / (3.0 * total)
