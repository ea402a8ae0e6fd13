from itertools import combinations

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.drawing.flat import Words
from core.drawing.flatten import flatten
from core.drawing.model import Area, Box, Drawing, Line, Ordinates, Text
from core.drawing.names import letter
from core.drawing.sheet import draw_sheet
from core.lengths import Unit, show_length
from core.plan.make import make_plan
from tests.conftest import examples
from tests.drawing.plans import INCH, hallway, many, plan_of
from tests.strategies import projects


def areas(drawing: Drawing, layer: str) -> list[Area]:
    return [item for item in drawing.items if isinstance(item, Area) and item.layer == layer]


def overlap(a: Box, b: Box, slack: float = 1e-6) -> bool:
    return a[0] + slack < b[2] and b[0] + slack < a[2] and a[1] + slack < b[3] and b[1] + slack < a[3]


def clashes(drawing: Drawing, point: float) -> list[tuple[str, str]]:
    words = flatten(drawing, point).words
    boxes = [(w.text, w.box(point)) for w in words]
    return [(a[0], b[0]) for a, b in combinations(boxes, 2) if overlap(a[1], b[1], 0.5 * point)]


def ordinates(drawing: Drawing, axis: str) -> list[tuple[float, str]]:
    rows = [item for item in drawing.items if isinstance(item, Ordinates) and item.axis == axis]
    return sorted(mark for row in rows for mark in row.marks)


def test_every_panel_has_its_show_face() -> None:
    plan = plan_of("hallway")
    drawn = {area.about: area.points for area in areas(draw_sheet(plan, "A1"), "panel")}
    assert drawn.keys() == {p.id for p in plan.panels}
    for panel in plan.panels:
        (x0, y0), (x1, y1) = drawn[panel.id][0], drawn[panel.id][2]
        assert (x0, y0) == (panel.x, panel.y)
        assert (x1 - x0, y1 - y0) == pytest.approx(panel.show)


def test_ordinates_of_the_golden_example() -> None:
    """Hand calculation: g = 1/8 / cos 45 + 1/32 = 0.2080; along 0, D, D+g, D+g+L, D+2g+L, 2D+2g+L; across alike.

    Numbers along run from the left trued end, those across from the upper trued edge of the 48 in wide sheet.
    """
    drawing = draw_sheet(plan_of("golden"), "A1")
    trim = 0.25
    along = [place / INCH - trim for place, _ in ordinates(drawing, "x")]
    across = [place / INCH - trim for place, _ in ordinates(drawing, "y")]
    assert along == pytest.approx([0, 10, 10.208, 70.208, 70.416, 80.416], abs=4e-4)
    assert across == pytest.approx([0, 10, 10.208, 12.708, 12.916, 22.916, 47.5], abs=4e-4)
    assert [text for _, text in ordinates(drawing, "x")][:3] == ['0"', '10"', '10-7/32" −']
    assert [text for _, text in ordinates(drawing, "y")][:2] == ['47-1/2"', '37-1/2"']
    assert ordinates(drawing, "y")[-1][1] == '0"'


@pytest.mark.parametrize("units", ["in", "mm"])
def test_every_toe_stands_among_the_ordinates(units: str) -> None:
    plan = make_plan(hallway(units=units))
    drawing = draw_sheet(plan, "A1")
    sheet = plan.sheets[0]
    trim = sheet.source.trim
    for axis, at, size, datum in (("x", "x", 0, trim), ("y", "y", 1, sheet.width - trim)):
        marks = ordinates(drawing, axis)
        for panel in plan.panels:
            for place in (getattr(panel, at), getattr(panel, at) + panel.show[size]):
                nearest = min(marks, key=lambda mark: abs(mark[0] - place))
                assert nearest[0] == pytest.approx(place, abs=0.02)
                assert nearest[1] == show_length(abs(nearest[0] - datum), Unit(units))


def test_ordinates_are_spread_with_doglegs() -> None:
    drawing = draw_sheet(plan_of("hallway"), "A1")
    leaders = [line for line in flatten(drawing, 2.5).lines if line.layer == "dimension"]
    assert any(len(line.points) == 4 for line in leaders)
    assert any(len(line.points) == 2 for line in leaders)


@pytest.mark.parametrize("name", ["hallway", "too long", "golden"])
@pytest.mark.parametrize("point", [0.4, 1.0, 2.5, 4.0, 6.0, 9.0])
def test_no_two_texts_overlap(name: str, point: float) -> None:
    plan = plan_of(name)
    assert clashes(draw_sheet(plan, "A1" if plan.sheets else "A"), point) == []


@settings(max_examples=examples(15, 200))
@given(projects(), st.floats(1.0, 8.0))
def test_no_two_texts_overlap_in_any_project(project: msgspec.Struct, point: float) -> None:
    plan = make_plan(project)  # type: ignore[arg-type]
    for sheet in plan.sheets:
        assert clashes(draw_sheet(plan, sheet.id), point) == []


@pytest.mark.parametrize("point", [0.5, 1.5, 3.0, 5.0])
def test_words_stay_in_their_room(point: float) -> None:
    drawing = draw_sheet(plan_of("hallway"), "A1")
    rooms: dict[str, list[Box]] = {}
    for item in drawing.items:
        if isinstance(item, Text) and item.room:
            rooms.setdefault(item.about, []).append(item.room)
    for words in flatten(drawing, point).words:
        if words.about in rooms:
            x0, y0, x1, y1 = words.box(point)
            assert any(
                r[0] <= x0 + 1e-9 and r[1] <= y0 + 1e-9 and x1 <= r[2] + 1e-9 and y1 <= r[3] + 1e-9
                for r in rooms[words.about]
            )


@pytest.mark.parametrize("point", [0.5, 1.0, 2.0, 3.0, 4.0, 6.0])
def test_seam_letters_come_in_pairs(point: float) -> None:
    plan = plan_of("hallway")
    letters: dict[tuple[str, str], int] = {}
    for words in flatten(draw_sheet(plan, "A1"), point).words:
        if words.layer == "mark" and len(words.text) == 1:
            key = (words.about.split("/")[0], words.text)
            letters[key] = letters.get(key, 0) + 1
    assert set(letters.values()) <= {2}
    if point <= 0.5:
        assert letters.keys() == {(seam.shelf, seam.letter) for seam in plan.seams}


def test_large_scales_name_every_part() -> None:
    plan = plan_of("hallway")
    shown = {words.text for words in flatten(draw_sheet(plan, "A1"), 0.5).words}
    assert {"A top", "B front", "C left", "A rib 1", "B back rail"} <= shown


def test_a_v_is_as_wide_as_the_figure_lost() -> None:
    plan = plan_of("hallway")
    voids = {area.about: area.points for area in areas(draw_sheet(plan, "A1"), "void")}
    for seam in plan.seams:
        if seam.show_loss is None:
            assert seam.id not in voids
        else:
            (x0, y0), (x1, y1) = voids[seam.id][0], voids[seam.id][2]
            assert min(x1 - x0, y1 - y0) == pytest.approx(seam.show_loss)
            assert max(x1 - x0, y1 - y0) == pytest.approx(seam.length)


def test_heels_lie_a_set_back_inside_every_bevelled_edge() -> None:
    plan = plan_of("hallway")
    heels: dict[str, list[Line]] = {}
    for item in draw_sheet(plan, "A1").items:
        if isinstance(item, Line) and item.layer == "heel":
            heels.setdefault(item.about, []).append(item)
    for panel in plan.panels:
        assert len(heels[panel.id]) == sum(1 for tilt in panel.bevels.values() if tilt)
        spans = [abs(line.points[1][i] - line.points[0][i]) for line in heels[panel.id] for i in (0, 1)]
        spans = [span for span in spans if span > 1e-9]
        assert all(min(abs(span - side) for side in panel.inside) < 1e-9 for span in spans)


def test_the_triangle_points_to_the_top_and_ends_mirror_each_other() -> None:
    plan = plan_of("hallway")
    marks: dict[str, list[Line]] = {}
    by_id = {panel.id: panel for panel in plan.panels}
    for item in draw_sheet(plan, "A1").items:
        if isinstance(item, Line) and item.layer == "mark" and item.about in by_id:  # not the ticks across seams
            marks.setdefault(item.about, []).append(item)
    for about, lines in marks.items():
        panel = by_id[about]
        assert panel.x is not None
        assert panel.y is not None
        for line in lines:
            for x, y in line.points:
                assert panel.x - 1e-9 <= x <= panel.x + panel.show[0] + 1e-9
                assert panel.y - 1e-9 <= y <= panel.y + panel.show[1] + 1e-9
    legs = [line.points for line in marks["ledge/front"] if len(line.points) == 2]
    (low_left, high_left), (low_right, high_right) = sorted(sorted(leg, key=lambda p: p[1]) for leg in legs)
    assert high_right[0] - high_left[0] < low_right[0] - low_left[0]
    left, right = by_id["ledge/left"], by_id["ledge/right"]
    assert left.x is not None
    assert right.x is not None
    mine = [(left.x + left.show[0] - x, y) for x, y in marks["ledge/left"][0].points]
    other = [(x - right.x, y) for x, y in marks["ledge/right"][0].points]
    assert mine == [pytest.approx(p) for p in other]


def test_an_overrun_is_drawn_with_its_amount_in_words() -> None:
    plan = plan_of("too long")
    (over,) = plan.overruns
    sheet = plan.sheets[0].id if plan.sheets else over.sheet
    drawing = draw_sheet(plan, sheet)
    (strip,) = areas(drawing, "trouble")
    width = strip.points[2][0] - strip.points[0][0]
    assert width == pytest.approx(over.over_x)
    texts = [item.text for item in drawing.items if isinstance(item, Text) and item.layer == "trouble"]
    assert texts == [f"{show_length(over.over_x, Unit.INCH, rounding='up')} too long"]
    assert drawing.box[2] >= strip.points[2][0]


def test_a_monstrous_overrun_keeps_the_sheet_in_sight() -> None:
    shelf = msgspec.structs.replace(hallway().shelves[0], length=100_000.0)
    plan = make_plan(hallway(shelves=(shelf,)))
    drawing = draw_sheet(plan, plan.sheets[0].id if plan.sheets else plan.overruns[0].sheet)
    assert drawing.box[2] < 2.0 * plan.project.sheets[0].length


def test_waste_offcuts_and_parts_are_told_apart() -> None:
    plan = plan_of("hallway")
    drawing = draw_sheet(plan, "A1")
    assert {area.about for area in areas(drawing, "offcut")} == {offcut.piece for offcut in plan.offcuts}
    assert {area.about for area in areas(drawing, "frame")} == {p.id for f in plan.frames for p in f.parts}
    kept = {offcut.piece for offcut in plan.offcuts}
    assert not kept & {area.about for area in areas(drawing, "waste")}
    panels = [(a.points[0] + a.points[2]) for a in areas(drawing, "panel")]
    wastes = [(a.points[0] + a.points[2]) for a in areas(drawing, "waste")]
    assert not [1 for p in panels for w in wastes if overlap(p, w)]


def test_an_unused_stock_sheet_can_be_drawn_and_an_unknown_one_cannot() -> None:
    plan = make_plan(hallway(shelves=()))
    drawing = draw_sheet(plan, "A")
    assert len(areas(drawing, "sheet")) == 1
    assert [text for _, text in ordinates(drawing, "x")] == ['0"']
    with pytest.raises(KeyError):
        draw_sheet(plan, "Z")


def test_texts_are_never_smaller_than_eleven_pixels() -> None:
    """11 px at 100 % are 8.25 points; on paper they are enlarged to over 9."""
    for name in ("hallway", "too long"):
        plan = plan_of(name)
        for item in draw_sheet(plan, "A1" if plan.sheets else "A").items:
            if isinstance(item, (Text, Ordinates)):
                assert item.size >= 8.25


def test_letters_go_on_after_z() -> None:
    assert [letter(i) for i in (0, 25, 26, 27, 51, 52, 701, 702)] == ["A", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]


def test_words_know_their_corners() -> None:
    words = Words("label", (0.0, 0.0), "A", 10.0, "left", 90.0, "", False, 20.0)
    x0, y0, x1, y1 = words.box(1.0)
    assert y1 - y0 == pytest.approx(20.0)
    assert x0 < 0.0 <= x1


def test_time_grows_no_worse_than_the_number_of_parts() -> None:
    """Drawing and flattening four times as many shelves takes less than eight times as long."""
    from time import process_time

    def seconds(count: int) -> float:
        plan = make_plan(many(count))
        best = 1e9
        for _ in range(3):
            start = process_time()
            for sheet in plan.sheets:
                flatten(draw_sheet(plan, sheet.id), 3.0)
            best = min(best, process_time() - start)
        return best

    assert seconds(12) < 8.0 * seconds(3) + 0.002
