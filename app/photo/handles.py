"""What the hand takes hold of on a photograph: its four corners, and the middles of its edges for the lens. No Qt here.

The board's places are pixels of the picture as it is shown, x to the right and y up, so its rows are negative.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from math import hypot
from typing import Final

import numpy as np

from app.hand.grid import Aim
from app.hand.grip import Edit, Grip, Handle, Number, Point, Values
from app.photo.edits import Place, changed, photo_at
from app.rule.reading import Reading
from core.document.model import Photo, Project
from core.document.ranges import Range
from core.language import tr
from core.lengths import Unit
from core.photo.errors import PhotoError
from core.photo.lens import Lens, lens_from_edge

CORNERS: Final = ("lower left", "lower right", "upper right", "upper left")
EDGES: Final = ("lower edge", "right end", "upper edge", "left end")
BEYOND: Final = 0.5  # of the picture: how far outside it a corner may be

Size = tuple[int, int]


class Pixels(Reading):
    """A place in a picture; steps are a pixel, fine ones a tenth."""

    def read(self, text: str, unit: Unit) -> float | int | None:
        try:
            return float(text.strip().removesuffix("px").strip().replace(",", ".").replace("−", "-"))
        except ValueError:
            raise ValueError(f'"{text.strip()}" is not a number of pixels.') from None

    def show(self, value: float | int | None, unit: Unit) -> str:
        return tr("{float:.1f} px", float=float(value or 0.0)).replace("-", "−")

    def ratio(self, unit: Unit, fine: bool) -> tuple[int, int]:
        return (1, 10) if fine else (1, 1)


PIXELS: Final = Pixels()


@dataclass(frozen=True)
class CornerHandle(Handle):
    """A corner, moved any way about."""

    pull = "move"
    down: Number | None = None
    put_at: Callable[[Point], Project] | None = None

    @property
    def numbers(self) -> tuple[Number, ...]:
        """From the picture's left side and from its upper one."""
        assert self.down is not None
        return (self.number, self.down)

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """Where the hand is: a picture has no grid."""
        return self._edit(wanted)

    def put(self, values: Values) -> Edit:
        """Exactly there."""
        return self._edit(values)

    def stepped(self, values: Values, way: Point, unit: Unit, fine: bool) -> Values:
        """One step in the key's direction."""
        return Grip.stepped(self, values, way, unit, fine)

    def after(self, travel: Point) -> Values:
        """Both ways."""
        return Grip.after(self, travel)

    def _edit(self, values: Values) -> Edit:
        assert self.put_at is not None
        held = tuple(
            min(max(value, number.limits.least), number.limits.most) if number.limits else value
            for value, number in zip(values, self.numbers, strict=True)
        )
        return Edit(self.put_at((held[0], held[1])), held)


def photo_handles(project: Project, place: Place, size: Size) -> tuple[Handle, ...]:
    """The handles of a photograph whose picture is shown `size` pixels large."""
    photo = photo_at(project, place)
    if photo is None:
        return ()
    corners = [_corner(project, place, photo, number, size) for number in range(4)]
    edges = [_edge(project, place, photo, number, size) for number in range(4)]
    return (*corners, *edges)


def in_pixels(photo: Photo, size: Size) -> list[Point]:
    """The corners, x to the right and y down."""
    return [(x * size[0], y * size[1]) for x, y in photo.corners]


def _corner(project: Project, place: Place, photo: Photo, number: int, size: Size) -> CornerHandle:
    x, y = in_pixels(photo, size)[number]
    limits = [Range(-BEYOND * side, (1.0 + BEYOND) * side, "") for side in size]

    def put_at(at: Point) -> Project:
        corners = list(photo.corners)
        corners[number] = (at[0] / size[0], at[1] / size[1])
        return changed(project, place, corners=tuple(corners))

    across = Number("across", tr("from the left"), PIXELS, x, (1.0, 0.0), 1.0, limits[0])
    down = Number("down", tr("from the top"), PIXELS, y, (0.0, -1.0), 1.0, limits[1])
    label = tr("{CORNERS} corner on the photograph", CORNERS=CORNERS[number].capitalize())
    return CornerHandle(
        f"corner {number}",
        label,
        "",
        (x, -y),
        across,
        lambda value: put_at((value, y)),
        down=down,
        put_at=put_at,
    )


def edge_line(photo: Photo, number: int, size: Size, count: int = 17) -> list[Point]:
    """An edge of the sheet as the lens shows it, from corner to corner, x right and y down."""
    lens = Lens(photo.lens, (float(size[0]), float(size[1])))
    corners = in_pixels(photo, size)
    ends = lens.unbent(np.array([corners[number], corners[(number + 1) % 4]]))
    shares = np.linspace(0.0, 1.0, count)[:, None]
    return [(float(x), float(y)) for x, y in lens.bent(ends[0] + shares * (ends[1] - ends[0]))]


def _edge(project: Project, place: Place, photo: Photo, number: int, size: Size) -> Handle:
    """The middle of an edge: laid on the edge as it is seen, it tells the lens."""
    line = edge_line(photo, number, size, 3)
    start, middle, end = line
    way = (end[0] - start[0], end[1] - start[1])
    far = hypot(*way) or 1.0
    off = (-way[1] / far, way[0] / far)  # square to the chord, x right and y down
    chord = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    bow = (middle[0] - chord[0]) * off[0] + (middle[1] - chord[1]) * off[1]
    number_ = Number("bow", tr("bow of the edge"), PIXELS, bow, (off[0], -off[1]))
    change = partial(_with_bow, project, place, (start, end), chord, off, size)
    label = tr("Lens, by the {EDGES}", EDGES=EDGES[number])
    return Handle(f"edge {number}", label, "", (middle[0], -middle[1]), number_, change)


def _with_bow(
    project: Project, place: Place, ends: tuple[Point, Point], chord: Point, off: Point, size: Size, bow: float
) -> Project:
    """The project with the lens that bows an edge so far; as it was where no lens does."""
    at = (chord[0] + bow * off[0], chord[1] + bow * off[1])
    try:
        term = lens_from_edge([ends[0], at, ends[1]], (float(size[0]), float(size[1]))).term
    except PhotoError:
        return project
    return changed(project, place, lens=term)
