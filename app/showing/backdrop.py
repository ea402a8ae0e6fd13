"""What lies behind the shelves: paper, the finished wall, soft shadows. No Qt here."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from app.fold.camera import Camera
from app.fold.look import LOW, Look
from app.fold.room import Room
from app.showing.faces import plane_map, rays

Pixels = NDArray[np.float32]


def backdrop(
    room: Room, camera: Camera, look: Look, size: tuple[int, int], rows: tuple[int, int], *, is_clear: bool
) -> Pixels:
    """Rows of it from one to another, (rows, columns, 4): red, green, blue 0..255 and how solid 0..1.

    is_clear: shadows alone.
    """
    low, high = rows
    found = np.zeros((high - low, size[0], 4), np.float32)
    if not is_clear:
        found[...] = (*(255.0 * value for value in look.paper), 1.0)
    span = (float(size[0]), float(size[1]))
    dark, depth = look.shadow
    from_above = min(1.0, max(0.0, camera.tilt / LOW))
    inks = {
        "wall": (look.wall, 1.0),
        "floor": (look.floor, 1.0),
        "cast": (dark, depth),
        "ground": (dark, depth * from_above),
    }
    eye, ways = camera.eye, rays(camera, span)
    for shade in room.shades:
        if shade.ink not in inks or (is_clear and shade.ink not in ("cast", "ground")):
            continue  # a finished wall hides its studs
        for start in range(shade.start, shade.start + shade.length, 6):  # two triangles each
            rectangle = room.rows[start : start + 6].astype(float)
            part = _part(camera.project(rectangle[:, :3], span), size[0], rows)
            _lay(found, part, rectangle, inks[shade.ink], eye, ways, low)
    return found


Part = tuple[int, int, int, int]  # left, right, top, bottom [pixels]


def _part(corners: NDArray[np.float64], across: int, rows: tuple[int, int]) -> Part:
    """What of some rows a rectangle may cover; all of it where part of it lies behind the eye."""
    if not np.isfinite(corners).all():
        return 0, across, *rows
    (left, top), (right, low) = np.floor(corners.min(axis=0)), np.ceil(corners.max(axis=0)) + 1
    return (
        int(min(max(left, 0), across)),
        int(min(max(right, 0), across)),
        int(min(max(top, rows[0]), rows[1])),
        int(min(max(low, rows[0]), rows[1])),
    )


def _lay(
    found: Pixels,
    part: Part,
    rows: NDArray[np.float64],
    ink: tuple[tuple[float, float, float], float],
    eye: NDArray[np.float64],
    ways: NDArray[np.float64],
    low: int,
) -> None:
    """One rectangle with its fading edge, over what is there. rows: of its two triangles; low: the first row found."""
    mapped = plane_map(rows[:3, :3], rows[:3, 6:], eye, ways)
    left, right, top, bottom = part
    found = found[top - low : bottom - low, left:right]
    (colour, solid), (half_x, half_y, fade) = ink, rows[0, 3:6]
    if mapped is None or solid <= 0.0 or fade <= 0.0 or not found.size:
        return
    x = np.arange(left, right, dtype=np.float32) + np.float32(0.5)
    y = (np.arange(top, bottom, dtype=np.float32) + np.float32(0.5))[:, None]
    # What fades need no more than single precision; it takes half the time.
    u, v, w = (line[0] * x + line[1] * y + line[2] for line in mapped[0].astype(np.float32))
    ahead = w > np.float32(1e-12)
    w = np.where(ahead, w, np.float32(1.0))
    off_x, off_y = (
        np.maximum(np.abs(at / w) - np.float32(half - fade), np.float32(0.0)) / np.float32(fade)
        for at, half in ((u, half_x), (v, half_y))
    )
    rest = np.clip(np.float32(1.0) - np.sqrt(off_x * off_x + off_y * off_y), np.float32(0.0), np.float32(1.0))
    over = np.where(ahead, np.float32(solid) * rest * rest * (np.float32(3.0) - np.float32(2.0) * rest), 0.0)[..., None]
    alpha = over + found[..., 3:] * (1.0 - over)
    own = 255.0 * np.array(colour, np.float32) * over
    found[..., :3] = (own + found[..., :3] * found[..., 3:] * (1.0 - over)) / np.maximum(alpha, 1e-6)
    found[..., 3:] = alpha
