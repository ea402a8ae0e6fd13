"""The edge of a sheet: its plies at their real count and thickness, long grain and end grain in turn."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.face.noise import Floats, fibres
from core.solid.plies import Ply

Bytes = NDArray[np.uint8]

LONG_GRAIN, END_GRAIN, GLUE = (226, 199, 155), (188, 150, 108), (112, 82, 56)
GLUE_LINE = 0.15  # as it shows between two plies [mm]


def edge_face(layers: tuple[Ply, ...], seed: int, across: int, down: int, *, crosswise: bool = False) -> Bytes:
    """A sawn edge as a picture (down, across, 3) of RGB bytes; row 0 is at the show face.

    layers: the plies from `core.solid.plies`; the picture is their whole thickness high.
    across: pixels along the edge, for whatever length the board lays it over.
    crosswise: the edge runs across the sheet's grain, so that the face plies show end grain.
    """
    random = np.random.default_rng((seed, 3))
    end, glue = _rows(layers, down, crosswise)
    streak = fibres(random, down, across, ((8.0, 0.7), (60.0, 0.7)))
    speck = fibres(random, down, across, ((1.0, 1.0),))
    shade = (8.0 * (1.0 - end) * streak + 12.0 * end * speck) * (1.0 - glue)
    base = (1.0 - end) * np.array(LONG_GRAIN) + end * np.array(END_GRAIN)
    base += glue * (np.array(GLUE) - base)
    picture: Bytes = np.clip(base[:, None, :] - shade[:, :, None], 0, 255).astype(np.uint8)
    return picture


def _rows(layers: tuple[Ply, ...], down: int, crosswise: bool) -> tuple[Floats, Floats]:
    """How much of each row of pixels is end grain, and how much glue, (down, 1) each, 0..1."""
    row = np.linspace(0.0, layers[-1].bottom, down + 1)
    lines = np.array([ply.bottom for ply in layers[:-1]])
    end = [ply for ply in layers if ply.along == crosswise]
    in_end = _share(row, np.array([ply.top for ply in end]), np.array([ply.bottom for ply in end]))
    return in_end, _share(row, lines - GLUE_LINE / 2.0, lines + GLUE_LINE / 2.0)


def _share(row: NDArray[np.float64], low: NDArray[np.float64], high: NDArray[np.float64]) -> Floats:
    """Part of each row, between two of `row`, that lies in one of the bands low..high; (rows, 1)."""
    inside = np.minimum(row[1:, None], high) - np.maximum(row[:-1, None], low)
    share = np.maximum(0.0, inside).sum(axis=1, keepdims=True) / np.diff(row)[:, None]
    result: Floats = share.astype(np.float32)
    return result
