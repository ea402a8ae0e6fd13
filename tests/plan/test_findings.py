"""What the plan says, and that its ways out are ways out."""

import msgspec
import pytest

from core.document.model import Project, Saw, Sheet, Shelf
from core.document.patch import apply_pointers
from core.plan.make import make_plan
from core.plan.model import Finding
from core.plan.proof import prove

INCH = 25.4
SHEET = Sheet("A", 2440.0, 1220.0)


def findings(project: Project, code: str) -> list[Finding]:
    return [f for f in make_plan(project).findings if f.code == code]


def one(project: Project, code: str) -> Finding:
    found = findings(project, code)
    assert len(found) == 1
    return found[0]


def job(*shelves: Shelf, sheets: tuple[Sheet, ...] = (SHEET,), **fields: object) -> Project:
    return msgspec.structs.replace(Project(sheets, shelves), **fields)


def test_a_shelf_too_long_says_by_how_much() -> None:
    """A trade scenario (common practice): 96 x 10 x 2-1/2 in on 48 x 96 in, kerf 0.071, allowance 1/64, trim 1/4:
    20-3/4 in too long; wrapped from the top the longest is 90-1/4."""
    sheet = Sheet("A", 96 * INCH, 48 * INCH, 0.72 * INCH, trim=0.25 * INCH)
    shelf = Shelf("s", 96 * INCH, 10 * INCH, 2.5 * INCH)
    saw = Saw(kerf=0.071 * INCH, overcut=0.0, allowance=INCH / 64)
    finding = one(job(shelf, sheets=(sheet,), saw=saw), "no-room")
    assert "20-3/4" in finding.message
    assert finding.amount == pytest.approx(20.732 * INCH, abs=0.1)
    assert any("75-1/4" in fix.text for fix in finding.fixes)
    long = job(msgspec.structs.replace(shelf, length=90.25 * INCH, ends_from="top"), sheets=(sheet,), saw=saw)
    assert not findings(long, "no-room")
    longer = job(msgspec.structs.replace(shelf, length=90.3125 * INCH, ends_from="top"), sheets=(sheet,), saw=saw)
    assert findings(longer, "no-room")


def test_two_shelves_fit_where_the_trade_says_they_do() -> None:
    """Two 60 x 10-1/4 x 2-1/2 in on 48 x 96, t 0.72, kerf 0.071 fit (47-1/16 of 48 across); 1800 x 240 x 60 mm
    twice on 1250 x 2500, t 17.8, kerf 1.8, allowance 0.5, trim 6 too (common practice, worked by hand)."""
    saw = Saw(kerf=0.071 * INCH, overcut=0.0, allowance=INCH / 64)
    sheet = Sheet("A", 96 * INCH, 48 * INCH, 0.72 * INCH, trim=0.25 * INCH)
    two = tuple(Shelf(n, 60 * INCH, 10.25 * INCH, 2.5 * INCH) for n in "ab")
    plan = make_plan(job(*two, sheets=(sheet,), saw=saw))
    assert len({n.sheet for n in plan.nets}) == 1
    top = max(n.y + n.width for n in plan.nets) - sheet.trim
    assert 47.0 < top / INCH + 0.5 <= 47 + 1 / 16  # with both trims; needs are rounded up to 1/16
    metric = Saw(kerf=1.8, overcut=0.0, allowance=0.5)
    board = Sheet("A", 2500.0, 1250.0, 17.8, trim=6.0)
    plan = make_plan(job(*(Shelf(n, 1800.0, 240.0, 60.0) for n in "ab"), sheets=(board,), saw=metric))
    assert len({n.sheet for n in plan.nets}) == 1
    assert max(n.length for n in plan.nets) + 12 == pytest.approx(2298, abs=0.5)
    assert max(n.y + n.width for n in plan.nets) + 6 == pytest.approx(1106, abs=0.5)


@pytest.mark.parametrize(
    ("shelf", "sheets"),
    [
        (Shelf("s", 2300.0, 250.0, 60.0), (SHEET,)),
        (Shelf("s", 900.0, 600.0, 60.0), (SHEET,)),
        (Shelf("s", 900.0, 200.0, 900.0), (SHEET,)),
        (Shelf("s", 900.0, 200.0, 80.0), (Sheet("A", 2440.0, 1220.0, quantity=0),)),
        (Shelf("s", 900.0, 200.0, 80.0, at=(2000.0, 5.0)), (SHEET,)),
        (Shelf("s", 900.0, 200.0, 80.0, sheet="B"), (SHEET, Sheet("B", 500.0, 500.0))),
    ],
    ids=["too long", "too deep", "too high", "no sheet", "pinned outside", "named sheet too small"],
)
def test_every_way_out_gives_the_shelf_its_room(shelf: Shelf, sheets: tuple[Sheet, ...]) -> None:
    project = job(shelf, sheets=sheets)
    finding = one(project, "no-room")
    assert finding.about == "s"
    assert finding.fixes
    for fix in finding.fixes:
        mended = make_plan(apply_pointers(project, fix.set))
        assert {n.shelf for n in mended.nets} == {"s"}, fix.text
        prove(mended)


def test_pins_that_overlap_or_leave_no_straight_cut() -> None:
    a, b = Shelf("a", 600.0, 150.0, 60.0, at=(5.0, 5.0)), Shelf("b", 600.0, 150.0, 60.0, at=(300.0, 100.0))
    finding = one(job(a, b), "no-room")
    assert (finding.about, "a" in finding.message) == ("b", True)
    first = make_plan(job(a))
    net = first.nets[0]
    near = msgspec.structs.replace(b, at=(5.0, 5.0 + net.width + 1.0))  # nearer than a kerf
    assert one(job(a, near), "no-room").amount == pytest.approx(2.2 - 1.0)
    clear = msgspec.structs.replace(b, at=(5.0, 5.0 + net.width + 2.2))
    assert not findings(job(a, clear), "no-room")


def test_a_pinwheel_of_pins_cannot_be_parted() -> None:
    """Four nets round a middle: no straight cut from edge to edge parts any of them."""
    sheet = Sheet("A", 3000.0, 3000.0, trim=0.0)
    wide, tall = Shelf("w", 1200.0, 200.0, 80.0, "open", "open"), Shelf("t", 400.0, 500.0, 80.0, "open", "open")
    nets = {s.id: make_plan(job(s, sheets=(sheet,))).nets[0] for s in (wide, tall)}
    x, y, a, b = nets["w"].length, nets["w"].width, nets["t"].length, nets["t"].width
    gap = 10.0
    turns = [(wide, (0.0, 0.0)), (tall, (x + gap, 0.0)), (wide, (a + gap, b + gap)), (tall, (0.0, y + gap))]
    shelves = tuple(msgspec.structs.replace(s, id=f"s{i}", at=at) for i, (s, at) in enumerate(turns))
    plan = make_plan(job(*shelves, sheets=(sheet,)))
    prove(plan)
    said = [f for f in plan.errors if f.code == "no-room" and "/" not in f.about]
    assert [f.about for f in said] == ["s3"]
    assert "no straight cut" in said[0].message


def test_a_frame_part_without_room_is_named() -> None:
    small = Sheet("A", 1350.0, 560.0, trim=0.0)
    plan = make_plan(job(Shelf("s", 900.0, 220.0, 80.0), sheets=(small,)))
    assert {n.shelf for n in plan.nets} == {"s"}
    about = {f.about for f in plan.findings if f.code == "no-room"}
    assert about
    assert about <= {part.id for part in plan.frames[0].parts}
    prove(plan)


def test_frame_parts_come_from_a_frame_sheet_where_the_shell_sheet_is_kept() -> None:
    kept = msgspec.structs.replace(SHEET, use="shell")
    spare = Sheet("F", 1500.0, 600.0, use="frame")
    plan = make_plan(job(Shelf("s", 900.0, 200.0, 80.0), sheets=(kept, spare)))
    prove(plan)
    assert {p.sheet for p in plan.frames[0].parts} == {"F1"}
    assert {p.sheet for p in plan.panels} == {"A1"}


def test_tilt_and_reach() -> None:
    shelf = Shelf("s", 900.0, 200.0, 80.0)
    project = job(shelf, saw=Saw(overcut=3.0, tilt_max=47.0))
    finding = one(project, "tilt")
    assert finding.severity == "error"
    assert not findings(apply_pointers(project, finding.fixes[0].set), "tilt")
    assert one(job(shelf, saw=Saw(depth_at_bevel=20.0)), "reach").severity == "error"
    assert not findings(job(shelf), "reach")


def test_undercut_and_open_corners() -> None:
    shelf = Shelf("s", 900.0, 200.0, 80.0)
    assert one(job(shelf, saw=Saw(overcut=-0.5)), "undercut").severity == "warning"
    spread = job(shelf, saw=Saw(overcut=0.1, bevel_sd=0.3))
    finding = one(spread, "open-corners")
    assert not findings(apply_pointers(spread, finding.fixes[0].set), "open-corners")
    assert not findings(job(shelf, saw=Saw(overcut=0.5, bevel_sd=0.2)), "open-corners")


def test_a_shelf_with_no_inside_is_not_cut() -> None:
    plan = make_plan(job(Shelf("s", 900.0, 200.0, 30.0)))
    assert {"no-cavity", "no-room"} <= {f.code for f in plan.errors}
    assert not plan.cuts
    assert all(p.sheet is None for p in plan.panels)


def test_the_thinner_of_two_sheets_is_taken_where_the_thick_one_leaves_no_inside() -> None:
    thin = Sheet("B", 2440.0, 1220.0, thickness=9.0)
    plan = make_plan(job(Shelf("s", 900.0, 200.0, 34.0), sheets=(SHEET, thin)))
    assert {n.sheet for n in plan.nets} == {"B1"}
    prove(plan)


def test_nothing_asked_for_is_a_plan_with_nothing_in_it() -> None:
    plan = make_plan(job())
    assert (plan.sheets, plan.cuts, plan.findings) == ((), (), ())


def test_sheet_and_piece_names_never_meet() -> None:
    sheets = (Sheet("A", 1400.0, 560.0), Sheet("A1", 1400.0, 560.0), Sheet("A1.1", 1400.0, 560.0))
    plan = make_plan(job(*(Shelf(n, 900.0, 220.0, 80.0) for n in "abc"), sheets=sheets))
    prove(plan)
    names = [s.id for s in plan.sheets]
    made = [name for c in plan.cuts for name in c.makes if name]
    assert len({*names, *made}) == len(names) + len(made)
