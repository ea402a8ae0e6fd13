"""The studs behind a frame, the way a driver needs to reach them, and the screws.

wall: x from its left edge        mount.x     frame's left end
|----------------------------------|---|------|==============      the frame starts the sheet's thickness
                                     t   play                      (mitred end only) and the side play in
"""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise
from math import ceil, floor
from typing import Final

from core.document.model import FrameWish, Mount, Screw, Shelf, Stand, Studs, Wall
from core.frame.spread import FLOAT_TOL
from core.language import decimal
from core.lengths import INCH_MM, Unit
from core.plan.model import ScrewPlace

PILOT_SHARE: Final = 0.6  # of the diameter of the screw, in softwood: common practice
# Lengths construction screws are sold in, mm and the inch name of the same stock: common practice, from memory.
# Rows without mm are inch sizes that have no metric twin.
SOLD_LENGTHS: Final[tuple[tuple[float | None, str, float], ...]] = tuple(
    (mm, name, inches * INCH_MM)
    for mm, name, inches in (
        (25.0, '1"', 1.0),
        (30.0, '1-1/4"', 1.25),
        (35.0, '1-3/8"', 1.375),
        (40.0, '1-5/8"', 1.625),
        (45.0, '1-3/4"', 1.75),
        (50.0, '2"', 2.0),
        (60.0, '2-3/8"', 2.375),
        (None, '2-1/2"', 2.5),
        (70.0, '2-3/4"', 2.75),
        (None, '3"', 3.0),
        (80.0, '3-1/8"', 3.125),
        (90.0, '3-1/2"', 3.5),
        (100.0, '4"', 4.0),
        (None, '4-1/2"', 4.5),
        (120.0, '4-3/4"', 4.75),
        (130.0, '5-1/8"', 5.125),
        (140.0, '5-1/2"', 5.5),
        (150.0, '6"', 6.0),
        (160.0, '6-1/4"', 6.25),
        (180.0, '7-1/8"', 7.125),
        (200.0, '8"', 8.0),
        (220.0, '8-5/8"', 8.625),
        (240.0, '9-1/2"', 9.5),
        (260.0, '10-1/4"', 10.25),
        (280.0, '11"', 11.0),
        (300.0, '12"', 12.0),
    )
)

# For each unit: what a screw holds at least, and its length, both ascending.
_STOCK: Final = {
    Unit.MM: tuple(zip(*((mm, mm) for mm, _, _ in SOLD_LENGTHS if mm is not None), strict=True)),
    Unit.INCH: tuple(zip(*((min(mm or inch, inch), mm or inch) for mm, _, inch in SOLD_LENGTHS), strict=True)),
}

# Room for screws one above the other, in diameters: common practice is two 1/4 in screws from a rail of 1-3/4 in
# (7 diameters) on; shared out as 2 to each edge and 3 between.
EDGE_DIAMETERS: Final = 2.0
BETWEEN_DIAMETERS: Final = 3.0
UPPER_THIRD: Final = 2.0 / 3.0  # of the height: a longer arm against tipping, common practice

OVERHANG, OVERHANG_SHARE = 16.0 * INCH_MM, 0.25  # past the last stud, and of the length: common practice


def usual_overhang(length: float) -> float:
    """How far an end of a shelf of that length may reach past its last stud. [mm]"""
    return min(OVERHANG, OVERHANG_SHARE * length)


def shift_of(shelf: Shelf, side_play: float) -> float:
    """How far the frame stands off the middle of its cavity: as asked, as far as the play lets it. [mm]"""
    return max(-side_play, min(side_play, shelf.frame_shift))


def frame_left(shelf: Shelf, mount: Mount, thickness: float, side_play: float) -> float:
    """The frame's left end from the wall's left edge, slid in its play as the shelf says. [mm]

    thickness: of the shell's sheet, there only at a mitred end. [mm]
    """
    return mount.x + (thickness if shelf.left == "mitred" else 0.0) + side_play + shift_of(shelf, side_play)


def pilot_hole(screw: Screw) -> float:
    """Widest pilot hole in a stud, so that the thread still bites: common practice for softwood. [mm]"""
    return PILOT_SHARE * screw.diameter


def driver_way(screw: Screw, rib_thickness: float) -> float:
    """Least distance from a stud's centre line to a rib's: half the rib, half the access hole, and clear. [mm]"""
    return rib_thickness / 2.0 + screw.access_hole / 2.0 + screw.clear


def stud_lines(wall: Wall, low: float, high: float) -> tuple[float, ...]:
    """Centre lines of the wall's studs from low to high, ascending, from the wall's left edge. [mm]

    Even studs go on to the wall's width; a list may be in any order. A wall of another kind than timber studs has
    none: what holds in it is never guessed.
    """
    if wall.kind != "timber stud":
        return ()
    studs, low, high = wall.studs, low - FLOAT_TOL, high + FLOAT_TOL
    if not isinstance(studs, Studs):
        return tuple(sorted({x for x in studs if low <= x <= high}))
    first = max(0, ceil((low - studs.first) / studs.spacing))
    last = floor((min(high, wall.width) - studs.first) / studs.spacing)
    return tuple(studs.first + n * studs.spacing for n in range(first, last + 1))


def reachable_room(length: float, rib_thickness: float, wish: FrameWish, screw: Screw) -> tuple[float, float]:
    """Where a stud's centre line must lie for its driver to pass the innermost end ribs; from the frame's left.

    The second is less than the first where the frame is too short for any. [mm]
    """
    inset = (wish.end_layers - 0.5) * rib_thickness + driver_way(screw, rib_thickness)
    return inset, length - inset


def screw_heights(height: float, diameter: float, count: int, stand: Stand = "middle") -> tuple[float, ...]:
    """Heights of a stud's screws above the frame's lower edge, ascending. [mm]

    One stands at half height or, where so wished, at two thirds of it, no nearer to the upper edge than
    EDGE_DIAMETERS. More are spread evenly, the outer ones EDGE_DIAMETERS from the edges (a quarter of the height
    where the rail is too low for that).
    """
    if count == 1:
        high = min(height * UPPER_THIRD, height - EDGE_DIAMETERS * diameter) if stand == "upper third" else 0.0
        return (max(high, height / 2.0),)
    edge = min(EDGE_DIAMETERS * diameter, height / 4.0)
    step = (height - 2.0 * edge) / (count - 1)
    return tuple(edge + n * step for n in range(count))


def screws_that_fit(height: float, diameter: float) -> int:
    """How many screws a rail of that height takes one above the other, at least 1."""
    room = height - 2.0 * EDGE_DIAMETERS * diameter
    return max(1, 1 + floor(room / (BETWEEN_DIAMETERS * diameter) + FLOAT_TOL))


def least_screw(thickness: float, wish: FrameWish, wall: Wall, screw: Screw) -> float:
    """Rail layers + board and tile + bite: the length that holds as asked. [mm]

    thickness: of the frame's sheet. [mm]
    """
    return wish.back_layers * thickness + wall.cover + screw.bite


def sold_length(least: float, unit: Unit) -> float | None:
    """The shortest screw sold that is at least so long, None past the longest. [mm]

    Where inches are shown, the inch size of the same name has to be long enough as well.
    """
    holds, lengths = _STOCK[unit]
    n = bisect_left(holds, least - FLOAT_TOL)
    return lengths[n] if n < len(lengths) else None


def sold_name(length: float, unit: Unit) -> str | None:
    """What the shop calls a screw of that length, `70 mm` or `2-3/4"`; None for a length of one's own. [mm]"""
    for mm, name, inch_mm in SOLD_LENGTHS:
        if abs((mm or inch_mm) - length) <= FLOAT_TOL:
            if unit is Unit.INCH:
                return name
            return decimal(f"{mm:g} mm") if mm is not None else None
    return None


def place_screws(
    studs: tuple[float, ...], left: float, heights: tuple[float, ...], length: float
) -> tuple[ScrewPlace, ...]:
    """The screws of all studs, from the left, each stud's from the lowest. x from the frame's left end `left`."""
    return tuple(ScrewPlace(stud - left, height, length) for stud in studs for height in heights)


def least_slide(wall: Wall, room: tuple[float, float], bounds: tuple[float, float]) -> tuple[float, float] | None:
    """The range of slides nearest to none that brings two neighbouring studs into the room, None if none does.

    room: where studs must lie, from the wall's left edge; bounds: how far it may slide (left negative). [mm]
    """
    studs = stud_lines(wall, room[0] + bounds[0], room[1] + bounds[1])
    best: tuple[float, float] | None = None
    for one, other in pairwise(studs):
        low, high = max(other - room[1], bounds[0]), min(one - room[0], bounds[1])
        if low <= high and (best is None or _from_none(low, high) < _from_none(*best)):
            best = (low, high)
    return best


def _from_none(low: float, high: float) -> float:
    return max(low, -high, 0.0)
