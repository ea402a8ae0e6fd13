"""A panel's mesh: closed, outward, of the right volume, with picture coordinates that do not stretch."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from core.geometry.fold import fold_transforms, moved
from core.geometry.net import EDGES, NetPanel, inside_size
from core.solid.mesh import FACES, block, panel_mesh, panel_setbacks
from tests.conftest import examples
from tests.solid.shelves import Case, cases

LAW = settings(max_examples=examples(50, 1000))
SIZES = st.floats(1.0, 3000.0)
BEVELS = st.tuples(*[st.one_of(st.just(0.0), st.floats(0.0, 60.0))] * 4)


@st.composite
def panels(draw: st.DrawFn) -> NetPanel:
    """Any box with any bevels, narrow ones whose bevels meet included."""
    at = st.floats(-500.0, 500.0)
    return NetPanel("p", draw(at), draw(at), draw(SIZES), draw(SIZES), draw(BEVELS))


def prismatoid(panel: NetPanel, thickness: float) -> float:
    """Volume between show and inside face, t (A0 + 4 Am + A1) / 6 (area quadratic in depth)."""
    area = []
    for part in (0.0, 0.5, 1.0):
        low_x, high_x, low_y, high_y = (part * s for s in panel_setbacks(panel, thickness))
        length, width = inside_size(panel, (low_x, high_x, low_y, high_y))
        area.append(length * width)
    return thickness * (area[0] + 4.0 * area[1] + area[2]) / 6.0


def depth_of(panel: NetPanel, thickness: float) -> float:
    """How deep the panel goes: to the inside face, or to where two opposite bevels meet."""
    low_x, high_x, low_y, high_y = panel_setbacks(panel, thickness)
    parts = [1.0]
    parts += [panel.length / (low_x + high_x)] if low_x + high_x else []
    parts += [panel.width / (low_y + high_y)] if low_y + high_y else []
    return thickness * min(parts)


@LAW
@given(panels(), st.floats(3.0, 40.0))
def test_the_volume_is_the_prismatoids(panel: NetPanel, thickness: float) -> None:
    expected = prismatoid(panel, depth_of(panel, thickness))
    assert panel_mesh(panel, thickness).volume == pytest.approx(expected, rel=1e-9, abs=1e-6)


@LAW
@given(panels(), st.floats(3.0, 40.0))
def test_the_mesh_is_watertight_and_looks_outwards(panel: NetPanel, thickness: float) -> None:
    mesh = panel_mesh(panel, thickness)
    checked = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert checked.is_watertight
    assert checked.is_winding_consistent
    assert checked.volume > 0.0
    assert checked.volume == pytest.approx(mesh.volume)


@LAW
@given(panels(), st.floats(3.0, 40.0))
def test_every_face_tag_looks_its_own_way_at_its_own_tilt(panel: NetPanel, thickness: float) -> None:
    mesh = panel_mesh(panel, thickness)
    way = dict(
        zip(
            FACES,
            np.array([(0, 0, 1), (0, 0, -1), (-1, 0, 0), (1, 0, 0), (0, -1, 0), (0, 1, 0)]),
            strict=True,
        )
    )
    for tag, normal in zip(mesh.tags, mesh.normals, strict=True):
        face = FACES[tag]
        if face in EDGES:  # a bevel's normal leans towards the inside by its tilt
            tilt = np.radians(panel.bevel(face))
            expected = np.cos(tilt) * way[face] - np.sin(tilt) * np.array([0, 0, 1])
        else:
            expected = way[face]
        assert normal == pytest.approx(expected, abs=1e-6)


@LAW
@given(panels(), st.floats(3.0, 40.0), st.tuples(st.floats(0.0, 2000.0), st.floats(0.0, 1000.0)))
def test_picture_coordinates_are_the_sheets_and_on_edges_place_and_depth(
    panel: NetPanel, thickness: float, origin: tuple[float, float]
) -> None:
    mesh = panel_mesh(panel, thickness, origin)
    sheet = mesh.triangles + np.array([*origin, 0.0])
    for tag, corners, picture in zip(mesh.tags, sheet, mesh.picture, strict=True):
        face = FACES[tag]
        if face in EDGES:
            along = 1 if face.endswith("x") else 0
            assert picture == pytest.approx(np.stack([corners[:, along], -corners[:, 2]], axis=1))
        else:
            assert picture == pytest.approx(corners[:, :2])


@LAW
@given(cases(), st.floats(0.0, 1.0))
def test_solids_keep_their_volume_at_every_fold(c: Case, fraction: float) -> None:
    transforms = fold_transforms(c.net, fraction)
    for panel in c.net.panels:
        mesh = panel_mesh(panel, c.section.thickness)
        turned = trimesh.Trimesh(moved(transforms[panel.role], mesh.vertices), mesh.faces, process=False)
        assert turned.volume == pytest.approx(mesh.volume, rel=1e-9)


def test_a_panel_whose_bevels_meet_ends_in_a_ridge() -> None:
    """20 mm wide with two edges at 45 degrees: a roof 10 mm deep, section 10 x 20 / 2."""
    panel = NetPanel("p", 0.0, 0.0, 300.0, 20.0, (0.0, 0.0, 45.0, 45.0))
    mesh = panel_mesh(panel, 18.0)
    assert mesh.volume == pytest.approx(300.0 * 10.0 * 20.0 / 2.0)
    assert mesh.vertices[:, 2].min() == pytest.approx(-10.0)
    assert not mesh.face("inside").any()


def test_a_sawn_piece_is_the_panel_it_should_be() -> None:
    panel = NetPanel("p", 10.0, 20.0, 300.0, 200.0, (45.5, 0.0, 45.5, 0.0))
    back = panel_setbacks(panel, 18.2)
    sawn = block(panel.box, (10.0 + back[0], 20.0 + back[2], 310.0, 220.0), 18.2)
    assert sawn.vertices == pytest.approx(panel_mesh(panel, 18.2).vertices)


def test_the_arrays_of_a_mesh_cannot_be_changed_under_its_other_users() -> None:
    mesh = panel_mesh(NetPanel("p", 0.0, 0.0, 300.0, 200.0, (0.0,) * 4), 18.0)
    with pytest.raises(ValueError, match="read-only"):
        mesh.vertices[0, 0] = 1.0
