"""A cut in section: where the blade's slab stands at either face, and where the guide's edge goes.

The slab takes `footprint` along a face. On the show face it stands from the toe into the waste; on the inside face it
is set back by `setback` towards the kept part:

    keep low, show face:    [at, at + footprint]      inside face: the same, less setback
    keep high, show face:   [at - footprint, at]      inside face: the same, plus setback

The guide rail lies on the face that is up, its edge against the slab there; a fence stands on the table, where the
other face lies.
"""

from __future__ import annotations

from math import cos, radians, tan
from typing import Final

import msgspec

from core.document.model import Face, Saw
from core.plan.model import Side
from core.sawing.guide import guide_side

SIGN: Final[dict[Side, float]] = {"low": -1.0, "high": 1.0}
OTHER: Final[dict[Side, Side]] = {"low": "high", "high": "low"}


class Section(msgspec.Struct, frozen=True, gc=False):
    """One cut in section. [mm, deg]"""

    at: float
    bevel: float
    keep: Side
    guide: Side
    face: Face
    footprint: float  # k / cos(bevel)
    setback: float  # t tan(bevel)
    offset: float  # from the guide's edge to the slab beside it, measured on the saw
    foot: Side | None

    def slab(self, side: Side, inside: bool) -> float:
        """Where the slab's low or high face meets the show or the inside face of the wood."""
        low = self.at if self.keep == "low" else self.at - self.footprint
        if inside:
            low += SIGN[self.keep] * self.setback
        return low if side == "low" else low + self.footprint

    @property
    def edge(self) -> float:
        """From the toe to the guide rail's edge, positive towards the guide."""
        near = self.slab(self.guide, inside=self.face == "down") + SIGN[self.guide] * self.offset
        return (near - self.at) * SIGN[self.guide] + 0.0  # no minus zero

    @property
    def at_table(self) -> float:
        """Where the slab's side towards the fence stands at table level."""
        return self.slab(self.guide, inside=self.face == "up")


def section(saw: Saw, thickness: float, at: float, bevel: float, keep: Side) -> Section:
    """The section of one cut. Square cuts are made with the show face up and know no offset."""
    tilt = radians(bevel)
    face: Face = saw.face if bevel else "up"
    return Section(
        at=at,
        bevel=bevel,
        keep=keep,
        guide=guide_side(saw, bevel, keep),
        face=face,
        footprint=saw.kerf / cos(tilt),
        setback=thickness * tan(tilt),
        offset=saw.guide_offset if bevel else 0.0,
        foot=foot_side(saw, bevel, keep),
    )


def foot_side(saw: Saw, bevel: float, keep: Side) -> Side | None:
    """Towards which side the blade's foot leans; None for a square cut."""
    if not bevel:
        return None
    guide = guide_side(saw, bevel, keep)
    return guide if saw.lean == "under" else OTHER[guide]
