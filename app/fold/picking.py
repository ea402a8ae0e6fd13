"""What lies under a ray: a seam, a stick of the frame, or a panel. No Qt here."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from app.fold.camera import Points
from app.fold.standing import Offset, Standing
from core.geometry.fold import Matrix, ToeLines, fold_transforms, toe_lines
from core.solid.frame_solids import frame_solids
from core.solid.mesh import Mesh, block, panel_mesh
from core.solid.ray import Hit, Target, pick, pick_seam, target

BESIDE = 2.0  # a seam this much behind the wood that is hit first still counts as in sight [mm]


class Picker:
    """Picks among shelves as they stand, folded so far. Made when first asked, not for every picture."""

    def __init__(self, shelves: tuple[Standing, ...], fold: float) -> None:
        self._shelves = shelves
        self._fold = fold

    def at(self, start: Points, way: Points, reach: float) -> str:
        """Id of what a ray meets: 'shelf/top-front', 'shelf/rib 2', 'shelf/top'; '' for nothing.

        reach: how near counts as on a seam, for each mm of distance from the eye. [mm/mm]
        """
        shell = pick(start, way, self._panels)
        seam = self._seam(start, way, reach, shell)
        if seam:
            return seam
        stick = pick(start, way, self._sticks) if self._sticks.names else None
        first = stick or shell
        return first.name if first else ""

    def far(self, start: Points, way: Points) -> float | None:
        """How far along a ray, of length 1, wood is met; None for nowhere. [mm]"""
        hit = pick(start, way, self._panels)
        return hit.distance if hit else None

    def _seam(self, start: Points, way: Points, reach: float, shell: Hit | None) -> str:
        lines = [line for _, line in self._lines]
        far = float(np.linalg.norm(start - self._panels.corners.reshape(-1, 3).mean(axis=0))) if lines else 0.0
        distance = shell.distance if shell else far
        within = shell.distance + BESIDE + 4.0 * reach * distance if shell else np.inf
        hit = pick_seam(start, way, lines, reach * distance, within)
        if hit is None:
            return ""
        return f"{self._lines[hit.index][0]}/{hit.name}"

    @cached_property
    def _posed(self) -> list[tuple[Standing, dict[str, Matrix]]]:
        return [
            (one, _moved(fold_transforms(one.net, self._fold, one.outside_gap), one.shell)) for one in self._shelves
        ]

    @cached_property
    def _panels(self) -> Target:
        meshes: dict[str, Mesh] = {}
        places: dict[str, Matrix] = {}
        for one, transforms in self._posed:
            for panel in one.net.panels:
                name = f"{one.shelf.id}/{panel.role}"
                meshes[name], places[name] = panel_mesh(panel, one.thickness), transforms[panel.role]
        return target(meshes, places)

    @cached_property
    def _sticks(self) -> Target:
        meshes: dict[str, Mesh] = {}
        places: dict[str, Matrix] = {}
        for one in self._shelves:
            if one.frame is None:
                continue
            for solid in frame_solids(one.frame, one.shelf, one.thickness):
                box = (*solid.low[:2], *solid.high[:2])
                meshes[solid.part.id] = block(box, box, solid.high[2] - solid.low[2])
                x, y, z = one.home
                places[solid.part.id] = _shift((x, y, z + solid.high[2]))
        return target(meshes, places)

    @cached_property
    def _lines(self) -> list[tuple[str, ToeLines]]:
        return [(one.shelf.id, line) for one, transforms in self._posed for line in toe_lines(one.net, transforms)]


def _moved(transforms: dict[str, Matrix], offset: Offset) -> dict[str, Matrix]:
    shift = _shift(offset)
    return {role: shift @ matrix for role, matrix in transforms.items()}


def _shift(offset: Offset) -> Matrix:
    matrix = np.eye(4)
    matrix[:3, 3] = offset
    return matrix
