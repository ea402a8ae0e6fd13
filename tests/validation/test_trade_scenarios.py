"""Worked examples of the trade, as makers reckon them: what fits, what does not, by how much, and what to offer.

Basis of every number here: worked example, common practice (sizes, 1/4 in or 6 mm trims, 1/64 in or 0.5 mm clean-up,
limits rounded down and needs up). Makers round to sixteenths where the plan says thirty-seconds: such numbers are
compared at the printed precision.
"""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
import shapely

from core.document.model import Alcove, FrameWish, KeepClear, KeepOut, Mount, Project, Saw, Sheet, Shelf, Studs, Wall
from core.document.patch import apply_pointers
from core.frame import cavity_of
from core.layout.largest import Dimension, largest
from core.layout.margin import margins
from core.lengths import Rounding, Unit, show_length
from core.plan.make import make_plan
from core.plan.model import Finding, Fix, Plan
from core.plan.proof import prove

INCH = 25.4


def inch_job(
    sheet: tuple[float, float], *shelves: Shelf, kerf: float, thickness: float = 0.72, own_frame: bool = True
) -> Project:
    """Shelves on one sheet (length, width in inches). own_frame: frames come from other wood, as is not said there."""
    long, wide = (side * INCH for side in sheet)
    wood = Sheet("A", long, wide, thickness * INCH, trim=INCH / 4)
    other = Sheet("other", 4000.0, 1500.0, thickness * INCH, quantity=4, use="frame")
    saw = Saw(kerf=kerf * INCH, overcut=0.0, allowance=INCH / 64)
    return Project((wood, other) if own_frame else (wood,), shelves, saw=saw)


def inch_shelf(name: str, length: float, depth: float, height: float, **more: Any) -> Shelf:
    return Shelf(name, length * INCH, depth * INCH, height * INCH, **more)


def sixteenths(mm: float, rounding: Rounding) -> str:
    return show_length(mm, Unit.INCH, 16, rounding=rounding)


def no_room(plan: Plan) -> Finding:
    found = [f for f in plan.errors if f.code == "no-room" and "/" not in f.about]
    assert len(found) == 1
    return found[0]


def way_out(project: Project, words: str) -> Fix:
    """The one way out offered with just these words; it gives the shelf its room, proven by replay."""
    fixes = [fix for fix in no_room(make_plan(project)).fixes if fix.text == words]
    assert len(fixes) == 1, [fix.text for fix in no_room(make_plan(project)).fixes]
    mended = make_plan(apply_pointers(project, fixes[0].set))
    assert not mended.errors
    prove(mended)
    return fixes[0]


def most(project: Project, what: Dimension, shelf: int = 0) -> float:
    answer = largest(project, what, shelf)
    assert answer is not None
    assert answer.value is not None
    return answer.value


def test_kitchen_pair() -> None:
    """Two 60 x 10-1/4 x 2-1/2 in, 48 x 96, t 0.72, kerf 0.071: 47-1/16 of 48 across, 81-1/4 of 96 along, 15/16 spare.

    By hand: g = 0.071 sqrt 2 + 1/64 = 0.1160; across 2 (2 x 10.25 + 2.5 + 2 g) + 0.071 + 1/2 = 47.035,
    along 60 + 2 (10.25 + g) + 1/2 = 81.232.
    """
    pair = (inch_shelf("upper", 60, 10.25, 2.5), inch_shelf("lower", 60, 10.25, 2.5))
    plan = make_plan(inch_job((96, 48), *pair, kerf=0.071))
    assert not plan.errors
    assert {net.sheet for net in plan.nets} == {"A1"}
    across = max(net.y + net.width for net in plan.nets) + INCH / 4
    assert sixteenths(across, "up") == '47-1/16"'
    assert sixteenths(max(net.x + net.length for net in plan.nets) + INCH / 4, "up") == '81-1/4"'
    spare = max(margin.up for margin in margins(plan))
    assert sixteenths(spare, "down") == '15/16"'
    assert spare == pytest.approx(48 * INCH - across)
    prove(plan)


def test_living_room_in_millimetres() -> None:
    """1800 x 240 x 60 twice, 1250 x 2500, t 17.8, kerf 1.8: 1106 of 1250 across, 2298 along; L may grow to 2001.

    By hand: g = 1.8 sqrt 2 + 0.5 = 3.0456; 2 (2 x 240 + 60 + 2 g) + 1.8 + 12 = 1105.98; 2500 - 12 - 2 (240 + g) =
    2001.91. All frame parts come from the same sheet too.
    """
    saw = Saw(kerf=1.8, overcut=0.0, allowance=0.5)
    pair = tuple(Shelf(name, 1800.0, 240.0, 60.0) for name in ("upper", "lower"))
    job = Project((Sheet("A", 2500.0, 1250.0, 17.8, trim=6.0),), pair, units="mm", saw=saw)
    plan = make_plan(job)
    assert not plan.errors
    assert round(max(net.y + net.width for net in plan.nets) + 6.0) == 1106
    assert round(max(net.length for net in plan.nets) + 12.0) == 2298
    assert [int(most(job, "length", shelf)) for shelf in (0, 1)] == [2001, 2001]


@pytest.fixture
def long_wish() -> Project:
    """96 x 10 x 2-1/2 in wanted from 48 x 96, kerf 0.071."""
    return inch_job((96, 48), inch_shelf("ledge", 96, 10, 2.5), kerf=0.071, own_frame=False)


def test_ninety_six_inches_says_by_how_much_it_is_too_long(long_wish: Project) -> None:
    """Over by 20-3/4: 96 + 2 (10 + 0.1160) - 95.5 = 20.732."""
    finding = no_room(make_plan(long_wish))
    assert finding.amount is not None
    assert sixteenths(finding.amount, "up") == '20-3/4"'
    assert '20-3/4"' in finding.message


@pytest.mark.parametrize(
    ("words", "limit"),
    [
        ('Ends from the top and 90-1/4" long', '90-1/4"'),  # 95.5 - 2 (2.5 + g) = 90.268
        ('Left end open and 85-3/8" long', '85-3/8"'),  # 95.5 - (10 + g) = 85.384
        ('Both ends open and 95-1/2" long', '95-1/2"'),
        ('Length 75-1/4"', '75-1/4"'),  # 95.5 - 2 (10 + g) = 75.268
        ('A sheet 120" long', '99-1/4"'),  # 119.5 - 2 (10 + g) = 99.268: 96 fits
    ],
)
def test_ninety_six_inches_and_what_to_offer(long_wish: Project, words: str, limit: str) -> None:
    """Wrap from the top 90-1/4, one end 85-3/8, no ends 95-1/2, as it is 75-1/4; a 10 ft sheet gives up to 99-1/4."""
    mended = apply_pointers(long_wish, way_out(long_wish, words).set)
    assert sixteenths(most(mended, "length"), "down") == limit


def test_ninety_six_inches_between_walls(long_wish: Project) -> None:
    """Where the ends meet walls, opening them comes before all else; the alcove gives 95-1/2, one wall 85-3/8."""
    niche = apply_pointers(long_wish, {"/shelves/0/mount": {"x": 0.0, "top": 1400.0}, "/wall": Wall(width=96 * INCH)})
    texts = [fix.text for fix in no_room(make_plan(niche)).fixes]
    assert texts[:3] == [
        'Left end open and 85-3/8" long',
        'Right end open and 85-3/8" long',
        'Both ends open and 95-1/2" long',
    ]


def birch(*shelves: Shelf) -> Project:
    """Birch 5 x 5, t 0.472, table saw, kerf 1/8."""
    return inch_job((60, 60), *shelves, kerf=1 / 8, thickness=0.472)


def test_birch_five_by_five_from_the_front() -> None:
    """48 x 8 x 2: max 43-1/16, over by 4-15/16 in sixteenths. g = 0.1768 + 1/64 = 0.1924; 59.5 - 2 (8 + g) = 43.115,
    over by 48 - 43.115 = 4.885, which the plan says to 1/32: 4-29/32."""
    job = birch(inch_shelf("ledge", 48, 8, 2))
    finding = no_room(make_plan(job))
    assert finding.amount is not None
    assert sixteenths(finding.amount, "up") == '4-15/16"'
    assert '4-29/32"' in finding.message
    assert way_out(job, 'Length 43-1/16"')


def test_birch_five_by_five_from_the_top() -> None:
    """From the top: 55-1/16 (59.5 - 2 (2 + g) = 55.115), fits; three across take 55.9 of 60; cavity 1.056."""
    job = birch(inch_shelf("ledge", 48, 8, 2))
    turned = apply_pointers(job, way_out(job, 'Ends from the top: 12" shorter').set)
    assert sixteenths(most(turned, "length"), "down") == '55-1/16"'
    plan = make_plan(birch(*(inch_shelf(name, 48, 8, 2, ends_from="top") for name in "abc")))
    assert not plan.errors
    assert {net.sheet for net in plan.nets} == {"A1"}
    assert (max(net.y + net.width for net in plan.nets) / INCH + 1 / 4) == pytest.approx(55.9, abs=0.05)
    assert plan.frames[0].cavity[2] / INCH == pytest.approx(1.056, abs=0.0005)
    prove(plan)


def test_media_ledge() -> None:
    """72 x 14 x 3, kerf 1/8, t 0.72: needs 100-29/32, over 4-29/32, max 67-1/16; top-wrap (89-1/16) or D 11-1/2.

    By hand: g = 0.1924; 72 + 2 (14 + g) + 1/2 = 100.885; 95.5 - 2 (14 + g) = 67.115; from the top 95.5 - 2 (3 + g) =
    89.115; depth (95.5 - 72) / 2 - g = 11.558.
    """
    job = inch_job((96, 48), inch_shelf("media", 72, 14, 3), kerf=1 / 8)
    plan = make_plan(job)
    finding, net = no_room(plan), plan.shapes[0]
    assert show_length(net.length + INCH / 2, Unit.INCH, rounding="up") == '100-29/32"'
    assert '4-29/32"' in finding.message
    turned = apply_pointers(job, way_out(job, 'Ends from the top: 22" shorter').set)
    assert sixteenths(most(turned, "length"), "down") == '89-1/16"'
    assert way_out(job, 'Depth 11-1/2"')
    assert way_out(job, 'Length 67-1/16"')


def test_the_most_of_an_offcut() -> None:
    """23-3/8 x 84, D 9-1/2, H 2-1/2, kerf 1/8: L 64 (83.5 - 2 (9.5 + 0.1924) = 64.115, whole inches as makers say);
    with L 60, D up to 9-15/16 (across: (22.875 - 2.5 - 2 g) / 2 = 9.995)."""
    offcut = (84.0, 23.375)
    long = inch_job(offcut, inch_shelf("most", 70, 9.5, 2.5), kerf=1 / 8)
    assert int(most(long, "length") / INCH) == 64
    assert way_out(long, 'Length 64-1/16"')
    deep = inch_job(offcut, inch_shelf("most", 60, 10.5, 2.5), kerf=1 / 8)
    assert sixteenths(most(deep, "depth"), "down") == '9-15/16"'
    assert way_out(deep, 'Depth 9-15/16"')


def test_the_most_of_an_offcut_with_a_bruised_corner() -> None:
    """The same offcut, a corner bruised 4-1/2 along by 10-1/8 across: the net slides up by 3/16 and clears it.

    By hand: the waste corner beside bottom and left is 9.5 + g = 9.6924 high, the bruise ends 10-1/8 over the sheet's
    edge, so the net begins 10.125 - 9.6924 = 0.4326 up, 0.1826 over its trim; across 23.375 - 1/2 - 21.8848 = 0.990
    is to spare. L is still 64; with L 60 a depth of 9-15/16 still fits, for its waste corner is higher than the bruise.
    """
    corner = [(0.0, 0.0), (4.5, 0.0), (3.5, 6.0), (1.5, 10.125), (0.0, 10.125)]
    bruise = KeepClear(tuple((x * INCH, y * INCH) for x, y in corner))

    def bruised(length: float, depth: float) -> Project:
        job = inch_job((84.0, 23.375), inch_shelf("most", length, depth, 2.5), kerf=1 / 8)
        stock = msgspec.structs.replace(job.sheets[0], keep_clear=(bruise,))
        return msgspec.structs.replace(job, sheets=(stock, *job.sheets[1:]))

    assert int(most(bruised(70, 9.5), "length") / INCH) == 64
    assert way_out(bruised(70, 9.5), 'Length 64-1/16"')
    assert sixteenths(most(bruised(60, 10.5), "depth"), "down") == '9-15/16"'
    plan = make_plan(bruised(64, 9.5))
    assert not plan.errors
    (net,) = plan.nets
    assert sixteenths(net.y - INCH / 4, "up") == '3/16"'
    assert net.y / INCH == pytest.approx(0.4326, abs=0.0005)
    faces = [shapely.box(p.x, p.y, p.x + p.show[0], p.y + p.show[1]) for p in plan.panels if p.x is not None]
    assert shapely.union_all(faces).intersection(shapely.Polygon(bruise.corners)).area < 1e-3
    prove(plan)


# At the wall


def hung(job: Project, x: float, top: float, wall: Wall, **frame: Any) -> Project:
    """The job with its one shelf hung. x, top: of the shelf; everything in inches or millimetres as the job has it."""
    inch = INCH if job.units == "in" else 1.0
    (shelf,) = job.shelves
    placed = msgspec.structs.replace(shelf, mount=Mount(x * inch, top * inch))
    return msgspec.structs.replace(job, shelves=(placed,), wall=wall, frame=FrameWish(**frame))


def said(project: Project, code: str) -> Finding:
    found = [f for f in make_plan(project).findings if f.code == code]
    assert len(found) == 1, [(f.code, f.message) for f in make_plan(project).findings]
    return found[0]


def mended(project: Project, code: str, fix: int = 0) -> Project:
    """The project after a way out of a finding, which is then gone."""
    changed = apply_pointers(project, said(project, code).fixes[fix].set)
    assert code not in {f.code for f in make_plan(changed).findings}
    return changed


def test_an_alcove_between_piers() -> None:
    """1131/1128/1120 mm from front to back, block wall, 250 deep, sheet 1525 square, kerf 1.8: no ends, L = 1114."""
    saw = Saw(kerf=1.8, overcut=0.0, allowance=0.5)
    stock = Sheet("A", 1525.0, 1525.0, 17.8, trim=6.0)
    job = Project((stock,), (Shelf("niche", 1131.0, 250.0, 60.0),), units="mm", saw=saw)
    widths = (1120.0, 1128.0, 1131.0)
    piers = hung(job, 0.0, 1400.0, Wall(width=1131.0, kind="masonry", alcove=Alcove(widths, widths)))
    assert said(piers, "alcove-length").severity == "error"
    fitted = mended(mended(piers, "alcove-length"), "alcove-ends")
    (shelf,) = fitted.shelves
    assert (shelf.length, shelf.mitred_ends) == (1114.0, 0)
    plan = make_plan(fitted)
    assert not plan.errors
    assert "anchors" in said(fitted, "wall-kind").message
    assert not plan.frames[0].screws
    prove(plan)


def test_an_alcove_whose_front_is_the_narrowest() -> None:
    """The same turned round: what is as wide as the back does not go in."""
    stock = Sheet("A", 1525.0, 1525.0, 17.8, trim=6.0)
    shelf = Shelf("niche", 1125.0, 250.0, 60.0, left="open", right="open")
    widths = (1131.0, 1128.0, 1120.0)
    wall = Wall(width=1131.0, kind="masonry", alcove=Alcove(widths, widths))
    piers = hung(Project((stock,), (shelf,), units="mm"), 3.0, 1400.0, wall)
    assert said(piers, "alcove-front").severity == "error"
    assert mended(piers, "alcove-front").shelves[0].length == 1114.0


def test_too_thin_for_a_frame() -> None:
    """48 x 9 x 1-3/4 in 3/4 ply (t 0.72): cavity 0.31, no frame; H 2-1/2 is enough, by hand 2.5 - 1.44 = 1.06.

    The frame's least height here is 20 mm, with 1.5 mm of play: H 2-1/4, which makers offer too (0.81), is just short
    of it, and so is 1/2 ply (1.75 - 2 x 0.472 = 0.81).
    """
    job = inch_job((96, 48), inch_shelf("ledge", 48, 9, 1.75), kerf=0.071)
    assert cavity_of(job.shelves[0], 0.72 * INCH).height / INCH == pytest.approx(0.31)
    finding = said(job, "no-cavity")
    assert finding.severity == "error"
    assert "thinner sheet" in finding.message
    higher = mended(job, "no-cavity")
    assert 2.25 * INCH < higher.shelves[0].height <= 2.5 * INCH
    assert not make_plan(higher).errors
    for height, thickness, enough in ((2.5, 0.72, True), (2.25, 0.72, False), (1.75, 0.472, False)):
        other = inch_job((96, 48), inch_shelf("ledge", 48, 9, height), kerf=0.071, thickness=thickness)
        assert bool(make_plan(other).frames) is enough
    assert cavity_of(inch_shelf("ledge", 48, 9, 1.75), 0.472 * INCH).height / INCH == pytest.approx(0.81, abs=0.005)


def test_two_studs_at_24_inches() -> None:
    """30 x 7 x 2-1/4, one stud hit: it says so, slides the shelf to hit two, or blocking; ribs dodge both screws.

    A higher shelf, 2-1/2: at 2-1/4 the frame would be lower than 20 mm. With single end ribs and 1/8 in at each side
    the two studs are within the driver's reach; with ends doubled they are not, and blocking is all there is.
    """
    job = inch_job((96, 48), inch_shelf("short", 30, 7, 2.5), kerf=0.071)
    wall = Wall(width=96 * INCH, studs=Studs(16 * INCH, 24 * INCH))
    missed = hung(job, 22, 50, wall, end_layers=1, side_play=INCH / 8)
    finding = said(missed, "one-stud")
    assert "blocking" in finding.message
    plan = make_plan(mended(missed, "one-stud"))
    assert len(plan.frames[0].studs) == 2
    way = (0.72 + 1.0) / 2 * INCH + 6.0
    assert all(abs(rib - screw.x) >= way - 1e-6 for rib in plan.frames[0].ribs for screw in plan.frames[0].screws)
    doubled = hung(job, 22, 50, wall)
    assert said(doubled, "one-stud").fixes == ()


def test_tile_sockets_and_a_counter_out_of_level() -> None:
    """Out of level 3/8 in 6 ft, 70 x 11-1/4 x 3, kerf 0.071: fits (93-1/4). Screw 1-1/2 + 1/2 + 3/8 + 1-1/2 -> 4 in
    stock; the socket on stud 3 warns; level or parallel is asked."""
    job = inch_job((96, 48), inch_shelf("tiled", 70, 11.25, 3), kerf=0.071)
    studs = Studs(8 * INCH, 16 * INCH)
    socket = KeepOut(38.5 * INCH, 44 * INCH, 3 * INCH, 5 * INCH, "socket")  # stud 3 is at 8 + 2 x 16 = 40 in
    wall = Wall(
        width=72 * INCH, studs=studs, board=INCH / 2, tile=INCH * 3 / 8, run_out=INCH * 3 / 8, keep_outs=(socket,)
    )
    tiled = hung(job, 1, 56, wall, back_layers=2)
    plan = make_plan(tiled)
    assert not plan.errors
    assert sixteenths(plan.nets[0].length + INCH / 2, "up") == '93-1/4"'
    assert {screw.length for screw in plan.frames[0].screws} == {100.0}  # the same stock as 4 in
    assert sixteenths(1.5 * INCH + wall.cover + 1.5 * INCH, "up") == '3-7/8"'
    zone = said(tiled, "cable-zone")
    assert zone.severity == "warning"
    assert '40"' in zone.message
    asked = said(tiled, "run-out")
    assert asked.amount == pytest.approx(3 / 8 * 70 / 72 * INCH)
    assert "level, or parallel" in asked.message


def test_bowed_old_plaster() -> None:
    """3/8 hollow in the middle, 84 x 10 x 3, 10-ft sheet: scribe 7/16 off the backs, so the blank grows by 7/16 at
    every back (top, bottom, both ends); the depth stays; the rail is shimmed straight."""
    job = inch_job((120, 48), inch_shelf("long", 84, 10, 3), kerf=0.071)
    bow = ((6 * INCH, 0.0), (48 * INCH, 3 / 8 * INCH), (90 * INCH, 0.0))
    hollow = hung(job, 6, 50, Wall(width=96 * INCH, bow=bow))
    before, finding = make_plan(hollow), said(hollow, "bow")
    assert finding.amount == pytest.approx(7 / 16 * INCH)
    assert '7/16"' in finding.message
    fitted = mended(hollow, "bow")
    assert fitted.shelves[0].scribe == pytest.approx(7 / 16 * INCH)
    assert fitted.shelves[0].depth == hollow.shelves[0].depth
    plan = make_plan(fitted)
    assert plan.nets[0].length - before.nets[0].length == pytest.approx(2 * 7 / 16 * INCH)
    assert plan.nets[0].width - before.nets[0].width == pytest.approx(2 * 7 / 16 * INCH)
    shims = said(fitted, "shims")
    assert shims.amount == pytest.approx(3 / 8 * INCH)
    assert "straight" in shims.message
    prove(plan)
