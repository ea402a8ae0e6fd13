"""A sawn piece against an outside solid modeller (manifold3d): the same cuts as half-spaces, the same wood."""

from math import cos, radians, tan

import manifold3d as m3
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sawing.piece import Piece, has_wood, saw_piece, volume, whole_sheet, width_at
from tests.conftest import examples

LENGTH, WIDTH = 300.0, 200.0
HUGE = 4000.0

cuts = st.lists(
    st.tuples(
        st.sampled_from(["x", "y"]),
        st.floats(0.0, 1.0),
        st.sampled_from([0.0, 44.0, 45.0, 47.0]),
        st.sampled_from(["low", "high"]),
        st.sampled_from(["low", "high"]),  # which side is cut on
    ),
    min_size=1,
    max_size=6,
)


def blade(axis: str, at: float, keep: str, t: float, kerf: float, bevel: float) -> m3.Manifold:
    """The blade as a slab, from its definition: the show-face line at z = 0, the inside face at z = -t."""
    setback, footprint = t * tan(radians(bevel)), kerf / cos(radians(bevel))
    top = (at, at + footprint) if keep == "low" else (at - footprint, at)
    shift = -setback if keep == "low" else setback
    deep = 3.0  # the slab runs on above the show face and below the inside face
    corners = []
    for z, lean in ((deep * t, -deep * shift), (-(1 + deep) * t, (1 + deep) * shift)):
        for edge in top:
            corners += [(edge + lean, across, z) for across in (-HUGE, HUGE)]
    points = np.array(corners)
    return m3.Manifold.hull_points(points if axis == "x" else points[:, [1, 0, 2]])


def solid(piece: Piece, t: float) -> m3.Manifold:
    """A piece as a solid, from its planes."""
    body = m3.Manifold.cube([HUGE, HUGE, t], True).translate([0, 0, -t / 2])
    for axis, side, sign in (
        ("x", piece.x_low, 1),
        ("x", piece.x_high, -1),
        ("y", piece.y_low, 1),
        ("y", piece.y_high, -1),
    ):
        for show, inside in side:
            slope = (show - inside) / t  # along the axis for each mm of z
            normal = np.array([sign, 0.0, -sign * slope] if axis == "x" else [0.0, sign, -sign * slope])
            length = float(np.linalg.norm(normal))
            body = body.trim_by_plane(list(normal / length), sign * show / length)
    return body


@settings(max_examples=examples(60, 1000))
@given(cuts, st.floats(6.0, 40.0), st.floats(0.8, 5.0))
def test_sawing_takes_exactly_the_blade(plan: list[tuple[str, float, float, str, str]], t: float, kerf: float) -> None:
    piece = whole_sheet("A", LENGTH, WIDTH)
    wood = m3.Manifold.cube([LENGTH, WIDTH, t]).translate([0, 0, -t])
    for axis, share, bevel, keep, go_on in plan:
        at = share * (LENGTH if axis == "x" else WIDTH)
        setback, footprint = t * tan(radians(bevel)), kerf / cos(radians(bevel))
        low, high = saw_piece(piece, axis, at, keep, setback, footprint, ("l", "h"))
        rest = wood - blade(axis, at, keep, t, kerf, bevel)
        mine = sum(volume(p, t) for p in (low, high) if p is not None)
        assert mine == pytest.approx(rest.volume(), rel=1e-6, abs=1e-3)
        for side in (low, high):
            if side is not None:
                other = solid(side, t)
                assert volume(side, t) == pytest.approx(other.volume(), rel=1e-6, abs=1e-3)
                assert (other - rest).volume() == pytest.approx(0.0, abs=1e-3)  # it lies where the wood is
        chosen = low if go_on == "low" else high
        if chosen is None:
            return
        piece, wood = chosen, solid(chosen, t)


def test_a_v_leaves_a_triangle_only_where_the_blades_leave_wood() -> None:
    """The second kerf is set on the new arris: the falling triangle's base is 2 q - k / cos b + c (common practice)."""
    t, kerf, allowance = 18.2, 2.2, 0.4
    setback, footprint = t * tan(radians(45.0)), kerf / cos(radians(45.0))
    low, high = saw_piece(whole_sheet("A", 400, 300), "y", 150.0, "high", setback, footprint, ("l", "h"))
    assert low is not None
    assert high is not None
    kept, triangle = saw_piece(low, "y", 150.0 - footprint - allowance, "low", setback, footprint, ("k", "t"))
    assert kept is not None
    assert triangle is not None
    assert width_at(triangle, "y", 0.0) < 0
    assert width_at(triangle, "y", 1.0) == pytest.approx(2 * setback - footprint + allowance)
    thin, none = saw_piece(low, "y", 150.0 - footprint, "low", 0.4 * footprint, footprint, ("k", "t"))
    assert thin is not None
    assert none is not None  # the shallower blade leaves a thin strip standing
    gone = saw_piece(whole_sheet("A", 400, 300), "y", 299.0, "low", 0.0, 2.2, ("k", "t"))
    assert gone[1] is None


def test_wood_only_where_both_directions_have_some_at_one_depth() -> None:
    """A wedge that ends where the other begins holds no wood, though each direction is wide somewhere."""
    cross = Piece("p", ((0.0, 2.0),), ((1.0, 1.0),), ((2.0, 0.0),), ((1.0, 1.0),))
    assert not has_wood(cross)
    assert has_wood(Piece("p", ((0.0, 2.0),), ((1.0, 1.0),), ((0.0, 2.0),), ((1.0, 1.0),)))
