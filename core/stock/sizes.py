"""Sizes panel stock is usually sold in: common practice of the trade, in North America and elsewhere."""

from __future__ import annotations

from typing import Final

from core.lengths import INCH_MM, Unit

# (length, width), the length along the grain. Common practice: 4 x 8 ft, the same an inch over, 5 x 5, 4 x 10, 5 x 10.
INCH_SIZES: Final = tuple((a * INCH_MM, b * INCH_MM) for a, b in ((60, 60), (96, 48), (97, 49), (120, 48), (120, 60)))
MM_SIZES: Final = ((1525.0, 1525.0), (2440.0, 1220.0), (2500.0, 1250.0), (3050.0, 1220.0), (3050.0, 1525.0))


def next_size(length: float, width: float, unit: Unit) -> tuple[float, float] | None:
    """The smallest usual sheet at least so long and so wide, None where none is sold. [mm]"""
    sizes = INCH_SIZES if unit is Unit.INCH else MM_SIZES
    tol = 1e-6  # mm: float noise only
    enough = (size for size in sizes if size[0] >= length - tol and size[1] >= width - tol)
    return min(enough, key=lambda size: size[0] * size[1], default=None)
