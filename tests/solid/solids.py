"""Solids for the checks, in manifold3d's 64-bit mesh: an independent library's volumes and cuts."""

from __future__ import annotations

import numpy as np
from manifold3d import Error, Manifold, Mesh64

from core.geometry.fold import fold_transforms, moved
from core.solid.mesh import Mesh, panel_mesh
from tests.solid.shelves import Case


def solid(mesh: Mesh, transform: np.ndarray) -> Manifold:
    """One mesh, moved; the library refuses what is not a closed, outward surface."""
    made = Manifold(Mesh64(moved(transform, mesh.vertices), mesh.faces.astype(np.uint64)))
    assert made.status() == Error.NoError
    return made


def folded(case: Case, fraction: float, outside_gap: float = 0.0) -> dict[str, Manifold]:
    """The case's panels as solids in shelf space, by role."""
    transforms = fold_transforms(case.net, fraction, outside_gap)
    return {
        panel.role: solid(panel_mesh(panel, case.section.thickness), transforms[panel.role])
        for panel in case.net.panels
    }


def hollow_box(case: Case) -> float:
    """Volume of the outside box less the cavity, from the shelf's own sizes. [mm3]"""
    shelf, t = case.shelf, case.section.thickness
    depth = shelf.depth + shelf.scribe
    cavity = (shelf.length - shelf.mitred_ends * t) * (depth - t) * (shelf.height - 2.0 * t)
    return shelf.length * depth * shelf.height - cavity


def shared(solids: dict[str, Manifold]) -> float:
    """Wood that lies in two panels at once. [mm3]"""
    names = list(solids)
    return sum((solids[a] ^ solids[b]).volume() for i, a in enumerate(names) for b in names[i + 1 :])
