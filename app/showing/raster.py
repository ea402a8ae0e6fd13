"""Draws shelves into an array of pixels, by numpy and Pillow alone: no screen, no OpenGL, any size, any thread.

Each face is its wood, warped as the eye sees it; where several lie at a pixel, the nearest is seen. Samples are twice
as fine as the pixels each way. The picture is made band by band, so that it can be stopped and told of.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.fold.camera import Camera
from app.fold.look import PLAIN, Look
from app.fold.room import Room
from app.fold.scene import EdgeKey, Scene
from app.showing.backdrop import backdrop
from app.showing.faces import Face, faces_of
from core.face import StoppedError

if TYPE_CHECKING:
    from PIL.Image import Image

Bytes = NDArray[np.uint8]
Floats = NDArray[np.float64]
Woods = Mapping[str | EdgeKey, Bytes]  # the picture of each sheet's face, and of each edge
Stop = Callable[[], bool]
Told = Callable[[float], None]

FINE: Final = 2  # samples for a pixel, each way
BAND: Final = 96  # rows of pixels made at a time
MOST_SHRUNK: Final = 16  # times: how much coarser than it is a wood is read at most
KEPT: Final = 16  # shrunk woods
BARE: Final = (222, 196, 152)  # what lies beside its sheet: such a shelf cannot be cut, and has no figure there
HAIR: Final = 0.34  # how dark the hairline at a seam or an edge is
NEARLY: Final = 0.004  # of its nearness: a line so little behind a face lies on it


class View(NamedTuple):
    """What is drawn, and from where."""

    scene: Scene
    room: Room
    camera: Camera
    look: Look
    size: tuple[int, int]
    clear: bool  # nothing behind but shadows


def never() -> bool:
    """Never stop."""
    return False


def drawn(view: View, woods: Shrunk, stop: Stop = never, told: Told | None = None) -> Bytes:
    """The picture, (rows, columns, 4) as red, green, blue and how solid. Raises StoppedError once `stop` says True."""
    across, down = view.size
    fine = (across * FINE, down * FINE)
    faces = list(faces_of(view.scene, view.camera, (float(fine[0]), float(fine[1])), view.look))
    lines = _lines(view, fine)
    picture = np.empty((down, across, 4), np.uint8)
    for low in range(0, down, BAND):
        if stop():
            raise StoppedError
        high = min(down, low + BAND)
        picture[low:high] = _band(view, faces, woods, lines, (low, high))
        if told is not None:
            told(high / down)
    return picture


def _band(view: View, faces: Sequence[Face], images: Shrunk, lines: Floats, rows: tuple[int, int]) -> Bytes:
    """Rows of the picture from one to another."""
    low, high = rows
    wide, tall = view.size[0] * FINE, (high - low) * FINE
    colour = np.zeros((tall, wide, 3), np.float32)
    near = np.zeros((tall, wide), np.float32)
    for face in faces:
        _lay(face, images, view.look, colour, near, low * FINE)
    _hairlines(lines, colour, near, low * FINE)
    there = (near > 0.0).astype(np.float32)
    solid = _means(there[..., None])
    ground = backdrop(view.room, view.camera, view.look, view.size, rows, is_clear=view.clear)
    front = _means(colour)
    alpha = solid + ground[..., 3:] * (1.0 - solid)
    mixed = front + ground[..., :3] * ground[..., 3:] * (1.0 - solid)  # both weighed by how solid they are
    mixed /= np.maximum(alpha, 1e-6)
    both = np.concatenate([mixed, 255.0 * alpha], axis=2)
    result: Bytes = np.clip(np.rint(both), 0.0, 255.0).astype(np.uint8)
    return result


def _means(fine: NDArray[np.float32]) -> NDArray[np.float32]:
    """Of the samples of each pixel; summed one after the other, far faster than a mean over axes so short."""
    total: NDArray[np.float32] = fine[::FINE, ::FINE].copy()
    for down in range(FINE):
        for across in range(FINE):
            if down or across:
                total += fine[down::FINE, across::FINE]
    total *= np.float32(1.0 / FINE**2)
    return total


def _lay(
    face: Face,
    images: Shrunk,
    look: Look,
    colour: NDArray[np.float32],
    near: NDArray[np.float32],
    top: int,
) -> None:
    """Lay a face into the samples of a band, where nothing nearer lies."""
    tall, wide = near.shape
    corners = face.triangles.reshape(-1, 2)
    left, right = max(0, int(corners[:, 0].min())), min(wide, int(corners[:, 0].max()) + 2)
    upper, lower = max(0, int(corners[:, 1].min()) - top), min(tall, int(corners[:, 1].max()) + 2 - top)
    if left >= right or upper >= lower:
        return
    x = np.arange(left, right) + 0.5
    y = (np.arange(upper, lower) + 0.5 + top)[:, None]
    inside = _inside(face.triangles, x, y)
    columns, lines = np.flatnonzero(inside.any(axis=0)), np.flatnonzero(inside.any(axis=1))
    if not len(columns):
        return
    cut = (slice(lines[0], lines[-1] + 1), slice(columns[0], columns[-1] + 1))
    x, y = x[cut[1]], y[cut[0]]
    left, upper = left + int(columns[0]), upper + int(lines[0])
    place = (slice(upper, upper + len(y)), slice(left, left + len(x)))
    here = (face.near[0] * x + face.near[1] * y + face.near[2]).astype(np.float32)
    seen = inside[cut] & (here > near[place])
    if not seen.any():
        return
    wood = images.warped(face, (left, upper + top, len(x), len(y))).astype(np.float32)
    if face.is_plain:
        wood += np.float32(PLAIN) * (np.float32(255.0) * np.array(look.plain, np.float32) - wood)
    wood *= np.float32(face.light)
    np.minimum(wood, 255.0, out=wood)
    colour[place][seen] = wood[seen]
    near[place][seen] = here[seen]


def _inside(triangles: Floats, x: Floats, y: Floats) -> NDArray[np.bool_]:
    """Which places x (columns) and y (rows) lie in one of the triangles."""
    result = np.zeros((len(y), len(x)), bool)
    for triangle in triangles:
        turn = np.ones((len(y), len(x)), bool)
        way = np.sign(_area(triangle))
        for n in range(3):
            a, b = triangle[n], triangle[(n + 1) % 3]
            turn &= way * ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) >= 0.0
        result |= turn
    return result


def _area(triangle: Floats) -> float:
    (ax, ay), (bx, by) = triangle[1] - triangle[0], triangle[2] - triangle[0]
    return float(ax * by - ay * bx)


class Shrunk:
    """The woods as Pillow has them, shrunk as far as they are seen small; kept from one picture to the next."""

    def __init__(self, woods: Woods) -> None:
        self._woods = woods
        self._shrunk = lru_cache(maxsize=KEPT)(self._shrink)

    def _shrink(self, key: str | EdgeKey, times: tuple[int, int], repeats: int) -> Image:
        from PIL import Image

        wood = self._woods[key]
        if repeats > 1:
            wood = np.tile(wood, (1, repeats, 1))
        image = Image.fromarray(np.ascontiguousarray(wood))
        return image if times == (1, 1) else image.reduce(times)

    def warped(self, face: Face, box: tuple[int, int, int, int]) -> Bytes:
        """A face's wood as it is seen in a box of samples: left, top, width, height."""
        from PIL import Image

        left, top, wide, tall = box
        matrix, repeats = face.wood, 1
        if isinstance(face.picture, EdgeKey):
            matrix, repeats = self._from_start(face)
        down, across = self._woods[face.picture].shape[:2]
        size = np.diag([float(across * repeats), float(down), 1.0])
        times = self._times(size @ matrix, face.triangles)
        image = self._shrunk(face.picture, times, repeats)
        moved = np.array([[1.0, 0.0, left], [0.0, 1.0, top], [0.0, 0.0, 1.0]])
        full = np.diag([1.0 / times[0], 1.0 / times[1], 1.0]) @ size @ matrix @ moved
        eight = (full / full[2, 2]).reshape(9)[:8].tolist()
        kind, smooth = Image.Transform.PERSPECTIVE, Image.Resampling.BILINEAR
        return np.asarray(image.transform((wide, tall), kind, eight, smooth, fillcolor=BARE))

    @staticmethod
    def _from_start(face: Face) -> tuple[Floats, int]:
        """An edge's picture repeats along it: texture coordinates from its first repeat on, and how many there are."""
        along = _seen(face.wood, face.triangles.reshape(-1, 2))[:, 0]
        first = float(np.floor(along.min() + 1e-6))
        repeats = max(1, int(np.ceil(along.max() - first - 1e-6)))
        moved = np.array([[1.0 / repeats, 0.0, -first / repeats], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])
        result: Floats = moved @ face.wood
        return result, repeats

    @staticmethod
    def _times(matrix: Floats, triangles: Floats) -> tuple[int, int]:
        """How many pixels of the wood lie along one sample, each way, where the face is nearest to fine."""
        middles = triangles.mean(axis=1)
        at = np.concatenate([middles, 0.5 * (middles[:, None, :] + triangles).reshape(-1, 2)])
        steps = [np.abs(_seen(matrix, at + way) - _seen(matrix, at - way)) for way in ((0.5, 0.0), (0.0, 0.5))]
        pace = np.sqrt(steps[0] ** 2 + steps[1] ** 2)
        wide, tall = (min(MOST_SHRUNK, max(1, round(float(np.median(pace[:, n]))))) for n in (0, 1))
        return wide, tall


def _seen(matrix: Floats, at: Floats) -> Floats:
    values = np.column_stack([at, np.ones(len(at))]) @ matrix.T
    result: Floats = values[:, :2] / values[:, 2:]
    return result


# Hairlines


def _lines(view: View, fine: tuple[int, int]) -> Floats:
    """Points along all seams and edges, (n, 3): sample x, y and one over the depth."""
    found = []
    span = (float(fine[0]), float(fine[1]))
    for stroke in view.scene.strokes:
        if stroke.style not in ("edge", "seam", "turned") or not stroke.length:
            continue
        ends = view.scene.rows[stroke.start : stroke.start + stroke.length : 6, :6].astype(float).reshape(-1, 2, 3)
        for line in ends:
            pixels = view.camera.project(line, span)
            if not np.isfinite(pixels).all():
                continue
            near = -1.0 / view.camera.seen(line)[:, 2]
            count = int(min(4e4, 1.5 * np.hypot(*(pixels[1] - pixels[0])))) + 2
            share = np.linspace(0.0, 1.0, count)[:, None]
            found.append((1.0 - share) * np.append(pixels[0], near[0]) + share * np.append(pixels[1], near[1]))
    return np.concatenate(found) if found else np.zeros((0, 3))


def _hairlines(lines: Floats, colour: NDArray[np.float32], near: NDArray[np.float32], top: int) -> None:
    """Darken what lies under a line, once."""
    tall, wide = near.shape
    under = np.zeros((tall, wide), bool)
    for dx in range(FINE):
        for dy in range(FINE):
            x, y = np.floor(lines[:, 0] + dx - 0.5).astype(int), np.floor(lines[:, 1] + dy - 0.5).astype(int) - top
            kept = (x >= 0) & (x < wide) & (y >= 0) & (y < tall)
            x, y, depth = x[kept], y[kept], lines[kept, 2]
            there = near[y, x]
            on = (there > 0.0) & (depth >= there * (1.0 - NEARLY))
            under[y[on], x[on]] = True
    colour[under] *= np.float32(1.0 - HAIR)
