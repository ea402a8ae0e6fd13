"""The flat faces of a scene as they are seen: where each lies in the picture, and which point of its wood is where.

A plane seen in perspective is a homography of its picture, and one over the depth is linear in pixels, so a face needs
no more than one 3x3 matrix and three numbers. No Qt here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.fold.camera import Camera, Size
from app.fold.look import INSIDE_LIGHT, LAMP, Look
from app.fold.scene import Batch, EdgeKey, Scene

Floats = NDArray[np.float64]

LEAST_AREA = 1e-9  # mm²: a triangle of less has no direction
SAME = 1e-6  # of two directions or places that are one


class Face(NamedTuple):
    """A flat piece of the picture."""

    picture: str | EdgeKey
    is_plain: bool  # an inside: plain colour lies over its figure
    light: float
    triangles: Floats  # (n, 3, 2) pixels
    near: Floats  # (3,): one over the depth is near @ (x, y, 1)
    wood: Floats  # 3x3: pixels to texture coordinates


def rays(camera: Camera, size: Size) -> Floats:
    """3x3: pixels (x, y, 1) to directions in the world, one long along the way the eye looks."""
    span = camera.pixel(size, 1.0)
    eye = np.array([[span, 0.0, -span * size[0] / 2.0], [0.0, -span, span * size[1] / 2.0], [0.0, 0.0, -1.0]])
    result: Floats = camera.rotation.T @ eye
    return result


def plane_map(corners: Floats, values: Floats, eye: Floats, ways: Floats) -> tuple[Floats, Floats] | None:
    """What a plane's values are at each pixel, and how near it is there.

    corners: three points of it (3, 3) [mm]; values: two numbers at each (3, 2). Returns (3x3, (3,)): homogeneous
    values, and one over the depth; None for a plane that is seen edge on.
    """
    along, up = corners[1] - corners[0], corners[2] - corners[0]
    normal = np.cross(along, up)
    distance = float(normal @ (corners[0] - eye))
    if abs(distance) < LEAST_AREA:
        return None
    near = (normal @ ways) / distance
    grid = np.array([[along @ along, along @ up], [along @ up, up @ up]])
    shares = np.linalg.solve(grid, np.stack([along, up]))  # of a step in the plane, (2, 3)
    slope = (values[1:] - values[0]).T @ shares  # (2, 3)
    there = values[0] - slope @ (corners[0] - eye)
    return np.vstack([slope @ ways + np.outer(there, near), near]), near


def faces_of(scene: Scene, camera: Camera, size: Size, look: Look) -> Iterator[Face]:
    """Those that turn towards the eye."""
    eye, ways = camera.eye, rays(camera, size)
    lamp = np.array(LAMP) @ camera.orbit_only
    for batch in scene.batches:
        rows = scene.rows[batch.start : batch.start + batch.length].astype(float).reshape(-1, 3, 8)
        for run in _flat_runs(rows):
            found = _face(batch, rows[run], eye, ways, lamp, look, camera, size)
            if found is not None:
                yield found


def _flat_runs(rows: Floats) -> Iterator[slice]:
    """Triangles one after the other that lie in one plane and share their wood."""
    start = 0
    for at in range(1, len(rows) + 1):
        if at == len(rows) or at - start == 2 or not _is_same(rows[start], rows[at]):
            yield slice(start, at)
            start = at


def _is_same(one: Floats, other: Floats) -> bool:
    normal = one[0, 3:6]
    turned = np.abs(normal - other[0, 3:6]).max() < SAME
    return bool(turned and abs(normal @ (other[0, :3] - one[0, :3])) < 1e-3 and _shared(one, other) >= 2)


def _shared(one: Floats, other: Floats) -> int:
    """How many corners two triangles have in common, their wood included."""
    off = np.abs(one[:, None, (0, 1, 2, 6, 7)] - other[None, :, (0, 1, 2, 6, 7)]).max(axis=2)
    return int((off < SAME).any(axis=1).sum())


def _face(
    batch: Batch, rows: Floats, eye: Floats, ways: Floats, lamp: Floats, look: Look, camera: Camera, size: Size
) -> Face | None:
    normal = rows[0, 0, 3:6]
    if normal @ (eye - rows[0, 0, :3]) <= 0.0:
        return None
    found = plane_map(rows[0, :, :3], rows[0, :, 6:], eye, ways)
    triangles = camera.project(rows[:, :, :3], size)
    if found is None or not np.isfinite(triangles).all():
        return None
    is_plain = batch.group == "inside" or (batch.role == "frame" and batch.group == "show")
    light = 0.66 + 0.08 * (1.0 + normal[1]) + 0.26 * max(float(normal @ lamp), 0.0)  # as the fold board's shader
    shine = look.light * (INSIDE_LIGHT if batch.group == "inside" else 1.0)
    return Face(batch.picture, is_plain, float(light * shine), triangles, found[1], found[0])
