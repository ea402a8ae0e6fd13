"""The mouth: the open back of the shell, which top and bottom narrow when their corners are not square.

Section of the top-front corner, wall at the right. The top turns about the toe, the outside corner o:

    o----------------------------  top, square          held true: a jig keeps the corner square while the glue
    |\\                                                  dries; what is left is the spread of the two bevels
    | \\.                          top, tilted by e
    |    ` - . _                                        clamped shut: the two bevel faces are pulled together.
    |            ` - . _  back edge lower by D sin e     Each panel keeps 45 - overcut between show and bevel face,
                                                        so the corner comes to 90 - 2 overcut.

So an overcut, clamped shut, closes the mouth; an undercut opens it. Tilts here are positive where the mouth closes.
"""

from __future__ import annotations

from math import erf, radians, sin, sqrt
from typing import Final

WORST: Final = 3.0  # spreads: a bevel is hardly ever off by more


def held_tilt(bevel_sd: float) -> float:
    """Tilt a corner held true is left with, sqrt(2) times the spread of one bevel: two bevels meet in it. [deg]

    It may go either way; the value is what the mouth may close by.
    """
    return sqrt(2.0) * bevel_sd


def clamped_tilt(overcut: float) -> float:
    """Tilt of a corner whose bevel faces are clamped shut, 2 overcut; below 0 it opens the mouth. [deg]"""
    return 2.0 * overcut


def mouth_closing(depth: float, tilt: float) -> float:
    """How much lower the mouth gets when top and bottom both tilt, 2 D sin(tilt); below 0 it opens. [mm]

    depth: outside, toe to back edge. [mm]
    tilt: of each, from square. [deg]
    """
    return 2.0 * depth * sin(radians(tilt))


def passing_share(depth: float, play: float, bevel_sd: float) -> float:
    """The share of shells, corners held true, whose mouth leaves a frame its room, 0..1.

    Four bevels meet in two corners, each off by itself with the spread [deg]: what top and bottom together close by
    has a spread of D x 2 bevel_sd, and the frame passes while that is no more than the height play. [mm]
    """
    spread = depth * radians(2.0 * bevel_sd)
    return 1.0 if spread <= 0.0 else 0.5 * (1.0 + erf(play / spread / sqrt(2.0)))


def worst_closing(depth: float, bevel_sd: float) -> float:
    """How far the mouth closes when all four bevels are off by WORST spreads the same way. [mm]"""
    return mouth_closing(depth, 2.0 * WORST * bevel_sd)
