"""Where the wall and its shelves lie in a picture of so many pixels."""

from __future__ import annotations

from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF

from app.hand.grip import Point
from core.document.model import Shelf, Wall

SIDE, ABOVE, BELOW = 64.0, 10.0, 40.0  # pixels kept free: for words at the sides, for the tray below
SMALL_SIDE, SMALL_ABOVE, SMALL_BELOW = 10.0, 26.0, 10.0
CHIP: Final = (34.0, 20.0)  # pixels: a shelf in the tray
CHIP_GAP: Final = 6.0


class WallView(NamedTuple):
    """Pixels for a millimetre, and the pixel of the wall's lower left corner."""

    scale: float
    left: float
    floor: float

    def to_board(self, pixel: QPointF) -> Point:
        """Place on the wall at a pixel: from its left end and from the floor. [mm]"""
        return (pixel.x() - self.left) / self.scale, (self.floor - pixel.y()) / self.scale

    def to_pixel(self, place: Point) -> QPointF:
        """Pixel of a place on the wall."""
        return QPointF(self.left + self.scale * place[0], self.floor - self.scale * place[1])

    def box(self, shelf: Shelf) -> QRectF | None:
        """Where a shelf is; None where it has no place on the wall."""
        if shelf.mount is None:
            return None
        scale = self.scale
        x, y = self.left + scale * shelf.mount.x, self.floor - scale * shelf.mount.top
        return QRectF(x, y, scale * shelf.length, scale * shelf.height)


def view_of(wall: Wall, width: float, height: float, *, small: bool) -> WallView:
    """The whole wall, as large as there is room."""
    side, above, below = (SMALL_SIDE, SMALL_ABOVE, SMALL_BELOW) if small else (SIDE, ABOVE, BELOW)
    wide, tall = max(10.0, width - 2.0 * side), max(10.0, height - above - below)
    scale = min(wide / wall.width, tall / wall.height)
    return WallView(scale, (width - scale * wall.width) / 2.0, above + (tall + scale * wall.height) / 2.0)


def tray_boxes(waiting: list[str], left: float, width: float, height: float) -> dict[str, QRectF]:
    """Where the shelves wait that do not hang yet: below the floor from `left` on, as far as there is room."""
    wide, tall = CHIP
    room = max(0, int((width - left) / (wide + CHIP_GAP)))
    top = height - tall - 9.0
    return {name: QRectF(left + at * (wide + CHIP_GAP), top, wide, tall) for at, name in enumerate(waiting[:room])}
