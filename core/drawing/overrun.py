"""What does not fit: the net where it would lie, what of it is too much, and by how much in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.drawing.model import Area, Box, Item, Point, Text
from core.drawing.names import part_name
from core.drawing.panels import rectangle
from core.geometry.net import Net
from core.language import tr
from core.lengths import Unit, show_length
from core.plan.model import Overrun, StockSheet

MOST: Final = 0.6  # of the sheet: how far past it an overrun is drawn; the number says the rest


def overrun_items(
    overrun: Overrun, net: Net | None, sheet: StockSheet, letters: dict[str, str], unit: Unit, clear: Point
) -> Iterator[Item]:
    """The panels in outline, the strips past the room there is, and how much they are too long or too wide.

    clear: how far the words keep off the sheet's right end and upper edge, for the numbers there. [points]
    """
    limit = _limit(sheet)
    about = overrun.shelf
    for panel in net.panels if net else ():
        box = _cropped((panel.x, panel.y, panel.x + panel.length, panel.y + panel.width), overrun, limit)
        if box:
            name = part_name(f"{about}/{panel.role}", letters)
            yield Area("ghost", rectangle(box), f"{about}/{panel.role}")
            middle = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
            yield Text("ghost", middle, name, 9.0, "middle", room=box, about=about, short=panel.role, clear=True)
    right, high = overrun.x + overrun.length, overrun.y + overrun.width
    shown = (min(right, limit[0]), min(high, limit[1]))
    if overrun.over_x > 0.0:
        yield Area("trouble", rectangle((right - overrun.over_x, overrun.y, *shown)), about)
        text = tr("{over_x} too long", over_x=show_length(overrun.over_x, unit, rounding="up"))
        at = (max(shown[0], sheet.length), (overrun.y + shown[1]) / 2.0)
        yield Text("trouble", at, text, 11.25, "left", shift=(7.0 + clear[0], 0.0), about=about)
    if overrun.over_y > 0.0:
        yield Area("trouble", rectangle((overrun.x, high - overrun.over_y, *shown)), about)
        text = tr("{over_y} too wide", over_y=show_length(overrun.over_y, unit, rounding="up"))
        at = ((overrun.x + shown[0]) / 2.0, max(shown[1], sheet.width))
        yield Text("trouble", at, text, 11.25, "middle", "bottom", shift=(0.0, 5.0 + clear[1]), about=about)


def _limit(sheet: StockSheet) -> tuple[float, float]:
    """The farthest that an overrun is drawn: never all of it, for a sheet must stay in sight."""
    return (sheet.length * (1.0 + MOST), sheet.width * (1.0 + MOST))


def overrun_box(overrun: Overrun, sheet: StockSheet) -> Box:
    """What must be visible of a sheet with an overrun."""
    limit = _limit(sheet)
    right, high = min(overrun.x + overrun.length, limit[0]), min(overrun.y + overrun.width, limit[1])
    return (0.0, 0.0, max(sheet.length, right), max(sheet.width, high))


def _cropped(box: Box, overrun: Overrun, limit: tuple[float, float]) -> Box | None:
    """A net's box moved to the overrun's place, as far as it is drawn."""
    x0, y0, x1, y1 = box
    moved = (
        x0 + overrun.x,
        y0 + overrun.y,
        min(x1 + overrun.x, limit[0]),
        min(y1 + overrun.y, limit[1]),
    )
    return moved if moved[0] < moved[2] and moved[1] < moved[3] else None
