"""A sheet's face from its photographs: each straightened to the part it shows, one over the other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil
from typing import TYPE_CHECKING, Final

import numpy as np

from core.document.model import Photo
from core.photo.straighten import Bytes, Stop, Taken, straightened

if TYPE_CHECKING:
    from PIL.Image import Image

Box = tuple[int, int, int, int]  # left, top, right, bottom [pixels]
Opened = Callable[[int], "Image"]  # opens a picture whose longer side needs so many pixels

JOINT: Final = 30.0  # mm over which a photograph fades into what lies below it, where it ends within the sheet
LEAST_SEEN: Final = 0.005  # of an overlap: less tells nothing of the colours
FINER: Final = 1.2  # how much finer than the face a picture is read


def taken(photo: Photo) -> Taken:
    """What `straightened` needs to know of a photograph."""
    a, b, c, d = photo.corners
    return Taken((a, b, c, d), photo.lens, photo.even, photo.mirror)


def is_whole(photo: Photo, length: float, width: float) -> bool:
    """Does it show all of a sheet?"""
    part = photo.part
    return part is None or (part[0] <= 0.0 and part[1] <= 0.0 and part[2] >= length and part[3] >= width)


def part_box(photo: Photo, sheet: tuple[float, float], pixels: tuple[int, int]) -> Box:
    """The pixels of a face that a photograph shows; row 0 is the sheet's upper edge."""
    x0, y0, x1, y1 = photo.part or (0.0, 0.0, *sheet)
    left, right = (round(min(max(x / sheet[0], 0.0), 1.0) * pixels[0]) for x in (x0, x1))
    low, high = (round((1.0 - min(max(y / sheet[1], 0.0), 1.0)) * pixels[1]) for y in (y0, y1))
    return left, high, right, low


def needed(photo: Photo, across: int, down: int) -> int:
    """Pixels the picture's longer side needs for so many of a face."""
    corners = np.array(photo.corners)
    sides = np.abs(np.roll(corners, -1, axis=0) - corners)
    spans = np.maximum(sides.max(axis=1), 0.05)
    return ceil(FINER * float(max(across / max(spans[0], spans[2]), down / max(spans[1], spans[3]))))


def photographed(
    photos: Sequence[tuple[Photo, Opened]],
    ground: Callable[[], Bytes] | None,
    sheet: tuple[float, float],
    pixels: tuple[int, int],
    stop: Stop | None = None,
) -> Bytes:
    """A face (down, across, 3): the photographs over the ground.

    photos: each with what opens it; ground: makes what lies below them, asked only where they leave any of it.
    sheet: length and width [mm]; pixels: (across, down). Raises PhotoError, StoppedError.
    """
    face: Bytes | None = None
    if ground is not None and not (photos and any(is_whole(photo, *sheet) for photo, _ in photos)):
        face = ground()
    seen = np.zeros((1, 1), bool)
    if face is None:
        face = np.full((pixels[1], pixels[0], 3), 200, np.uint8)
    if len(photos) > 1:
        seen = np.zeros((pixels[1], pixels[0]), bool)
    for photo, opened in photos:
        left, top, right, low = part_box(photo, sheet, pixels)
        if right - left < 2 or low - top < 2:
            continue
        picture = opened(needed(photo, right - left, low - top))
        flat = straightened(picture, taken(photo), right - left, low - top, stop)
        if len(photos) > 1:
            _match(flat, face[top:low, left:right], seen[top:low, left:right])
            seen[top:low, left:right] = True
        _lay(face, flat, (left, top, right, low), sheet)
    return face


def _match(flat: Bytes, below: Bytes, seen: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> None:
    """Bring a picture to the colours of those it overlaps."""
    step = max(1, min(flat.shape[:2]) // 200)
    there = seen[::step, ::step]
    if there.mean() < LEAST_SEEN:
        return
    for channel in range(3):
        ours = float(np.median(flat[::step, ::step, channel][there]))
        theirs = float(np.median(below[::step, ::step, channel][there]))
        gain = np.float32(min(max(theirs / max(ours, 1.0), 0.5), 2.0))
        table = np.clip(np.arange(256, dtype=np.float32) * gain + 0.5, 0, 255).astype(np.uint8)
        flat[..., channel] = table[flat[..., channel]]


def _lay(face: Bytes, flat: Bytes, box: Box, sheet: tuple[float, float]) -> None:
    """Lay a picture into its place, faded out along the sides that end within the sheet."""
    left, top, right, low = box
    down, across = face.shape[:2]
    fades = [_fade(right - left, JOINT / sheet[0] * across, left > 0, right < across)]
    fades.append(_fade(low - top, JOINT / sheet[1] * down, top > 0, low < down))
    target = face[top:low, left:right]
    for start in range(0, low - top, 128):
        rows = slice(start, start + 128)
        share = np.minimum(fades[1][rows, None], fades[0][None, :])[..., None]
        if share.min() >= 1.0:
            target[rows] = flat[rows]
        else:
            target[rows] = (target[rows] * (1.0 - share) + flat[rows] * share + 0.5).astype(np.uint8)


def _fade(count: int, reach: float, first: bool, last: bool) -> np.ndarray[tuple[int, ...], np.dtype[np.float32]]:
    """0..1 along a side of so many pixels, rising from its ends where they lie within the sheet."""
    at = np.arange(count, dtype=np.float32) + 0.5
    share = np.ones(count, np.float32)
    for is_inside, off in ((first, at), (last, count - at)):
        if is_inside:
            share = np.minimum(share, off / np.float32(max(reach, 1.0)))
    return np.minimum(share, np.float32(1.0))
