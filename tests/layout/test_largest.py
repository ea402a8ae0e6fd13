"""Largest that fits: at the size it fits, 0.01 mm above it does not, whatever the job.

The tests read the plan alone: an error that was not there without the shelf, and is not the saw's, is new.
"""

from itertools import count
from math import cos, radians
from threading import Thread

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Alcove, Mount, Project, Saw, Sheet, Shelf, Wall
from core.layout.largest import Dimension, Largest, largest
from core.lengths import Unit, parse_length, show_length
from core.plan.make import make_plan
from core.plan.model import Finding, Plan
from tests.conftest import examples
from tests.strategies import projects

INCH = 25.4
DIMENSIONS: tuple[Dimension, ...] = ("length", "depth", "height")
JOBS = examples(8, 200)


def sized(project: Project, what: str, indices: range, value: float) -> Project:
    shelves = tuple(
        msgspec.structs.replace(shelf, **{what: value}) if i in indices else shelf
        for i, shelf in enumerate(project.shelves)
    )
    return msgspec.structs.replace(project, shelves=shelves)


def errors(project: Project) -> set[tuple[str, str]]:
    return {(f.code, f.about) for f in make_plan(project).errors}


def new_errors(project: Project, what: str, indices: range, value: float) -> set[tuple[str, str]]:
    others = tuple(s for i, s in enumerate(project.shelves) if i not in indices)
    old = errors(msgspec.structs.replace(project, shelves=others))
    found = errors(sized(project, what, indices, value)) - old
    saws = {"tilt", "reach"} if out_of_reach(project, indices) else {"tilt"}
    return {(code, about) for code, about in found if code not in saws}


def out_of_reach(project: Project, indices: range) -> bool:
    """Whether the saw cuts none of the sheets the shelves may come from: t / cos(bevel) deep."""
    kinds = {project.shelves[i].sheet for i in indices}
    stocks = [s for s in project.sheets if s.use != "frame" and (None in kinds or s.id in kinds)]
    deep = cos(radians(45.0 + project.saw.overcut)) * project.saw.depth_at_bevel
    return all(stock.thickness > deep for stock in stocks)


def found(project: Project, what: Dimension, shelf: int | None = 0) -> Largest:
    answer = largest(project, what, shelf)
    assert answer is not None
    return answer


def check(project: Project, what: Dimension, shelf: int | None) -> None:
    answer = found(project, what, shelf)
    indices = range(len(project.shelves)) if shelf is None else range(shelf, shelf + 1)
    if answer.value is None:
        assert answer.pointers == {}
        assert answer.limit_reason
        sizes = [getattr(project.shelves[i], what) for i in indices]
        assert all(new_errors(project, what, indices, size) for size in (*sizes, 60.0, 120.0, 200.0, 320.0, 800.0))
        return
    assert answer.size is not None
    assert not new_errors(project, what, indices, answer.value)
    assert not new_errors(project, what, indices, answer.size)
    assert new_errors(project, what, indices, answer.value + 0.01)
    assert answer.size <= answer.value + 1e-9
    assert answer.limit_reason.endswith(".")


@pytest.mark.parametrize("what", DIMENSIONS)
def test_at_the_size_it_fits_and_a_hundredth_above_it_does_not(what: Dimension) -> None:
    @settings(max_examples=JOBS)
    @given(projects(max_shelves=4), st.integers(0, 3))
    def law(project: Project, pick: int) -> None:
        check(project, what, pick % len(project.shelves))

    law()


@settings(max_examples=JOBS)
@given(projects(max_shelves=3, min_shelves=2))
def test_so_it_is_for_the_depth_of_all_together(project: Project) -> None:
    check(project, "depth", None)


@pytest.mark.parametrize("what", DIMENSIONS)
def test_a_larger_sheet_never_gives_less(what: Dimension) -> None:
    @settings(max_examples=JOBS)
    @given(projects(max_shelves=1), st.sampled_from(("length", "width")), st.floats(0.01, 400.0))
    def law(project: Project, side: str, more: float) -> None:
        sheets = tuple(msgspec.structs.replace(s, **{side: getattr(s, side) + more}) for s in project.sheets)
        small, large = found(project, what), found(msgspec.structs.replace(project, sheets=sheets), what)
        if small.value is not None:
            assert large.value is not None
            assert large.value >= small.value

    law()


# Limits a maker works out by hand. Common practice, as their sizes, trims and clean-up are; all in inches:
# room along the grain = sheet - 2 trims; figure lost per seam g = k sqrt 2 + c; an end takes its reach + g.


def bench_job(
    sheet: tuple[float, float],
    shelf: tuple[float, float, float],
    kerf: float,
    allowance: float,
    *,
    thickness: float = 0.72,
    ends_from: str = "front",
    mitred: int = 2,
) -> Project:
    """One shelf on one sheet (length, width), trimmed 1/4 in, its frame from other wood. [in]"""
    long, wide = (side * INCH for side in sheet)
    wood = Sheet("A", long, wide, thickness * INCH, trim=INCH / 4)
    other = Sheet("other", 4000.0, 1500.0, thickness * INCH, quantity=4, use="frame")
    ends = ["mitred"] * mitred + ["open"] * (2 - mitred)
    wanted = msgspec.convert(
        {
            "id": "ledge",
            **dict(zip(DIMENSIONS, (v * INCH for v in shelf), strict=True)),
            "left": ends[0],
            "right": ends[1],
            "ends_from": ends_from,
        },
        Shelf,
    )
    saw = Saw(kerf=kerf * INCH, overcut=0.0, allowance=allowance * INCH)
    return Project((wood, other), (wanted,), saw=saw)


def in_sixteenths(answer: Largest) -> str:
    assert answer.value is not None
    return show_length(answer.value, Unit.INCH, 16, rounding="down")


@pytest.mark.parametrize(
    ("ends_from", "mitred", "limit"),
    [("front", 2, '75-1/16"'), ("top", 2, '90-1/16"'), ("front", 0, '95-1/2"'), ("front", 1, '85-1/4"')],
)
def test_the_longest_shelf_of_an_eight_foot_sheet(ends_from: str, mitred: int, limit: str) -> None:
    """96 in sheet, D 10, H 2-1/2, k 1/8, c 1/32 (common practice): g = 0.1768 + 0.03125 = 0.2080, room 95-1/2.

    Ends from the front 95.5 - 2 (10 + g) = 75.0840; from the top 95.5 - 2 (2.5 + g) = 90.0840; one end
    95.5 - 10.2080 = 85.2920, in sixteenths 85-1/4 as makers say, in 32nds 85-9/32: both are right.
    """
    job = bench_job((96, 48), (60, 10, 2.5), 1 / 8, 1 / 32, ends_from=ends_from, mitred=mitred)
    assert in_sixteenths(found(job, "length")) == limit


def test_one_end_in_32nds() -> None:
    job = bench_job((96, 48), (60, 10, 2.5), 1 / 8, 1 / 32, mitred=1)
    assert found(job, "length").text == '85-9/32"'


@pytest.mark.parametrize(
    ("sheet", "shelf", "kerf", "thickness", "ends_from", "mitred", "limit"),
    [
        # k 0.071, c 1/64: g = 0.1004 + 0.0156 = 0.1160. 95.5 - 2 (10.1160) = 75.2680
        ((96, 48), (60, 10, 2.5), 0.071, 0.72, "front", 2, '75-1/4"'),
        ((96, 48), (60, 10, 2.5), 0.071, 0.72, "top", 2, '90-1/4"'),  # 95.5 - 2 (2.6160) = 90.2680
        ((96, 48), (60, 10, 2.5), 0.071, 0.72, "front", 1, '85-3/8"'),  # 95.5 - 10.1160 = 85.3840
        ((96, 48), (60, 10, 2.5), 0.071, 0.72, "front", 0, '95-1/2"'),
        ((120, 48), (60, 10, 2.5), 0.071, 0.72, "front", 2, '99-1/4"'),  # 119.5 - 20.2320 = 99.2680
        # k 1/8, c 1/64: g = 0.1768 + 0.0156 = 0.1924. 59.5 - 2 (8.1924) = 43.1152
        ((60, 60), (40, 8, 2), 1 / 8, 0.472, "front", 2, '43-1/16"'),
        ((60, 60), (40, 8, 2), 1 / 8, 0.472, "top", 2, '55-1/16"'),  # 59.5 - 2 (2.1924) = 55.1152
        ((96, 48), (60, 14, 3), 1 / 8, 0.72, "front", 2, '67-1/16"'),  # 95.5 - 2 (14.1924) = 67.1152
        ((96, 48), (60, 14, 3), 1 / 8, 0.72, "top", 2, '89-1/16"'),  # 95.5 - 2 (3.1924) = 89.1152
    ],
)
def test_the_longest_shelf_of_other_sheets(
    sheet: tuple[float, float],
    shelf: tuple[float, float, float],
    kerf: float,
    thickness: float,
    ends_from: str,
    mitred: int,
    limit: str,
) -> None:
    """Common practice, c 1/64; by hand beside each."""
    job = bench_job(sheet, shelf, kerf, 1 / 64, thickness=thickness, ends_from=ends_from, mitred=mitred)
    assert in_sixteenths(found(job, "length")) == limit


def test_depth_for_a_length_that_does_not_fit() -> None:
    """72 x 14 x 3 on 96 x 48, k 1/8, c 1/64: (95.5 - 72) / 2 - g = 11.5576, 11-1/2 as makers say (common practice)."""
    assert in_sixteenths(found(bench_job((96, 48), (72, 14, 3), 1 / 8, 1 / 64), "depth")) == '11-1/2"'


def test_what_a_narrow_offcut_gives() -> None:
    """84 x 23-3/8, D 9-1/2, H 2-1/2, k 1/8, c 1/64 (common practice): g = 0.1924.

    Length 83.5 - 2 (9.5 + g) = 64.1152: a maker says 64, in sixteenths it is 64-1/16. With L 60 the depth ends across:
    (22.875 - 2.5 - 2 g) / 2 = 9.9951, in sixteenths 9-15/16 as makers say; along, 11.5576 would do.
    """
    offcut = (84.0, 23.375)
    assert in_sixteenths(found(bench_job(offcut, (60, 9.5, 2.5), 1 / 8, 1 / 64), "length")) == '64-1/16"'
    deepest = found(bench_job(offcut, (60, 9.5, 2.5), 1 / 8, 1 / 64), "depth")
    assert in_sixteenths(deepest) == '9-15/16"'
    assert "width" in deepest.limit_reason


def test_two_metric_shelves_side_by_side() -> None:
    """1800 x 240 x 60 twice on 2500 x 1250, trim 6, t 17.8, k 1.8, c 0.5 (common practice); frames from the same sheet.

    g = 2.5456 + 0.5 = 3.0456; length 2500 - 12 - 2 (240 + g) = 2001.91, in whole millimetres 2001.
    """
    twice = tuple(Shelf(name, 1800.0, 240.0, 60.0) for name in ("upper", "lower"))
    saw = Saw(kerf=1.8, overcut=0.0, allowance=0.5)
    job = Project((Sheet("A", 2500.0, 1250.0, 17.8, trim=6.0),), twice, units="mm", saw=saw)
    assert not make_plan(job).errors
    for shelf in (0, 1):
        answer = found(job, "length", shelf)
        assert (answer.value, answer.text) == (2001.9, "2001.9 mm")


# What is said and how


def test_the_size_set_is_the_size_read() -> None:
    answer = found(bench_job((96, 48), (60, 10, 2.5), 1 / 8, 1 / 32), "length")
    assert answer.pointers == {"/shelves/0/length": parse_length(answer.text, Unit.INCH)}
    assert answer.limit_reason.startswith("ledge takes the whole length of sheet A: 95-1/2")


def test_a_limit_on_a_fraction_is_that_fraction() -> None:
    """A sheet 60-1/16 in long, untrimmed, no ends: 60-1/16, though that is no whole hundredth of a millimetre."""
    wood = Sheet("A", 60.0625 * INCH, 1220.0, 18.0, trim=0.0)
    other = msgspec.structs.replace(wood, id="other", length=3000.0, use="frame")
    shelf = Shelf("ledge", 1000.0, 200.0, 80.0, left="open", right="open")
    assert found(Project((wood, other), (shelf,)), "length").text == '60-1/16"'


def test_all_together_change_together() -> None:
    wood = Sheet("A", 2440.0, 1220.0, 18.0, quantity=2)
    job = Project((wood,), (Shelf("a", 900.0, 200.0, 80.0), Shelf("b", 700.0, 150.0, 80.0)))
    answer = found(job, "depth", None)
    assert answer.size is not None
    assert answer.pointers == {"/shelves/0/depth": answer.size, "/shelves/1/depth": answer.size}


@pytest.mark.parametrize(
    ("shelf", "what"),
    [(Shelf("low", 900.0, 200.0, 50.0), "length"), (Shelf("long", 3000.0, 200.0, 80.0), "depth")],
)
def test_nothing_fits_and_is_told(shelf: Shelf, what: Dimension) -> None:
    """A shelf too low for a frame at any length, and one longer than the sheet at any depth."""
    answer = found(Project((Sheet("A", 2440.0, 1220.0, 18.0),), (shelf,), units="mm"), what)
    assert (answer.value, answer.size, answer.text, answer.pointers) == (None, None, "", {})
    assert answer.limit_reason.startswith(f"No {what} fits. ")
    assert " mm" in answer.limit_reason


def test_others_without_room_anyway_do_not_count() -> None:
    wood = Sheet("A", 2440.0, 1220.0, 18.0)
    alone = Project((wood,), (Shelf("a", 900.0, 200.0, 80.0),))
    beside = msgspec.structs.replace(alone, shelves=(*alone.shelves, Shelf("giant", 5000.0, 200.0, 80.0)))
    assert found(beside, "length").value == found(alone, "length").value


def test_in_an_alcove_the_longest_is_what_slides_in() -> None:
    """Smallest of the six widths less 6 mm, the clearance a level shelf needs to go in (common practice)."""
    wall = Wall(width=1124.0, alcove=Alcove((1124.0, 1125.0, 1126.0), (1124.0, 1124.5, 1126.0)))
    shelf = Shelf("s", 1000.0, 260.0, 64.0, "open", "open", mount=Mount(0.0, 1400.0))
    project = Project((Sheet("A", 2500.0, 1250.0),), (shelf,), wall=wall, units="mm")
    assert found(project, "length").value == pytest.approx(1118.0)
    too_long = msgspec.structs.replace(project, shelves=(msgspec.structs.replace(shelf, length=1122.0),))
    assert found(too_long, "depth").value == found(project, "depth").value


def test_no_such_shelf() -> None:
    wood = Sheet("A", 2440.0, 1220.0, 18.0)
    with pytest.raises(ValueError, match="without shelves"):
        largest(Project((wood,), ()), "depth", None)
    with pytest.raises(IndexError, match="no shelf 1"):
        largest(Project((wood,), (Shelf("a", 900.0, 200.0, 80.0),)), "depth", 1)


def test_it_ends_as_soon_as_it_is_told_to() -> None:
    job = bench_job((96, 48), (60, 10, 2.5), 1 / 8, 1 / 32)
    full = count()
    assert largest(job, "length", 0, stop=lambda: next(full) < 0) is not None
    for after in range(0, next(full), 3):
        asked = count()
        assert largest(job, "length", 0, stop=lambda asked=asked, after=after: next(asked) >= after) is None
        assert next(asked) == after + 1


def test_a_higher_range_of_sizes_is_found() -> None:
    """A plan that finds room up to 1100, none to 1700, and again to 1750.25, as where parts come from the waste."""
    wood = Sheet("A", 2440.0, 1220.0, 18.0)

    def planning(project: Project) -> Plan:
        plan = make_plan(project)
        length = project.shelves[0].length if project.shelves else 0.0
        if length <= 1100.0 or 1700.0 <= length <= 1750.255:
            return plan
        refusal = Finding("error", "no-room", "a/rib 1", "No room is left for a, rib 1.")
        return msgspec.structs.replace(plan, findings=(refusal, *plan.findings))

    answer = largest(Project((wood,), (Shelf("a", 1000.0, 200.0, 80.0),)), "length", 0, planning)
    assert answer is not None
    assert answer.value == 1750.25
    assert answer.limit_reason == "With more, no room is left for a, rib 1."


def test_a_size_the_sheet_limits_takes_few_plans() -> None:
    wood = Sheet("A", 2438.4, 1219.2, 17.86, quantity=2)
    shelves = (Shelf("a", 1524.0, 228.6, 76.2), Shelf("b", 609.6, 228.6, 76.2), Shelf("c", 609.6, 228.6, 76.2))
    plans = []

    def planning(project: Project) -> Plan:
        plans.append(make_plan(project))
        return plans[-1]

    assert largest(Project((wood,), shelves, saw=Saw(overcut=2.0)), "length", 0, planning) is not None
    assert 2 <= len(plans) <= 12


def test_a_question_that_is_paused_holds_up_no_other() -> None:
    """The window pauses a question in its thread wherever `stop` is asked, and plans meanwhile."""
    sheet = Sheet("A", 2440.0, 1220.0, 18.0)
    project = Project((sheet,), (Shelf("fits", 900.0, 200.0, 80.0), Shelf("too long", 4000.0, 200.0, 80.0)))
    asked, others = [], list[Largest | None]()

    def pausing() -> bool:
        asked.append(len(asked))
        if len(asked) <= 20:
            other = Thread(target=lambda: others.append(largest(project, "length", 0)), daemon=True)
            other.start()
            other.join(60.0)
            if other.is_alive():
                raise AssertionError(f"held up at the question's stop {len(asked)}")
        return False

    answer = largest(project, "length", 0, stop=pausing)
    assert answer is not None
    assert others
    assert all(other == answer for other in others)
