"""The values of a layout."""

from __future__ import annotations

from typing import Literal

import msgspec

from core.document.model import Project, Sheet
from core.geometry.net import Net

Rect = tuple[float, float, float, float]  # x0, y0, x1, y1 [mm]

FIT = 1e-6  # mm: a rectangle that is larger than its room by less than this still fits

LEAST_SAWN = 0.1  # mm: no saw cuts a panel, or wood, smaller than this


class NetSize(msgspec.Struct, frozen=True, gc=False):
    """What the layout needs to know of a net: its outside, and which nets it can share a band with."""

    index: int  # of the shelf in the project; past all shelves for a panel cut apart
    length: float
    width: float
    band: tuple[float, ...]  # depth + scribe, height
    thickest: float  # in stock this thick or thicker a panel has no inside face left [mm]
    form: Net | None = None  # its panels, for areas that not all of it keeps out of
    main: int | None = None  # of a panel cut apart: the index of its shelf, whose thickness it must have

    @property
    def shelf(self) -> int:
        """Index of the shelf it belongs to."""
        return self.index if self.main is None else self.main


class Spot(msgspec.Struct, frozen=True, gc=False):
    """A net placed: sheet number in the layout, lower left corner."""

    index: int
    sheet: int
    x: float
    y: float


Reason = Literal["large", "pin-outside", "pin-overlap", "pin-parting", "no-sheet", "thick", "main"]


class Misfit(msgspec.Struct, frozen=True, gc=False):
    """A net that found no room: the room it comes nearest to fitting, and by how much it is too large for that.

    reason: "main" for a panel cut apart whose net found no room: of that the net's own misfit says enough.
    sheet: number of the sheet in the layout, or None for a fresh copy of `stock`, or for no sheet at all.
    """

    index: int
    reason: Reason
    stock: Sheet | None
    sheet: int | None
    x: float
    y: float
    over_x: float
    over_y: float
    other: int | None = None  # index of the shelf it runs into
    clear_of: str = ""  # kind of the area that takes the room away, where nothing else does


class Layout(msgspec.Struct, frozen=True):
    """Which sheets are used, where each net lies, and which found no room."""

    stocks: tuple[Sheet, ...]  # one for each sheet used, in order
    spots: tuple[Spot, ...]
    misfits: tuple[Misfit, ...]

    @property
    def lacking(self) -> int:
        """How many shelves and panels cut apart lack room themselves, not only because their shelf does."""
        return sum(misfit.reason != "main" for misfit in self.misfits)


def pin_of(project: Project, index: int) -> tuple[float, float] | None:
    """Where a net is pinned; a panel cut apart never is."""
    return project.shelves[index].at if index < len(project.shelves) else None


def trimmed(sheet: Sheet) -> Rect:
    """The area inside the trim; x1 < x0 or y1 < y0 where the trim eats the sheet."""
    return (sheet.trim, sheet.trim, sheet.length - sheet.trim, sheet.width - sheet.trim)
