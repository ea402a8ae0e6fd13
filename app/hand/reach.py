"""What is within the hand's reach on a board: its handles, the one under the pointer, the one that keys change."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final, Protocol

from PySide6.QtCore import QPointF, Qt

from app.hand.grip import Grip, Handle, Point

TARGET: Final = 12.0  # pixels from a handle's middle that still take hold of it: 24 across

Name = tuple[str, str]  # what a handle is about, and its key
NONE: Final[Name] = ("", "")


class Space(Protocol):
    """Where board millimetres lie on the widget: x to the right, y up."""

    def to_board(self, pixel: QPointF) -> Point:
        """Place of the board at a pixel."""

    def to_pixel(self, place: Point) -> QPointF:
        """Pixel of a place."""

    def pixel(self) -> float:
        """Board millimetres in a pixel."""


class Reach:
    """The handles of one board. `over` is under the pointer, `chosen` is what arrow keys and digits change."""

    def __init__(self, space: Space) -> None:
        self._space = space
        self.handles: Callable[[], Sequence[Handle]] = lambda: ()
        self.over: Name = NONE
        self.chosen: Name = NONE

    def at(self, pixel: QPointF) -> Handle | None:
        """The handle that a press at a pixel takes hold of."""
        best: tuple[float, Handle] | None = None
        for handle in self.handles():
            away = self.square(handle) - pixel
            far = max(abs(away.x()), abs(away.y()))
            if far <= TARGET and not handle.is_still and (best is None or far < best[0]):
                best = (far, handle)
        return best[1] if best else None

    def square(self, handle: Handle) -> QPointF:
        """The pixel of a handle's middle."""
        return self._space.to_pixel(handle.at) + QPointF(*handle.offset)

    def find(self, name: Name) -> Handle | None:
        """The handle of that name, as it is now."""
        if name == NONE:
            return None
        return next((handle for handle in self.handles() if name_of(handle) == name), None)

    def by_letter(self, letter: str, about: str) -> Handle | None:
        """The handle that a letter key chooses."""
        return next((h for h in self.handles() if h.letter == letter and h.about in ("", about)), None)


def name_of(handle: Handle | None) -> Name:
    """A handle's name, that of none for None."""
    return (handle.about, handle.key) if handle is not None else NONE


def pointer_shape(grip: Grip, *, held: bool) -> Qt.CursorShape:
    """The pointer's shape that says what a drag does."""
    if grip.pull == "move":
        return Qt.CursorShape.ClosedHandCursor if held else Qt.CursorShape.OpenHandCursor
    if grip.pull == "draw":
        return Qt.CursorShape.CrossCursor
    x, y = grip.numbers[0].axis
    if abs(x) > 2.4 * abs(y):
        return Qt.CursorShape.SizeHorCursor
    if abs(y) > 2.4 * abs(x):
        return Qt.CursorShape.SizeVerCursor
    return Qt.CursorShape.SizeBDiagCursor if x * y > 0.0 else Qt.CursorShape.SizeFDiagCursor
