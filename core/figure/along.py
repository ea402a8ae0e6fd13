"""How alike the wood is on both sides of a seam that its grain runs along.

There the two sides are other growth rings, so their tones, place by place, tell nothing. What runs on over a few
millimetres of loss and is another some way off is slower: the hue of the wood, the direction of its lines and how close
they stand, its tone on the whole.

    likeness = 1 - (Δh / 1.6 + Δθ / 12° + Δc / 1.2 + ΔL / 30) / 3, at least 0

h     hue: a* and b* of CIE L*a*b* less what of them goes with L*, means over 120 mm along the seam, 3 mm beside it
θ     direction of the lines by the structure tensor, over 60 mm, 8 mm beside the edge, the tone averaged along fibres
c     closeness: logarithm of the tone's slope across the lines for its own deviation, over the same places
L     tone: L*, over the places of h

Differences are root mean squares along the seam. 1.6, 12° and 1.2 are two to three times what places 50 mm and
more apart differ by on made-up plain-sliced faces; the weights are the project's own, chosen on faces no test looks at.
"""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.figure.colour import lab
from core.figure.grain import gaussian_slope

Floats = NDArray[np.float64]

NEAR: Final = 8.0  # mm beside an edge whose lines are looked at
BESIDE: Final = 3.0  # and whose colours are
TREND: Final = 120.0  # mm along the seam that one colour is the mean of
WINDOW: Final = 60.0  # and one direction, one closeness
FIBRE: Final = 4.8  # mm along which the tone is averaged before its slopes are taken
STEP: Final = 1.2  # mm along the seam for one colour, to see what of the hue goes with the tone
FAINT: Final = 0.05  # of a square of tone, 255²: less is a plain colour
WORST_HUE, WORST_TURN, WORST_CLOSENESS, WORST_TONE = 1.6, 12.0, 1.2, 30.0
LUMA: Final = (0.299, 0.587, 0.114)  # source: ITU-R BT.601


class Along(NamedTuple):
    """The wood beside an edge, place after place along it."""

    colours: Floats  # (n, 3), L*a*b*
    with_tone: Floats  # (2,): how a* and b* go with L*
    angles: Floats  # (m,) of the lines from the seam's own way [deg]
    closeness: Floats  # (m,)


def along(face: NDArray[np.uint8], pitch: float, *, edge_low: bool) -> Along | None:
    """Of a piece of a face NEAR deep that runs along an edge; None where it is too small for lines, or plain.

    face: (deep, long, 3), row 0 at the top, `pitch` mm a pixel. edge_low: the edge is below it, not above.
    """
    lines = _lines(face @ np.array(LUMA), pitch)
    if lines is None:
        return None
    rows = max(1, round(BESIDE / pitch))
    beside = (face[-rows:] if edge_low else face[:rows]).mean(axis=0)
    fine = lab(means(beside, max(1, round(STEP / pitch))))
    off = fine - fine.mean(axis=0)
    with_tone = off[:, 0] @ off[:, 1:] / max(float(off[:, 0] @ off[:, 0]), FAINT)
    return Along(means(fine, max(1, round(TREND / STEP))), with_tone, *lines)


def runs_along(one: Along, other: Along, most: float) -> bool:
    """Do the lines of both sides run along the seam, to so many degrees?"""
    return max(float(np.abs(side.angles).mean()) for side in (one, other)) < most


def likeness(one: Along, other: Along) -> float:
    """How alike the two sides are, 0..1; see the formula above."""
    count = min(len(one.colours), len(other.colours))
    off = one.colours[:count] - other.colours[:count]
    hue = off[:, 1:] - off[:, :1] * (one.with_tone + other.with_tone) / 2.0
    windows = min(len(one.angles), len(other.angles))
    turn = (one.angles[:windows] - other.angles[:windows] + 90.0) % 180.0 - 90.0
    closeness = one.closeness[:windows] - other.closeness[:windows]
    parts = (
        float(np.sqrt((hue * hue).sum(axis=1).mean())) / WORST_HUE,
        _rms(turn) / WORST_TURN,
        _rms(closeness) / WORST_CLOSENESS,
        _rms(off[:, 0]) / WORST_TONE,
    )
    return max(0.0, 1.0 - sum(parts) / 3.0)


def _lines(tone: Floats, pitch: float) -> tuple[Floats, Floats] | None:
    """Direction and closeness of the lines, window after window."""
    block = max(1, round(FIBRE / pitch))
    count = tone.shape[1] // block
    blocks = tone[:, : count * block].reshape(len(tone), count, block).mean(axis=2)
    smooth, slope = gaussian_slope(blocks)
    windows = int((count - 2) * block * pitch / WINDOW)
    if not slope.size or windows < 1:
        return None
    size = (count - 2) // windows

    def means(values: Floats) -> Floats:
        result: Floats = values[:, : windows * size].reshape(len(values), windows, size).mean(axis=(0, 2))
        return result

    gx, gy, inner = (smooth[:, 2:] - smooth[:, :-2]) / (2.0 * block), slope[:, 1:-1], blocks[:, 1:-1]
    xx, yy, xy = means(gx * gx), means(gy * gy), means(gx * gy)
    variance = means(inner * inner) - means(inner) ** 2
    if min(float(yy.mean()), float(variance.mean())) < FAINT:
        return None
    across = np.degrees(0.5 * np.arctan2(2.0 * xy, xx - yy))  # of the steepest slope, rows down
    angles = (-across - 90.0 + 90.0) % 180.0 - 90.0
    return angles, 0.5 * np.log((yy + FAINT) / (variance + FAINT))


def means(values: Floats, count: int) -> Floats:
    """Means of so many rows at a time."""
    count = min(count, len(values))
    whole = len(values) // count
    result: Floats = values[: whole * count].reshape(whole, count, -1).mean(axis=1)
    return result


def _rms(values: Floats) -> float:
    return float(np.sqrt((values * values).mean()))
