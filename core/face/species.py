"""What one wood looks like: its rings, its pores and its colours, in general words and rounded numbers."""

from __future__ import annotations

import msgspec

Colour = tuple[int, int, int]


class Species(msgspec.Struct, frozen=True):
    """A ring-porous wood. Tones run from 0 (lightest) to 1 (darkest) over `colours`; lengths are mm."""

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


LIGHT_OAK = Species(
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
)
