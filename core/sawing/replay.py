"""Replay: run a list of cuts on whole sheets and see what falls off.

It knows nothing of shelves or layouts: sheets go in, cuts are made one after another exactly as written, pieces come
out. `core.plan.proof` compares them with what the plan promises.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians, tan
from typing import Protocol

import msgspec

from core.language import tr
from core.sawing.piece import Axis, Keep, Piece, Side, saw_piece, volume, whole_sheet

VOLUME_TOL = 1e-9  # of the sheet's volume: float noise of a few hundred cuts


class ReplayError(Exception):
    """A cut list that cannot be sawn as written."""


class CutRecord(Protocol):
    """What a cut must say to be replayed."""

    @property
    def n(self) -> int: ...
    @property
    def piece(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def at(self) -> float: ...
    @property
    def bevel(self) -> float: ...
    @property
    def keep(self) -> Keep: ...
    @property
    def makes(self) -> tuple[str | None, str | None]: ...


class ReplaySheet(msgspec.Struct, frozen=True):
    """A sheet to be sawn. [mm]"""

    id: str
    length: float
    width: float
    thickness: float


class Replayed(msgspec.Struct, frozen=True):
    """What lies on the bench afterwards, and how much of each sheet became sawdust. [mm3]"""

    pieces: dict[str, Piece]
    sheet_of: dict[str, str]
    sawdust: dict[str, float]


def replay(sheets: Iterable[ReplaySheet], cuts: Iterable[CutRecord], kerf: float) -> Replayed:
    """Saw the sheets by the list.

    Raises ReplayError where a cut names a piece that is not there, makes a name that exists, calls a side empty that
    holds wood or full that holds none, or where wood and sawdust do not add up to what was sawn.
    """
    stock = {s.id: s for s in sheets}
    pieces = {s.id: whole_sheet(s.id, s.length, s.width) for s in stock.values()}
    sheet_of = {s: s for s in stock}
    sawdust = dict.fromkeys(stock, 0.0)
    for cut in cuts:
        if cut.piece not in pieces:
            raise ReplayError(tr("cut {n}: there is no piece {piece}", n=cut.n, piece=cut.piece))
        piece, sheet = pieces.pop(cut.piece), stock[sheet_of[cut.piece]]
        low, high, dust = _saw(cut, piece, sheet.thickness, kerf)
        sawdust[sheet.id] += dust
        whole = sheet.length * sheet.width * sheet.thickness
        left = sum(volume(p, sheet.thickness) for p in (low, high) if p is not None)
        if abs(volume(piece, sheet.thickness) - left - dust) > VOLUME_TOL * whole:
            raise ReplayError(tr("cut {n}: wood and sawdust do not add up to piece {piece}", n=cut.n, piece=cut.piece))
        for made, name in ((low, cut.makes[0]), (high, cut.makes[1])):
            if (made is None) != (name is None):
                raise ReplayError(
                    tr(
                        "cut {n}: {rest} is left for {name}",
                        n=cut.n,
                        rest=tr("no wood") if made is None else "wood",
                        name=name,
                    )
                )
            if made is None or name is None:
                continue
            if name in sheet_of:
                raise ReplayError(tr("cut {n}: piece {name} exists already", n=cut.n, name=name))
            pieces[name] = made
            sheet_of[name] = sheet.id
    return Replayed(pieces, sheet_of, sawdust)


def _saw(cut: CutRecord, piece: Piece, thickness: float, kerf: float) -> tuple[Piece | None, Piece | None, float]:
    """The two sides and the volume of the blade's slab inside the piece."""
    tilt = radians(cut.bevel)
    setback, footprint = thickness * tan(tilt), kerf / cos(tilt)
    axis: Axis = "y" if cut.kind == "rip" else "x"
    names = (cut.makes[0] or "", cut.makes[1] or "")
    low, high = saw_piece(piece, axis, cut.at, cut.keep, setback, footprint, names)
    start = (cut.at, cut.at - setback) if cut.keep == "low" else (cut.at - footprint, cut.at + setback - footprint)
    end = (start[0] + footprint, start[1] + footprint)
    return low, high, volume(_between(piece, axis, start, end), thickness)


def _between(piece: Piece, axis: Axis, start: tuple[float, float], end: tuple[float, float]) -> Piece:
    """The part of a piece between two lines."""
    lows: Side = (*piece.low(axis), start)
    highs: Side = (*piece.high(axis), end)
    if axis == "x":
        return Piece("", lows, highs, piece.y_low, piece.y_high)
    return Piece("", piece.x_low, piece.x_high, lows, highs)
