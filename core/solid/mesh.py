"""A panel as a closed triangle mesh: show face, inside face and four edges, square or bevelled.

Seen from the show face, corners 0..3 lie on it and 4..7 on the inside face below them:

       3 +--------------+ 2       Every face turns its counter-clockwise side outwards.
         | 7 +------+ 6 |         Edges stand between: low_y 0-1-5-4, high_x 1-2-6-5,
         | 4 +------+ 5 |         high_y 2-3-7-6, low_x 3-0-4-7.
       0 +--------------+ 1
"""

from __future__ import annotations

from functools import lru_cache
from math import radians, tan

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.geometry.net import EDGES, NetPanel, inside_size

Box = tuple[float, float, float, float]  # x0, y0, x1, y1 [mm]

RIDGE_TOL = 1e-9  # an inside face narrower than this is a ridge: float noise [mm]
SHOW, INSIDE = "show", "inside"
FACES: tuple[str, ...] = (SHOW, INSIDE, *EDGES)  # what a face tag counts in

_TRIANGLES: dict[str, tuple[tuple[int, int, int], ...]] = {
    "show": ((0, 1, 2), (0, 2, 3)),
    "inside": ((4, 6, 5), (4, 7, 6)),
    "low_x": ((3, 7, 4), (3, 4, 0)),
    "high_x": ((1, 5, 6), (1, 6, 2)),
    "low_y": ((0, 4, 5), (0, 5, 1)),
    "high_y": ((2, 6, 7), (2, 7, 3)),
}
_FACES = np.array([t for face in FACES for t in _TRIANGLES[face]], dtype=np.int32)
_TAGS = np.repeat(np.arange(len(FACES), dtype=np.uint8), 2)
# Which two of a corner's (x, y, depth) are its picture coordinates on each face; as places in the flat corner table.
_PICTURE = np.array([(0, 1), (0, 1), (1, 2), (1, 2), (0, 2), (0, 2)])
_PLACES = 3 * _FACES[:, :, None] + _PICTURE[_TAGS][:, None, :]


class Mesh(msgspec.Struct, frozen=True):
    """A watertight triangle mesh; the arrays are shared and read-only."""

    vertices: NDArray[np.float64]  # (Nv, 3), net axes with z towards the viewer [mm]
    faces: NDArray[np.int32]  # (Nf, 3), counter-clockwise seen from outside
    tags: NDArray[np.uint8]  # (Nf,), index into FACES
    picture: NDArray[np.float64]  # (Nf, 3, 2) [mm]: see `panel_mesh`

    @property
    def triangles(self) -> NDArray[np.float64]:
        """Corner points (Nf, 3, 3) of every triangle. [mm]"""
        result: NDArray[np.float64] = self.vertices[self.faces]
        return result

    @property
    def normals(self) -> NDArray[np.float64]:
        """Outward unit normals (Nf, 3)."""
        a, b, c = np.swapaxes(self.triangles, 0, 1)
        normal = np.cross(b - a, c - a)
        result: NDArray[np.float64] = normal / np.linalg.norm(normal, axis=1, keepdims=True)
        return result

    @property
    def volume(self) -> float:
        """Signed volume, positive when the faces look outwards. [mm3]"""
        a, b, c = np.swapaxes(self.triangles, 0, 1)
        return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)

    def face(self, tag: str) -> NDArray[np.bool_]:
        """Which triangles (Nf,) belong to one of FACES."""
        result: NDArray[np.bool_] = self.tags == FACES.index(tag)
        return result


def panel_setbacks(panel: NetPanel, thickness: float) -> tuple[float, float, float, float]:
    """Set-back of the inside face at each edge, t tan(bevel), in the order of EDGES. [mm]"""
    low_x, high_x, low_y, high_y = (thickness * tan(radians(bevel)) for bevel in panel.bevels)
    return (low_x, high_x, low_y, high_y)


@lru_cache(maxsize=1024)
def panel_mesh(panel: NetPanel, thickness: float, origin: tuple[float, float] = (0.0, 0.0)) -> Mesh:
    """The solid of one panel, in net space: show face at z = 0, inside face at z = -thickness.

    origin: lower left corner of the net on its sheet, added to the picture coordinates only. [mm]
    Picture coordinates: sheet (x, y) on the show face, and on the inside face those of the show face right
    above it, so its figure reads mirrored from behind; on an edge (sheet x or y along it, depth below the
    show face). A panel whose bevels meet before the inside face ends in the ridge where they meet.
    """
    setbacks = panel_setbacks(panel, thickness)
    across_x, across_y = setbacks[0] + setbacks[1], setbacks[2] + setbacks[3]
    part = min(1.0, panel.length / across_x if across_x else 1.0, panel.width / across_y if across_y else 1.0)
    low_x, high_x, low_y, high_y = (part * s for s in setbacks)
    x0, y0, _, _ = panel.box
    length, width = (s if s > RIDGE_TOL else 0.0 for s in inside_size(panel, (low_x, high_x, low_y, high_y)))
    inside = (x0 + low_x, y0 + low_y, x0 + low_x + length, y0 + low_y + width)
    return block(panel.box, inside, part * thickness, origin)


def block(show: Box, inside: Box, thickness: float, origin: tuple[float, float] = (0.0, 0.0)) -> Mesh:
    """The solid between a show face at z = 0 and an inside face at z = -thickness, as sawn pieces are.

    The inside box may be a line or a point; its corners are then shared and the empty triangles left out.
    """
    deep = -thickness
    vertices = np.array([(x, y, 0.0) for x, y in _corners(show)] + [(x, y, deep) for x, y in _corners(inside)])
    placed = np.array([origin[0], origin[1], 0.0]) + vertices * (1.0, 1.0, -1.0)
    picture = placed.ravel()[_PLACES]
    faces, tags = _FACES, _TAGS
    if inside[0] >= inside[2] or inside[1] >= inside[3]:
        vertices, faces, kept = _ridge(vertices, inside)
        tags, picture = tags[kept], picture[kept]
    for array in (vertices, faces, tags, picture):
        array.setflags(write=False)
    return Mesh(vertices, faces, tags, picture)


def _ridge(
    vertices: NDArray[np.float64], inside: Box
) -> tuple[NDArray[np.float64], NDArray[np.int32], NDArray[np.bool_]]:
    """The mesh whose inside face is a line or a point: its vertices, its faces, and which faces they were."""
    same = np.arange(8)
    if inside[0] >= inside[2]:
        same[[5, 6]] = same[[4, 7]]
    if inside[1] >= inside[3]:
        same[[7, 6]] = same[[4, 5]]
    faces = same[_FACES]
    kept = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    used, renamed = np.unique(faces[kept], return_inverse=True)
    return vertices[used], renamed.reshape(-1, 3).astype(np.int32), kept


def _corners(box: Box) -> tuple[tuple[float, float], ...]:
    x0, y0, x1, y1 = box
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
