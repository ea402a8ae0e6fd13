"""Holes for the driver in the front rail."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from core.document.model import FrameWish, Mount, Project, Screw, Sheet, Shelf, Wall
from core.document.patch import apply_pointers
from core.plan.make import make_plan
from core.plan.model import Finding

SHELF = Shelf("s", 1200.0, 220.0, 64.0, mount=Mount(300.0, 1300.0))
HIGH = 64.0 - 2 * 18.0 - 1.5  # of the frame


def told(**screw: object) -> list[Finding]:
    project = job(**screw)
    return [f for f in make_plan(project).findings if f.code == "access-hole"]


def job(**screw: object) -> Project:
    sheet, frame = Sheet("A", 2440.0, 1220.0, 18.0), FrameWish(front_layers=1, height_play=1.5)
    return Project((sheet,), (SHELF,), frame=frame, wall=Wall(), screw=Screw(**screw), units="mm")


def test_a_hole_that_leaves_the_rail_is_told_with_how_far() -> None:
    """In a rail 26.5 mm high; in the middle of it the hole may be just as wide."""
    assert told(access_hole=HIGH - 0.1) == []
    (finding,) = told(access_hole=HIGH + 2.0)
    assert finding.amount == pytest.approx(1.0)
    assert finding.severity == "note"
    (upper,) = told(access_hole=25.4, stand="upper third")
    plan = make_plan(job(access_hole=25.4, stand="upper third"))
    below = HIGH - plan.frames[0].screws[0].height
    assert upper.amount == pytest.approx(12.7 - below)
    assert "upper edge" in upper.message


def test_the_way_out_leaves_wood_beside_the_hole() -> None:
    project = job(access_hole=25.4, stand="upper third")
    (finding,) = told(access_hole=25.4, stand="upper third")
    (fix,) = finding.fixes
    after = apply_pointers(project, fix.set)
    plan = make_plan(after)
    assert not [f for f in plan.findings if f.code == "access-hole"]
    edge = HIGH - plan.frames[0].screws[0].height - after.screw.access_hole / 2.0
    assert 3.0 <= edge < 3.6


def test_without_a_front_rail_or_a_hole_there_is_nothing_to_say() -> None:
    assert told(access_hole=0.0, stand="upper third") == []
    bare = replace(job(access_hole=25.4, stand="upper third"), frame=FrameWish(front_layers=0))
    assert not [f for f in make_plan(bare).findings if f.code == "access-hole"]
