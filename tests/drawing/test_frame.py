"""The frame's drawing holds just what the parts list and the plan say."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings

from core.drawing.frame import draw_frame
from core.drawing.model import Area, Box, Ordinates
from core.lengths import Unit, parse_length
from core.plan.make import best_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.drawing.plans import plan_of
from tests.frame.test_wall_laws import hung


def boxes(area: Area) -> Box:
    xs, ys = zip(*area.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def sticks(plan: Plan, shelf: str) -> Counter[tuple[str, float, float]]:
    """Parts drawn from above: id, and the sides seen."""
    found: Counter[tuple[str, float, float]] = Counter()
    for item in draw_frame(plan, shelf).items:
        if isinstance(item, Area) and item.about and (box := boxes(item))[1] >= -1e-9:
            found[item.about, round(box[2] - box[0], 4), round(box[3] - box[1], 4)] += 1
    return found


@settings(max_examples=examples(50, 1000))
@given(hung())
def test_parts_list_and_drawing_are_the_same(project) -> None:
    """Every part once, as long and as thick as the list says; rails as long as they lie, ribs as deep as they stand."""
    plan = best_plan(project)
    for frame in plan.frames:
        listed: Counter[tuple[str, float, float]] = Counter()
        for part in frame.parts:
            along, thick = round(part.length, 4), round(part.thickness, 4)
            listed[(part.id, along, thick) if "rail" in part.role else (part.id, thick, along)] += 1
        assert sticks(plan, frame.shelf) == listed
        drawn = {
            round((boxes(item)[0] + boxes(item)[2]) / 2.0, 4)
            for item in draw_frame(plan, frame.shelf).items
            if isinstance(item, Area) and item.about.startswith(f"{frame.shelf}/rib ")
        }
        assert drawn == {round(x, 4) for x in frame.ribs}


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
    (told,) = [i for i in draw_frame(plan, frame.shelf).items if isinstance(i, Ordinates) and i.side == "high"]
    assert [x for x, _ in told.marks] == [screw.x for screw in frame.screws]
    for x, text in told.marks:
        assert parse_length(text, Unit(plan.project.units)) == pytest.approx(x, abs=0.5)


def test_a_shelf_without_a_frame_has_no_drawing() -> None:
    with pytest.raises(KeyError):
        draw_frame(plan_of("hallway"), "nothing")
