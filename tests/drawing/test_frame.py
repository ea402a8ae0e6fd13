"""The frame's drawing holds just what the parts list and the plan say."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from core.drawing.frame import draw_frame
from core.drawing.model import Area, Box, Ordinates
from core.lengths import Unit, show_length
from core.plan.make import best_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.drawing.plans import plan_of
from tests.frame.test_wall_laws import hung


def boxes(area: Area) -> Box:
    xs, ys = zip(*area.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def sticks(plan: Plan, shelf: str) -> dict[str, Box]:
    """Where each part is drawn from above, by its id; each is drawn once."""
    areas = [item for item in draw_frame(plan, shelf).items if isinstance(item, Area) and item.about]
    above = [(item.about, boxes(item)) for item in areas if boxes(item)[1] >= -1e-9]
    assert len({about for about, _ in above}) == len(above)
    return dict(above)


@settings(max_examples=examples(50, 1000))
@given(hung())
def test_parts_list_and_drawing_are_the_same(project) -> None:
    """Every part once, as long and as thick as the list says; rails as long as they lie, ribs as deep as they stand."""
    plan = best_plan(project)
    for frame in plan.frames:
        drawn = sticks(plan, frame.shelf)
        assert drawn.keys() == {part.id for part in frame.parts}
        for part in frame.parts:
            x0, y0, x1, y1 = drawn[part.id]
            along, thick = (x1 - x0, y1 - y0) if "rail" in part.role else (y1 - y0, x1 - x0)
            assert (along, thick) == pytest.approx((part.length, part.thickness), abs=1e-6)
        ribs = [drawn[f"{frame.shelf}/rib {n}"] for n in range(1, len(frame.ribs) + 1)]
        start = drawn[f"{frame.shelf}/back rail"][0]
        assert [(box[0] + box[2]) / 2.0 - start for box in ribs] == pytest.approx(frame.ribs, abs=1e-6)


@settings(max_examples=examples(30, 500))
@given(hung())
def test_no_rib_is_drawn_in_a_drivers_way(project) -> None:
    plan = best_plan(project)
    for frame in plan.frames:
        items = [item for item in draw_frame(plan, frame.shelf).items if isinstance(item, Area)]
        ways = [boxes(item) for item in items if item.layer == "waste"]
        ribs = [boxes(item) for item in items if item.about.startswith(f"{frame.shelf}/rib ")]
        assert len(ways) == len({screw.x for screw in frame.screws})
        assert not any(way[0] < rib[2] - 1e-6 and rib[0] < way[2] - 1e-6 for way in ways for rib in ribs)


def test_screws_are_told_from_the_frames_left_end() -> None:
    plan = plan_of("hallway")
    frame = plan.frames[0]
    all_told = [item for item in draw_frame(plan, frame.shelf).items if isinstance(item, Ordinates)]
    (told,) = [one for one in all_told if (one.axis, one.side) == ("x", "high")]
    assert [x for x, _ in told.marks] == [screw.x for screw in frame.screws]
    for x, text in told.marks:
        assert text == show_length(x, Unit(plan.project.units))


def test_a_shelf_without_a_frame_has_no_drawing() -> None:
    with pytest.raises(KeyError):
        draw_frame(plan_of("hallway"), "nothing")
