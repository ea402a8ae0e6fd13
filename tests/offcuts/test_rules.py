"""What is kept of a job, an offcut as stock, and what one can still give."""

import msgspec
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.document.check import check_project
from core.document.model import Project, Saw, Sheet, Shelf
from core.layout.largest import Largest
from core.lengths import Unit, show_length
from core.offcuts.model import KeptOffcut
from core.offcuts.rules import (
    TRIM,
    as_sheet,
    is_sheet_of,
    kept_from,
    largest_from,
    same_piece,
    used_by,
    what_can_it_give,
)
from core.plan.make import make_plan
from core.plan.proof import prove
from tests.conftest import examples
from tests.strategies import lengths, projects, saws

INCH = 25.4
RACK = KeptOffcut("offcut-3", 84 * INCH, 23.375 * INCH, 0.72 * INCH, face="rift oak", date="2031-05-30")
TRADE_SAW = Saw(kerf=INCH / 8, overcut=0.0, allowance=INCH / 64)


def given_by(answer: Largest | None) -> Largest:
    assert answer is not None
    return answer


@settings(max_examples=examples(60, 1000))
@given(projects(max_shelves=3))
def test_what_is_kept_lies_on_the_bench(project: Project) -> None:
    plan = make_plan(project)
    pieces, sheets = prove(plan).pieces, {s.id: s for s in plan.sheets}
    kept = kept_from(plan, "2031-05-30", "oak")
    assert len(kept) == len(plan.offcuts)
    step, unit = INCH / 32 if project.units == "in" else 0.1, Unit(project.units)
    for offcut in kept:
        x0, y0, x1, y1 = pieces[offcut.piece].clear_box()
        assert 0.0 <= x1 - x0 - offcut.length + 1e-9 <= step + 2e-9
        assert 0.0 <= y1 - y0 - offcut.width + 1e-9 <= step + 2e-9
        assert show_length(offcut.length, unit, rounding="down") == show_length(x1 - x0, unit, rounding="down")
        source = sheets[offcut.sheet].source
        assert (offcut.thickness, offcut.veneer) == (source.thickness, source.veneer)
        assert (offcut.project, offcut.face, offcut.date, offcut.there) == (project.name, "oak", "2031-05-30", True)
    assert [o.area for o in kept] == sorted((o.area for o in kept), reverse=True) or not kept


@settings(max_examples=examples(30, 300))
@given(projects(max_shelves=3), lengths(90.0, 200.0))
def test_an_offcut_is_stock_for_a_later_job(project: Project, depth: float) -> None:
    """Whatever a plan leaves may be put among the sheets of another, and what that plan says proves."""
    kept = kept_from(make_plan(project), "2031-05-30")
    assume(kept)
    offcut = msgspec.structs.replace(kept[0], id="offcut-7")
    stock = as_sheet(offcut)
    assert (stock.quantity, stock.use, stock.trim) == (1, "any", TRIM)
    after = Project((stock, *project.sheets), (Shelf("later", 300.0, depth, 100.0, sheet=stock.id),), saw=project.saw)
    check_project(after)
    plan = make_plan(after)
    prove(plan)
    used = [o.id for o in used_by(plan, (offcut, RACK))]
    assert used == (["offcut-7"] if any(s.stock == "offcut-7" for s in plan.sheets) else [])


def test_an_id_in_use_gets_a_number_more() -> None:
    assert as_sheet(RACK).id == "offcut-3"
    assert as_sheet(RACK, {"A", "B"}).id == "offcut-3"
    assert as_sheet(RACK, {"offcut-3", "offcut-3.2"}).id == "offcut-3.3"


def test_used_is_what_the_plan_cuts_from() -> None:
    other = msgspec.structs.replace(RACK, id="offcut-4", width=700.0)
    stocks = (as_sheet(RACK), as_sheet(other), Sheet("F", 2440.0, 1220.0, RACK.thickness, use="frame"))
    plan = make_plan(Project(stocks, (Shelf("a", 900.0, 200.0, 80.0, sheet="offcut-4"),)))
    assert not plan.errors
    assert used_by(plan, (RACK, other)) == (other,)
    measured_anew = msgspec.structs.replace(other, width=690.0)
    gone = msgspec.structs.replace(other, used_in="something else")
    assert used_by(plan, (RACK, measured_anew, gone)) == ()


def test_it_is_known_again_as_a_sheet() -> None:
    assert is_sheet_of(as_sheet(RACK), RACK)
    assert is_sheet_of(as_sheet(RACK, {"offcut-3"}, trim=2.0), RACK)
    assert not is_sheet_of(as_sheet(RACK), msgspec.structs.replace(RACK, id="offcut-30"))
    assert not is_sheet_of(as_sheet(RACK), msgspec.structs.replace(RACK, width=RACK.width - 1.0))


def test_one_piece_is_known_again() -> None:
    wood = Sheet("A", 2440.0, 1220.0, 18.0)
    plan = make_plan(Project((wood,), (Shelf("a", 900.0, 200.0, 80.0),), name="Hallway"))
    first, again = kept_from(plan, "2031-05-30"), kept_from(plan, "2031-06-01", "now oiled")
    assert len(first) > 1
    for n, one in enumerate(first):
        assert [same_piece(one, other) for other in again] == [n == m for m in range(len(again))]
    assert not same_piece(RACK, RACK)  # of an unknown job there may be two alike


def test_what_a_narrow_offcut_gives() -> None:
    """23-3/8 x 84, D 9-1/2, H 2-1/2, trim 1/4, k 1/8, c 1/64 (common practice): g = 0.1768 + 0.0156 = 0.1924.

    L = 83.5 - 2 (9.5 + g) = 64.1152, which makers call 64; with L 60, D = (22.875 - 2.5 - 2 g) / 2 = 9.9951: 9-15/16.
    """
    longest = given_by(what_can_it_give(RACK, TRADE_SAW, 9.5 * INCH, 2.5 * INCH, trim=INCH / 4))
    assert longest.value == pytest.approx(64.1152 * INCH, abs=0.02)
    wish = Shelf("shelf", 60 * INCH, 9.5 * INCH, 2.5 * INCH)
    deepest = given_by(largest_from(RACK, TRADE_SAW, wish, "depth", trim=INCH / 4))
    assert deepest.value is not None
    assert show_length(deepest.value, Unit.INCH, 16, rounding="down") == '9-15/16"'


def test_its_frame_takes_room_where_it_comes_from_it_too() -> None:
    """Of the 7/8 left across no rail of 64 in comes, so nothing does; of a wider offcut it does, but less."""
    wide = msgspec.structs.replace(RACK, width=30 * INCH)
    size = (9.5 * INCH, 2.5 * INCH)
    apart = given_by(what_can_it_give(RACK, TRADE_SAW, *size)).value
    within = given_by(what_can_it_give(RACK, TRADE_SAW, *size, frame_from_it=True)).value
    assert apart is not None
    assert within is None or within < apart - 100.0
    assert given_by(what_can_it_give(wide, TRADE_SAW, *size, frame_from_it=True)).value == pytest.approx(apart)


@settings(max_examples=examples(30, 300))
@given(saws(), lengths(400.0, 2400.0), lengths(200.0, 700.0), lengths(90.0, 200.0), st.sampled_from((0, 1, 2)))
def test_what_it_gives_can_be_cut_from_it(saw: Saw, long: float, wide: float, depth: float, open_ends: int) -> None:
    """Checked by the net's own sizes: g = k / cos(bevel) + c, length L + n (D + g), width 2 D + H + 2 g."""
    offcut = msgspec.structs.replace(RACK, length=long, width=wide, thickness=18.0)
    ends = (["open"] * open_ends + ["mitred"] * 2)[:2]
    answer = given_by(what_can_it_give(offcut, saw, depth, 80.0, left=ends[0], right=ends[1]))
    if answer.value is None:
        return
    stock = as_sheet(offcut)
    plan = make_plan(
        Project(
            (stock, Sheet("F", 2440.0, 1220.0, 18.0, use="frame", quantity=9)),
            (Shelf("a", answer.value, depth, 80.0, ends[0], ends[1], sheet=stock.id),),
            saw=saw,
        )
    )
    assert not {f.code for f in plan.errors} & {"no-room", "no-cavity"}
    assert plan.nets[0].length <= long - 2 * TRIM + 1e-6
    assert plan.nets[0].width <= wide - 2 * TRIM + 1e-6


def test_it_ends_when_it_is_told_to() -> None:
    assert what_can_it_give(RACK, TRADE_SAW, 240.0, 64.0, stop=lambda: True) is None
