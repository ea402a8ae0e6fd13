"""How well the two sides of a seam match, and how far the grain steps aside where figure is lost between them.

The match is 100 where both sides show the same colours along the seam and the grain meets it the same way:

    match = 100 (0.7 c + 0.3 d)    c = 1 - ΔE / 30, d = 1 - Δθ / 30°, both at least 0

ΔE is the root mean square of the CIE 1976 difference between the two sides' colours along the seam, each the mean over
5 mm beside its edge; Δθ the mean angle between their grains, 12 mm beside it. Where no side has a grain, match = 100 c.
The weights are the project's own. Where the grain runs along a seam its two sides are other growth rings: a loss of
3 mm is about one ring, so the match there is how alike the wood is on the whole: 100 times the likeness of
`core.figure.along`.
Step: grain that crosses at φ from square steps by loss · tan φ.
"""

from __future__ import annotations

from math import radians, tan
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.figure.along import LUMA, NEAR, Along, along, likeness, means, runs_along
from core.figure.colour import lab
from core.figure.grain import Grain, grain_along, turn_between
from core.figure.places import SeamPlace

Bytes = NDArray[np.uint8]
Floats = NDArray[np.float64]
Span = tuple[float, float]

BESIDE: Final = 5.0  # mm beside an edge whose colours are compared
DEEP: Final = 12.0  # mm whose grain is
STEP: Final = 1.2  # mm along the seam that one colour is the mean of: what the eye still parts at arm's length
WINDOW: Final = 40.0  # mm along the seam that one direction is taken from
COLOUR, DIRECTION = 0.7, 0.3  # weights
WORST_COLOUR, WORST_TURN = 30.0, 30.0  # ΔE and degrees at which nothing matches any more
SURE: Final = 0.15  # of a direction: less is no grain
STEEP: Final = 60.0  # degrees from square: grain runs along the seam, and steps nowhere


class SeamFigure(NamedTuple):
    """What is known of the figure across one seam."""

    seam: str
    loss: float  # figure lost [mm]
    angle: float | None  # of the grain from square to the seam, the mean of both sides; None without grain [deg]
    step: float | None  # how far lines of the grain step sideways; None where it runs along the seam [mm]
    match: float  # 0..100


class Side(NamedTuple):
    """One side of a seam: colours along it, L*a*b* (n, 3), and directions along it."""

    colours: Floats
    grains: list[Grain]
    along: Along | None = None  # where the grain may run along it


def measured(face: Bytes, sheet: Span, place: SeamPlace) -> SeamFigure:
    """The figure across a seam. face: (down, across, 3), row 0 the upper edge; sheet: length and width [mm]."""
    low, high = side_at(face, sheet, place, is_high=False), side_at(face, sheet, place, is_high=True)
    angle = _from_square([*low.grains, *high.grains], place.runs)
    step = None if angle is None or abs(angle) > STEEP else place.loss * tan(radians(angle))
    return SeamFigure(place.seam, place.loss, angle, step, match(low, high))


def side_at(face: Bytes, sheet: Span, place: SeamPlace, *, is_high: bool, moved: float = 0.0) -> Side:
    """What lies beside the lower edge, or beyond the higher one.

    moved: how far off square to the seam it is taken instead. [mm]
    """
    edge = (place.high if is_high else place.low) + moved
    way = 1.0 if is_high else -1.0
    near = piece(face, sheet, place, edge, edge + way * BESIDE)
    deep = piece(face, sheet, place, edge, edge + way * DEEP)
    pitch = sheet[0] / face.shape[1] if place.runs == "x" else sheet[1] / face.shape[0]
    axis = 1 if place.runs == "x" else 0
    line = near.mean(axis=1 - axis)
    if axis == 0:
        line = line[::-1]  # from the sheet's lower edge up
        deep = deep[::-1]
    tone = deep @ np.array(LUMA)
    grains = grain_along(tone, max(8, round(WINDOW / pitch)), axis)
    if axis == 0:
        grains = [Grain(-one.angle, one.sure) for one in grains]  # it was turned upside down
    wood = None
    if place.runs == "x":
        wood = along(piece(face, sheet, place, edge, edge + way * NEAR), pitch, edge_low=is_high)
    return Side(lab(means(line, max(1, round(STEP / pitch)))), grains, wood)


def piece(face: Bytes, sheet: Span, place: SeamPlace, one: float, other: float) -> Bytes:
    """The pixels of a face between two lines that run along a seam, as long as it is."""
    down, across = face.shape[:2]
    low, high = sorted((one, other))
    x0, x1, y0, y1 = (place.start, place.end, low, high) if place.runs == "x" else (low, high, place.start, place.end)
    left, right = (round(x / sheet[0] * across) for x in (x0, x1))
    top, bottom = (round((1.0 - y / sheet[1]) * down) for y in (y1, y0))
    left, top = min(max(left, 0), across - 1), min(max(top, 0), down - 1)
    return face[top : max(min(bottom, down), top + 1), left : max(min(right, across), left + 1)]


def match(one: Side, other: Side) -> float:
    """How well two sides match, 0..100."""
    if one.along is not None and other.along is not None and runs_along(one.along, other.along, 90.0 - STEEP):
        return 100.0 * likeness(one.along, other.along)
    count = min(len(one.colours), len(other.colours))
    off = one.colours[:count] - other.colours[:count]
    colour = max(0.0, 1.0 - float(np.sqrt((off * off).sum(axis=1).mean())) / WORST_COLOUR)
    pairs = zip(one.grains, other.grains, strict=False)
    turns = [turn_between(a.angle, b.angle) for a, b in pairs if min(a.sure, b.sure) >= SURE]
    if not turns:
        return 100.0 * colour
    direction = max(0.0, 1.0 - float(np.mean(turns)) / WORST_TURN)
    return 100.0 * (COLOUR * colour + DIRECTION * direction)


def _from_square(grains: list[Grain], runs: str) -> float | None:
    """The mean direction from square to the seam, each weighed by how sure it is. [deg]"""
    sure = [one for one in grains if one.sure >= SURE]
    if not sure:
        return None
    off = [one.angle if runs == "y" else (one.angle + 180.0) % 180.0 - 90.0 for one in sure]
    doubled = sum(one.sure * np.exp(2j * np.radians(angle)) for one, angle in zip(sure, off, strict=True))
    return float(np.degrees(np.angle(doubled)) / 2.0)
