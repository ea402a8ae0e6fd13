"""Picking: what a ray meets first among folded panels, and which seam runs under it.

Directions need not be unit vectors; distances are in mm from the ray's origin. A ray starts at its origin:
what lies behind it is not met. Both sides of a triangle are met, though a closed solid shows only its
outside.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.geometry.fold import Matrix, ToeLines, moved
from core.solid.mesh import FACES, Mesh

Points = NDArray[np.float64]

# Barycentric slack, so that a ray through the line between two triangles meets one of them.
EDGE_TOL = 1e-9


class Target(msgspec.Struct, frozen=True):
    """Solids ready for picking: every triangle in shelf (or wall) space."""

    names: tuple[str, ...]  # of the solids
    corners: Points  # (N, 3, 3) [mm]
    owner: NDArray[np.intp]  # (N,), index into names
    tags: NDArray[np.uint8]  # (N,), index into FACES
    home: tuple[Matrix, ...]  # per solid, back to its net space


class Hit(msgspec.Struct, frozen=True):
    """The first triangle a ray meets."""

    name: str  # the solid: a role, or whatever the target was built with
    face: str  # one of FACES
    point: tuple[float, float, float]  # in the target's space [mm]
    net_point: tuple[float, float, float]  # in net space: (x, y, z <= 0) [mm]
    distance: float  # from the ray's origin [mm]


class SeamHit(msgspec.Struct, frozen=True):
    """The toe line that passes nearest to a ray."""

    name: str  # of the joint
    index: int  # among the lines that were given
    off: float  # between ray and line [mm]
    along: float  # place on the line, 0 at its first point .. 1
    distance: float  # from the ray's origin [mm]


def target(meshes: Mapping[str, Mesh], transforms: Mapping[str, Matrix]) -> Target:
    """Folded panels as one set of triangles; both maps have the same keys, which name the hits."""
    names = tuple(meshes)
    if not names:
        empty = np.zeros(0)
        return Target((), empty.reshape(0, 3, 3), empty.astype(np.intp), empty.astype(np.uint8), ())
    corners: Points = np.concatenate([moved(transforms[n], meshes[n].triangles) for n in names])
    owner = np.repeat(np.arange(len(names)), [len(meshes[n].faces) for n in names])
    tags = np.concatenate([meshes[n].tags for n in names])
    home = tuple(_inverse(transforms[n]) for n in names)
    return Target(names, corners, owner, tags, home)


def pick(origin: Sequence[float] | Points, direction: Sequence[float] | Points, solids: Target) -> Hit | None:
    """The nearest triangle a ray meets, or None. Raises ValueError for a direction of no length."""
    start, way = _ray(origin, direction)
    a, b, c = np.swapaxes(solids.corners, 0, 1)
    distance = _distances(start, way, a, b, c)
    if distance.size == 0 or not np.isfinite(nearest := distance.min()):
        return None
    at = int(distance.argmin())
    owner = int(solids.owner[at])
    point = start + nearest * way
    x, y, z = (float(v) for v in point)
    u, v, w = (float(n) for n in moved(solids.home[owner], point))
    return Hit(solids.names[owner], FACES[solids.tags[at]], (x, y, z), (u, v, w), float(nearest))


def pick_seam(
    origin: Sequence[float] | Points,
    direction: Sequence[float] | Points,
    lines: Iterable[ToeLines],
    tolerance: float,
    within: float = np.inf,
) -> SeamHit | None:
    """The joint one of whose toes passes nearest to a ray, if within `tolerance`; None otherwise.

    within: only lines met no farther than this count; give the `distance` of the panel hit plus a little, so
        that seams hidden behind wood are not picked. [mm]
    tolerance: between ray and line, in mm where they pass; a board turns its pixels into this.
    """
    start, way = _ray(origin, direction)
    joints = list(lines)
    if not joints:
        return None
    ends = np.array([line.first for line in joints] + [line.second for line in joints])
    off, along, distance = _passes(start, way, ends)
    off = np.where((off <= tolerance) & (distance <= within), off, np.inf)
    at = int(off.argmin())
    if not off[at] < np.inf:
        return None
    name = joints[at % len(joints)].joint.name
    return SeamHit(name, at % len(joints), float(off[at]), float(along[at]), float(distance[at]))


def _inverse(rigid: Matrix) -> Matrix:
    """Back through a rigid transform: its turn transposed."""
    back = np.eye(4)
    back[:3, :3] = rigid[:3, :3].T
    back[:3, 3] = -back[:3, :3] @ rigid[:3, 3]
    return back


def _ray(origin: Sequence[float] | Points, direction: Sequence[float] | Points) -> tuple[Points, Points]:
    start, way = np.asarray(origin, dtype=float), np.asarray(direction, dtype=float)
    length = float(np.linalg.norm(way))
    if not length > 0.0:
        raise ValueError("a ray needs a direction")
    return start, way / length


def _distances(start: Points, way: Points, a: Points, b: Points, c: Points) -> Points:
    """Distance along a ray to each triangle, inf where it is missed. Source: Möller and Trumbore, 1997."""
    ab, ac = b - a, c - a
    side = np.cross(way, ac)
    slope = np.einsum("ij,ij->i", ab, side)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        inverse = 1.0 / slope
        offset = start - a
        u = np.einsum("ij,ij->i", offset, side) * inverse
        turned = np.cross(offset, ab)
        v = turned @ way * inverse
        distance = np.einsum("ij,ij->i", ac, turned) * inverse
        met = (u >= -EDGE_TOL) & (v >= -EDGE_TOL) & (u + v <= 1.0 + EDGE_TOL) & (distance >= 0.0)
    result: Points = np.where(met & (slope != 0.0), distance, np.inf)
    return result


def _passes(start: Points, way: Points, ends: Points) -> tuple[Points, Points, Points]:
    """How near a ray passes each segment (N, 2, 3): gap, place on the segment 0..1, distance along the ray; (N,)."""
    line = ends[:, 1] - ends[:, 0]
    offset = start - ends[:, 0]
    square, mixed, over = (line * line).sum(axis=1), line @ way, (offset * line).sum(axis=1)
    spread = square - mixed * mixed  # 0 where ray and line are parallel
    ahead = over - (offset @ way) * mixed
    along = np.clip(np.divide(ahead, spread, out=np.zeros_like(ahead), where=spread > 0.0), 0.0, 1.0)
    distance = (along[:, None] * line - offset) @ way
    # Where that lies behind the ray, its own start is its nearest point.
    behind = distance < 0.0
    nearest = np.divide(over, square, out=np.zeros_like(over), where=square > 0.0)
    along = np.where(behind, np.clip(nearest, 0.0, 1.0), along)
    distance = np.maximum(distance, 0.0)
    gap = np.linalg.norm(along[:, None] * line - offset - distance[:, None] * way, axis=1)
    return gap, along, distance
