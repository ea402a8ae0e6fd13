"""A face of veneer: leaves cut one after another from a tapering log, laid side by side over the sheet.

A plain-sliced leaf is a plane through the trunk at some distance from its pith. Where the plane cuts the rings at a
grazing angle, along its middle, they show as nested arches, the cathedrals; towards its edges they are cut
steeply and show as straight grain. Rift leaves lie where rings meet the knife at about 45°, quartered ones square to
them, and rotary veneer is peeled off all round, so that it grazes them everywhere (`core.face.cuts`). The pith wanders
and the rings bulge a little, so no two arches are alike. The next leaf is the next slice, a veneer's thickness farther
in: nearly the same figure again, which is what leaf joints show.

    end of the log                     on the sheet
       .  -  -  .                   +--------------------+
     ,  .  -  .  ,    slice: -----> |  leaf    <<<<<     |  u along the trunk (sheet x), v across the leaf
     '  ' (o) '  '    h from pith   |  leaf    <<<<<     |
       '  -  -  '                   +--------------------+

Rays stand like the spokes of a wheel. A quartered leaf runs nearly along them, and so shows their sides as flakes.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from core.face.cuts import SLICE, Cut, places, steepness
from core.face.log import Log, grow
from core.face.noise import Field, Floats
from core.face.rays import Rays
from core.face.rings import STEP
from core.face.species import WOODS, Species, Wood
from core.face.stopping import StoppedError

Match = Literal["book", "slip"]
Bytes = NDArray[np.uint8]

TURN = 3.0  # how far across the bulges of the rings lie from one slice to the next, in slices
RAGGED = 0.1  # how far fibres stand out of their ring, standard deviation [mm]
HUES = 16  # steps of hue from cool to warm, four standard deviations each way
BLOCK = 32  # rows made at a time: few enough to stay in the processor's cache


def veneer(
    length: float,
    width: float,
    seed: int,
    across: int,
    down: int,
    stop: Callable[[], bool] | None = None,
    *,
    cut: Cut = "plain",
    wood: Wood = "oak",
    match: Match = "book",
) -> Bytes:
    """A face as a picture (down, across, 3) of RGB bytes; row 0 is the sheet's upper edge.

    length, width: of the sheet, grain along its length. [mm]
    seed: which log; the same log at any number of pixels is the same figure.
    across, down: pixels; see `core.face.size` for the sizes used and where a sheet point is.
    stop: asked between blocks; when it says True, StoppedError is raised.
    match: leaves turned over one by one like pages (book) or slid side by side (slip).
    """
    species = WOODS[wood]
    log = grow(length, width, seed, species, cut)
    painter = _Painter(log, species, (length, width), (across, down), cut, match)
    picture = np.empty((down, across, 3), np.uint8)
    for low in range(0, down, BLOCK):
        if stop is not None and stop():
            raise StoppedError
        painter.paint(picture[low : low + BLOCK], low, min(down, low + BLOCK))
    return picture


class _Painter:
    """Paints rows of one log at one size: what depends on u only is worked out once."""

    def __init__(
        self, log: Log, species: Species, sheet: tuple[float, float], pixels: tuple[int, int], cut: Cut, match: Match
    ) -> None:
        self.log, self.species, self.cut, self.match = log, species, cut, match
        across, down = pixels
        self.width, self.pitch = sheet[1], sheet[1] / down
        u = (np.arange(across) + 0.5) * sheet[0] / across
        at, aside, height = log.pith
        self.aside = np.interp(u, at, aside).astype(np.float32)
        self.height = np.interp(u, at, height).astype(np.float32)
        self.taper = (log.taper * u - min(0.0, log.taper * log.trunk)).astype(np.float32)
        self.bulges, self.drift, self.hue = (Field(w, u) for w in (log.bulges, log.drift, log.hue))
        self.sheen = Field(log.sheen, u) if species.sheen_tone else None
        self.rays = Rays(log, species, u, sheet[0] / across) if species.ray and cut in ("quartered", "rift") else None
        self.fibre, self.pores, self.flecks = (s.sampler(across, down) for s in (log.fibre, log.pores, log.flecks))
        self.palette = _palette(species)

    def paint(self, out: Bytes, low: int, high: int) -> None:
        """Picture rows low..high into `out`."""
        y = self.width - (np.arange(low, high, dtype=float) + 0.5) * self.pitch
        fibre = self.fibre.block(low, high)
        tone = self._wood(y, fibre, low, high)
        hue = self.hue.rows(y)
        hue += fibre  # its steps are lost among the fibres
        index = _steps(hue, HUES / 8.0, HUES / 2.0, HUES)
        index *= 256
        index += _steps(tone, 256.0, 0.0, 256)
        for channel in range(3):
            out[:, :, channel] = self.palette[channel].take(index)

    def _wood(self, y: NDArray[np.float64], fibre: Floats, low: int, high: int) -> Floats:
        """Tone of each pixel, 0 light .. 1 dark."""
        log, kind = self.log, self.species
        leaf = np.minimum((y / log.leaf).astype(np.intp), log.leaves - 1)
        v = y - (leaf + 0.5) * log.leaf
        if self.match == "book":
            v = np.where(leaf % 2 == 1, -v, v)
        across, above = places(self.cut, v, leaf, log.leaf, log.distance)
        slid = v + TURN * SLICE * leaf
        entry = self._radius(across, above, slid, fibre)
        pores = self.pores.block(low, high)
        tone = self._grown(entry, pores)
        if self.rays is not None:
            cover = self.rays.rows(across, above, slid, fibre)
            tone -= cover * (tone - np.float32(kind.ray_tone))
        flecks = self.flecks.block(low, high)
        flecks *= np.float32(kind.fleck_tone)
        tone += flecks
        tone += np.float32(kind.fibre_tone) * fibre
        tone += self.drift.rows(y)
        if self.sheen is not None:
            tone += self.sheen.rows(slid)
        tone += (kind.ground + log.shades[leaf]).astype(np.float32)[:, None]
        return tone

    def _grown(self, entry: NDArray[np.intp], pores: Floats) -> Floats:
        """What the years give: early wood with its pores, late wood, good years and poor ones. Uses `pores` up."""
        rings, kind = self.log.rings, self.species
        tone = rings.early.take(entry)
        between = None
        if kind.pores_between:
            between = pores * np.float32(kind.pore_tone * kind.pores_between)
        pores *= np.float32(kind.pore_tone * (1.0 - kind.pores_between))
        pores += np.float32(kind.early_tone)
        tone *= pores
        if between is not None:
            tone += between
        late = rings.late.take(entry)
        late *= np.float32(kind.late_tone)
        tone += late
        if kind.year_tone:
            years = rings.years.take(entry)
            years *= np.float32(kind.year_tone)
            tone += years
        return tone

    def _radius(
        self, across: NDArray[np.float64], above: NDArray[np.float64], slid: NDArray[np.float64], fibre: Floats
    ) -> NDArray[np.intp]:
        """Entry into the ring tables of each pixel, from its distance to the pith.

        across, above: of each row, from the pith's mean line; slid: where it is among the rings' bulges. [mm]
        """
        log = self.log
        aside = across.astype(np.float32)[:, None] - self.aside
        over = above.astype(np.float32)[:, None] - self.height
        aside *= aside
        over *= over
        aside += over
        radius = np.sqrt(aside, out=aside)
        radius += self.taper
        radius += self.bulges.rows(slid)
        radius += np.float32(RAGGED) * fibre
        if len(log.lobes):
            turn = np.arctan2(across, above)[:, None]
            radius += (log.lobes[:, 1] * np.cos(log.lobes[:, 0] * turn + log.lobes[:, 2])).sum(axis=1)[:, None]
        steep = steepness(self.cut, across, above)
        level = log.rings.level(np.hypot(self.pitch * steep, 0.04))
        radius *= np.float32(1.0 / STEP)
        entry = radius.astype(np.intp)
        np.clip(entry, 0, log.rings.count - 1, out=entry)
        result: NDArray[np.intp] = entry + level[:, None]
        return result


def _steps(values: Floats, scale: float, zero: float, count: int) -> NDArray[np.intp]:
    """Values as whole steps 0..count - 1; `values` is used up."""
    values *= np.float32(scale)
    values += np.float32(zero)
    np.clip(values, 0.0, count - 1.0, out=values)
    steps: NDArray[np.intp] = values.astype(np.intp)
    return steps


@lru_cache(maxsize=8)
def _palette(species: Species) -> Bytes:
    """Colour by (channel, hue x 256 + tone)."""
    stops = np.array(species.colours, dtype=float)
    tone = np.linspace(0.0, 1.0, 256)
    plain = np.stack([np.interp(tone, np.linspace(0.0, 1.0, len(stops)), stops[:, c]) for c in range(3)])
    warmth = np.array(species.warmth, dtype=float)[:, None, None] * np.linspace(-1.0, 1.0, HUES)[:, None]
    return np.clip(np.rint(plain[:, None, :] + warmth), 0, 255).astype(np.uint8).reshape(3, -1)
