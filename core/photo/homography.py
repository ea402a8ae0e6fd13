"""The map of a plane that a camera makes, from four corners.

Source: Hartley and Zisserman, Multiple View Geometry, ch. 4: h maps (x, y, 1) to (x' w, y' w, w); each corner gives
two equations in the eight unknowns, and both sets of corners are first moved and scaled to about 1 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from core.language import tr
from core.photo.errors import PhotoError

Point = tuple[float, float]
Quad = tuple[Point, Point, Point, Point]
Floats = NDArray[np.float64]

# How flat three corners may lie: the sine of the turn there. Half a degree is a picture along the sheet, not of it.
FLAT: Final = 0.0087
APART: Final = 1e-9  # of the whole: corners nearer than that are one


def homography(source: Sequence[Point], target: Sequence[Point]) -> Floats:
    """The 3 x 3 matrix that maps four points to four others, its last entry 1.

    Raises PhotoError where corners of either set lie on one line, fall together, or the sides cross.
    """
    for corners in (source, target):
        if complaint := corner_complaint(corners):
            raise PhotoError(complaint)
    return _solved(source, target)


def _solved(source: Sequence[Point], target: Sequence[Point]) -> Floats:
    before, after = _to_one(source), _to_one(target)
    a = applied(before, np.array(source, float))
    b = applied(after, np.array(target, float))
    rows = np.zeros((8, 8))
    rows[0::2, 0:2], rows[0::2, 2] = a, 1.0
    rows[1::2, 3:5], rows[1::2, 5] = a, 1.0
    rows[0::2, 6:8] = -a * b[:, :1]
    rows[1::2, 6:8] = -a * b[:, 1:]
    inner = np.append(np.linalg.solve(rows, b.reshape(8)), 1.0).reshape(3, 3)
    whole: Floats = np.linalg.inv(after) @ inner @ before
    whole /= whole[2, 2]
    return whole


def _to_one(points: Sequence[Point]) -> Floats:
    """Moves points about the origin and scales them to a size of about 1."""
    at = np.array(points, float)
    middle = at.mean(axis=0)
    scale = 1.0 / np.hypot(*(at - middle).T).mean()
    return np.array([[scale, 0.0, -scale * middle[0]], [0.0, scale, -scale * middle[1]], [0.0, 0.0, 1.0]])


def applied(matrix: Floats, points: Floats) -> Floats:
    """Points (n, 2) mapped by a 3 x 3 matrix."""
    mapped = points @ matrix[:, :2].T + matrix[:, 2]
    result: Floats = mapped[:, :2] / mapped[:, 2:]
    return result


def corner_complaint(corners: Sequence[Point]) -> str:
    """What is wrong with four corners, one after the other round a sheet; '' for nothing."""
    if len(corners) != 4:
        return tr(
            "four corners are needed, there {rest} {corners}",
            rest="is" if len(corners) == 1 else "are",
            corners=len(corners),
        )
    at = np.array(corners, float)
    if not np.isfinite(at).all():
        return tr("a corner's place must be a finite number")
    sides = np.roll(at, -1, axis=0) - at
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    span = np.ptp(at, axis=0).max()
    if span <= 0.0 or lengths.min() <= APART * span:
        return tr("two corners are in one place")
    after = np.roll(sides, -1, axis=0)
    turns = (sides[:, 0] * after[:, 1] - sides[:, 1] * after[:, 0]) / (lengths * np.roll(lengths, -1))
    if np.abs(turns).min() < FLAT:
        return tr("three corners lie on one line: no sheet can be seen that way")
    if len({turn > 0.0 for turn in turns.tolist()}) > 1:
        crossed = (turns > 0.0).sum() == 2
        return (
            tr("the sides cross: go round the sheet, corner by corner")
            if crossed
            else tr("a corner lies inside the others")
        )
    return ""
