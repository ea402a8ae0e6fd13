"""The glTF model read back by a library that knows nothing of this program (trimesh)."""

from __future__ import annotations

import io
import json
import struct

import msgspec
import numpy as np
import pytest
import trimesh

from app.showing.model import model_bytes
from app.showing.wish import Showing
from core.document.model import Mount, Saw, Sheet, Shelf
from core.face import StoppedError
from core.plan.model import Plan
from tests.fold.scenes import SHELVES, plan_of
from tests.showing.test_picture import spots

SHELF = Shelf("hall", 700.0, 180.0, 70.0, mount=Mount(200.0, 1400.0))
FROM_TOP = Shelf("attic", 640.0, 150.0, 60.0, right="open", ends_from="top", scribe=4.0, mount=Mount(300.0, 1800.0))
APART = Shelf("apart", 600.0, 140.0, 80.0, apart=("bottom",))
TURNED = Shelf("over", 640.0, 150.0, 60.0, right="open", ends_from="top", turned=True, apart=("bottom",))
STOCK = Sheet("ply", 2000.0, 900.0)
SHARP = Saw(overcut=0.0)


def loaded(plan: Plan, wish: Showing) -> trimesh.Scene:
    return trimesh.load(io.BytesIO(model_bytes(plan, wish, spots)), file_type="glb")


def pieces(scene: trimesh.Scene) -> dict[str, list[trimesh.Trimesh]]:
    """The meshes of each panel, where they stand: by shelf and role."""
    found: dict[str, list[trimesh.Trimesh]] = {}
    for node in scene.graph.nodes_geometry:
        matrix, name = scene.graph[node]
        mesh = scene.geometry[name].copy()
        mesh.apply_transform(matrix)
        found.setdefault(name.partition("_")[0], []).append(mesh)
    return found


@pytest.mark.parametrize("shelf", [SHELF, FROM_TOP, APART, TURNED])
def test_it_is_as_large_as_the_shelf_and_stands_as_gltf_has_it(shelf: Shelf) -> None:
    """Metres; x along, y up, the front towards +z (glTF 2.0, 3.4 "Coordinate System and Units")."""
    plan = plan_of(shelf, stock=STOCK, saw=SHARP)
    scene = loaded(plan, Showing(shelf.id))
    sizes = scene.bounds[1] - scene.bounds[0]
    assert sizes == pytest.approx(np.array([shelf.length, shelf.height, shelf.depth + shelf.scribe]) / 1000.0, abs=1e-6)
    top = np.concatenate([mesh.vertices for mesh in pieces(scene)[f"{shelf.id}/top"]])
    front = np.concatenate([mesh.vertices for mesh in pieces(scene)[f"{shelf.id}/front"]])
    assert top[:, 1].max() == pytest.approx(scene.bounds[1][1])
    assert front[:, 2].max() == pytest.approx(scene.bounds[1][2])


@pytest.mark.parametrize("shelf", [SHELF, FROM_TOP, APART, TURNED])
def test_its_panels_are_the_plans(shelf: Shelf) -> None:
    """One closed solid each, of the volume that its show and inside face give a frustum of that thickness."""
    plan = plan_of(shelf, stock=STOCK, saw=SHARP)
    found = pieces(loaded(plan, Showing(shelf.id)))
    panels = {panel.id: panel for panel in plan.panels}
    assert set(found) == set(panels)
    for name, meshes in found.items():
        panel, whole = panels[name], trimesh.util.concatenate(meshes)
        whole.merge_vertices(merge_tex=True, merge_norm=True)
        assert whole.is_watertight
        (a, b), (c, d) = panel.show, panel.inside
        frustum = STOCK.thickness / 6.0 * (a * b + c * d + (a + c) * (b + d))  # prismatoid
        assert whole.volume == pytest.approx(frustum / 1e9, rel=1e-4)


@pytest.mark.parametrize("shelf", [SHELF, FROM_TOP, APART, TURNED])
def test_texture_coordinates_are_the_plans(shelf: Shelf) -> None:
    """Of show faces: the corners of the panel as the plan file has it on its sheet. trimesh counts v from below."""
    plan = plan_of(shelf, stock=STOCK, saw=SHARP)
    scene = loaded(plan, Showing(shelf.id))
    sheets = {sheet.id: sheet for sheet in plan.sheets}
    for name, meshes in pieces(scene).items():
        panel = next(one for one in plan.panels if one.id == name)
        assert panel.x is not None
        assert panel.y is not None
        sheet = sheets[panel.sheet or ""]
        wood = [mesh for mesh in meshes if mesh.visual.material.name == sheet.id]
        corners = {
            (round(x / sheet.length, 5), round(y / sheet.width, 5))
            for x in (panel.x, panel.x + panel.show[0])
            for y in (panel.y, panel.y + panel.show[1])
        }
        faces = [{tuple(uv) for uv in np.round(mesh.visual.uv, 5).tolist()} for mesh in wood]
        assert corners in faces, name


@pytest.mark.parametrize("turned", [False, True])
def test_across_a_seam_that_wraps_the_wood_is_one_loss_apart(turned: bool) -> None:
    """Corners of two panels that meet in space: their texture coordinates are one seam's loss apart on the sheet."""
    plan = plan_of(msgspec.structs.replace(SHELF, turned=turned), stock=STOCK, saw=SHARP)
    found = pieces(loaded(plan, Showing(SHELF.id)))
    checked = 0
    for seam in plan.seams:
        if seam.figure != "wraps":
            continue
        sides = []
        for panel in seam.between:
            wood = [mesh for mesh in found[panel] if mesh.visual.material.name == "ply1"]
            sides.append(
                [
                    (p, uv * (2000.0, 900.0))
                    for mesh in wood
                    for p, uv in zip(mesh.vertices, mesh.visual.uv, strict=True)
                ]
            )
        pairs = [(a[1], b[1]) for a in sides[0] for b in sides[1] if np.abs(a[0] - b[0]).max() < 1e-6]
        steps = [float(np.hypot(*(a - b))) for a, b in pairs]
        assert any(step == pytest.approx(seam.show_loss, abs=0.02) for step in steps), seam.id
        checked += 1
    assert checked == 4


def test_the_picture_on_it_is_the_sheets_face() -> None:
    plan = plan_of(SHELF, stock=STOCK, saw=SHARP)
    scene = loaded(plan, Showing(SHELF.id))
    material = next(m.visual.material for m in scene.geometry.values() if m.visual.material.name == "ply1")
    image = np.asarray(material.baseColorTexture.convert("RGB")).astype(int)
    assert np.abs(image - spots(plan.sheets[0]).astype(int)).mean() < 2.0  # JPEG
    assert material.metallicFactor == 0.0
    oiled = loaded(plan, Showing(SHELF.id, "oiled"))
    skin = next(m.visual.material for m in oiled.geometry.values() if m.visual.material.name == "ply1")
    assert skin.roughnessFactor < material.roughnessFactor
    assert np.asarray(skin.baseColorTexture.convert("RGB")).mean() < image.mean() - 5


def test_all_shelves_hang_where_the_wall_has_them() -> None:
    plan = plan_of(*SHELVES)
    found = pieces(loaded(plan, Showing()))
    for shelf in SHELVES:
        assert shelf.mount is not None
        front = np.concatenate([mesh.vertices for mesh in found[f"{shelf.id}/front"]])
        low = 1000.0 * front.min(axis=0)
        assert low[0] == pytest.approx(shelf.mount.x, abs=0.5)
        assert low[1] == pytest.approx(shelf.mount.top - shelf.height, abs=0.5)


def test_the_container_is_as_the_standard_has_it() -> None:
    """glTF 2.0, "GLB File Format": header, chunk lengths, alignment, and bounds of places as they are stored."""
    data = model_bytes(plan_of(SHELF, stock=STOCK), Showing(SHELF.id), spots)
    magic, version, size = struct.unpack("<4sII", data[:12])
    assert (magic, version, size) == (b"glTF", 2, len(data))
    length, kind = struct.unpack("<I4s", data[12:20])
    assert kind == b"JSON"
    assert length % 4 == 0
    head = json.loads(data[20 : 20 + length])
    rest, kind = struct.unpack("<I4s", data[20 + length : 28 + length])
    assert (kind, rest) == (b"BIN\0", head["buffers"][0]["byteLength"])
    binary = data[28 + length :]
    assert len(binary) == rest
    for mesh in head["meshes"]:
        for part in mesh["primitives"]:
            places = head["accessors"][part["attributes"]["POSITION"]]
            view = head["bufferViews"][places["bufferView"]]
            assert view["byteOffset"] % 4 == 0
            values = np.frombuffer(binary, "<f4", 3 * places["count"], view["byteOffset"]).reshape(-1, 3)
            assert values.min(axis=0).tolist() == places["min"]
            assert values.max(axis=0).tolist() == places["max"]
            indices = head["accessors"][part["indices"]]
            view = head["bufferViews"][indices["bufferView"]]
            order = np.frombuffer(binary, "<u4", indices["count"], view["byteOffset"])
            assert order.max() == places["count"] - 1
    for node in head["nodes"]:
        assert "/" not in node["name"] or node["extras"]["sheet"] == "ply1"


def test_it_can_be_stopped() -> None:
    with pytest.raises(StoppedError):
        model_bytes(plan_of(SHELF, stock=STOCK), Showing(SHELF.id), spots, stop=lambda: True)
