"""What each wood looks like: its rings, its pores, its rays and its colours, in general words and rounded numbers.

Oak is ring-porous, walnut half so, birch, maple and cherry are diffuse-porous (common knowledge of the trade). Sizes
and colours are read off finished boards by eye and rounded: they are looks, not measurements.
"""

from __future__ import annotations

from typing import Final, Literal

import msgspec

Colour = tuple[int, int, int]
Wood = Literal["oak", "birch", "walnut", "maple", "cherry"]


class Species(msgspec.Struct, frozen=True):
    """A wood. Tones run from 0 (lightest) to 1 (darkest) over `colours`; lengths are mm."""

    ring: float  # mean width of a year's ring
    early: float  # width of its porous early wood
    pore_spacing: float  # along one row of pores, start to start
    pore_length: float
    fleck_spacing: float  # short dark lines everywhere: rays cut across, late pores
    fleck_length: float
    ground: float  # tone of the wood between
    early_tone: float  # added in early wood
    pore_tone: float  # added where a pore lies in early wood
    late_tone: float  # added towards the end of a year
    fleck_tone: float
    fibre_tone: float  # standard deviation of the fine streaks
    drift_tone: float  # and of the slow drift over a sheet
    colours: tuple[Colour, ...]  # lightest to darkest, evenly spaced in tone
    warmth: Colour  # added at the warm end of the drift in hue, taken off at the cool end
    late_line: float = 2.0  # how suddenly late wood deepens: 2 all over the second half, 10 a line at the year's end
    pores_between: float = 0.0  # how much of a pore shows outside early wood: 0 ring-porous, 1 diffuse-porous
    year_tone: float = 0.0  # standard deviation from year to year, in runs of like years
    sheen_tone: float = 0.0  # of the play of light on wavy fibres
    ray: float = 0.0  # mean distance of the rays round the log; 0: none to be seen
    ray_height: float = 12.0  # of one along the grain
    ray_share: float = 0.3  # of a quartered face that lies along a ray
    ray_tone: float = 0.0  # of the ray against the wood between; less than 0 is lighter


OAK = Species(
    ring=3.3,
    early=0.8,
    pore_spacing=20.0,
    pore_length=6.0,
    fleck_spacing=140.0,
    fleck_length=8.0,
    ground=0.15,
    early_tone=0.19,
    pore_tone=0.38,
    late_tone=0.12,
    fleck_tone=0.10,
    fibre_tone=0.022,
    drift_tone=0.03,
    colours=((236, 209, 166), (216, 181, 133), (188, 147, 99), (146, 105, 66), (96, 64, 39)),
    warmth=(3, 1, -2),
    ray=5.0,
    ray_height=16.0,
    ray_share=0.25,
    ray_tone=-0.14,
)
BIRCH = Species(
    ring=2.6,
    early=0.5,
    pore_spacing=11.0,
    pore_length=2.2,
    fleck_spacing=900.0,
    fleck_length=7.0,
    ground=0.20,
    early_tone=-0.02,
    pore_tone=0.055,
    late_tone=0.11,
    fleck_tone=0.28,
    fibre_tone=0.020,
    drift_tone=0.030,
    colours=((246, 232, 206), (234, 213, 178), (216, 187, 146), (182, 144, 101), (128, 92, 60)),
    warmth=(3, 1, -2),
    late_line=5.0,
    pores_between=1.0,
    year_tone=0.018,
    sheen_tone=0.012,
)
WALNUT = Species(
    ring=3.8,
    early=1.1,
    pore_spacing=26.0,
    pore_length=5.0,
    fleck_spacing=260.0,
    fleck_length=4.0,
    ground=0.36,
    early_tone=0.02,
    pore_tone=0.34,
    late_tone=0.11,
    fleck_tone=0.16,
    fibre_tone=0.026,
    drift_tone=0.045,
    colours=((186, 150, 114), (150, 113, 82), (117, 84, 60), (84, 58, 42), (50, 35, 27)),
    warmth=(4, 0, -3),
    late_line=4.0,
    pores_between=0.45,
    year_tone=0.075,
    sheen_tone=0.014,
)
MAPLE = Species(
    ring=3.0,
    early=0.4,
    pore_spacing=16.0,
    pore_length=1.6,
    fleck_spacing=1500.0,
    fleck_length=5.0,
    ground=0.15,
    early_tone=0.0,
    pore_tone=0.045,
    late_tone=0.19,
    fleck_tone=0.20,
    fibre_tone=0.016,
    drift_tone=0.026,
    colours=((248, 238, 222), (238, 223, 199), (222, 199, 168), (190, 156, 122), (138, 100, 72)),
    warmth=(3, 1, -2),
    late_line=9.0,
    pores_between=1.0,
    year_tone=0.014,
    sheen_tone=0.014,
    ray=1.1,
    ray_height=1.8,
    ray_share=0.22,
    ray_tone=0.07,
)
CHERRY = Species(
    ring=3.2,
    early=0.6,
    pore_spacing=13.0,
    pore_length=2.0,
    fleck_spacing=700.0,
    fleck_length=6.0,
    ground=0.26,
    early_tone=0.02,
    pore_tone=0.06,
    late_tone=0.10,
    fleck_tone=0.34,
    fibre_tone=0.018,
    drift_tone=0.035,
    colours=((228, 188, 148), (211, 162, 119), (188, 131, 90), (148, 94, 62), (92, 54, 36)),
    warmth=(4, -1, -3),
    late_line=6.0,
    pores_between=1.0,
    year_tone=0.032,
    sheen_tone=0.014,
    ray=1.4,
    ray_height=2.2,
    ray_share=0.22,
    ray_tone=-0.05,
)
WOODS: Final[dict[Wood, Species]] = {"oak": OAK, "birch": BIRCH, "walnut": WALNUT, "maple": MAPLE, "cherry": CHERRY}
