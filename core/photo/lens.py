"""What a lens does to straight lines, as one term that grows with the square of the distance from the middle.

A point that a perfect camera would show at q is shown at p = c + (q - c)(1 + k |q - c|² / r²), where c is the
picture's middle and r half its diagonal: k < 0 bows edges outwards (barrel), k > 0 inwards. Source: the first radial
term of the usual model (Brown 1966; OpenCV's k1 with a focal length of r), from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot
from typing import Final

import msgspec
import numpy as np

from core.language import tr
from core.photo.errors import PhotoError
from core.photo.homography import Floats, Point

MOST: Final = 0.12  # of the term either way: stronger lenses make another kind of picture
ROUNDS: Final = 12  # of Newton's rule; five are enough


class Lens(msgspec.Struct, frozen=True):
    """A picture's lens. size: of the picture, width and height, in any unit that points then come in."""

    term: float
    size: tuple[float, float]

    @property
    def middle(self) -> Floats:
        """Of the picture."""
        return np.array(self.size) / 2.0

    @property
    def reach(self) -> float:
        """Half the diagonal."""
        return hypot(*self.size) / 2.0

    def bent(self, points: Floats) -> Floats:
        """Where the picture shows points (n, 2) of a perfect one."""
        off = (points - self.middle) / self.reach
        square = (off * off).sum(axis=-1, keepdims=True)
        result: Floats = self.middle + self.reach * off * (1.0 + self.term * square)
        return result

    def unbent(self, points: Floats) -> Floats:
        """Where a perfect picture would show points (n, 2) of this one: the inverse of `bent`."""
        off = (points - self.middle) / self.reach
        far = np.hypot(off[..., 0], off[..., 1])[..., None]
        true = far.copy()
        for _ in range(ROUNDS):
            slope = np.maximum(1.0 + 3.0 * self.term * true * true, 0.05)  # past the turning point there is no answer
            true -= (true * (1.0 + self.term * true * true) - far) / slope
        share = np.divide(true, far, out=np.ones_like(far), where=far > 0.0)
        result: Floats = self.middle + self.reach * off * share
        return result


def lens_from_edge(points: Sequence[Point], size: tuple[float, float]) -> Lens:
    """The lens that straightens an edge: at least three points along it as the picture shows it, ends first and last.

    size: of the picture, in the points' unit. Where they lie straight the lens does nothing.
    Raises PhotoError where the points fix no lens: too few, too near each other, on a line through the middle.
    """
    edge = np.array(points, float)
    if len(edge) < 3:
        raise PhotoError(tr("at least three points along a straight edge are needed"))
    if np.hypot(*(edge[-1] - edge[0])) < 0.1 * hypot(*size):
        raise PhotoError(tr("the edge is too short to tell the lens from: mark a longer one"))
    sag, step = _sag(edge, Lens(0.0, size)), 1e-4
    bend = (_sag(edge, Lens(step, size)) - _sag(edge, Lens(-step, size))) / (2.0 * step)
    if np.abs(bend).max() < 2e-3:
        raise PhotoError(
            tr("that edge goes through the picture's middle, where a lens bends nothing: mark another one")
        )
    term = 0.0
    for _ in range(ROUNDS):
        sag = _sag(edge, Lens(term, size))
        bend = (_sag(edge, Lens(term + step, size)) - _sag(edge, Lens(term - step, size))) / (2.0 * step)
        term -= float((sag * bend).sum() / (bend * bend).sum())
        term = min(max(term, -2.0 * MOST), 2.0 * MOST)
    if abs(term) > MOST:
        raise PhotoError(tr("that edge is bent more than a lens does: mark it again along the sheet's edge"))
    return Lens(term, size)


def _sag(edge: Floats, lens: Lens) -> Floats:
    """How far the inner points lie off the line from the first to the last, unbent, in half diagonals."""
    at = lens.unbent(edge)
    way = at[-1] - at[0]
    way = way / np.hypot(*way)
    off = at[1:-1] - at[0]
    result: Floats = (off[:, 0] * way[1] - off[:, 1] * way[0]) / lens.reach
    return result
