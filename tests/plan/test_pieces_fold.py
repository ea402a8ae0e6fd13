"""The replayed pieces themselves, folded up as solids in an outside modeller (manifold3d, 64-bit meshes)."""

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from core.document.model import Project, Saw, Sheet, Shelf
from core.geometry.fold import fold_transforms
from core.plan.make import make_plan
from core.plan.model import Plan
from core.plan.proof import prove
from core.sawing.piece import Piece
from tests.conftest import examples
from tests.strategies import cut_apart

m3 = pytest.importorskip("manifold3d")

shelves = st.builds(
    Shelf,
    id=st.just("s"),
    length=st.floats(300, 1500),
    depth=st.floats(120, 320),
    height=st.floats(60, 140),
    left=st.sampled_from(["mitred", "open"]),
    right=st.sampled_from(["mitred", "open"]),
    ends_from=st.sampled_from(["front", "top", "bottom"]),
    scribe=st.sampled_from([0.0, 6.0]),
    turned=st.booleans(),
).flatmap(
    lambda shelf: cut_apart(shelf.left, shelf.right, shelf.ends_from).map(
        lambda apart: msgspec.structs.replace(shelf, apart=apart)
    )
)
thicknesses = st.floats(6.0, 25.0)


def plan_of(shelf: Shelf, thickness: float, overcut: float) -> Plan:
    sheet = Sheet("A", 3000.0, 1500.0, thickness)
    return make_plan(Project((sheet,), (shelf,), saw=Saw(overcut=overcut, allowance=0.4)))


def hull(piece: Piece, t: float) -> NDArray[np.float64]:
    """The eight corners of a piece whose sides are single planes; z = 0 the show face, z = -t the inside face."""
    assert len(piece.x_low) == len(piece.x_high) == len(piece.y_low) == len(piece.y_high) == 1
    show, inside = piece.show_box(), piece.inside_box()
    corners = [(x, y, z) for f, z in ((show, 0.0), (inside, -t)) for x in (f[0], f[2]) for y in (f[1], f[3])]
    return np.array(corners)


def folded(plan: Plan) -> dict[str, "m3.Manifold"]:
    """Each panel's own piece, from where it lay on the sheet, closed to its corners."""
    pieces = prove(plan).pieces
    net = plan.shapes[0]
    transforms = fold_transforms(net, 1.0)
    solids = {}
    for panel in plan.panels:
        assert panel.piece is not None
        assert panel.x is not None
        assert panel.y is not None
        lies, home = np.array([panel.x, panel.y, 0.0]), net.panel(panel.role)
        points = hull(pieces[panel.piece], panel.thickness) - lies + np.array([home.x, home.y, 0.0])
        matrix = transforms[panel.role]
        solids[panel.role] = m3.Manifold.hull_points(points @ matrix[:3, :3].T + matrix[:3, 3])
    return solids


@settings(max_examples=examples(30, 500))
@given(shelves, thicknesses)
def test_at_overcut_0_the_pieces_fill_the_box_less_the_cavity(shelf: Shelf, t: float) -> None:
    solids = folded(plan_of(shelf, t, 0.0))
    n, depth = shelf.mitred_ends, shelf.depth + shelf.scribe
    box = m3.Manifold.cube([shelf.length, shelf.height, depth]).translate([0, 0, -depth])
    x0 = t if shelf.left == "mitred" else 0.0
    hollow = m3.Manifold.cube([shelf.length - n * t, shelf.height - 2 * t, depth - t]).translate([x0, t, -depth])
    want = box - hollow
    volume = want.volume()
    assert sum(s.volume() for s in solids.values()) == pytest.approx(volume, rel=1e-6)  # no overlap, nothing missing
    together = m3.Manifold.batch_boolean(list(solids.values()), m3.OpType.Add)
    assert (want - together).volume() == pytest.approx(0.0, abs=1e-6 * volume)
    assert (together - want).volume() == pytest.approx(0.0, abs=1e-6 * volume)


@settings(max_examples=examples(30, 500))
@given(shelves, thicknesses, st.floats(0.1, 2.0))
def test_overcut_leaves_wedges_of_the_stated_section(shelf: Shelf, t: float, overcut: float) -> None:
    """Open ends: two straight wedges along the whole length, and the square-cut ends leave nothing else open."""
    strips = tuple(role for role in shelf.apart if role in ("top", "bottom"))
    open_ended = msgspec.structs.replace(shelf, left="open", right="open", apart=strips)
    plan = plan_of(open_ended, t, overcut)
    solids = folded(plan)
    depth = shelf.depth + shelf.scribe
    box = m3.Manifold.cube([shelf.length, shelf.height, depth]).translate([0, 0, -depth])
    together = m3.Manifold.batch_boolean(list(solids.values()), m3.OpType.Add)
    assert sum(s.volume() for s in solids.values()) == pytest.approx(together.volume(), rel=1e-9)
    seam = next(s for s in plan.seams if s.id.endswith("top-front"))
    top, front = solids["top"], solids["front"]
    tan_b = (plan.panels[0].show[1] - plan.panels[0].inside[1]) / (2 * t)
    heel_top, heel_front = (shelf.height - t, -t * tan_b), (shelf.height - t * tan_b, -t)
    prism = m3.Manifold.hull_points(
        np.array([(x, y, z) for x in (0.0, shelf.length) for y, z in ((shelf.height, 0.0), heel_top, heel_front)])
    )
    assert prism.volume() == pytest.approx(seam.wedge_area * shelf.length, rel=1e-6)
    assert ((top ^ prism).volume(), (front ^ prism).volume()) == (
        pytest.approx(0.0, abs=1e-6 * box.volume()),
        pytest.approx(0.0, abs=1e-6 * box.volume()),
    )


@settings(max_examples=examples(20, 200))
@given(shelves)
def test_left_is_left_and_the_fronts_upper_edge_meets_the_top(shelf: Shelf) -> None:
    solids = folded(plan_of(shelf, 12.0, 0.0))
    centre = {role: s.bounding_box() for role, s in solids.items()}  # x0 y0 z0 x1 y1 z1, viewer at high z
    assert centre["top"][1] > centre["front"][1]
    assert centre["bottom"][4] < centre["front"][4]
    assert centre["front"][5] == pytest.approx(0.0, abs=1e-9)
    if "left" in centre:
        assert centre["left"][0] == pytest.approx(0.0, abs=1e-6)
    if "right" in centre:
        assert centre["right"][3] == pytest.approx(shelf.length, abs=1e-6)
    line = shelf.height  # the seam at the front's upper edge
    assert centre["top"][4] == pytest.approx(line, abs=1e-6)
    assert centre["front"][4] == pytest.approx(line, abs=1e-6)
