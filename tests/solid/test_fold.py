"""Laws of folding: the net closes to its shelf, rigidly, left to left, and its figure stays the sheet's."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Shelf
from core.geometry.fold import closed_frame, fold_transforms, moved, net_toes, toe, toe_lines
from core.geometry.net import EDGES, EdgeName, Joint, Net, NetPanel
from core.solid.mesh import panel_mesh
from tests.conftest import examples
from tests.solid.shelves import Case, case, cases

FRACTIONS = st.floats(0.0, 1.0)
LAW = settings(max_examples=examples(50, 1000))
SAME = 1e-9  # float noise on coordinates of some metres [mm]


def corners(case_: Case, role: str, fraction: float) -> np.ndarray:
    panel = case_.net.panel(role)
    points = np.concatenate([toe(panel, "low_y"), toe(panel, "high_y")])
    return moved(fold_transforms(case_.net, fraction)[role], points)


@LAW
@given(cases())
def test_closed_every_joint_has_its_toes_together(c: Case) -> None:
    lines = toe_lines(c.net, fold_transforms(c.net, 1.0))
    assert {line.joint.name for line in lines} == {joint.name for joint in c.net.joints}
    for line in lines:
        assert np.abs(line.first - line.second).max() < SAME
        assert np.linalg.norm(line.first[1] - line.first[0]) == pytest.approx(line.joint.length)


@LAW
@given(cases(), FRACTIONS)
def test_every_panel_moves_rigidly(c: Case, fraction: float) -> None:
    for matrix in fold_transforms(c.net, fraction).values():
        assert matrix[:3, :3] @ matrix[:3, :3].T == pytest.approx(np.eye(3), abs=1e-12)
        assert np.linalg.det(matrix[:3, :3]) == pytest.approx(1.0)
        assert matrix[3].tolist() == [0.0, 0.0, 0.0, 1.0]


@LAW
@given(cases())
def test_flat_the_net_lies_as_on_the_sheet(c: Case) -> None:
    for matrix in fold_transforms(c.net, 0.0).values():
        assert matrix == pytest.approx(closed_frame(c.net), abs=SAME)


@LAW
@given(cases(), FRACTIONS)
def test_the_front_stays_put(c: Case, fraction: float) -> None:
    assert corners(c, "front", fraction).min(axis=0) == pytest.approx([0.0, 0.0, 0.0])
    assert corners(c, "front", fraction).max(axis=0) == pytest.approx([c.shelf.length, c.shelf.height, 0.0])


@LAW
@given(cases())
def test_closed_the_shelf_has_its_outside_sizes(c: Case) -> None:
    points = np.concatenate([corners(c, p.role, 1.0) for p in c.net.panels])
    assert points.min(axis=0) == pytest.approx([0.0, 0.0, -(c.shelf.depth + c.shelf.scribe)], abs=SAME)
    assert points.max(axis=0) == pytest.approx([c.shelf.length, c.shelf.height, 0.0], abs=SAME)


@LAW
@given(cases())
def test_seen_from_outside_left_is_left_and_the_fronts_upper_edge_meets_the_top(c: Case) -> None:
    length, height, back = c.shelf.length, c.shelf.height, -(c.shelf.depth + c.shelf.scribe)
    place = {
        "left": ([0, 0, back], [0, height, 0]),
        "right": ([length, 0, back], [length, height, 0]),
        "top": ([0, height, back], [length, height, 0]),
        "bottom": ([0, 0, back], [length, 0, 0]),
        "front": ([0, 0, 0], [length, height, 0]),
    }
    for panel in c.net.panels:
        points = corners(c, panel.role, 1.0)
        low, high = place[panel.role]
        assert points.min(axis=0) == pytest.approx(low, abs=SAME)
        assert points.max(axis=0) == pytest.approx(high, abs=SAME)
    edge: EdgeName = "low_y" if c.net.turned else "high_y"
    upper = moved(fold_transforms(c.net, 1.0)["front"], toe(c.net.panel("front"), edge))
    assert upper[:, 1] == pytest.approx([height, height], abs=SAME)


@LAW
@given(cases())
def test_closed_every_show_face_looks_out_and_every_back_is_at_the_wall(c: Case) -> None:
    transforms = fold_transforms(c.net, 1.0)
    outward = {
        "front": (0, 0, 1),
        "top": (0, 1, 0),
        "bottom": (0, -1, 0),
        "left": (-1, 0, 0),
        "right": (1, 0, 0),
    }
    for panel in c.net.panels:
        turn = transforms[panel.role][:3, :3]
        assert turn @ (0, 0, 1) == pytest.approx(outward[panel.role], abs=1e-12)
        for edge in EDGES:
            line = moved(transforms[panel.role], toe(panel, edge))
            at_wall = bool(np.abs(line[:, 2] + c.shelf.depth + c.shelf.scribe).max() < SAME)
            at_open_end = any(
                np.abs(line[:, 0] - x).max() < SAME and end == "open"
                for x, end in ((0.0, c.shelf.left), (c.shelf.length, c.shelf.right))
            )
            assert (panel.bevel(edge) == 0.0) == (at_wall or at_open_end)


@LAW
@given(cases(), FRACTIONS)
def test_over_a_wrapping_seam_the_picture_runs_on_in_line_one_loss_further(c: Case, fraction: float) -> None:
    """The two points of a seam that meet when closed are sheet points one loss apart, at every fold."""
    transforms = fold_transforms(c.net, fraction)
    for joint in (j for j in c.net.joints if j.wraps):
        here, there = net_toes(c.net, joint)
        gap = there - here
        assert np.linalg.norm(gap, axis=1) == pytest.approx([c.section.loss] * 2)
        assert gap @ (here[1] - here[0]) == pytest.approx([0.0, 0.0], abs=1e-6)
        # And that is what is painted there: the picture coordinates of the meshes' own corners.
        for role, points in zip(joint.panels, (here, there), strict=True):
            mesh = panel_mesh(c.net.panel(role), c.section.thickness, (100.0, 50.0))
            shown = mesh.picture[mesh.face("show")].reshape(-1, 2)
            placed = moved(transforms[role], mesh.triangles[mesh.face("show")].reshape(-1, 3))
            for point in points:
                nearest = np.linalg.norm(placed - moved(transforms[role], point), axis=1).argmin()
                assert shown[nearest] == pytest.approx(point[:2] + np.array([100.0, 50.0]))


@LAW
@given(cases(), FRACTIONS)
def test_the_gap_between_hinged_toes_closes_with_the_fold(c: Case, fraction: float) -> None:
    for line in toe_lines(c.net, fold_transforms(c.net, fraction)):
        if line.joint.wraps:
            gap = np.linalg.norm(line.first - line.second, axis=1)
            assert gap == pytest.approx([(1.0 - fraction) * c.section.loss] * 2, abs=SAME)


@LAW
@given(cases(st.floats(-4.0, -0.01)))
def test_an_undercut_stands_open_outside_by_its_gap_with_the_heels_together(c: Case) -> None:
    """At every joint, turning ones too: each child stands off square to its own mitre."""
    for line in toe_lines(c.net, fold_transforms(c.net, 1.0, c.section.outside_gap)):
        assert np.linalg.norm((line.first - line.second).mean(axis=0)) == pytest.approx(c.section.outside_gap)


@settings(max_examples=30)
@given(st.integers(3, 12), st.floats(20.0, 200.0), st.floats(0.5, 4.0))
def test_any_tree_folds_by_its_corners(sides: int, width: float, loss: float) -> None:
    """A regular tube closes on itself. Euclid, Elements I.32, corollary: inner angles 180 - 360 / n."""
    corner = 180.0 - 360.0 / sides
    names = [f"board {i}" for i in range(sides)]
    panels = [
        NetPanel(
            n,
            0.0,
            i * (width + loss),
            500.0,
            width,
            (0.0,) * 4,
            names[i - 1] if i else None,
            "low_y" if i else None,
        )
        for i, n in enumerate(names)
    ]
    joints = [Joint((a, b), ("high_y", "low_y"), 500.0, True, corner) for a, b in pairwise(names)]
    net = Net("tube", tuple(panels), tuple(joints), 500.0, sides * (width + loss) - loss, loss)
    transforms = fold_transforms(net, 1.0)
    last = moved(transforms[names[-1]], toe(panels[-1], "high_y"))
    assert last[::-1] == pytest.approx(toe(panels[0], "low_y"), abs=1e-9)


def test_a_fold_past_closed_a_lost_parent_and_a_hinge_without_a_joint_are_refused() -> None:
    net = case(Shelf("s", 1000.0, 200.0, 80.0)).net
    with pytest.raises(ValueError, match=r"1\.1"):
        fold_transforms(net, 1.1)
    with pytest.raises(ValueError, match="not there yet"):
        fold_transforms(Net("s", net.panels[::-1], net.joints, net.length, net.width, net.loss), 0.5)
    with pytest.raises(ValueError, match="no joint"):
        fold_transforms(Net("s", net.panels, (), net.length, net.width, net.loss), 0.5)
