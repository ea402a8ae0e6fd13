"""Ways out: in the order of the trade, each with its number, and each one true."""

from __future__ import annotations

from math import ceil

import msgspec
import pytest
from hypothesis import given, settings

from core.document.model import Mount, Project, Saw, Sheet, Shelf, Studs, Wall
from core.document.patch import apply_pointers
from core.lengths import Unit
from core.plan.make import make_plan
from core.plan.model import Finding, Fix
from core.plan.proof import prove
from core.stock.sizes import INCH_SIZES, MM_SIZES, next_size
from core.wall.eye import EYE
from tests.conftest import examples
from tests.strategies import projects

SHEET = Sheet("A", 2440.0, 1220.0)
LONG = Shelf("long", 2300.0, 250.0, 80.0, mount=Mount(300.0, 1400.0))  # its net is 2806 long


def job(*shelves: Shelf, sheets: tuple[Sheet, ...] = (SHEET,), **more: object) -> Project:
    return msgspec.structs.replace(Project(sheets, shelves, units="mm"), **more)


def missing(project: Project, about: str) -> Finding:
    return next(f for f in make_plan(project).errors if f.code == "no-room" and f.about == about)


def fixes(project: Project, about: str) -> list[Fix]:
    return list(missing(project, about).fixes)


def sets(project: Project, about: str, pointer: str) -> list[Fix]:
    return [fix for fix in fixes(project, about) if pointer in fix.set]


@settings(max_examples=examples(15, 400))
@given(projects(max_shelves=3))
def test_every_way_out_makes_its_finding_go_and_nothing_else_wrong(project: Project) -> None:
    plan = make_plan(project)
    errors = {(f.code, f.about) for f in plan.errors}
    for finding in plan.findings:
        for fix in finding.fixes:
            after = make_plan(apply_pointers(project, fix.set))
            if finding.code != "more-studs":  # one more it is: tests/wall; still another may then be within reach
                assert (finding.code, finding.about) not in {(f.code, f.about) for f in after.findings}
            new = {(f.code, f.about) for f in after.errors} - errors
            assert all(about.startswith(f"{finding.about}/") for _, about in new), fix.text


def test_a_pinned_net_in_the_way_of_a_frame_part_may_be_let_go() -> None:
    """Pinned in the middle of a sheet just large enough, the net leaves no strip as long as the rails."""
    ledge = Shelf("ledge", 1100.0, 200.0, 60.0, mount=Mount(300.0, 1400.0), at=(6.0, 50.0))
    small = job(ledge, sheets=(Sheet("A", 1540.0, 535.0),))
    about = next(f.about for f in make_plan(small).errors)
    (free,) = sets(small, about, "/shelves/0/at")
    assert not make_plan(apply_pointers(small, free.set)).errors


def test_they_come_in_the_order_of_the_trade() -> None:
    """Open at a wall, ends from a strip, a smaller size, a larger sheet, two shelves on a stud (common practice)."""
    at_wall = msgspec.structs.replace(LONG, mount=Mount(0.0, 1400.0))
    project = job(at_wall, sheets=(msgspec.structs.replace(SHEET, quantity=2),), wall=Wall(width=3000.0))
    offered = [fix.set for fix in fixes(project, "long")]
    first = [
        next(i for i, pointers in enumerate(offered) if any(key in at for at in pointers))
        for key in ("/0/left", "/ends_from", "/0/length", "/sheets/0/length", "/shelves/-")
    ]
    assert first[0] == 0
    assert first[1] < next(i for i, pointers in enumerate(offered) if list(pointers) == ["/shelves/0/length"])
    assert first[3] < first[4]


def test_an_end_at_a_wall_says_what_opening_it_gives() -> None:
    """Depth + scribe + what the seam loses: 250 + 4 + 2.2 / cos 45.5° = 257.1, rounded down."""
    shelf = Shelf("s", 1930.0, 250.0, 80.0, scribe=4.0, mount=Mount(0.0, 1400.0))
    (first, *_) = fixes(job(shelf), "s")
    assert first.set == {"/shelves/0/left": "open"}
    assert "257.1 mm shorter" in first.text


@pytest.mark.parametrize(("top", "strip"), [(EYE - 100.0, "top"), (EYE + 100.0, "bottom")])
def test_ends_come_from_the_strip_that_is_seen(top: float, strip: str) -> None:
    """Below the eyes the top is seen, and its seams with the ends are to wrap; above them the bottom."""
    shelf = Shelf("s", 2000.0, 250.0, 80.0, mount=Mount(300.0, top))
    offered = sets(job(shelf), "s", "/shelves/0/ends_from")
    assert offered[0].set["/shelves/0/ends_from"] == strip
    assert "340 mm shorter" in offered[0].text


def test_the_next_size_is_the_largest_whole_one() -> None:
    (fix,) = [fix for fix in fixes(job(LONG), "long") if list(fix.set) == ["/shelves/0/length"]]
    value = fix.set["/shelves/0/length"]
    assert isinstance(value, float)
    assert value == int(value)
    more = msgspec.structs.replace(LONG, length=value + 1.0)
    assert missing(job(more), "long")


def test_where_frame_parts_lack_room_the_size_leaves_it() -> None:
    """The net alone would fit up to the sheet; its frame comes from the same sheet and needs some of it."""
    narrow = msgspec.structs.replace(SHEET, width=620.0)
    project = job(Shelf("s", 1500.0, 270.0, 80.0), sheets=(narrow,))
    for fix in fixes(project, "s"):
        assert not make_plan(apply_pointers(project, fix.set)).errors, fix.text


def test_a_larger_sheet_is_one_that_is_sold() -> None:
    offered = [fix for fix in fixes(job(LONG), "long") if any(at.startswith("/sheets") for at in fix.set)]
    assert {"/sheets/0/length": 3050.0} in [fix.set for fix in offered]


@pytest.mark.parametrize(("unit", "sizes"), [(Unit.INCH, INCH_SIZES), (Unit.MM, MM_SIZES)])
def test_the_next_size_sold_is_the_smallest_that_does(unit: Unit, sizes: tuple[tuple[float, float], ...]) -> None:
    for long, wide in sizes:
        assert next_size(long, wide, unit) == (long, wide)
        larger = next_size(long + 0.1, wide, unit)
        assert larger is None or (larger[0] > long and larger[1] >= wide)
    assert next_size(10_000.0, 100.0, unit) is None


def test_longer_than_any_sheet_sold_says_how_long_it_must_be() -> None:
    giant = msgspec.structs.replace(LONG, length=3500.0)
    (fix,) = sets(job(giant), "long", "/sheets/0/length")
    assert not [f for f in make_plan(apply_pointers(job(giant), fix.set)).errors if f.about == "long"]
    assert "mm long" in fix.text


def test_two_shelves_meet_on_a_stud() -> None:
    project = job(LONG, sheets=(msgspec.structs.replace(SHEET, quantity=2),), wall=Wall(studs=Studs(200.0, 400.0)))
    offered = sets(project, "long", "/shelves/-")
    assert offered
    for fix in offered:
        mended = apply_pointers(project, fix.set)
        left, right = mended.shelves
        assert left.mount is not None
        assert right.mount is not None
        assert left.mount.x + left.length == right.mount.x
        assert (right.mount.x - 200.0) % 400.0 == 0.0
        assert left.length + right.length == pytest.approx(LONG.length)
        assert (left.left, left.right, right.left, right.right) == ("mitred", "open", "open", "mitred")
        plan = make_plan(mended)
        assert not plan.errors
        prove(plan)
    nowhere = msgspec.structs.replace(LONG, mount=None)
    assert not sets(job(nowhere), "long", "/shelves/-")


def test_a_pinned_net_slides_to_the_nearest_place() -> None:
    """Pinned 30 mm past the right edge of the trimmed sheet, and half over another: slid on to a whole millimetre."""
    saw = Saw()
    a = Shelf("a", 600.0, 150.0, 60.0, at=(5.0, 5.0))
    net = make_plan(job(a)).nets[0]
    right = SHEET.length - SHEET.trim - net.length
    past = msgspec.structs.replace(a, at=(right + 30.0, 5.0))
    first = fixes(job(past), "a")[0]
    assert first.set == {"/shelves/0/at": [5.0 + int(right - 5.0), 5.0]}
    assert f"{ceil(10.0 * (30.0 + (right - 5.0) % 1.0)) / 10.0} mm to the left" in first.text
    over = msgspec.structs.replace(a, id="b", at=(5.0, 5.0 + net.width - 20.0))
    moved, *others = fixes(job(a, over), "b")
    assert moved.set == {"/shelves/1/at": [5.0, 5.0 + ceil(net.width + saw.kerf)]}
    assert {"/shelves/0/at": None} in [fix.set for fix in others]
    assert {"/shelves/1/at": None} in [fix.set for fix in others]


def test_all_shelves_get_the_depth_that_fits_all() -> None:
    pair = (Shelf("a", 1500.0, 270.0, 80.0), Shelf("b", 1500.0, 270.0, 80.0))
    project = job(*pair)
    (fix,) = sets(project, "b", "/shelves/0/depth")
    assert fix.set["/shelves/0/depth"] == fix.set["/shelves/1/depth"]
    assert not make_plan(apply_pointers(project, fix.set)).errors


def test_as_many_sheets_as_are_missing() -> None:
    three = tuple(Shelf(name, 1500.0, 400.0, 80.0) for name in "abc")
    (fix,) = sets(job(*three), "c", "/sheets/0/quantity")
    assert fix.set == {"/sheets/0/quantity": 3}


@settings(max_examples=examples(15, 300))
@given(projects(max_shelves=2))
def test_a_change_with_a_smaller_size_gives_more_than_the_size_alone(project: Project) -> None:
    for finding in make_plan(project).errors:
        alone = [fix.set for fix in finding.fixes if len(fix.set) == 1]
        for key in ("length", "depth", "height"):
            sizes = [s[at] for s in alone for at in s if at.endswith(f"/{key}") and at.startswith("/shelves")]
            for fix in finding.fixes:
                pointers = {at.rpartition("/")[2] for at in fix.set}
                if sizes and key in pointers and pointers & {"left", "right", "ends_from"} and "-" not in pointers:
                    (value,) = (v for at, v in fix.set.items() if at.endswith(f"/{key}"))
                    assert value > max(sizes), fix.text


def test_an_open_end_that_still_needs_a_shorter_shelf_than_two_mitred_ones_is_no_way_out() -> None:
    """Between two walls, where the rails need a strip that opening an end would give to the net."""
    ledge = Shelf("ledge", 2032.0, 254.0, 63.5, mount=Mount(0.0, 1400.0))
    below = Shelf("below", 600.0, 254.0, 63.5, mount=Mount(300.0, 1000.0))
    wood = Sheet("A", 2438.4, 1219.2, 18.288, trim=6.35)
    project = job(ledge, below, sheets=(wood,), wall=Wall(width=2032.0), saw=Saw(kerf=1.8))
    (alone,) = [fix.set for fix in fixes(project, "ledge") if list(fix.set) == ["/shelves/0/length"]]
    for fix in sets(project, "ledge", "/shelves/0/left") + sets(project, "ledge", "/shelves/0/right"):
        assert "/shelves/-" in fix.set or fix.set["/shelves/0/length"] > alone["/shelves/0/length"], fix.text


def test_a_slide_stays_exact_where_no_whole_place_fits() -> None:
    """Two nets and the cut between them fill the board across but for 0.05 mm."""
    a, kerf = Shelf("a", 600.0, 150.0, 60.0, at=(5.0, 5.0)), Saw().kerf
    width = make_plan(job(a)).nets[0].width
    over = msgspec.structs.replace(a, id="b", at=(5.0, width - 15.0))
    tight = msgspec.structs.replace(SHEET, width=10.0 + 2.0 * width + kerf + 0.05)
    moved = fixes(job(a, over, sheets=(tight,)), "b")[0]
    assert moved.set == {"/shelves/1/at": [5.0, pytest.approx(5.0 + width + kerf)]}
