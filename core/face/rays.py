"""Rays on a face cut nearly along them: flakes, where a ray and the leaf run in one plane for a while."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.face.log import Log
from core.face.noise import Field, Floats
from core.face.species import Species

SOFT = 0.10  # of the distance between two rays, over which a flake's side fades
COUNTED = 120.0  # from the pith, where their distance is what the wood says [mm]
COVER = 0.85  # of the wood behind it, by a flake
RIPPLE = 0.06  # how far fibres fray it, in the same measure


class Rays:
    """The rays of one log, seen on one picture: what depends on u only is worked out once.

    Rays are numbered round the log. A point of the leaf lies in one where the number, its sway added, is nearly
    whole; how far it sways from one end of a ray to the other is what gives a flake its shape.
    """

    def __init__(self, log: Log, species: Species, u: NDArray[np.float64], pitch: float) -> None:
        """u: of the picture's columns; pitch: what one spans. [mm]"""
        self._kind = species
        self._sway, self._ends = Field(log.sway, u), Field(log.ends, u)
        self._soft = np.float32(max(SOFT, 0.5 * pitch / species.ray_height))

    def rows(
        self, across: NDArray[np.float64], above: NDArray[np.float64], slid: NDArray[np.float64], fibre: Floats
    ) -> Floats:
        """How much of each pixel of some rows a ray covers, 0..1; the rows as in `_Painter._radius`."""
        kind = self._kind
        turn = np.arctan2(above, across)  # 0: the leaf runs along the rays
        number = self._sway.rows(slid)
        number += (turn * COUNTED / kind.ray).astype(np.float32)[:, None]
        number += np.float32(RIPPLE) * fibre
        number -= np.rint(number)
        off = np.abs(number, out=number)
        along = np.cos(turn) ** 12  # a leaf that crosses them shows only their ends
        half = np.float32(0.5 * kind.ray_share)
        flake: Floats = np.clip((half + self._soft - off) / np.float32(2.0 * self._soft), 0.0, 1.0)
        flake *= np.clip(np.float32(0.5) + np.float32(1.7) * self._ends.rows(slid), 0.0, 1.0)
        flake *= (COVER * along).astype(np.float32)[:, None]
        return flake
