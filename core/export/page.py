"""What vector files share: the scale that texts are written at, and drawings set out beside each other."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from core.drawing.flat import Flat
from core.drawing.flatten import flatten
from core.drawing.model import Drawing

TRUE_POINT: Final = 25.4 / 72.0  # mm
READ_AT: Final = 800.0  # points: the width a large drawing is thought to be looked at


def reading_point(drawing: Drawing) -> float:
    """Mm of the drawing for a point of text: true points, or larger where the drawing is larger than a page.

    The drawing stays at 1:1; only its words and pens grow, so that they can be read when all of it is in sight.
    """
    x0, y0, x1, y1 = drawing.box
    return max(TRUE_POINT, max(x1 - x0, y1 - y0) / READ_AT)


def made_plain(drawings: Iterable[Drawing]) -> list[tuple[Drawing, Flat]]:
    """Each drawing with what it is made of at its reading scale."""
    return [(drawing, flatten(drawing, reading_point(drawing))) for drawing in drawings]
