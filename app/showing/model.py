"""The shelves as a glTF model: a thing for each shelf and for each panel of it, their sheets' own faces on them."""

from __future__ import annotations

import io
from typing import Final

import msgspec
import numpy as np
from numpy.typing import NDArray

from app.fold.edges import edge_levels
from app.fold.meshes import Group, fold_matrices, net_solids
from app.fold.pose import Pose
from app.fold.scene import EDGE_SPAN, EdgeKey
from app.fold.standing import Home, Standing, standing
from app.showing.raster import Bytes, Stop, Told, never
from app.showing.still import FOR_WOOD, FaceOf
from app.showing.wish import Showing
from core import __version__
from core.export.glb import Node, Part, Skin, glb_bytes
from core.face import StoppedError
from core.face.finish import Finish, finished
from core.plan.model import Plan

Floats = NDArray[np.float64]
Key = str | EdgeKey

QUALITY: Final = 92  # of the JPEG on a face
ROUGHNESS: Final[dict[Finish, float]] = {"raw": 0.85, "oiled": 0.55}
GENERATOR: Final = f"Grainfold {__version__}"


def model_bytes(plan: Plan, wish: Showing, face_of: FaceOf, stop: Stop = never, told: Told | None = None) -> bytes:
    """The GLB file, in metres. Raises StoppedError once `stop` says True."""
    shelves = standing(plan, Pose(wall=wish.is_wall), wish.shelf)
    sheets = {home.sheet.id: home.sheet for one in shelves for home in one.homes}
    skins: dict[Key, Skin] = {}
    for number, sheet in enumerate(sheets.values()):
        if stop():
            raise StoppedError
        skins[sheet.id] = _skin(sheet.id, finished(face_of(sheet), wish.finish), wish.finish)
        if told is not None:
            told(FOR_WOOD + (1.0 - FOR_WOOD) * (number + 1) / len(sheets))
    roots = []
    for one in shelves:
        for crosswise in (False, True):
            key = _edge_key(one, one.homes[0], crosswise=crosswise)
            if key not in skins:
                wood = finished(edge_levels(key)[0], wish.finish)
                name = f"edge {len(skins) - len(sheets) + 1}"
                skins[key] = msgspec.structs.replace(_skin(name, wood, wish.finish), repeats=True)
        roots.append(_shelf(one, list(skins)))
    if stop():
        raise StoppedError
    return glb_bytes(roots, list(skins.values()), GENERATOR)


def _skin(name: str, wood: Bytes, finish: Finish) -> Skin:
    from PIL import Image

    stream = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(wood)).save(stream, "JPEG", quality=QUALITY, subsampling=0)
    return Skin(name, stream.getvalue(), roughness=ROUGHNESS[finish])


def _edge_key(one: Standing, home: Home, *, crosswise: bool) -> EdgeKey:
    return EdgeKey(one.thickness, home.sheet.source.veneer, crosswise)


def _shelf(one: Standing, keys: list[Key]) -> Node:
    """One shelf, closed, where it stands."""
    solids = net_solids(one.net, one.thickness)
    matrices = fold_matrices(one.net, 1.0, one.outside_gap)
    rows = solids.rows.copy()
    rows[:, :3] = matrices.moved(rows[:, :3], solids.owner) + one.shell
    rows[:, 3:6] = matrices.turned(rows[:, 3:6], solids.owner)
    panels = []
    for number, panel in enumerate(one.net.panels):
        home = one.homes[1 + one.net.apart.index(panel.role) if panel.role in one.net.apart else 0]
        parts = tuple(
            _part(group, rows[run][solids.owner[run] == number], one, home, keys) for group, run in solids.runs.items()
        )
        extras = {"sheet": home.sheet.id, "length_mm": panel.length, "width_mm": panel.width}
        panels.append(Node(f"{one.shelf.id}/{panel.role}", parts, extras=extras))
    sizes = {"length_mm": one.shelf.length, "depth_mm": one.shelf.depth, "height_mm": one.shelf.height}
    return Node(one.shelf.id, of=tuple(panels), extras=sizes)


def _part(group: Group, rows: Floats, one: Standing, home: Home, keys: list[Key]) -> Part:
    """The faces of one kind of one panel; texture coordinates as everywhere, see `app.fold.scene`."""
    at = rows[:, 6:].copy()
    if group in ("show", "inside"):
        at = (at + home.origin) / (home.sheet.length, home.sheet.width)
        at[:, 1] = 1.0 - at[:, 1]
        key: Key = home.sheet.id
    else:
        at /= (EDGE_SPAN, one.thickness)
        key = _edge_key(one, one.homes[0], crosswise=group == "cross")
    return Part(keys.index(key), rows[:, :3], rows[:, 3:6], at)
