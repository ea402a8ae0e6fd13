"""What the wall says of shelves: each code, its number, and that each way out makes it go."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from core.document.model import Alcove, KeepOut, Mount, Project, Sheet, Shelf, Studs, Wall
from core.document.patch import apply_pointers
from core.plan.make import make_plan
from core.plan.model import Finding
from core.wall.bow import gap_at, tip_at_front, widest_gap
from core.wall.eye import is_in_sight
from core.wall.level import front_drop
from core.wall.services import way_of
from tests.conftest import examples

INCH = 25.4
LEDGE = Shelf("ledge", 1320.0, 210.0, 84.0, mount=Mount(300.0, 1400.0))


def on(wall: Wall, *shelves: Shelf, **fields: Any) -> Project:
    fields.setdefault("units", "mm")
    return replace(Project((Sheet("A", 2440.0, 1220.0, quantity=4),), shelves or (LEDGE,), wall=wall), **fields)


def told(project: Project, code: str) -> list[Finding]:
    return [f for f in make_plan(project).findings if f.code == code]


def one(project: Project, code: str) -> Finding:
    found = told(project, code)
    assert len(found) == 1, [(f.code, f.message) for f in make_plan(project).findings]
    return found[0]


def mended(project: Project, code: str, fix: int = 0) -> Project:
    """The project after a way out, which makes the finding go."""
    changed = apply_pointers(project, one(project, code).fixes[fix].set)
    assert not told(changed, code)
    return changed


def test_a_shelf_off_its_wall_is_told_before_the_studs_it_misses() -> None:
    plan = make_plan(on(Wall(width=1124.0, studs=Studs(200.0, 400.0)), replace(LEDGE, mount=Mount(1050.0, 1400.0))))
    assert {"off-wall", "no-stud"} <= {f.code for f in plan.findings}
    assert next(f.code for f in plan.findings if f.severity == "warning") == "off-wall"


# Kind and tile


@pytest.mark.parametrize("kind", ["metal stud", "masonry", "unknown"])
def test_no_fixing_is_guessed_where_there_are_no_timber_studs(kind: Any) -> None:
    plan = make_plan(on(Wall(kind=kind)))
    frame = plan.frames[0]
    assert (frame.studs, frame.screws, plan.loads) == ((), (), ())
    assert [f.severity for f in plan.findings if f.code == "wall-kind"] == ["warning"]
    assert not {f.code for f in plan.findings} & {"no-stud", "one-stud", "more-studs", "cable-line", "stud-order"}
    assert not told(on(Wall()), "wall-kind")


@given(st.floats(0.0, 60.0))
def test_a_tile_lengthens_the_screw_and_shortens_no_bite(tile: float) -> None:
    plan = make_plan(on(Wall(tile=tile), units="in"))
    screw, project = plan.frames[0].screws[0], plan.project
    assert screw.length - plan.frames[0].thickness - project.wall.board - tile >= project.screw.bite - 1e-6


# Bow


def test_gaps_lie_on_straight_lines_between_readings() -> None:
    bow = ((100.0, 2.0), (300.0, 6.0), (500.0, 0.0))
    assert [gap_at(bow, x) for x in (0.0, 100.0, 200.0, 300.0, 450.0, 900.0)] == [2.0, 2.0, 4.0, 6.0, 1.5, 0.0]
    assert widest_gap(bow, 0.0, 1000.0) == 6.0
    assert widest_gap(bow, 400.0, 1000.0) == 3.0
    assert widest_gap((), 0.0, 1000.0) == 0.0


@given(st.lists(st.tuples(st.floats(0, 3000), st.floats(0, 30)), min_size=1, max_size=8, unique_by=lambda r: r[0]))
def test_no_place_under_a_shelf_has_a_wider_gap_than_the_widest(bow: list[tuple[float, float]]) -> None:
    widest, ordered = widest_gap(tuple(bow), 300.0, 1620.0), tuple(sorted(bow))
    gaps = [gap_at(ordered, 300.0 + 1320.0 * n / 400.0) for n in range(401)]
    assert all(gap <= widest + 1e-6 for gap in gaps)
    assert widest <= max(gap for _, gap in bow) + 1e-6


def test_a_hollow_asks_for_scribe_and_shims() -> None:
    """Largest gap and 1/16 in, common practice."""
    bent = on(Wall(bow=((300.0, 0.0), (900.0, 8.0), (1600.0, 0.0))))
    scribed = mended(bent, "bow")
    assert 8.0 + INCH / 16 <= scribed.shelves[0].scribe < 8.0 + INCH / 16 + 1.0
    assert one(scribed, "shims").amount == pytest.approx(8.0)
    assert not told(on(Wall(bow=((300.0, 0.0), (900.0, 0.0)))), "bow")


def test_a_bump_behind_a_low_rail_tips_the_front() -> None:
    """1/32 behind a 1-1/2 rail on 10 in = 0.21 in: worked example, common practice."""
    assert tip_at_front(10.0, 1 / 32, 1.5) == pytest.approx(0.21, abs=0.005)
    bent = on(Wall(bow=((300.0, 0.0), (900.0, 8.0))))
    frame = make_plan(bent).frames[0]
    assert one(bent, "tip").amount == pytest.approx(210.0 * INCH / 32 / frame.height)


def test_slack_lets_the_front_drop_by_about_itself() -> None:
    loose = on(Wall())
    loose = replace(loose, frame=replace(loose.frame, height_play=3.0))
    drop = one(loose, "droop").amount
    assert drop == pytest.approx(front_drop(3.0, 210.0, make_plan(loose).frames[0].depth))
    assert 3.0 < (drop or 0.0) < 3.6
    assert not told(on(Wall()), "droop")


def test_a_line_out_of_level_asks_which_to_follow() -> None:
    assert one(on(Wall(run_out=-9.0)), "run-out").amount == pytest.approx(9.0 * 1320.0 / 3000.0)
    assert not told(on(Wall()), "run-out")


# Alcove

OPEN = replace(LEDGE, length=1114.0, left="open", right="open", mount=Mount(8.5, 1400.0))
WIDTHS = Alcove((1120.0, 1128.0, 1131.0), (1121.0, 1128.0, 1131.0))


def test_the_smallest_width_less_the_clearance_decides_the_length() -> None:
    niche = Wall(width=1131.0, alcove=WIDTHS)
    codes = {f.code for f in make_plan(on(niche, OPEN)).findings}
    assert not {code for code in codes if code.startswith("alcove")}
    for length, severity in ((1122.0, "error"), (1117.0, "warning")):
        long = on(niche, replace(OPEN, length=length, mount=Mount(0.0, 1400.0)))
        assert one(long, "alcove-length").severity == severity
        assert mended(long, "alcove-length").shelves[0].length == 1114.0
    assert mended(on(niche, replace(OPEN, length=900.0)), "alcove-short").shelves[0].length == 1114.0
    ended = mended(on(niche, replace(OPEN, left="mitred")), "alcove-ends")
    assert ended.shelves[0].mitred_ends == 0


def test_a_narrow_front_lets_no_longer_shelf_in() -> None:
    niche = Wall(width=1131.0, alcove=Alcove((1131.0, 1128.0, 1120.0), (1131.0, 1128.0, 1125.0)))
    long = on(niche, replace(OPEN, length=1125.0, mount=Mount(0.0, 1400.0)))
    assert one(long, "alcove-front").severity == "error"
    changed = mended(long, "alcove-front")
    assert changed.shelves[0].length == 1114.0
    assert one(changed, "alcove-gap").amount == pytest.approx(1131.0 - 1114.0)


# Keep-outs


@pytest.mark.parametrize(
    ("box", "way"),
    [
        ((120.0, 120.0, 130.0, 130.0), "in"),
        ((50.0, 120.0, 300.0, 130.0), "in"),
        ((120.0, 200.0, 130.0, 210.0), "above"),
        ((120.0, 0.0, 130.0, 100.0), "below"),
        ((300.0, 120.0, 310.0, 130.0), "level with"),
        ((300.0, 300.0, 310.0, 310.0), None),
    ],
)
def test_ways_to_stand_to_a_socket(box: tuple[float, float, float, float], way: str | None) -> None:
    assert way_of(box, KeepOut(100.0, 100.0, 86.0, 86.0, "socket")) == way
    assert way_of(box, KeepOut(100.0, 100.0, 86.0, 86.0, "switch")) == way
    assert way_of(box, KeepOut(100.0, 100.0, 86.0, 86.0, "pipe")) == ("in" if way == "in" else None)


def test_a_frame_in_or_in_line_with_what_is_hidden_warns() -> None:
    above = on(Wall(keep_outs=(KeepOut(980.0, 300.0, 86.0, 86.0),)))
    assert "socket" in one(above, "cable-zone").message
    assert "1012.8 mm" in one(above, "cable-zone").message  # the stud in its line: 200 + 2 x 406.4
    inside = on(Wall(keep_outs=(KeepOut(980.0, 1330.0, 86.0, 86.0, "pipe"),)))
    assert "pipe" in one(inside, "keep-out").message
    assert not told(on(Wall(keep_outs=(KeepOut(2500.0, 300.0, 86.0, 86.0),))), "cable-zone")


def test_screws_past_the_cable_line_and_through_the_wall_are_told() -> None:
    """1-1/4 in from the stud's face: a North American rule (National Electrical Code 300.4(A)(1), from memory)."""
    plain = on(Wall())
    frame = make_plan(plain).frames[0]
    bite = frame.screws[0].length - frame.thickness - 12.7
    assert one(plain, "cable-line").amount == pytest.approx(bite - 1.25 * INCH)
    short = replace(plain, screw=replace(plain.screw, bite=25.0))
    assert not told(short, "cable-line")
    deep = replace(plain, screw=replace(plain.screw, length=160.0))
    assert not told(mended(deep, "screw-deep"), "screw-deep")


# Studs


def test_studs_as_noted() -> None:
    assert mended(on(Wall(studs=(600.0, 200.0, 1400.0))), "stud-order").wall.studs == (200.0, 600.0, 1400.0)
    assert mended(on(Wall(studs=(200.0, 600.0, 4000.0))), "stud-off-wall").wall.studs == (200.0, 600.0)
    assert one(on(Wall(studs=(600.0, 619.0, 1400.0))), "stud-close").amount == pytest.approx(19.0)
    assert told(on(Wall(studs=Studs(3500.0, 400.0))), "stud-off-wall")
    assert not {f.code for f in make_plan(on(Wall())).findings} & {"stud-order", "stud-off-wall", "stud-close"}


@settings(max_examples=examples(50, 1000))
@given(st.floats(0.0, 1000.0), st.sampled_from([400.0, 406.4, 600.0]), st.sampled_from(["in", "mm"]))
def test_a_slide_that_is_offered_catches_one_stud_more_with_the_same_wood(x: float, spacing: float, units: str) -> None:
    job = on(Wall(studs=Studs(100.0, spacing)), replace(LEDGE, mount=Mount(x, 1400.0)), units=units)
    plan = make_plan(job)
    for finding in plan.findings:
        for fix in finding.fixes if finding.code == "more-studs" else ():
            moved = make_plan(apply_pointers(job, fix.set))
            assert len(moved.frames[0].studs) == len(plan.frames[0].studs) + 1
            assert moved.cuts == plan.cuts
            assert {f.code for f in moved.errors} == {f.code for f in plan.errors}


def test_a_slide_is_offered_where_a_stud_is_just_missed() -> None:
    near = on(Wall(studs=(500.0, 900.0, 1300.0, 1590.0)))
    assert len(make_plan(mended(near, "more-studs")).frames[0].studs) == 4


# Places


@pytest.mark.parametrize(
    ("mount", "by"),
    [((-20.0, 1400.0), 20.0), ((1700.0, 1400.0), 20.0), ((300.0, 2430.0), 30.0), ((300.0, 60.0), 24.0)],
    ids=["left", "right", "ceiling", "floor"],
)
def test_a_shelf_off_the_wall_is_brought_back(mount: tuple[float, float], by: float) -> None:
    job = on(Wall(), replace(LEDGE, mount=Mount(*mount)))
    assert one(job, "off-wall").amount == pytest.approx(by)
    mended(job, "off-wall")


def test_two_shelves_in_one_place_and_too_near_each_other() -> None:
    other = replace(LEDGE, id="other", mount=Mount(800.0, 1360.0))
    job = on(Wall(), LEDGE, other)
    assert one(job, "overlap").amount == pytest.approx(44.0)
    assert len(one(job, "overlap").fixes) == 2
    for fix in range(2):
        assert not told(mended(job, "overlap", fix), "clear-height")
    beside = replace(other, mount=Mount(1620.0, 1360.0))
    assert not told(on(Wall(), LEDGE, beside), "overlap")
    low = replace(other, mount=Mount(800.0, 1200.0))
    assert one(on(Wall(), LEDGE, low), "clear-height").amount == pytest.approx(116.0)
    assert not told(on(Wall(), LEDGE, replace(other, mount=Mount(800.0, 1000.0))), "clear-height")


def test_the_eye_says_where_the_ends_had_better_come_from() -> None:
    high = on(Wall(), replace(LEDGE, ends_from="top", mount=Mount(300.0, 1900.0)))
    assert mended(high, "eye-line").shelves[0].ends_from == "bottom"
    low = on(Wall(), replace(LEDGE, ends_from="bottom", mount=Mount(300.0, 900.0)))
    assert mended(low, "eye-line").shelves[0].ends_from == "top"
    assert not told(on(Wall(), replace(LEDGE, mount=Mount(300.0, 1900.0))), "eye-line")


@pytest.mark.parametrize(
    ("top", "ends", "seen"),
    [
        (900.0, ("mitred", "mitred"), {"top-front", "front-left", "top-left", "front-right", "top-right"}),
        (1900.0, ("mitred", "open"), {"front-bottom", "front-left", "bottom-left"}),
        (1540.0, ("open", "open"), set()),
    ],
    ids=["under the eye", "over it", "across it"],
)
def test_a_seam_is_in_sight_where_both_its_faces_are(top: float, ends: Any, seen: set[str]) -> None:
    """Eyes at 1500 mm (common practice): from below one sees front, ends and bottom, from above the top instead."""
    shelf = replace(LEDGE, mount=Mount(300.0, top), left=ends[0], right=ends[1])
    plan = make_plan(on(Wall(), shelf))
    assert {seam.id.rpartition("/")[2] for seam in plan.seams if is_in_sight(seam.id, shelf)} == seen
    assert is_in_sight("s/top-front", replace(shelf, mount=None))
    assert not is_in_sight("s/front-bottom", replace(shelf, mount=None))


def test_a_shelf_between_two_others_is_moved_only_to_where_it_is_clear_of_both() -> None:
    """s1 and s2 in one place, s3 just over them: s1 lowered to be clear of s3 would still be too near under s2."""
    places = (("s1", 1000.0), ("s2", 1000.0), ("s3", 1090.0))
    job = on(Wall(), *(replace(LEDGE, id=name, mount=Mount(300.0, top)) for name, top in places))
    for finding in make_plan(job).findings:
        for fix in finding.fixes if finding.code in ("clear-height", "overlap") else ():
            after = make_plan(apply_pointers(job, fix.set))
            assert (finding.code, finding.about) not in {(f.code, f.about) for f in after.findings}, fix.text
