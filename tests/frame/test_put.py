"""Ribs put by hand: they stay, the others make way; where none can stand it is told and mended."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from core.document.check import check_project
from core.document.errors import ProjectError
from core.document.patch import apply_pointers
from core.frame import RibPlan, driver_way, place_ribs
from core.plan.make import make_plan
from tests.conftest import examples
from tests.frame.asked import built, codes, mounted

JOB = mounted(1320.0, 210.0, 84.0)


@settings(max_examples=examples(100, 2000))
@given(st.lists(st.floats(0.0, 1300.0), max_size=5), st.floats(120.0, 400.0))
def test_ribs_put_by_hand_stay_and_no_law_is_broken(put: list[float], spacing: float) -> None:
    ways = ((300.0, 356.0), (706.0, 762.0))
    plan = place_ribs(1232.8, 18.2, 2, spacing, ways, tuple(put))
    assert isinstance(plan, RibPlan)
    assert set(put) - set(plan.refused) <= set(plan.ribs)
    assert set(plan.refused) <= set(put)
    inner = plan.ribs[1:-1]
    assert all(b - a >= 18.2 - 1e-6 for a, b in pairwise(inner))
    assert not any(low + 1e-6 < x < high - 1e-6 for x in plan.ribs for low, high in ways)
    assert bool(plan.wide) is any(b - a > spacing + 1e-6 for a, b in pairwise(inner))


def test_as_few_as_each_side_needs() -> None:
    """Ends at 27.3 and 1205.5; one put at 200: 172.7 before it need no rib, 1005.5 after it need 4 at 228.6."""
    plan = place_ribs(1232.8, 18.2, 2, 228.6, (), (200.0,))
    assert isinstance(plan, RibPlan)
    assert len(plan.ribs) == 4 + 1 + 4
    assert [b - a for a, b in pairwise(plan.ribs[2:-1])] == pytest.approx([1005.5 / 5] * 5)


@pytest.mark.parametrize("place", [262.8, 5.0, 1225.0])
def test_where_none_can_stand_it_is_told(place: float) -> None:
    """On a screw, on an end rib: left out, and the way out takes it back."""
    job = replace(JOB, shelves=(replace(JOB.shelves[0], ribs=(place,)),))
    result = built(job)
    assert "rib-put" in codes(result)
    assert result.frame is not None
    assert built(JOB).frame == result.frame
    finding = next(f for f in make_plan(job).findings if f.code == "rib-put")
    assert "rib-put" not in {f.code for f in make_plan(apply_pointers(job, finding.fixes[0].set)).findings}


def test_a_rib_beside_a_screw_is_kept_where_the_driver_passes() -> None:
    way = driver_way(JOB.screw, 18.2)
    job = replace(JOB, shelves=(replace(JOB.shelves[0], ribs=(262.8 + way,)),))
    frame = built(job).frame
    assert frame is not None
    assert 262.8 + way in frame.ribs


def test_a_thousand_of_them_are_refused() -> None:
    with pytest.raises(ProjectError, match=r"shelves\[0\]\.ribs: at most 100, there are 1000"):
        check_project(replace(JOB, shelves=(replace(JOB.shelves[0], ribs=tuple(float(n) for n in range(1000))),)))
