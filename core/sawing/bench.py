"""The bench: pieces lie on it, cuts are made and written down."""

from __future__ import annotations

from math import cos, radians, tan

import msgspec

from core.sawing.piece import TOUCH, Axis, Keep, Piece, Side, saw_piece, whole_sheet
from core.sawing.steps import STEPS, Steps


class Blade(msgspec.Struct, frozen=True):
    """The blade at one tilt in one thickness: footprint along a face and set-back of the inside face. [mm]"""

    bevel: float
    footprint: float
    setback: float


class SawnCut(msgspec.Struct, gc=False):
    """A cut as made.

    key: the same for crosscuts that can be made in one pass; None for a cut by itself.
    step: when it is made (see `steps`).
    shared: it could as well be said to keep the other side, from a kerf further on.
    """

    sheet: str
    piece: str
    axis: Axis
    at: float
    bevel: float
    keep: Keep
    makes: tuple[str | None, str | None]
    length: float
    about: str
    key: tuple[object, ...] | None
    step: int
    shared: bool = False


class Bench:
    """Saws pieces of one sheet and names them: sheet id, then sheet id.1, .2 ... in the order they fall."""

    def __init__(
        self,
        sheet: str,
        length: float,
        width: float,
        thickness: float,
        kerf: float,
        fallen: int = 0,
        steps: Steps = STEPS,
    ) -> None:
        self.sheet = sheet
        self.thickness = thickness
        self.kerf = kerf
        self.whole = whole_sheet(sheet, length, width)
        self.fallen = fallen
        self.steps = steps
        self._blades: dict[float, Blade] = {}

    def blade(self, bevel: float) -> Blade:
        """The blade at a tilt. [deg]"""
        blade = self._blades.get(bevel)
        if blade is None:
            tilt = radians(bevel)
            blade = Blade(bevel, self.kerf / cos(tilt), self.thickness * tan(tilt))
            self._blades[bevel] = blade
        return blade

    def footprint(self, bevel: float) -> float:
        """What the blade takes along a face at a tilt. [mm]"""
        return self.blade(bevel).footprint

    def has_edge(self, side: Side, at: float, bevel: float, keep: Keep) -> bool:
        """Is a side just what a cut there would give the part it keeps?"""
        if len(side) != 1:
            return False
        show, inside = side[0]
        if not -TOUCH <= show - at <= TOUCH:
            return False
        setback = self.blade(bevel).setback if bevel else 0.0
        return -TOUCH <= inside - (at - setback if keep == "low" else at + setback) <= TOUCH

    def saw(
        self,
        piece: Piece,
        axis: Axis,
        at: float,
        bevel: float,
        keep: Keep,
        about: str = "",
        key: tuple[object, ...] | None = None,
        step: int = 0,
    ) -> tuple[SawnCut, Piece | None, Piece | None]:
        """Make one cut; returns its record and what is left at the low and at the high side."""
        blade = self.blade(bevel)
        names = (f"{self.sheet}.{self.fallen + 1}", f"{self.sheet}.{self.fallen + 2}")
        low, high = saw_piece(piece, axis, at, keep, blade.setback, blade.footprint, names)
        if low is None and high is not None:
            high = Piece(names[0], high.x_low, high.x_high, high.y_low, high.y_high)
        self.fallen += (low is not None) + (high is not None)
        makes = (low.name if low else None, high.name if high else None)
        lows, highs = (piece.x_low, piece.x_high) if axis == "y" else (piece.y_low, piece.y_high)
        length = highs[0][0] - lows[0][0]
        return SawnCut(self.sheet, piece.name, axis, at, bevel, keep, makes, length, about, key, step), low, high
