"""A shelf's panels and its frame's sticks as arrays of triangle corners, grouped by what is laid over them.

An array has a row for each corner: place (3), outward normal (3), picture coordinates (2); three rows are a triangle.
Made once for a net and kept, so that a frame of an animation moves arrays and builds none. No Qt here.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.document.model import Shelf
from core.geometry.fold import fold_transforms
from core.geometry.net import EDGES, Net
from core.plan.model import Frame
from core.solid.frame_solids import BACK_RAIL, FRONT_RAIL, frame_solids
from core.solid.mesh import FACES, Mesh, block, panel_mesh

Floats = NDArray[np.float64]
Group = Literal["show", "inside", "long", "cross"]  # long: an edge along the grain; cross: one across it

GROUPS: tuple[Group, ...] = ("show", "inside", "long", "cross")
_PICTURE: dict[Group, tuple[int, int]] = {"show": (0, 1), "inside": (0, 1), "long": (0, 2), "cross": (1, 2)}  # axes
_ALONG_X = ("low_y", "high_y")
_GROUP_OF = np.array([FACES.index("show"), FACES.index("inside"), *(2 if e in _ALONG_X else 3 for e in EDGES)])


class Solids(NamedTuple):
    """Triangles, group by group."""

    rows: Floats  # (N, 8) [mm, the picture coordinates too]
    owner: NDArray[np.intp]  # (N,): which panel a row belongs to
    runs: dict[Group, slice]  # of rows


class Matrices(NamedTuple):
    """Where each panel of a net is, folded so far."""

    turns: Floats  # (P, 3, 3)
    shifts: Floats  # (P, 3) [mm]

    def moved(self, points: Floats, owner: NDArray[np.intp]) -> Floats:
        """Points (N, ..., 3), each with the panel it belongs to, from net space to shelf space."""
        result: Floats = self.turned(points, owner) + self.shifts[owner].reshape(
            len(owner), *[1] * (points.ndim - 2), 3
        )
        return result

    def turned(self, ways: Floats, owner: NDArray[np.intp]) -> Floats:
        """Directions (N, ..., 3), likewise."""
        result: Floats = np.einsum("nij,n...j->n...i", self.turns[owner], ways)
        return result


@lru_cache(maxsize=128)
def fold_matrices(net: Net, fold: float, outside_gap: float) -> Matrices:
    """See `core.geometry.fold.fold_transforms`; in the order of the net's panels."""
    transforms = fold_transforms(net, fold, outside_gap)
    matrices = np.array([transforms[panel.role] for panel in net.panels])
    return Matrices(matrices[:, :3, :3], matrices[:, :3, 3])


@lru_cache(maxsize=128)
def net_solids(net: Net, thickness: float) -> Solids:
    """A net's panels in net space; show and inside faces have net (x, y) as picture coordinates."""
    return _grouped([panel_mesh(panel, thickness) for panel in net.panels])


def _grouped(meshes: Sequence[Mesh]) -> Solids:
    corners = np.concatenate([mesh.triangles for mesh in meshes])
    groups = _GROUP_OF[np.concatenate([mesh.tags for mesh in meshes])]
    rows = np.empty((len(corners), 3, 8))
    rows[:, :, :3] = corners
    rows[:, :, 3:6] = _normals(corners)[:, None, :]
    rows[:, :, 6:] = np.concatenate([mesh.picture for mesh in meshes])
    owner = np.repeat(np.arange(len(meshes)), [len(mesh.tags) for mesh in meshes])
    order = np.argsort(groups, kind="stable")
    ends = 3 * np.searchsorted(groups[order], np.arange(len(GROUPS) + 1))
    runs = {group: slice(int(ends[at]), int(ends[at + 1])) for at, group in enumerate(GROUPS)}
    return Solids(rows[order].reshape(-1, 8), np.repeat(owner[order], 3), runs)


def _normals(corners: Floats) -> Floats:
    """Outward unit normals (N, 3) of triangles (N, 3, 3)."""
    (ax, ay, az), (bx, by, bz) = (corners[:, 1] - corners[:, 0]).T, (corners[:, 2] - corners[:, 0]).T
    normal = np.stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx], axis=1)
    result: Floats = normal / np.sqrt((normal * normal).sum(axis=1, keepdims=True))
    return result


class Sticks(NamedTuple):
    """A frame's sticks in shelf space, home."""

    solids: Solids
    lows: Floats  # (S, 3), a corner of each stick's box [mm]
    highs: Floats  # (S, 3), the opposite one


@lru_cache(maxsize=128)
def frame_sticks(frame: Frame, shelf: Shelf, thickness: float) -> Sticks:
    """Show and inside faces have sheet (x, y) as picture coordinates."""
    found = frame_solids(frame, shelf, thickness)
    parts = [solid.part for solid in found]
    unit = _unit_stick()
    sizes = np.array([(part.length, part.width, part.thickness) for part in parts])
    places = np.array([(part.x or 0.0, part.y or 0.0) for part in parts])
    lows, highs = np.array([solid.low for solid in found]), np.array([solid.high for solid in found])
    are_rails = np.array([part.role in (BACK_RAIL, FRONT_RAIL) for part in parts])
    rows = np.repeat(unit.rows[:, None, :], len(parts), axis=1)  # group by group, and in each stick by stick
    rows[:, :, :3] *= sizes
    for group, (first, second) in _PICTURE.items():
        run = unit.runs[group]
        rows[run, :, 6:] *= sizes[:, (first, second)]
        rows[run, :, 6] += places[:, first]
        if second == 1:
            rows[run, :, 7] += places[:, 1]
    rows[:, :, :6] = np.where(are_rails[:, None], _as_rail(rows, lows, highs), _as_rib(rows, lows, highs))
    return Sticks(_stick_by_stick(rows, unit.runs), lows, highs)


@lru_cache(maxsize=1)
def _unit_stick() -> Solids:
    """A stick of one by one by one, lying on the sheet."""
    box = (0.0, 0.0, 1.0, 1.0)
    return _grouped([block(box, box, 1.0)])


def _stick_by_stick(rows: Floats, runs: dict[Group, slice]) -> Solids:
    """Rows (36, S, 8) of many sticks as triangles one after the other: three rows of a stick stay together."""
    count = rows.shape[1]
    whole = rows.reshape(-1, 3, count, 8).transpose(0, 2, 1, 3).reshape(-1, 8)
    many = {group: slice(run.start * count, run.stop * count) for group, run in runs.items()}
    return Solids(whole, np.zeros(len(whole), np.intp), many)


def _as_rail(rows: Floats, lows: Floats, highs: Floats) -> Floats:
    """Places and normals (..., S, 6) of sticks set on edge along the wall."""
    x, y, z, nx, ny, nz = np.moveaxis(rows[..., :6], -1, 0)
    return np.stack([lows[:, 0] + x, lows[:, 1] + y, highs[:, 2] + z, nx, ny, nz], axis=-1)


def _as_rib(rows: Floats, lows: Floats, highs: Floats) -> Floats:
    """The same for sticks that stand out from the wall."""
    x, y, z, nx, ny, nz = np.moveaxis(rows[..., :6], -1, 0)
    return np.stack([highs[:, 0] + z, lows[:, 1] + y, highs[:, 2] - x, nz, ny, -nx], axis=-1)
