"""How many pixels a sheet's face has, and where a point of the sheet is among them.

Row 0 is the sheet's upper edge (y = width), column 0 its left end (x = 0), as the sheet is drawn. A texture
coordinate is therefore (x / length, 1 - y / width) where 0 is the first row.
"""

from __future__ import annotations

from math import ceil

PIXEL = 0.6  # no pixel of a fine face is larger, up to LONGEST pixels a side [mm]
STEP = 64  # sizes are multiples of this, so that each halving of a fine face is exact
LONGEST = 8192  # pixels a side: what every OpenGL in use takes as a texture, and 4.9 m at PIXEL
SMALL = 4  # a small face has a quarter of the fine pixels each way


def fine_size(length: float, width: float) -> tuple[int, int]:
    """Pixels (across, down) of a fine face; length, width of the sheet in mm. 2440 x 1220 gives (4096, 2048)."""
    return _pixels(length), _pixels(width)


def small_size(length: float, width: float) -> tuple[int, int]:
    """Pixels (across, down) of the quick face that is shown first: a quarter of the fine one each way."""
    across, down = fine_size(length, width)
    return across // SMALL, down // SMALL


def pixel_of(x: float, y: float, sheet: tuple[float, float], pixels: tuple[int, int]) -> tuple[float, float]:
    """Column and row of a sheet point, as real numbers: pixel (i, j) covers i..i + 1, j..j + 1.

    x, y: sheet axes, from the lower left corner [mm]; sheet: its length and width [mm]; pixels: (across,
    down).
    """
    return x / sheet[0] * pixels[0], (1.0 - y / sheet[1]) * pixels[1]


def _pixels(side: float) -> int:
    return min(LONGEST, STEP * ceil(side / PIXEL / STEP))
