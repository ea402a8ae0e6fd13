"""The five panels together, checked with another library's solids: nothing missing, nothing twice."""

from __future__ import annotations

from math import radians, sin, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Manifold, OpType

from core.document.model import Shelf
from core.geometry.fold import fold_transforms, moved
from core.geometry.net import EDGES, EdgeName, NetPanel
from core.solid.mesh import panel_mesh
from tests.conftest import examples
from tests.solid.shelves import Case, case, cases
from tests.solid.solids import folded, hollow_box, shared

LAW = settings(max_examples=examples(30, 500))
CLOSE = 1e-6  # share of the shell's volume


@LAW
@given(cases(st.just(0.0)))
def test_closed_without_overcut_the_panels_fill_the_box_less_the_cavity(c: Case) -> None:
    solids = folded(c, 1.0)
    whole = hollow_box(c)
    assert sum(s.volume() for s in solids.values()) == pytest.approx(whole, rel=CLOSE)
    assert Manifold.batch_boolean(list(solids.values()), OpType.Add).volume() == pytest.approx(whole, rel=CLOSE)
    assert shared(solids) < CLOSE * whole


@LAW
@given(cases(st.floats(0.0, 3.0)), st.floats(0.0, 1.0))
def test_no_fold_puts_two_panels_in_one_place(c: Case, fraction: float) -> None:
    assert shared(folded(c, fraction)) < CLOSE * hollow_box(c)


@LAW
@given(cases(st.floats(-3.0, -0.05)))
def test_an_undercut_with_its_gap_open_shares_no_wood(c: Case) -> None:
    assert shared(folded(c, 1.0, c.section.outside_gap)) < CLOSE * hollow_box(c)


@LAW
@given(st.floats(-3.0, -0.05), st.floats(10.0, 25.0))
def test_an_undercut_forced_to_a_true_corner_would_share_a_wedge(overcut: float, thickness: float) -> None:
    """Toes together, bevels of 45 - d each overlap by a wedge of angle 2 d, section l^2 sin(2 d) / 2."""
    c = case(Shelf("s", 1200.0, 220.0, 90.0, "open", "open"), thickness, overcut=overcut)
    section = c.section.bevel_face**2 * sin(radians(-2.0 * overcut)) / 2.0
    # Beyond the line between the two heels the panels go on to where their inside faces cross.
    beyond = (thickness - thickness * tan(radians(c.section.bevel))) ** 2 / 2.0
    assert shared(folded(c, 1.0)) == pytest.approx(2.0 * c.shelf.length * (section + beyond), rel=1e-6)


@LAW
@given(st.floats(0.05, 3.0), st.floats(10.0, 25.0), st.floats(0.0, 12.0))
def test_overcut_leaves_the_stated_wedge_along_an_open_ended_shelf(
    overcut: float, thickness: float, scribe: float
) -> None:
    """Exact where there are no corners: box less cavity less panels = wedges less what is cavity."""
    c = case(Shelf("s", 1200.0, 220.0, 90.0, "open", "open", scribe=scribe), thickness, overcut=overcut)
    solids = folded(c, 1.0)
    # The wedge runs from the toe to the line between the heels, which lies inside the cavity's corner.
    heel = thickness * (tan(radians(c.section.bevel)) - 1.0)
    missing = hollow_box(c) - sum(s.volume() for s in solids.values())
    assert missing == pytest.approx(2.0 * c.shelf.length * (c.section.wedge_area - heel * heel / 2.0), rel=1e-6)


@LAW
@given(cases(st.floats(0.05, 3.0)))
def test_overcut_leaves_the_stated_wedge_along_every_straight_seam(c: Case) -> None:
    """Between the two bevel faces of a joint, away from the corners, lies the wedge and no wood."""
    transforms = fold_transforms(c.net, 1.0)
    solids = folded(c, 1.0)
    for joint in c.net.joints:
        ends = [
            _bevel_face(c.net.panel(role), edge, c.section.thickness, transforms[role])
            for role, edge in zip(joint.panels, joint.edges, strict=True)
        ]
        wedge = Manifold.hull_points(np.concatenate(ends))
        toes = ends[0][:2]
        middle, way = toes.mean(axis=0), (toes[1] - toes[0]) / np.linalg.norm(toes[1] - toes[0])
        straight = joint.length - 2.0 * c.section.setback
        cut = wedge.trim_by_plane(way, way @ middle - straight / 2.0).trim_by_plane(
            -way, -(way @ middle + straight / 2.0)
        )
        assert cut.volume() == pytest.approx(c.section.wedge_area * straight, rel=1e-5)
        for role in joint.panels:
            assert (cut ^ solids[role]).volume() < 1e-6 * cut.volume() + 1e-3


def _bevel_face(panel: NetPanel, edge: EdgeName, thickness: float, transform: np.ndarray) -> np.ndarray:
    """Corners of one edge's face in shelf space, the two on the toe first."""
    mesh = panel_mesh(panel, thickness)
    points = mesh.vertices[np.unique(mesh.faces[mesh.face(edge)])]
    assert edge in EDGES
    return moved(transform, points[np.argsort(-points[:, 2], kind="stable")])
