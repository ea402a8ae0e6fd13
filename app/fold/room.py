"""What stands behind the shelves: the wall with its studs, the floor line, and soft shadows. No Qt, no OpenGL here.

All are rectangles whose edges fade. Their rows: place (3), half the rectangle's sides and how far its edge fades (3),
place from its middle (2). [mm]
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.fold.pose import Pose
from app.fold.standing import Standing
from core.document.model import Wall
from core.frame.studs import stud_lines

Floats = NDArray[np.float64]
Ink = Literal["wall", "stud", "floor", "cast", "ground"]
Box = tuple[float, float, float, float]  # x0, y0, x1, y1 on a wall [mm]

PATCH = 170.0  # how far the wall is shown round one shelf [mm]
FADE = 120.0  # over which the edge of that piece fades [mm]
WALL_FADE, STUD_FADE, FLOOR_FADE = 8.0, 4.0, 1.0  # the same of the whole wall [mm]
DROP = 0.55  # a shelf's shadow on the wall, below it, in depths
FADE_SHARE = 0.5  # over which that shadow's edge fades, in depths
GROUND = 26.0  # below the lowest wood: so far down the shadow of one shelf lies [mm]
FLOOR_LINE = 6.0  # its width [mm]
BEHIND = 0.5  # the wall lies this much behind what is fixed to it [mm]
_CORNERS = np.array([(-1, -1), (1, -1), (1, 1), (-1, -1), (1, 1), (-1, 1)], dtype=float)


class Shade(NamedTuple):
    """Rectangles of one ink: a run of rows."""

    ink: Ink
    start: int
    length: int


class Room(NamedTuple):
    """All rectangles, in the order in which they are painted."""

    rows: NDArray[np.float32]
    shades: tuple[Shade, ...]


def build_room(shelves: tuple[Standing, ...], wall: Wall, pose: Pose, points: Floats) -> Room:
    """The room of these shelves. points: what `Scene.points` holds. [mm]"""
    runs: list[tuple[Ink, Floats]] = []
    if shelves and pose.wall:
        runs += _whole_wall(wall)
        fades = [FADE_SHARE * one.shelf.depth for one in shelves]
        runs.append(("cast", _rows([_cast(one) for one in shelves], -BEHIND, fades)))
    elif shelves and pose.frame and shelves[0].frame is not None:
        runs += _patch(shelves[0], wall)
    elif shelves:
        runs.append(("ground", _ground(points)))
    shades, at = [], 0
    for ink, rows in runs:
        shades.append(Shade(ink, at, len(rows)))
        at += len(rows)
    parts = [rows for _, rows in runs] or [np.zeros((0, 8))]
    return Room(np.concatenate(parts).astype(np.float32), tuple(shades))


@lru_cache(maxsize=16)
def _whole_wall(wall: Wall) -> tuple[tuple[Ink, Floats], ...]:
    half = wall.stud_width / 2.0
    studs = [
        (max(0.0, x - half), 0.0, min(wall.width, x + half), wall.height) for x in stud_lines(wall, 0.0, wall.width)
    ]
    return (
        ("wall", _rows([(0.0, 0.0, wall.width, wall.height)], -BEHIND, WALL_FADE)),
        ("stud", _rows(studs, -BEHIND, STUD_FADE)),
        ("floor", _rows([(0.0, -FLOOR_LINE, wall.width, 0.0)], -BEHIND, FLOOR_FADE)),
    )


def _cast(one: Standing) -> Box:
    """A shelf's shadow on the wall behind it: light comes from the upper left."""
    shelf, (x, y, _) = one.shelf, one.home
    out = shelf.depth * DROP
    return (x - 0.1 * out, y - 1.25 * out, x + shelf.length + 0.45 * out, y + shelf.height - 0.2 * out)


def _patch(one: Standing, wall: Wall) -> tuple[tuple[Ink, Floats], ...]:
    """The piece of wall behind one shelf."""
    shelf = one.shelf
    back = one.home[2] - shelf.depth - shelf.scribe - BEHIND
    low, high, half = -PATCH, shelf.height + PATCH, wall.stud_width / 2.0
    beside = [x - shelf.mount.x for x in stud_lines(wall, 0.0, wall.width)] if shelf.mount is not None else []
    studs = [(at - half, low, at + half, high) for at in beside if -PATCH < at < shelf.length + PATCH]
    piece = (-PATCH - FADE, low, shelf.length + PATCH + FADE, high)
    return (("wall", _rows([piece], back, FADE)), ("stud", _rows(studs, back, FADE)))


def _ground(points: Floats) -> Floats:
    """The shadow below one shelf."""
    low, high = points.min(axis=0), points.max(axis=0)
    spread = 60.0 + 0.12 * (high[1] - low[1])
    box = (low[0] - spread / 2.0, low[2] - spread / 2.0, high[0] + spread / 2.0, high[2] + spread / 2.0)
    rows = _rows([box], 0.0, spread)
    rows[:, :3] = rows[:, (0, 2, 1)] + (0.0, low[1] - GROUND, 0.0)
    return rows


def _rows(boxes: list[Box], z: float, fade: float | list[float]) -> Floats:
    """Rectangles at one z; each fades as told, and no farther than to its middle."""
    rows = np.zeros((len(boxes), 6, 8))
    x0, y0, x1, y1 = np.array(boxes).reshape(-1, 4).T
    half = np.stack([x1 - x0, y1 - y0], axis=1) / 2.0
    rows[:, :, 6:] = _CORNERS * half[:, None, :]
    rows[:, :, :2] = rows[:, :, 6:] + np.stack([x0 + x1, y0 + y1], axis=1)[:, None, :] / 2.0
    rows[:, :, 2] = z
    rows[:, :, 3:5] = half[:, None, :]
    rows[:, :, 5] = np.minimum(np.array(fade), half.min(axis=1))[:, None]
    return rows.reshape(-1, 8)
