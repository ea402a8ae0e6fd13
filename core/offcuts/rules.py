"""What is kept of a plan, an offcut as stock of a project, and the largest shelf one can still give."""

from __future__ import annotations

from collections.abc import Container, Iterable
from itertools import count
from typing import Final

import msgspec

from core.document.model import End, EndsFrom, FrameWish, Project, Saw, Sheet, Shelf, Units
from core.layout.largest import Dimension, Largest, largest
from core.lengths import Unit, snap_down
from core.offcuts.model import KeptOffcut
from core.packing.clock import Stop, never
from core.plan.model import Plan

TRIM: Final = 5.0  # mm: edges knocked about in the rack are trued again, as a new sheet's are (common practice)
_ENOUGH = 20  # sheets for the frame of one shelf, more than any takes


def kept_from(plan: Plan, date: str, face: str = "") -> tuple[KeptOffcut, ...]:
    """A plan's offcuts as they go into the rack, the largest first, with no ids yet.

    Sizes are rounded down as the project's papers print them, to 1/32 in or 0.1 mm.
    face: in the maker's words; by default what the project calls that kind of sheet.
    """
    sources, unit = {s.id: s.source for s in plan.sheets}, Unit(plan.project.units)
    found = []
    for offcut in plan.offcuts:
        source = sources[offcut.sheet]
        length, width = snap_down(offcut.length, unit), snap_down(offcut.width, unit)
        wood = (source.thickness, source.veneer, face or source.id, date)
        found.append(KeptOffcut("", length, width, *wood, plan.project.name, offcut.sheet, offcut.piece))
    return tuple(found)


def same_piece(one: KeptOffcut, other: KeptOffcut) -> bool:
    """Are these the same piece of the same job, kept twice?"""
    return bool(one.piece) and _origin(one) == _origin(other)


def _origin(offcut: KeptOffcut) -> tuple[str, str, str, float, float, float]:
    return offcut.project, offcut.sheet, offcut.piece, offcut.length, offcut.width, offcut.thickness


def as_sheet(offcut: KeptOffcut, taken: Container[str] = (), trim: float = TRIM) -> Sheet:
    """The offcut as stock: one sheet for shelves or frames.

    taken: ids the project's sheets have already; where the offcut's own is among them it gets a number more.
    trim: taken off all four edges. [mm]
    """
    name = offcut.id or "offcut"
    if name in taken:
        name = next(other for n in count(2) if (other := f"{name}.{n}") not in taken)
    size = (offcut.length, offcut.width, offcut.thickness, offcut.veneer)
    return Sheet(name, *size, trim=trim, quantity=1, use="any")


def is_sheet_of(sheet: Sheet, offcut: KeptOffcut) -> bool:
    """Is this the sheet that `as_sheet` made of the offcut, whatever has been said of it since but its size?"""
    size = (offcut.length, offcut.width, offcut.thickness)
    return sheet.id.partition(".")[0] == offcut.id and (sheet.length, sheet.width, sheet.thickness) == size


def used_by(plan: Plan, offcuts: Iterable[KeptOffcut]) -> tuple[KeptOffcut, ...]:
    """Those of the offcuts that the plan cuts from: to be marked as used once it is sawn."""
    used = {s.source.id: s.source for s in plan.sheets}.values()
    return tuple(o for o in offcuts if o.there and any(is_sheet_of(sheet, o) for sheet in used))


def what_can_it_give(
    offcut: KeptOffcut,
    saw: Saw,
    depth: float,
    height: float,
    *,
    left: End = "mitred",
    right: End = "mitred",
    ends_from: EndsFrom = "front",
    frame: FrameWish | None = None,
    frame_from_it: bool = False,
    trim: float = TRIM,
    units: Units = "in",
    stop: Stop = never,
) -> Largest | None:
    """The longest shelf of that depth and height the offcut gives, None once `stop` says True; see `largest_from`."""
    shelf = Shelf("shelf", offcut.length, depth, height, left, right, ends_from)
    return largest_from(
        offcut, saw, shelf, "length", frame=frame, frame_from_it=frame_from_it, trim=trim, units=units, stop=stop
    )


def largest_from(
    offcut: KeptOffcut,
    saw: Saw,
    shelf: Shelf,
    what: Dimension,
    *,
    frame: FrameWish | None = None,
    frame_from_it: bool = False,
    trim: float = TRIM,
    units: Units = "in",
    stop: Stop = never,
) -> Largest | None:
    """The largest length, depth or height of a shelf that the offcut gives, its other sizes as they are.

    frame_from_it: the hidden frame is to come from the offcut too; else it comes from other wood.
    units: those the answer's text is in. The answer's pointers are for a project with this one shelf.
    """
    wish = frame or FrameWish()
    stock = as_sheet(offcut, trim=trim)
    shelf = msgspec.structs.replace(shelf, sheet=stock.id, at=None)
    stocks = (stock,) if frame_from_it else (stock, _other_wood(offcut, wish, stock.id))
    project = Project(stocks, (shelf,), units=units, saw=saw, frame=wish)
    return largest(project, what, 0, stop=stop)


def _other_wood(offcut: KeptOffcut, wish: FrameWish, beside: str) -> Sheet:
    """Wood enough for the frame of any shelf the offcut gives."""
    thickness = wish.thickness or offcut.thickness
    side = max(offcut.length, offcut.width)
    return Sheet(f"{beside} frame", side, side, thickness, trim=0.0, quantity=_ENOUGH, use="frame")
