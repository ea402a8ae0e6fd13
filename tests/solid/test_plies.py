"""Plies against the published layup of birch plywood, and the laws any layup keeps."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.solid.plies import INNER_PLY, plies, ply_count

# Handbook of Finnish Plywood (2002) as quoted in a formwork maker's data sheet: ply count and mean bending
# stiffness along and across the face grain [N/mm2] by nominal thickness; faces sanded to 1.1 mm, inner plies 1.4.
BIRCH = {
    9: (7, 11395, 6105),
    12: (9, 10719, 6781),
    15: (11, 10316, 7184),
    18: (13, 10048, 7452),
    21: (15, 9858, 7642),
}


@pytest.mark.parametrize("nominal", BIRCH)
def test_birch_plywood_has_its_published_plies(nominal: int) -> None:
    count = BIRCH[nominal][0]
    layup = plies(1.4 * (count - 2) + 2 * 1.1, 1.1)
    assert [ply.thickness for ply in layup] == pytest.approx([1.1] + [1.4] * (count - 2) + [1.1])


@pytest.mark.parametrize("nominal", BIRCH)
def test_the_layup_gives_the_published_stiffness(nominal: int) -> None:
    """By lamination theory: E = 17,500 N/mm2 along a veneer and 0 across reproduces the printed integers."""
    count, along, across = BIRCH[nominal]
    real = 1.4 * (count - 2) + 2 * 1.1
    cubes = [((p.bottom - real / 2) ** 3 - (p.top - real / 2) ** 3, p.along) for p in plies(real, 1.1)]
    with_face = 17500.0 * 4.0 / real**3 * sum(cube for cube, faceward in cubes if faceward)
    crossing = 17500.0 * 4.0 / real**3 * sum(cube for cube, faceward in cubes if not faceward)
    assert (round(with_face), round(crossing)) == (along, across)


@given(st.floats(1.0, 100.0), st.one_of(st.just(0.0), st.floats(0.05, 5.0)))
def test_any_layup_is_odd_crosses_in_turn_and_adds_up(thickness: float, veneer: float) -> None:
    layup = plies(thickness, veneer)
    assert len(layup) == ply_count(thickness, veneer)
    assert len(layup) % 2 == 1
    assert layup[0].top == 0.0
    assert layup[-1].bottom == thickness
    assert layup[0].along
    assert layup[-1].along
    for above, below in pairwise(layup):
        assert above.bottom == below.top
        assert above.along != below.along
    assert all(ply.thickness > 0.0 for ply in layup)


@given(st.floats(6.0, 60.0), st.floats(0.3, 1.5))
def test_inner_plies_are_as_thin_as_they_are_peeled_and_no_thinner(thickness: float, veneer: float) -> None:
    layup = plies(thickness, veneer)
    inner = layup[1].thickness
    assert inner == pytest.approx(INNER_PLY, rel=1e-5) or inner > INNER_PLY
    more = (thickness - 2.0 * veneer) / len(layup)  # two more inner plies
    assert more < INNER_PLY or len(layup) == 3


def test_where_the_face_veneer_is_not_known_all_plies_are_alike() -> None:
    layup = plies(18.2, 0.0)
    assert [ply.thickness for ply in layup] == pytest.approx([18.2 / 13] * 13)
