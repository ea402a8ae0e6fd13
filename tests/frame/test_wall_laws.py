"""Laws of frames on walls as they are measured: what the screws meet, ribs and drivers, the cavity at every play."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from msgspec.structs import replace

from core.document.check import check_project
from core.document.model import Alcove, FrameWish, KeepOut, Mount, Project, Screw, Sheet, Shelf, Wall
from core.frame import driver_way, frame_left, stud_lines
from core.plan.make import make_plan
from core.plan.model import Frame, Plan
from tests.conftest import examples
from tests.strategies import STUDS, lengths, one_of, whole

ROUNDING = 1e-6  # mm


@st.composite
def keep_outs(draw: DrawFn) -> KeepOut:
    """A socket, switch, pipe or tile edge, as often as not behind the shelf."""
    return KeepOut(
        draw(lengths(0.0, 2900.0)),
        draw(lengths(1200.0, 1450.0) if draw(one_of(True, False)) else lengths(0.0, 2300.0)),
        draw(lengths(10.0, 300.0)),
        draw(lengths(10.0, 300.0)),
        draw(one_of("socket", "switch", "pipe", "tile edge")),
    )


@st.composite
def measured_walls(draw: DrawFn) -> Wall:
    """A wall with all that may be known of it."""
    widths = lengths(900.0, 3000.0)
    sides = [draw(st.tuples(widths, widths, widths)) for _ in range(2)]
    return Wall(
        studs=draw(STUDS),
        board=draw(one_of(0.0, 9.5, 12.7, 15.9)),
        kind=draw(one_of("timber stud", "timber stud", "timber stud", "metal stud", "masonry", "unknown")),
        tile=draw(one_of(0.0, 0.0, 9.5)),
        bow=tuple(
            draw(st.lists(st.tuples(lengths(0.0, 3000.0), lengths(0.0, 15.0)), max_size=5, unique_by=lambda r: r[0]))
        ),
        run_out=draw(one_of(0.0, 9.0, -9.0)),
        alcove=Alcove(sides[0], sides[1]) if draw(one_of(True, False, False)) else None,
        keep_outs=tuple(draw(keep_outs()) for _ in range(draw(whole(0, 3)))),
    )


@st.composite
def hung(draw: DrawFn) -> Project:
    """One or two shelves that hang on such a wall; every play a frame may be asked to have."""
    shelves = tuple(
        Shelf(
            name,
            draw(lengths(300.0, 2000.0)),
            draw(lengths(120.0, 300.0)),
            draw(lengths(62.0, 100.0)),
            left=draw(one_of("mitred", "open")),
            right=draw(one_of("mitred", "open")),
            ends_from=draw(one_of("front", "top", "bottom")),
            frame_shift=draw(one_of(0.0, 0.0, 12.0, -25.4, 80.0)),
            mount=Mount(draw(lengths(-50.0, 1500.0)), draw(lengths(50.0, 2450.0) if n else lengths(1300.0, 1500.0))),
        )
        for n, name in enumerate("ab"[: draw(whole(1, 2))])
    )
    wish = FrameWish(
        end_layers=draw(whole(1, 3)),
        back_layers=draw(whole(1, 2)),
        spacing=draw(lengths(120.0, 450.0)),
        side_play=draw(lengths(0.0, 60.0)),
        front_play=draw(lengths(0.0, 20.0)),
        height_play=draw(lengths(0.0, 6.0)),
    )
    screw = Screw(per_stud=draw(whole(1, 2)), length=draw(one_of(None, None, 80.0, 200.0)))
    stock = Sheet("A", 2800.0, 1500.0, 18.2, quantity=6)
    wall = draw(measured_walls())
    return Project((stock,), shelves, units=draw(one_of("in", "mm")), frame=wish, wall=wall, screw=screw)


def hung_frames(plan: Plan) -> list[tuple[Shelf, Frame, float]]:
    """Each shelf with its frame and the frame's left end on the wall."""
    shelves, project = {shelf.id: shelf for shelf in plan.project.shelves}, plan.project
    found = []
    for frame in plan.frames:
        shelf = shelves[frame.shelf]
        assert shelf.mount is not None
        found.append((shelf, frame, frame_left(shelf, shelf.mount, 18.2, project.frame.side_play)))
    return found


def said(plan: Plan, shelf: str) -> set[str]:
    return {f.code for f in plan.findings if f.about == shelf and f.severity != "note"}


@settings(max_examples=examples(50, 1000))
@given(hung())
def test_every_screw_meets_a_covered_stud_and_no_keep_out_without_a_warning(project: Project) -> None:
    check_project(project)
    plan = make_plan(project)
    for shelf, frame, left in hung_frames(plan):
        assert shelf.mount is not None
        lines = stud_lines(project.wall, left, left + frame.length)
        for screw in frame.screws:
            x, y = left + screw.x, shelf.mount.top - 18.2 - frame.height + screw.height
            assert min(abs(x - line) for line in lines) <= ROUNDING
            assert 0.0 < screw.height < frame.height
            for area in project.wall.keep_outs:
                over = area.x < x < area.x + area.width
                level = area.y < y < area.y + area.height
                if over and level:
                    assert "keep-out" in said(plan, shelf.id)
                elif (over or level) and area.kind in ("socket", "switch"):
                    assert said(plan, shelf.id) & {"cable-zone", "keep-out"}
        if project.wall.kind != "timber stud":
            assert not frame.screws
            assert "wall-kind" in said(plan, shelf.id)


@settings(max_examples=examples(50, 1000))
@given(hung())
def test_no_rib_stands_in_a_drivers_way_and_no_spacing_is_broken_unsaid(project: Project) -> None:
    plan = make_plan(project)
    way = driver_way(project.screw, 18.2)
    for shelf, frame, left in hung_frames(plan):
        for stud in frame.studs:
            assert all(abs(left + rib - stud) >= way - ROUNDING for rib in frame.ribs)
        wide = any(b - a > project.frame.spacing + ROUNDING for a, b in pairwise(frame.ribs))
        assert wide is ("rib-spacing" in said(plan, shelf.id))


@settings(max_examples=examples(50, 1000))
@given(hung())
def test_a_frame_is_inside_its_cavity_at_every_play(project: Project) -> None:
    """The same shelf with no play at all fills its cavity: each play takes from the frame just what it says."""
    wish = project.frame
    tight = make_plan(replace(project, frame=replace(wish, side_play=0.0, front_play=0.0, height_play=0.0)))
    full = {frame.shelf: frame for frame in tight.frames}
    for shelf, frame, left in hung_frames(make_plan(project)):
        assert shelf.mount is not None
        most = full[frame.shelf]
        assert (most.length, most.depth, most.height) == most.cavity
        assert abs(frame.length + 2.0 * wish.side_play - frame.cavity[0]) <= ROUNDING
        assert abs(frame.depth + wish.front_play - frame.cavity[1]) <= ROUNDING
        assert abs(frame.height + wish.height_play - frame.cavity[2]) <= ROUNDING
        ends = (18.2 if shelf.left == "mitred" else 0.0, 18.2 if shelf.right == "mitred" else 0.0)
        assert left >= shelf.mount.x + ends[0] - ROUNDING
        assert left + frame.length <= shelf.mount.x + shelf.length - ends[1] + ROUNDING
        off_middle = max(-wish.side_play, min(wish.side_play, shelf.frame_shift))
        assert abs(left - shelf.mount.x - ends[0] - wish.side_play - off_middle) <= ROUNDING


@settings(max_examples=examples(50, 1000))
@given(hung())
def test_everything_the_wall_says_is_a_sentence_with_a_number(project: Project) -> None:
    for finding in make_plan(project).findings:
        assert any(c.isdigit() for c in finding.message), finding.code
        assert finding.message.endswith((".", "?")), finding.code
        assert len({fix.text for fix in finding.fixes}) == len(finding.fixes)
