"""A piece of a sheet, exact: its four sides as planes, so that bevels, slivers and triangles come out right.

A side is one or more lines in section, each given by its place on the show face and on the inside face:

    show face    low side  (a, b) --------------- high side        the piece lies above every low line and
                            \\                   /                  below every high line, at each depth
    inside face              b ------------- ...

At each depth the piece is a rectangle, because every cut runs along x or along y.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

import msgspec

Axis = Literal["x", "y"]
Keep = Literal["low", "high"]
SideLine = tuple[float, float]  # place on the show face, place on the inside face [mm]
Side = tuple[SideLine, ...]
Box = tuple[float, float, float, float]

WOOD = 1e-6  # mm: thinner than this is float noise, not wood
TOUCH = 1e-6  # mm: edges nearer than this are one line


class Piece(msgspec.Struct, frozen=True, gc=False):
    """One piece: its name and its sides. Places are sheet coordinates. [mm]"""

    name: str
    x_low: Side
    x_high: Side
    y_low: Side
    y_high: Side

    def low(self, axis: Axis) -> Side:
        """The low side along an axis."""
        return self.x_low if axis == "x" else self.y_low

    def high(self, axis: Axis) -> Side:
        """The high side along an axis."""
        return self.x_high if axis == "x" else self.y_high

    def show_box(self) -> Box:
        """x0, y0, x1, y1 of the show face; x1 < x0 or y1 < y0 where it has none."""
        return self._box(0)

    def inside_box(self) -> Box:
        """x0, y0, x1, y1 of the inside face."""
        return self._box(1)

    def _box(self, face: int) -> Box:
        if self._plain():
            return (self.x_low[0][face], self.y_low[0][face], self.x_high[0][face], self.y_high[0][face])
        return (
            max(line[face] for line in self.x_low),
            max(line[face] for line in self.y_low),
            min(line[face] for line in self.x_high),
            min(line[face] for line in self.y_high),
        )

    def _plain(self) -> bool:
        """Is every side one line?"""
        return len(self.x_low) == len(self.x_high) == len(self.y_low) == len(self.y_high) == 1

    def clear_box(self) -> Box:
        """The rectangle both faces share: what is square through."""
        if self._plain():
            return (max(self.x_low[0]), max(self.y_low[0]), min(self.x_high[0]), min(self.y_high[0]))
        return (
            max(map(max, self.x_low)),
            max(map(max, self.y_low)),
            min(map(min, self.x_high)),
            min(map(min, self.y_high)),
        )


def whole_sheet(name: str, length: float, width: float) -> Piece:
    """The uncut sheet."""
    return Piece(name, ((0.0, 0.0),), ((length, length),), ((0.0, 0.0),), ((width, width),))


def saw_piece(
    piece: Piece, axis: Axis, at: float, keep: Keep, setback: float, footprint: float, names: tuple[str, str]
) -> tuple[Piece | None, Piece | None]:
    """Saw a piece through; returns what is left at the low and at the high side, None where that is all sawdust.

    axis: the coordinate the cut sits at: 'y' for a rip, 'x' for a crosscut.
    at: where the kept side's show face ends. [mm]
    setback: how far the kept side's inside face is set back, t tan(bevel), >= 0. [mm]
    footprint: what the blade takes along a face, kerf / cos(bevel). [mm]
    names: of the low and the high side.
    """
    if keep == "low":
        low_end, high_start = (at, at - setback), (at + footprint, at - setback + footprint)
    else:
        low_end, high_start = (at - footprint, at + setback - footprint), (at, at + setback)
    if axis == "x":
        low = Piece(names[0], piece.x_low, _nearer(piece.x_high, low_end, 1), piece.y_low, piece.y_high)
        high = Piece(names[1], _nearer(piece.x_low, high_start, -1), piece.x_high, piece.y_low, piece.y_high)
    else:
        low = Piece(names[0], piece.x_low, piece.x_high, piece.y_low, _nearer(piece.y_high, low_end, 1))
        high = Piece(names[1], piece.x_low, piece.x_high, _nearer(piece.y_low, high_start, -1), piece.y_high)
    return (low if has_wood(low) else None), (high if has_wood(high) else None)


def _nearer(side: Side, line: SideLine, sign: int) -> Side:
    """Add a line to a side and drop those it hides; sign 1 for a high side (the lower line wins), -1 for a low one."""
    if len(side) == 1:
        show, inside = (line[0] - side[0][0]) * sign, (line[1] - side[0][1]) * sign
        if show <= WOOD and inside <= WOOD:
            return (line,)
        if show >= -WOOD and inside >= -WOOD:
            return side
        return (side[0], line)
    for old in side:
        if (old[0] - line[0]) * sign <= WOOD and (old[1] - line[1]) * sign <= WOOD:
            return side
    kept = tuple(o for o in side if (line[0] - o[0]) * sign > 0 or (line[1] - o[1]) * sign > 0)
    return (*kept, line)


def has_wood(piece: Piece) -> bool:
    """Is anything left of the piece? True where at some depth it is wider than float noise both ways."""
    x_low, x_high, y_low, y_high = piece.x_low, piece.x_high, piece.y_low, piece.y_high
    if len(x_low) == len(x_high) == len(y_low) == len(y_high) == 1:
        (x0, x0_in), (x1, x1_in), (y0, y0_in), (y1, y1_in) = x_low[0], x_high[0], y_low[0], y_high[0]
        if (x1 - x0 > WOOD and y1 - y0 > WOOD) or (x1_in - x0_in > WOOD and y1_in - y0_in > WOOD):
            return True
        if (x1 - x0 <= WOOD and x1_in - x0_in <= WOOD) or (y1 - y0 <= WOOD and y1_in - y0_in <= WOOD):
            return False
    return max(min(width_at(piece, "x", z), width_at(piece, "y", z)) for z in _bends(piece)) > WOOD


def width_at(piece: Piece, axis: Axis, z: float) -> float:
    """Width of the piece along an axis at a depth z from 0 (show face) to 1 (inside face); negative where empty."""
    low, high = piece.low(axis), piece.high(axis)
    return min(a + (b - a) * z for a, b in high) - max(a + (b - a) * z for a, b in low)


def _bends(piece: Piece) -> list[float]:
    """Depths (0..1) where the width along x, along y, or the lesser of the two can change its slope."""
    widths = [
        (high[0] - low[0], (high[1] - high[0]) - (low[1] - low[0]))
        for lows, highs in ((piece.x_low, piece.x_high), (piece.y_low, piece.y_high))
        for low in lows
        for high in highs
    ]
    depths = [0.0, 1.0]
    for i, (a, p) in enumerate(widths):
        for b, q in widths[:i]:
            if abs(p - q) > 1e-12 and 0.0 < (z := (b - a) / (p - q)) < 1.0:
                depths.append(z)
    return depths


def volume(piece: Piece, thickness: float) -> float:
    """Volume of a piece, exact: Simpson's rule between bends, where the section is a quadratic of the depth. [mm3]"""
    depths = sorted({*_bends(piece), *_zeros(piece)})

    def section(z: float) -> float:
        return max(0.0, width_at(piece, "x", z)) * max(0.0, width_at(piece, "y", z))

    total = 0.0
    for a, b in pairwise(depths):
        total += (b - a) / 6.0 * (section(a) + 4.0 * section((a + b) / 2.0) + section(b))
    return total * thickness


def _zeros(piece: Piece) -> list[float]:
    """Depths where a pair of opposite lines meet."""
    found = []
    for lows, highs in ((piece.x_low, piece.x_high), (piece.y_low, piece.y_high)):
        for low in lows:
            for high in highs:
                top, bottom = high[0] - low[0], high[1] - low[1]
                if (top > 0) != (bottom > 0) and top != bottom:
                    found.append(top / (top - bottom))
    return [z for z in found if 0.0 < z < 1.0]
