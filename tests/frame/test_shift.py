"""A frame slid in its play at the sides: where it stands, what it catches, and the ways out that slide it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from core.document.model import Project, Studs, Wall
from core.document.patch import apply_pointers
from core.drawing.frame import draw_frame
from core.drawing.model import Area, Line
from core.drawing.wall import frame_box
from core.plan.make import make_plan
from core.plan.model import Finding, Plan
from core.plan.proof import prove
from core.wall.places import hung
from tests.frame.asked import mounted

WIDTH = 1320.0


def slid(project: Project, shift: float) -> Project:
    (shelf,) = project.shelves
    return replace(project, shelves=(replace(shelf, frame_shift=shift),))


def left_of(plan: Plan) -> float:
    """The frame's left end on the wall."""
    (one,) = hung(plan.project)
    return frame_box(plan, one, plan.frames[0])[0]


def one(project: Project, code: str) -> Finding:
    (found,) = (f for f in make_plan(project).findings if f.code == code)
    return found


def slides(finding: Finding) -> list[float]:
    return [
        float(str(fix.set["/shelves/0/frame_shift"])) for fix in finding.fixes if "/shelves/0/frame_shift" in fix.set
    ]


@given(st.floats(-60.0, 60.0))
def test_it_stands_where_it_is_slid_as_far_as_its_play_goes(shift: float) -> None:
    """Side play 25.4: the shell stays, the same sticks stand that much to the right, the screws stay on their studs."""
    middle = make_plan(mounted(WIDTH, 210.0, 84.0))
    plan = make_plan(slid(middle.project, shift))
    stands = max(-25.4, min(25.4, shift))
    assert left_of(plan) - left_of(middle) == pytest.approx(stands)
    assert ("frame-shift" in {f.code for f in plan.findings}) is (abs(shift) - 25.4 >= 0.05)
    (frame,) = plan.frames
    assert [left_of(plan) + screw.x for screw in frame.screws] == pytest.approx(frame.studs)
    rails = [part.length for part in frame.parts if "rail" in part.role]
    assert rails == [part.length for part in middle.frames[0].parts if "rail" in part.role]
    prove(plan)


def test_past_its_play_is_told_and_mended() -> None:
    far = slid(mounted(WIDTH, 210.0, 84.0), 40.0)
    mended = apply_pointers(far, one(far, "frame-shift").fixes[0].set)
    assert mended.shelves[0].frame_shift == 25.4
    assert "frame-shift" not in {f.code for f in make_plan(mended).findings}


def test_a_frame_slid_in_its_play_catches_one_stud_more() -> None:
    """Studs are used from 300 + 18.2 + 25.4 + 27.3 + 27.9 = 398.8 on: one at 390 is 8.8 too far left, so the frame goes
    9 to the left, and the shelf stays where it is."""
    near = mounted(WIDTH, 210.0, 84.0, wall=Wall(studs=(390.0, 700.0, 1100.0)))
    assert len(make_plan(near).frames[0].studs) == 2
    found = one(near, "more-studs")
    assert slides(found) == [-9.0]
    after = make_plan(apply_pointers(near, found.fixes[0].set))
    assert after.frames[0].studs == (390.0, 700.0, 1100.0)
    assert after.project.shelves[0].mount == near.shelves[0].mount
    prove(after)


def test_from_one_stud_to_two_without_moving_the_shelf() -> None:
    """The same with only two studs: one is caught, and the slide of the frame comes before that of the shelf."""
    near = mounted(WIDTH, 210.0, 84.0, wall=Wall(studs=(390.0, 1100.0)))
    found = one(near, "one-stud")
    assert slides(found) == [-9.0]
    assert "frame_shift" in next(iter(found.fixes[0].set))
    assert len(make_plan(apply_pointers(near, found.fixes[0].set)).frames[0].studs) == 2


def test_where_the_shelf_cannot_move_the_frame_still_can() -> None:
    """Between the wall's ends the shelf has no room to slide: only the frame's slide is offered."""
    tight = mounted(WIDTH, 210.0, 84.0, x=0.0, wall=Wall(width=WIDTH, studs=(90.0, 500.0, 900.0)))
    found = one(tight, "more-studs")
    assert [list(fix.set) for fix in found.fixes] == [["/shelves/0/frame_shift"]]


@given(st.floats(0.0, 400.0), st.floats(-30.0, 30.0))
def test_a_slide_offered_keeps_every_cut(first: float, shift: float) -> None:
    job = slid(mounted(WIDTH, 210.0, 84.0, wall=Wall(studs=Studs(first, 406.4))), shift)
    plan = make_plan(job)
    for finding in plan.findings:
        for fix in finding.fixes if finding.code == "more-studs" else ():
            after = make_plan(apply_pointers(job, fix.set))
            assert after.cuts == plan.cuts
            assert len(after.frames[0].studs) == len(plan.frames[0].studs) + 1


@given(st.floats(-25.0, 25.0))
def test_on_the_drawing_the_frame_moves_and_the_shell_stays(shift: float) -> None:
    middle = mounted(WIDTH, 210.0, 84.0)
    one_, other = (draw_frame(make_plan(job), "ledge") for job in (middle, slid(middle, shift)))
    shells = [
        [i.points for i in drawing.items if isinstance(i, Line) and i.layer == "note"] for drawing in (one_, other)
    ]
    for a, b in zip(*shells, strict=True):
        assert [x for x, _ in a] == pytest.approx([x for x, _ in b])
    assert one_.box == pytest.approx(other.box)
    rails = [
        next(i.points[0][0] for i in drawing.items if isinstance(i, Area) and i.about == "ledge/back rail")
        for drawing in (one_, other)
    ]
    assert rails[1] - rails[0] == pytest.approx(shift)
