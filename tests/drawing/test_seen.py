"""What a small picture shows of the bench: nothing outside it, long work in part, what the guide hides."""

import pytest

from core.drawing.cutstep import bench_at, draw_step
from core.drawing.flat import bounds
from core.drawing.guides import guide_box
from core.drawing.model import Area, Drawing, Line, Sign, Text
from core.drawing.seen import broken, picture_box
from core.drawing.shortened import Gap, shortened
from core.plan.make import make_plan
from tests.drawing.plans import plan_of
from tests.steps.jobs import golden_inch

NOISE = 1e-6  # mm
PLANS = ("hallway", "golden")


def inside(box: tuple[float, ...], of: tuple[float, ...]) -> bool:
    return all(a >= b - NOISE for a, b in zip(box[:2], of[:2], strict=True)) and all(
        a <= b + NOISE for a, b in zip(box[2:], of[2:], strict=True)
    )


@pytest.mark.parametrize("name", PLANS)
def test_wood_and_guide_stay_in_the_small_picture(name: str) -> None:
    plan = plan_of(name)
    for number in range(1, max(cut.pass_ for cut in plan.cuts) + 1):
        drawing = draw_step(plan, number, close=True)
        for item in drawing.items:
            if isinstance(item, Area) and item.layer in ("kept", "work", "bench", "tape") and item.points:
                assert inside(bounds(item.points), drawing.box), (number, item)


@pytest.mark.parametrize("name", PLANS)
def test_a_small_picture_is_no_thread(name: str) -> None:
    """At most 11 times as long as it is high: on 300 points, what the cards have for it, 27 points high."""
    plan = plan_of(name)
    for number in range(1, max(cut.pass_ for cut in plan.cuts) + 1):
        x0, y0, x1, y1 = draw_step(plan, number, close=True).box
        assert x1 - x0 <= 11.0 * (y1 - y0), number


def test_what_the_guide_hides_of_the_kept_piece_is_outlined() -> None:
    plan = plan_of("hallway")
    for number in range(1, max(cut.pass_ for cut in plan.cuts) + 1):
        drawing = draw_step(plan, number)
        assert bench_at(plan, number).is_guided
        assert any(isinstance(item, Line) and item.layer == "under" for item in drawing.items), number


def test_a_broken_outline_has_breaks_where_it_is_cut_off_alone() -> None:
    shown = (0.0, 0.0, 100.0, 50.0)
    assert broken((10.0, 10.0, 90.0, 40.0), shown) == ((10.0, 10.0), (90.0, 10.0), (90.0, 40.0), (10.0, 40.0))
    outline = broken((10.0, 10.0, 400.0, 40.0), shown)
    assert len(outline) == 4 + 5
    assert all(x > 50.0 for x, _ in outline[2:7])  # on the right
    assert inside(bounds(outline), shown)


def test_what_lies_beyond_a_gap_moves_up_and_nothing_changes_places() -> None:
    gap = Gap(20.0, 80.0, 5.0)
    places = [0.0, 20.0, 30.0, 50.0, 79.0, 80.0, 100.0]
    drawn = [gap.along(x) for x in places]
    assert drawn == sorted(drawn)
    assert drawn[0] == 0.0
    assert drawn[-1] == 100.0 - (80.0 - 20.0) + 5.0


def test_a_shortened_step_keeps_its_words_and_marks() -> None:
    plan = plan_of("golden")
    drawing = draw_step(plan, 1)
    x0, _, x1, _ = picture_box(bench_at(plan, 1))
    short = shortened(drawing, Gap(x0 + 0.4 * (x1 - x0), x0 + 0.6 * (x1 - x0), 10.0))
    for kind in (Text, Sign):
        assert [i for i in short.items if isinstance(i, kind)] != []
        assert sum(isinstance(i, kind) for i in short.items) == sum(isinstance(i, kind) for i in drawing.items)
    assert short.box[2] - short.box[0] < drawing.box[2] - drawing.box[0]


def test_only_wood_that_goes_on_is_broken() -> None:
    """Not the paper over and under it, nor a piece that ends before the gap."""
    wood, beside = ((0.0, 10.0), (100.0, 10.0), (100.0, 30.0), (0.0, 30.0)), ((0.0, 30.0), (20.0, 30.0), (20.0, 60.0))
    drawing = Drawing("", "", (0.0, 0.0, 100.0, 60.0), (Area("kept", wood), Area("bench", beside)))
    short = shortened(drawing, Gap(40.0, 70.0, 5.0))
    (void,) = [item for item in short.items if isinstance(item, Area) and item.layer == "void"]
    breaks = [item for item in short.items if isinstance(item, Line) and item.layer == "cut"]
    assert len(breaks) == 2
    for item in (void, *breaks):
        assert (bounds(item.points)[1], bounds(item.points)[3]) == (10.0, 30.0)


@pytest.mark.parametrize("name", PLANS)
def test_what_was_put_by_is_not_drawn_where_it_does_not_lie(name: str) -> None:
    """But wood beside a short cut, which the card asks for."""
    plan = plan_of(name)
    for number in range(1, max(cut.pass_ for cut in plan.cuts) + 1):
        bench, drawing = bench_at(plan, number, close=True), draw_step(plan, number, close=True)
        if "beside" not in bench.step.support:
            made = {piece.name for piece in bench.made} | {""}
            assert {item.about for item in drawing.items if isinstance(item, Area)} <= made, number


def test_the_stop_stands_on_the_sleds_fence_which_is_below() -> None:
    """Wood is fed upwards: a sled's fence is behind it, towards the maker (common practice)."""
    plan = make_plan(golden_inch(kind="table"))
    stops = 0
    for number in range(1, max(cut.pass_ for cut in plan.cuts) + 1):
        bench = bench_at(plan, number, close=True)
        if bench.step.set_by.stop is not None:
            work = [bench.turn.box(piece.show_box()) for piece in bench.work.before]
            assert guide_box(bench)[1] == pytest.approx(min(box[1] for box in work)), number
            stops += 1
    assert stops
