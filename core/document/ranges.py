"""The range of every number in the project file; a value outside it makes the file unusable."""

from __future__ import annotations

from typing import Literal, NamedTuple

import msgspec

from core.document.model import (
    Alcove,
    Figure,
    FrameWish,
    KeepClear,
    KeepOut,
    Measured,
    Mount,
    Photo,
    Project,
    Saw,
    Screw,
    Sheet,
    Shelf,
    Studs,
    Wall,
)
from core.language import decimal, tr
from core.lengths import Unit, show_length

LARGEST = 100_000.0  # mm: beyond it somebody leant on a key
MAX_SHEETS, MAX_SHELVES, MAX_STUDS = 500, 2000, 1000  # kinds of sheet; shelves; studs of one wall
MAX_READINGS, MAX_KEEP_OUTS = 500, 200  # of the bow; rectangles on the wall
MAX_PHOTOS = 20  # of one sheet
MAX_REVISIONS = 50
MAX_AREAS, MAX_CORNERS = 100, 100  # areas to keep clear on one sheet; corners of one area


class Range(NamedTuple):
    """Least and most; `above` means that the least itself is not allowed."""

    least: float
    most: float
    measure: Literal["mm", "°", ""] = "mm"
    above: bool = False

    def complaint(self, value: float, unit: Unit = Unit.MM) -> str | None:
        """What is wrong with `value`, None if nothing; lengths are written in `unit`."""
        if (self.least < value if self.above else self.least <= value) and value <= self.most:
            return None
        if value > self.most:
            return tr(
                "must be at most {most}, is {value}", most=self._shown(self.most, unit), value=self._shown(value, unit)
            )
        if value != value:
            return tr("must be a finite number")
        bound = tr("more than") if self.above else tr("at least")
        return tr(
            "must be {bound} {least}, is {value}",
            bound=bound,
            least=self._shown(self.least, unit),
            value=self._shown(value, unit),
        )

    def _shown(self, value: float, unit: Unit) -> str:
        if self.measure == "mm" and value and unit is Unit.INCH and abs(value) <= 10 * LARGEST:
            return show_length(value, unit, 64)
        if isinstance(value, int) and abs(value) >= 10**15:
            return tr("a very large number")
        return decimal(f"{value:.9g}") + f"{self.measure if self.measure != 'mm' else ' mm'}"


_SIZE = Range(0.0, LARGEST, above=True)
_AMOUNT = Range(0.0, LARGEST)
_PLACE = Range(-LARGEST, LARGEST)

RANGES: dict[type[msgspec.Struct], dict[str, Range]] = {
    Project: {"glue_line": _AMOUNT},
    Saw: {
        "kerf": Range(0.0, 20.0, above=True),
        "overcut": Range(-5.0, 5.0, "°"),
        "bevel_sd": Range(0.0, 5.0, "°"),
        "allowance": _AMOUNT,
        "tilt_max": Range(0.0, 90.0, "°", above=True),
        "depth_at_bevel": _SIZE,
        "guide_length": _SIZE,
        "guide_width": _SIZE,
        "fence_travel": _SIZE,
        "guide_offset": Range(-20.0, 20.0),
    },
    Sheet: {
        "length": _SIZE,
        "width": _SIZE,
        "thickness": _SIZE,
        "veneer": _AMOUNT,
        "trim": _AMOUNT,
        "quantity": Range(0, 10_000, ""),
        "price": Range(0.0, 1e9, ""),
    },
    KeepClear: {"corners": _PLACE},
    Figure: {"seed": Range(0, 2**32 - 1, "")},
    Photo: {
        "corners": Range(-1.0, 2.0, ""),
        "part": _AMOUNT,
        "lens": Range(-0.12, 0.12, ""),
        "even": Range(0.0, 1.0, ""),
    },
    Mount: {"x": _PLACE, "top": _PLACE},
    Measured: {"values": Range(-1e6, 1e6, "")},
    Shelf: {
        "length": _SIZE,
        "depth": _SIZE,
        "height": _SIZE,
        "scribe": _AMOUNT,
        "at": _PLACE,
        "ribs": _PLACE,
        "frame_shift": _PLACE,
    },
    FrameWish: {
        "thickness": _SIZE,
        "back_layers": Range(1, 10, ""),
        "front_layers": Range(0, 10, ""),
        "end_layers": Range(1, 10, ""),
        "spacing": _SIZE,
        "side_play": _AMOUNT,
        "front_play": _AMOUNT,
        "height_play": _AMOUNT,
    },
    Studs: {"first": _PLACE, "spacing": _SIZE},
    Wall: {
        "width": _SIZE,
        "height": _SIZE,
        "studs": _PLACE,  # where they are a list of centre lines
        "stud_width": _SIZE,
        "board": _AMOUNT,
        "gravity": Range(0.0, 1.5, "", above=True),
        "tile": _AMOUNT,
        "bow": _PLACE,  # its gaps are at least 0: `core.document.wall`
        "run_out": _PLACE,
    },
    KeepOut: {"x": _PLACE, "y": _PLACE, "width": _SIZE, "height": _SIZE},
    Alcove: {"top": _SIZE, "bottom": _SIZE},
    Screw: {
        "diameter": _SIZE,
        "length": _SIZE,
        "per_stud": Range(1, 10, ""),
        "bite": _SIZE,
        "access_hole": _AMOUNT,
        "clear": _AMOUNT,
    },
}
