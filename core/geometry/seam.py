"""A seam: where two bevelled panels meet, flat on the sheet (a V) and closed to its corner.

Seen in section, with the show face at depth z = 0 and the inside face at z = t:

    sheet:  kept panel \\      V      / kept panel        closed:   the toes touch, and with overcut > 0
            toe         \\__________/          toe                  the heels stay apart by the inside gap
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, inf, radians, sin, sqrt, tan

import msgspec

SQUARE_CORNER = 90.0


class SeamSection(msgspec.Struct, frozen=True, gc=False):
    """Every number of one seam's section; lengths mm, areas mm2, angles degrees."""

    bevel: float  # tilt from a square cut
    overcut: float  # delta: tilt past half the corner
    thickness: float
    loss: float  # s: figure lost at the show face
    footprint: float  # k / cos(bevel): what one blade takes on a face
    setback: float  # t tan(bevel): heel behind toe
    bevel_face: float  # t / cos(bevel)
    void_width: float  # of the V at the inside face
    void_area: float  # of the V's section
    inside_gap: float  # left between the heels when closed to a true corner
    outside_gap: float  # left between the toes when undercut
    wedge_area: float  # section of the wedge left open behind the toes
    glue_band: float  # from the outside edge, where the wedge is thinner than the glue line


def seam_bevel(corner: float, overcut: float = 0.0) -> float:
    """Blade tilt for a corner. [deg]

    corner: angle between the two panels when closed, 0 < corner <= 180. [deg]
    overcut: extra tilt, negative for undercut. [deg]
    Raises ValueError where the tilt would not be a bevel (0 <= bevel < 90).
    """
    bevel = (180.0 - corner) / 2.0 + overcut
    if not 0.0 <= bevel < 90.0:
        raise ValueError(f"a corner of {corner:g}° with overcut {overcut:g}° needs a tilt of {bevel:g}°")
    return bevel


def blade_footprint(kerf: float, bevel: float) -> float:
    """What the tilted blade takes along a face, k / cos(bevel). [mm]"""
    return kerf / cos(radians(bevel))


def least_overcut(bevel_sd: float, z: float) -> float:
    """Overcut for which a corner closes outside with confidence `z` standard deviations, z sd / sqrt 2. [deg]

    With each bevel off by e1, e2 of spread `bevel_sd`, the corner closes when 2 overcut + e1 + e2 >= 0.
    """
    return z * bevel_sd / sqrt(2.0)


@lru_cache(maxsize=512)
def seam_section(
    thickness: float,
    kerf: float,
    overcut: float = 0.0,
    allowance: float = 0.0,
    glue_line: float = 0.15,
    corner: float = SQUARE_CORNER,
) -> SeamSection:
    """The section of a seam cut by two through cuts of tilt half the corner + overcut.

    thickness, kerf, allowance, glue_line in mm; overcut, corner in degrees. Each blade falls on the waste side.
    Raises ValueError for a corner and overcut that give no bevel.
    """
    bevel = seam_bevel(corner, overcut)
    beta, delta = radians(bevel), radians(overcut)
    footprint, setback, face = kerf / cos(beta), thickness * tan(beta), thickness / cos(beta)
    loss = footprint + allowance
    opening = 2.0 * face * sin(abs(delta))
    return SeamSection(
        bevel=bevel,
        overcut=overcut,
        thickness=thickness,
        loss=loss,
        footprint=footprint,
        setback=setback,
        bevel_face=face,
        void_width=loss + 2.0 * setback,
        void_area=loss * thickness + thickness * setback,
        inside_gap=opening if delta > 0 else 0.0,
        outside_gap=opening if delta < 0 else 0.0,
        wedge_area=0.5 * face * face * sin(2.0 * delta) if delta > 0 else 0.0,
        glue_band=min(face, glue_line / (2.0 * sin(abs(delta))) if delta else inf),
    )


def grain_step(loss: float, slope: float) -> float:
    """Sideways step of a grain line that crosses a seam at `slope` degrees from square, s tan(slope). [mm]"""
    return loss * tan(radians(slope))
