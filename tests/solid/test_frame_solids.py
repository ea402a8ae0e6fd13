"""The frame's boxes: in the cavity, at the wall, not in each other, each as long as its part."""

from __future__ import annotations

from itertools import combinations
from typing import NamedTuple

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.document.model import Project, Shelf
from core.frame.build import frame_of
from core.geometry.seam import seam_section
from core.plan.model import Frame, FramePart
from core.solid.frame_solids import FrameSolid, frame_solids
from tests.strategies import projects


class Framed(NamedTuple):
    """A shelf of a project, its sheet's thickness, and its frame."""

    project: Project
    shelf: Shelf
    thickness: float
    frame: Frame


@st.composite
def framed(draw: st.DrawFn) -> Framed:
    """A shelf that can have a frame, and its frame as the plan makes it."""
    project = draw(projects(max_shelves=1))
    shelf, thickness = project.shelves[0], project.sheets[0].thickness
    section = seam_section(thickness, project.saw.kerf, project.saw.overcut, project.saw.allowance)
    frame = frame_of(project, shelf, thickness, project.frame.thickness or thickness, section).frame
    assume(frame is not None)
    assert frame is not None
    return Framed(project, shelf, thickness, frame)


def sizes(solid: FrameSolid) -> tuple[float, float, float]:
    x, y, z = (high - low for low, high in zip(solid.low, solid.high, strict=True))
    return x, y, z


@given(framed())
def test_it_stands_in_the_cavity_with_its_play_shared_out(case: Framed) -> None:
    shelf, t, wish = case.shelf, case.thickness, case.project.frame
    solids = frame_solids(case.frame, shelf, t)
    low = [min(s.low[i] for s in solids) for i in range(3)]
    high = [max(s.high[i] for s in solids) for i in range(3)]
    left, right = (t if end == "mitred" else 0.0 for end in (shelf.left, shelf.right))
    shift = max(-wish.side_play, min(wish.side_play, shelf.frame_shift))
    assert low[0] - left == pytest.approx(wish.side_play + shift, abs=1e-6)
    assert shelf.length - right - high[0] == pytest.approx(wish.side_play - shift, abs=1e-6)
    assert low[1] - t == pytest.approx(wish.height_play / 2.0, abs=1e-6)
    assert shelf.height - t - high[1] == pytest.approx(wish.height_play / 2.0, abs=1e-6)
    assert low[2] == pytest.approx(-(shelf.depth + shelf.scribe))
    # Until the scribe wood is planed off, the front stands that much farther before the frame.
    assert -t - high[2] == pytest.approx(wish.front_play + shelf.scribe, abs=1e-6)


@given(framed())
def test_no_two_sticks_share_a_place_and_each_is_its_part(case: Framed) -> None:
    solids = frame_solids(case.frame, case.shelf, case.thickness)
    assert {s.part for s in solids} == set(case.frame.parts)
    ribs = [s for s in solids if "rib" in s.part.role]
    assert [s.part for s in ribs] == [p for p in case.frame.parts if "rib" in p.role]
    start = solids[0].low[0]
    assert [(s.low[0] + s.high[0]) / 2.0 - start for s in ribs] == pytest.approx(case.frame.ribs)
    for solid in solids:
        along, upright, thick = (0, 1, 2) if "rail" in solid.part.role else (2, 1, 0)
        assert sizes(solid)[along] == pytest.approx(solid.part.length, rel=1e-6)
        assert sizes(solid)[upright] == pytest.approx(solid.part.width, rel=1e-6)
        assert sizes(solid)[thick] == pytest.approx(solid.part.thickness, rel=1e-6)
    for a, b in combinations(solids, 2):
        overlap = [min(a.high[i], b.high[i]) - max(a.low[i], b.low[i]) for i in range(3)]
        assert min(overlap) < 1e-6


@given(framed(), st.floats(0.0, 500.0))
def test_slip_puts_the_shell_that_much_before_its_frame(case: Framed, slip: float) -> None:
    home = frame_solids(case.frame, case.shelf, case.thickness)
    before = frame_solids(case.frame, case.shelf, case.thickness, slip)
    for a, b in zip(home, before, strict=True):
        assert b.low == pytest.approx((a.low[0], a.low[1], a.low[2] - slip))
        assert b.high == pytest.approx((a.high[0], a.high[1], a.high[2] - slip))


def test_ribs_without_parts_to_match_are_refused() -> None:
    parts = (FramePart("s/rib 1", "rib", None, None, 100.0, 40.0, 15.0, None, None),)
    frame = Frame("s", 500.0, 150.0, 40.0, (7.5, 200.0), (), (), parts, 15.0, 100.0, (520.0, 153.0, 42.0))
    with pytest.raises(ValueError, match="shorter"):
        frame_solids(frame, Shelf("s", 556.0, 171.0, 78.0), 18.0)
