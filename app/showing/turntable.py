"""The shelves turning, as an animated WebP: one alone goes round, on their wall they sway from side to side."""

from __future__ import annotations

import io
from collections.abc import Iterator
from math import pi, sin
from typing import TYPE_CHECKING, Final

from app.showing.raster import Stop, Told, never
from app.showing.still import FOR_WOOD, FaceOf, Stand
from app.showing.wish import Showing
from core.face import StoppedError
from core.plan.model import Plan

if TYPE_CHECKING:
    from PIL.Image import Image

FRAMES: Final = 36
FRAME_MS: Final = 120
SWAY: Final = 34.0  # to either side, on the wall [deg]
QUALITY: Final = 86
LONGEST: Final = 1280  # pixels of the longer side: a turning picture is looked at small


def turns(wish: Showing) -> list[float]:
    """The turn of each frame. [deg]"""
    first = wish.seen_from()[0]
    if wish.is_wall:
        return [SWAY * sin(2.0 * pi * n / FRAMES) for n in range(FRAMES)]
    return [first + 360.0 * n / FRAMES for n in range(FRAMES)]


def frame_size(size: tuple[int, int]) -> tuple[int, int]:
    """Pixels of a frame: as wished, no longer than is looked at."""
    share = min(1.0, LONGEST / max(size))
    return max(16, round(size[0] * share)), max(16, round(size[1] * share))


def turntable_bytes(plan: Plan, wish: Showing, face_of: FaceOf, stop: Stop = never, told: Told | None = None) -> bytes:
    """The WebP file. Raises StoppedError once `stop` says True."""
    stand = Stand(plan, wish, face_of)
    if told is not None:
        told(0.3 * FOR_WOOD)
    frames = _frames(stand, stop, told)
    stream = io.BytesIO()
    first = next(frames)
    first.save(
        stream, "WEBP", save_all=True, append_images=frames, duration=FRAME_MS, loop=0, quality=QUALITY, method=2
    )
    return stream.getvalue()


def _frames(stand: Stand, stop: Stop, told: Told | None) -> Iterator[Image]:
    """One after the other, as they are asked for. All are as far away, so that nothing breathes."""
    from PIL import Image as Images

    wish, size = stand.wish, frame_size(stand.wish.size)
    tilt = wish.seen_from()[1]
    around = turns(wish)
    fitted = [stand.camera(turn, tilt, size) for turn in around]
    middle = stand.scene.points
    target = tuple(float(v) for v in (middle.min(axis=0) + middle.max(axis=0)) / 2.0)
    far = max(camera.distance for camera in fitted)
    for number, camera in enumerate(fitted):
        if stop():
            raise StoppedError
        still = camera._replace(distance=far, target=(target[0], target[1], target[2]))
        picture = stand.picture(still, size, stop)
        if not wish.clear:
            picture = picture[..., :3].copy()
        yield Images.fromarray(picture)
        if told is not None:
            told(0.3 * FOR_WOOD + (1.0 - 0.3 * FOR_WOOD) * (number + 1) / FRAMES)
