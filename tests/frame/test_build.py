"""The frame of a shelf as a whole: parts, findings, and that each fix mends what it is offered for."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from core.document.model import Mount, Project, Shelf, Studs
from core.document.patch import apply_pointers
from core.frame import FrameResult, driver_way, frame_of
from core.geometry.seam import seam_section
from core.plan.model import Finding
from tests.conftest import examples
from tests.frame.asked import asked, built, codes, mounted
from tests.strategies import projects


def found(result: FrameResult, code: str) -> Finding:
    (finding,) = (f for f in result.findings if f.code == code)
    return finding


def test_parts_are_numbered_from_the_left_and_lie_on_no_sheet_yet():
    frame = built(asked(700.0, 210.0, 84.0, frame_back_layers=2, sheet_thickness=18.0)).frame
    assert frame is not None
    assert [(part.id, part.role) for part in frame.parts] == [
        ("ledge/back rail", "back rail"),
        ("ledge/back rail 2", "back rail"),
        ("ledge/front rail", "front rail"),
        ("ledge/rib 1", "end rib"),
        ("ledge/rib 2", "end rib"),
        ("ledge/rib 3", "rib"),
        ("ledge/rib 4", "rib"),
        ("ledge/rib 5", "end rib"),
        ("ledge/rib 6", "end rib"),
    ]
    assert {part.width for part in frame.parts} == {frame.height}
    assert {part.thickness for part in frame.parts} == {18.0}
    assert [part.length for part in frame.parts[:3]] == [frame.length] * 3
    assert [part.length for part in frame.parts[3:]] == [frame.depth - 3 * 18.0] * 6
    assert {(p.sheet, p.piece, p.x, p.y) for p in frame.parts} == {(None, None, None, None)}


def test_a_frame_of_a_thinner_sheet():
    frame = built(asked(1000.0, 210.0, 84.0, frame_thickness=12.0)).frame
    assert frame is not None
    assert frame.thickness == 12.0
    assert frame.height == pytest.approx(84.0 - 2 * 18.2 - 1.5)  # the cavity is the shell's
    assert frame.ribs[:2] == (6.0, 18.0)
    assert frame.rib_length == pytest.approx(210.0 - 18.2 - 3.0 - 24.0)


def test_no_front_rail():
    frame = built(asked(1000.0, 210.0, 84.0, frame_front_layers=0)).frame
    assert frame is not None
    assert "front rail" not in {part.role for part in frame.parts}


# --- no cavity -----------------------------------------------------------------------------------------------

TOO_SMALL = {
    "low": asked(1220.0, 230.0, 44.0),
    "lower than its sheets": asked(1220.0, 230.0, 20.0),
    "low, in inches": asked(1220.0, 230.0, 44.45, units="in"),
    "bevels meet": asked(1220.0, 400.0, 166.0, sheet_thickness=70.0, saw_overcut=5.0, frame_thickness=18.0),
    "shallow": asked(1220.0, 55.0, 84.0),
    "shallower than its front": asked(1220.0, 15.0, 84.0),
    "short": asked(150.0, 230.0, 84.0),
    "shorter than its ends": asked(30.0, 230.0, 84.0),
}


@pytest.mark.parametrize("project", TOO_SMALL.values(), ids=TOO_SMALL)
def test_no_cavity_no_parts_and_a_size_that_gives_one(project):
    result = built(project)
    assert result.frame is None
    assert set(codes(result)) == {"no-cavity", "not-mounted"}
    for finding in result.findings:
        if finding.code == "not-mounted":
            continue
        assert finding.severity == "error"
        assert finding.about == "ledge"
        assert finding.fixes
        project = apply_pointers(project, finding.fixes[0].set)
    assert built(project).frame is not None


@pytest.mark.parametrize(("name", "step"), [("low", 1.0), ("low, in inches", 25.4 / 16)])
def test_the_height_offered_is_the_least_round_one(name, step):
    project = TOO_SMALL[name]
    ((pointer, height),) = found(built(project), "no-cavity").fixes[0].set.items()
    assert height / step == pytest.approx(round(height / step))
    lower = apply_pointers(project, {pointer: height - step})
    assert built(apply_pointers(project, {pointer: height})).frame is not None
    assert built(lower).frame is None


def test_a_frame_of_just_20_mm_will_do():
    assert built(asked(1000.0, 200.0, 20.0 + 2 * 18.2 + 1.5)).frame is not None
    assert built(asked(1000.0, 200.0, 19.99 + 2 * 18.2 + 1.5)).frame is None


def test_ribs_are_never_too_short_to_be_sawn():
    assert built(asked(1000.0, 3.0 * 18.2 + 3.0 + 5.01, 84.0)).frame is not None
    assert built(asked(1000.0, 3.0 * 18.2 + 3.0 + 4.99, 84.0)).frame is None


@pytest.mark.parametrize(
    ("project", "pointer"),
    [
        (asked(1000.0, 57.0, 84.0), "/frame/front_layers"),
        (asked(160.0, 200.0, 84.0), "/frame/end_layers"),
    ],
)
def test_fewer_layers_are_a_way_out_too(project, pointer):
    fixes = found(built(project), "no-cavity").fixes
    (fix,) = (fix for fix in fixes if pointer in fix.set)
    assert built(apply_pointers(project, fix.set)).frame is not None


def test_every_way_of_being_too_small_is_told():
    assert codes(built(asked(100.0, 50.0, 40.0))) == ["no-cavity"] * 3 + ["not-mounted"]


def test_a_fix_points_at_the_right_shelf():
    project = asked(1000.0, 200.0, 40.0)
    other = Shelf("other", 1000.0, 200.0, 90.0)
    project = replace(project, shelves=(other, *project.shelves))
    result = frame_of(project, project.shelves[1], 18.2, 18.2, seam_section(18.2, 2.2, 0.5))
    assert list(result.findings[0].fixes[0].set) == ["/shelves/1/height"]


# --- ribs ----------------------------------------------------------------------------------------------------


def test_a_spacing_thinner_than_a_rib_or_of_thousands_of_ribs_is_an_error():
    for project in (
        asked(1000.0, 200.0, 84.0, frame_spacing=10.0),
        asked(90_000.0, 200.0, 84.0, frame_spacing=20.0),
    ):
        result = built(project)
        assert result.frame is None
        finding = found(result, "rib-spacing")
        assert finding.severity == "error"
        assert built(apply_pointers(project, finding.fixes[0].set)).frame is not None


def test_a_rib_in_a_drivers_way_is_moved_and_told():
    """Ribs evenly at 223.7 ...; a stud 10 to the left of the second one wants 27.8 between centre lines."""
    free = built(mounted(1320.0, 210.0, 84.0, wall_studs=())).frame
    assert free is not None
    stud = 343.6 + free.ribs[3] - 10.0
    result = built(mounted(1320.0, 210.0, 84.0, wall_studs=(stud, stud + 500.0)))
    assert result.frame is not None
    note = found(result, "rib-moved")
    assert note.severity == "note"
    assert note.amount == pytest.approx(17.8)
    assert result.frame.ribs[3] == pytest.approx(free.ribs[3] + 17.8)


def test_a_way_wider_than_the_spacing_is_a_warning_with_a_spacing_that_does():
    project = mounted(1320.0, 210.0, 84.0, frame_spacing=50.0)
    warning = found(built(project), "rib-spacing")
    assert warning.severity == "warning"
    assert warning.amount == pytest.approx(2 * 27.8 - 50.0)
    assert "rib-spacing" not in codes(built(apply_pointers(project, warning.fixes[0].set)))


# --- wall ----------------------------------------------------------------------------------------------------


def test_without_a_place_on_the_wall_there_are_no_studs():
    result = built(asked(1320.0, 210.0, 84.0))
    assert found(result, "not-mounted").severity == "note"
    assert result.frame is not None
    assert (result.frame.studs, result.frame.screws) == ((), ())


@pytest.mark.parametrize(("studs", "code"), [((950.0, 1900.0), "one-stud"), ((200.0, 1900.0), "no-stud")])
def test_fewer_than_two_studs_is_a_warning(studs, code):
    result = built(mounted(1320.0, 210.0, 84.0, wall_studs=studs))
    assert result.frame is not None
    assert len(result.frame.studs) == (1 if code == "one-stud" else 0)
    assert found(result, code).severity == "warning"
    assert not {"one-stud", "no-stud", "not-mounted"} - {code} & set(codes(result))


def test_sliding_the_shelf_on_to_two_studs_is_offered():
    """Studs 600 apart under a frame with room for 600 and a bit."""
    project = mounted(850.0, 210.0, 84.0, 400.0, wall_studs=(300.0, 900.0, 1500.0))
    assert found(built(project), "one-stud").severity == "warning"
    (fix,) = found(built(project), "one-stud").fixes
    mended = built(apply_pointers(project, fix.set))
    assert mended.frame is not None
    assert len(mended.frame.studs) == 2
    assert "one-stud" not in codes(mended)


def test_a_slide_on_to_two_studs_leaves_no_end_far_from_its_stud():
    """Common practice: an end reaches past its last stud by at most a quarter of the length, 200 of 800."""
    project = mounted(800.0, 200.0, 60.0, 700.0, wall_studs=Studs(300.0, 400.0), units="mm")
    (fix,) = found(built(project), "one-stud").fixes
    mended = apply_pointers(project, fix.set)
    (shelf,), frame = mended.shelves, built(mended).frame
    assert frame is not None
    assert shelf.mount is not None
    assert len(frame.studs) == 2
    assert frame.studs[0] - shelf.mount.x <= 200.0
    assert shelf.mount.x + 800.0 - frame.studs[-1] <= 200.0


def test_a_shelf_with_no_room_for_a_driver():
    result = built(mounted(180.0, 210.0, 84.0, wall_studs=(390.0,)))
    finding = found(result, "no-stud")
    assert finding.fixes == ()
    assert result.frame is not None
    assert result.frame.screws == ()


def test_screws_go_through_every_layer_into_the_stud():
    """18.2 x 2 + 12.7 + 38.1 = 87.2 -> 90."""
    frame = built(mounted(1320.0, 210.0, 84.0, frame_back_layers=2)).frame
    assert frame is not None
    assert {screw.length for screw in frame.screws} == {90.0}


def test_a_screw_that_is_too_short_is_told_and_used():
    project = mounted(1320.0, 210.0, 84.0, screw_length=50.0)
    result = built(project)
    assert result.frame is not None
    assert {screw.length for screw in result.frame.screws} == {50.0}
    warning = found(result, "screw-length")
    assert warning.amount == pytest.approx(19.0)
    assert "screw-length" not in codes(built(apply_pointers(project, warning.fixes[0].set)))


def test_a_screw_nobody_sells_is_told():
    result = built(mounted(1320.0, 210.0, 84.0, screw_bite=290.0))
    assert result.frame is not None
    assert result.frame.screws[0].length == pytest.approx(18.2 + 12.7 + 290.0)
    assert found(result, "screw-length").severity == "warning"


def test_screws_too_close_together_are_told():
    project = mounted(1320.0, 210.0, 60.0, screw_per_stud=3)
    result = built(project)
    assert result.frame is not None
    assert len(result.frame.screws) == 3 * len(result.frame.studs)
    warning = found(result, "screw-crowd")
    assert "screw-crowd" not in codes(built(apply_pointers(project, warning.fixes[0].set)))


# --- mouth ---------------------------------------------------------------------------------------------------


def test_the_mouth_is_a_note_and_past_twice_the_play_a_warning():
    """2 x 210 x sin(sqrt 2 x 0.2 deg) = 2.07 mm: within twice 1.5, past twice 1.0."""
    assert found(built(asked(1320.0, 210.0, 84.0, frame_height_play=1.5)), "mouth").severity == "note"
    tight = asked(1320.0, 210.0, 84.0, frame_height_play=1.0)
    warning = found(built(tight), "mouth")
    assert warning.severity == "warning"
    assert warning.amount == pytest.approx(2.07, abs=0.01)
    assert found(built(apply_pointers(tight, warning.fixes[0].set)), "mouth").severity == "note"


def test_a_mouth_that_cannot_close_says_nothing():
    assert "mouth" not in codes(built(asked(1320.0, 210.0, 84.0, saw_bevel_sd=0.0, saw_overcut=-0.5)))
    assert "mouth" in codes(built(asked(1320.0, 210.0, 84.0, saw_bevel_sd=0.0, saw_overcut=0.5)))


# --- laws ----------------------------------------------------------------------------------------------------


def results(project: Project) -> list[tuple[Shelf, FrameResult]]:
    sheet, saw = project.sheets[0], project.saw
    section = seam_section(sheet.thickness, saw.kerf, saw.overcut, saw.allowance, project.glue_line)
    thickness = project.frame.thickness or sheet.thickness
    return [(s, frame_of(project, s, sheet.thickness, thickness, section)) for s in project.shelves]


@settings(max_examples=examples(50, 1000))
@given(projects())
def test_laws_of_frames(project):
    wish, way = project.frame, driver_way(project.screw, project.frame.thickness or project.sheets[0].thickness)
    for shelf, result in results(project):
        frame = result.frame
        assert (frame is None) == any(f.severity == "error" for f in result.findings)
        if frame is None:
            continue
        assert all(
            size <= room + 1e-9
            for size, room in zip((frame.length, frame.depth, frame.height), frame.cavity, strict=True)
        )
        half = frame.thickness / 2
        assert half <= frame.ribs[0] + 1e-9
        assert frame.ribs[-1] <= frame.length - half + 1e-9
        gaps = [b - a for a, b in pairwise(frame.ribs)]
        assert min(gaps) >= frame.thickness - 1e-6
        told = any(f.code == "rib-spacing" for f in result.findings)
        assert max(gaps) <= max(wish.spacing, frame.thickness) + 1e-6 or told
        assert all(abs(rib - screw.x) >= way - 1e-6 for rib in frame.ribs for screw in frame.screws)
        assert len(frame.screws) == len(frame.studs) * project.screw.per_stud
        assert all(0.0 < screw.height < frame.height for screw in frame.screws)
        assert len(frame.parts) == wish.back_layers + wish.front_layers + len(frame.ribs)
        assert all(min(p.length, p.width, p.thickness) > 0.0 for p in frame.parts)
        assert len({part.id for part in frame.parts}) == len(frame.parts)
        assert all(f.about == shelf.id for f in result.findings)


@settings(max_examples=examples(50, 1000))
@given(projects())
def test_every_finding_is_a_sentence_with_a_number(project):
    for _, result in results(project):
        for finding in result.findings:
            assert any(char.isdigit() for char in finding.message)
            assert finding.message[0].isupper()
            assert finding.message.endswith(".")


@settings(max_examples=examples(50, 1000))
@given(st.floats(500.0, 1200.0), st.floats(0.0, 2400.0), st.sampled_from(("in", "mm")))
def test_a_slide_that_is_offered_catches_two_studs(length, x, units):
    project = mounted(length, 210.0, 84.0, x, wall_studs=Studs(150.0, 600.0), units=units)
    for fix in (fix for f in built(project).findings if f.code in ("one-stud", "no-stud") for fix in f.fixes):
        mended = apply_pointers(project, fix.set)
        frame, mount = built(mended).frame, mended.shelves[0].mount
        assert frame is not None
        assert len(frame.studs) >= 2
        assert mount is not None
        assert mount.x == x or 0.0 <= mount.x <= project.wall.width - length  # a frame that slides leaves its shelf


def test_moving_a_shelf_along_even_studs_by_one_spacing_changes_nothing():
    one = built(mounted(1320.0, 210.0, 84.0, 300.0)).frame
    next_ = built(mounted(1320.0, 210.0, 84.0, 300.0 + 406.4)).frame
    assert one is not None
    assert next_ is not None
    assert next_.ribs == pytest.approx(one.ribs)
    assert next_.studs == pytest.approx([stud + 406.4 for stud in one.studs])


def test_shelf_is_hung_by_its_outside():
    project = mounted(1320.0, 210.0, 84.0)
    shelf = replace(project.shelves[0], left="open", mount=Mount(300.0 + 18.2, 1400.0), length=1320.0 - 18.2)
    open_end = built(replace(project, shelves=(shelf,))).frame
    mitred = built(project).frame
    assert open_end is not None
    assert mitred is not None
    assert open_end.length == pytest.approx(mitred.length)
    assert [s.x for s in open_end.screws] == pytest.approx([s.x for s in mitred.screws])
