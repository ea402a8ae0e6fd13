"""A picture of a sheet, or of part of one, straightened to the sheet's true millimetres."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Final, Literal

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.face.stopping import StoppedError
from core.photo.evening import even, light_on
from core.photo.homography import Floats, Quad, applied, homography
from core.photo.lens import Lens

if TYPE_CHECKING:
    from PIL.Image import Image

Bytes = NDArray[np.uint8]
Mirror = Literal["none", "along", "across"]
Stop = Callable[[], bool]
Told = Callable[[float], None]

STRIP: Final = 96  # rows made at a time: between two, it may be stopped
CELL: Final = 48  # pixels: within one a bent picture is taken for straight; wrong by less than 0.1 pixel
SMALL: Final = 512  # pixels along: enough to see the light on


class Taken(msgspec.Struct, frozen=True):
    """How a sheet was seen: corners are shares of the picture's width and height from its upper left corner, and are
    the sheet's lower left, lower right, upper right and upper left, seen from the show face."""

    corners: Quad
    lens: float = 0.0  # the term of `core.photo.lens`
    even: float = 1.0  # how much of the light's unevenness is taken out, 0..1
    mirror: Mirror = "none"  # turned over as a leaf is: its ends change places (along), or its edges (across)


def plane(taken: Taken, size: tuple[int, int], pixels: tuple[int, int]) -> Floats:
    """Maps pixels of the straightened picture to those of a perfect one, 3 x 3. size: of the picture; both (across,
    down). Raises PhotoError."""
    across, down = pixels
    seen = Lens(taken.lens, (float(size[0]), float(size[1]))).unbent(np.array(taken.corners, float) * size)
    left, right = (across, 0) if taken.mirror == "along" else (0, across)
    low, high = (0, down) if taken.mirror == "across" else (down, 0)
    flat = [(left, low), (right, low), (right, high), (left, high)]
    return homography([(float(x), float(y)) for x, y in flat], [(float(x), float(y)) for x, y in seen])


def straightened(
    picture: Image,
    taken: Taken,
    across: int,
    down: int,
    stop: Stop | None = None,
    told: Told | None = None,
) -> Bytes:
    """The face (down, across, 3), RGB; row 0 is the upper edge of what the corners show.

    stop: asked between strips; when it says True, StoppedError is raised. told: hears how much is done, 0..1.
    Raises PhotoError where the corners are none.
    """
    source, matrix = _fitting(picture, taken, (across, down))
    lens = Lens(taken.lens, (float(source.width), float(source.height)))
    light = None
    if taken.even > 0.0:
        light = light_on(_small(source, lens, matrix, (across, down)))
    face = np.empty((down, across, 3), np.uint8)
    for low in range(0, down, STRIP):
        if stop is not None and stop():
            raise StoppedError
        strip = face[low : low + STRIP]
        strip[:] = np.asarray(_warped(source, lens, matrix, (0, low, across, low + len(strip))))
        if light is not None:
            even(strip, light, taken.even, low, down)
        if told is not None:
            told(min(1.0, (low + STRIP) / down))
    return face


def _fitting(picture: Image, taken: Taken, pixels: tuple[int, int]) -> tuple[Image, Floats]:
    """The picture, halved while it is twice as fine as the face, so that no pixel of it is skipped; and its plane."""
    matrix = plane(taken, picture.size, pixels)
    while min(picture.size) > 2 * CELL and _fineness(matrix, pixels) >= 2.0:
        picture = picture.reduce(2)
        matrix = plane(taken, picture.size, pixels)
    return picture, matrix


def _fineness(matrix: Floats, pixels: tuple[int, int]) -> float:
    """How many pixels of the picture lie along one of the face, where they are fewest along the sheet's middle."""
    across, down = pixels
    at = np.array([(u * across, down / 2.0) for u in (0.1, 0.5, 0.9)])
    steps = [applied(matrix, at + way) - applied(matrix, at - way) for way in ((0.5, 0.0), (0.0, 0.5))]
    return float(min(np.hypot(step[:, 0], step[:, 1]).min() for step in steps))


def _small(source: Image, lens: Lens, matrix: Floats, pixels: tuple[int, int]) -> Bytes:
    """A small straightened picture, to see the light on."""
    across = min(SMALL, pixels[0])
    down = max(1, round(pixels[1] * across / pixels[0]))
    factor = max(1, min(source.size) // 400)
    coarse = source.reduce(factor) if factor > 1 else source
    wide, high = coarse.width / source.width, coarse.height / source.height
    grown = np.diag([pixels[0] / across, pixels[1] / down, 1.0])
    shrunk = np.diag([wide, high, 1.0]) @ matrix @ grown
    less = Lens(lens.term, (float(coarse.width), float(coarse.height)))
    return np.asarray(_warped(coarse, less, shrunk, (0, 0, across, down)))


def _warped(source: Image, lens: Lens, matrix: Floats, box: tuple[int, int, int, int]) -> Image:
    """The part of the face in a box (left, top, right, bottom)."""
    from PIL import Image

    left, top, right, bottom = box
    size, smooth = (right - left, bottom - top), Image.Resampling.BILINEAR
    if lens.term == 0.0:
        moved = matrix @ np.array([[1.0, 0.0, left], [0.0, 1.0, top], [0.0, 0.0, 1.0]])
        eight = (moved / moved[2, 2]).reshape(9)[:8].tolist()
        return source.transform(size, Image.Transform.PERSPECTIVE, eight, smooth)
    return source.transform(size, Image.Transform.MESH, list(_cells(lens, matrix, box)), smooth)


def _cells(lens: Lens, matrix: Floats, box: tuple[int, int, int, int]) -> Iterator[tuple[tuple[int, ...], list[float]]]:
    """Pieces of a box, each with its four corners in the bent picture: upper left, lower left, lower right, upper
    right, as Pillow wants them."""
    left, top, right, bottom = box
    xs = np.append(np.arange(left, right, CELL), right)
    ys = np.append(np.arange(top, bottom, CELL), bottom)
    grid = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2).astype(float)
    seen = lens.bent(applied(matrix, grid)).reshape(len(ys), len(xs), 2)
    for j in range(len(ys) - 1):
        for i in range(len(xs) - 1):
            piece = (int(xs[i]) - left, int(ys[j]) - top, int(xs[i + 1]) - left, int(ys[j + 1]) - top)
            corners = (seen[j, i], seen[j + 1, i], seen[j + 1, i + 1], seen[j, i + 1])
            yield piece, [float(v) for corner in corners for v in corner]
