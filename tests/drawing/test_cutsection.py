"""A cut in section: wood and sawdust are those of the replay, and the guide lies on its side of the blade."""

from __future__ import annotations

import pytest
from shapely.geometry import Polygon

from core.drawing.cutsection import draw_cut_section
from core.drawing.model import Area, Text
from core.drawing.profile import profile
from core.sawing.piece import volume
from core.steps.lying import day_of
from tests.drawing.test_cutstep import SAWS, plan_with

TOL = 1e-6


def areas(drawing: object, layer: str) -> list[Polygon]:
    items = drawing.items  # type: ignore[attr-defined]  # a Drawing; kept short for the tests below
    return [Polygon(item.points) for item in items if isinstance(item, Area) and item.layer == layer]


@pytest.mark.parametrize("saw", [*SAWS, "demo"])
def test_the_blade_takes_its_slab_and_no_more(saw: str) -> None:
    """No wood that stays overlaps the blade, and the toe of what is kept touches it."""
    plan = plan_with(saw)
    for bench in day_of(plan).benches:
        drawing = draw_cut_section(plan, bench.step.number)
        (blade,) = areas(drawing, "saw")
        wood = [polygon for layer in ("kept", "work") for polygon in areas(drawing, layer)]
        assert all(polygon.intersection(blade).area < 1e-3 for polygon in wood)
        kept = [a for a in drawing.items if isinstance(a, Area) and a.layer == "kept" and a.about]
        assert all(Polygon(item.points).distance(blade) < TOL for item in kept)


@pytest.mark.parametrize("saw", [*SAWS, "demo"])
def test_the_guide_lies_on_its_side_of_the_toe(saw: str) -> None:
    plan = plan_with(saw)
    for bench in day_of(plan).benches:
        drawing = draw_cut_section(plan, bench.step.number)
        on_line = bench.step.set_by.on_line and bench.step.set_by.device == "stop"
        assert len(areas(drawing, "guide")) == (not on_line)  # a sled with no stop
        if on_line:
            continue
        (guide,) = areas(drawing, "guide")
        x0, y0, x1, _ = guide.bounds
        low = bench.turn.side(bench.axis, bench.step.guide) == "low"
        assert (x0 + x1 < 0.0) == low
        rests = 0.0 if bench.is_guided else -bench.work.thickness
        assert y0 == pytest.approx(rests)  # a rail on the face that is up, a fence on the table
        if bench.is_guided:
            near = x1 if low else x0
            assert abs(near) == pytest.approx(abs(bench.step.set_by.edge or 0.0), abs=TOL)


@pytest.mark.parametrize("saw", ["guided", "leans away", "face down", "table", "table, away"])
def test_the_blade_leans_as_the_step_says(saw: str) -> None:
    """Its foot, which is below, stands further towards the side that the step names than its head."""
    plan = plan_with(saw)
    leaning = 0
    for bench in day_of(plan).benches:
        drawing = draw_cut_section(plan, bench.step.number)
        (blade,) = areas(drawing, "saw")
        points = sorted(blade.exterior.coords[:-1], key=lambda p: p[1])
        foot, head = sum(p[0] for p in points[:2]) / 2.0, sum(p[0] for p in points[2:]) / 2.0
        if bench.step.foot is None:
            assert foot == pytest.approx(head)
        else:
            leaning += 1
            assert (foot < head) == (bench.turn.side(bench.axis, bench.step.foot) == "low")
    assert leaning


@pytest.mark.parametrize("saw", list(SAWS))
def test_a_tilted_cut_keeps_the_toe_on_the_show_face(saw: str) -> None:
    """The show face of what is kept is its longer one beside the cut, whichever way up it lies."""
    plan = plan_with(saw)
    for bench in day_of(plan).benches:
        if not bench.step.bevel:
            continue
        drawing = draw_cut_section(plan, bench.step.number)
        show = 0.0 if bench.step.face == "up" else -bench.work.thickness
        for item in drawing.items:
            if isinstance(item, Area) and item.layer == "kept" and item.about:
                nearest = min(item.points, key=lambda p: (abs(p[0]), abs(p[1] - show)))
                assert nearest == pytest.approx((0.0, show), abs=TOL)


def test_a_triangle_is_as_large_as_the_one_replayed() -> None:
    plan = plan_with("guided")
    found = 0
    for bench in day_of(plan).benches:
        names = {fall.piece for fall in bench.step.falls if fall.kind == "triangle"}
        drawing = draw_cut_section(plan, bench.step.number)
        for item in drawing.items:
            if isinstance(item, Area) and item.layer == "fallen" and item.about in names:
                piece = next(one for one in bench.made if one.name == item.about)
                box = piece.inside_box()
                long = box[3] - box[1] if bench.axis == "x" else box[2] - box[0]
                ends = (piece.y_low, piece.y_high) if bench.axis == "x" else (piece.x_low, piece.x_high)
                if any(len(side) > 1 or side[0][0] != side[0][1] for side in ends):
                    continue  # its ends are bevelled too: not a prism
                solid = volume(piece, bench.work.thickness)
                assert Polygon(item.points).area == pytest.approx(solid / long, rel=1e-6)
                found += 1
    assert found


def test_it_says_tilt_and_which_face_is_up() -> None:
    for saw in ("guided", "face down"):
        plan = plan_with(saw)
        for bench in day_of(plan).benches:
            words = [i.text for i in draw_cut_section(plan, bench.step.number).items if isinstance(i, Text)]
            assert any(text.startswith("blade") for text in words)
            assert any(f"show face {bench.step.face}" in text for text in words)


@pytest.mark.parametrize("saw", list(SAWS))
def test_wood_that_goes_on_ends_in_a_break_line(saw: str) -> None:
    """Long break lines of technical drawing (common practice): drawn wood ends in a jag where the piece does not end,
    and straight where it does. A piece in section has at most two corners on each side, or three at an old arris."""
    plan = plan_with(saw)
    broken_off = whole = 0
    for bench in day_of(plan).benches:
        drawing = draw_cut_section(plan, bench.step.number)
        names = {item.about: item.points for item in drawing.items if isinstance(item, Area) and item.about}
        t, pair = bench.work.thickness, bench.work.made[0]
        for side, piece in zip(("low", "high"), pair, strict=True):
            if piece is None or piece.name not in names:
                continue
            box = bench.work.before[0].show_box()
            ends = (box[0], box[2]) if bench.axis == "x" else (box[1], box[3])
            far = abs(ends[side == "high"] - bench.step.at)
            if far > 6.0 * t:
                broken_off += 1
                assert len(names[piece.name]) >= 8
            elif far < 2.0 * t:
                whole += 1
                assert len(names[piece.name]) < 8
    assert broken_off
    assert whole


def test_a_fence_beyond_a_break_bears_on_the_wood() -> None:
    plan = plan_with("table")
    for bench in day_of(plan).benches:
        drawing = draw_cut_section(plan, bench.step.number)
        wood = [p for layer in ("kept", "work") for p in areas(drawing, layer)]
        for fence in areas(drawing, "guide"):
            assert min(fence.distance(polygon) for polygon in wood) < TOL + 1.0  # drawn a little past its very end


def test_a_profile_is_the_wood_between_its_sides() -> None:
    square = profile(((0.0, 0.0),), ((40.0, 40.0),), 10.0)
    assert Polygon(square).area == pytest.approx(400.0)
    bevelled = profile(((0.0, 10.0),), ((40.0, 30.0),), 10.0)
    assert Polygon(bevelled).area == pytest.approx(300.0)
    triangle = profile(((20.0, 10.0),), ((20.0, 30.0),), 10.0)
    assert Polygon(triangle).area == pytest.approx(100.0)
    crossed = profile(((0.0, 0.0), (-10.0, 10.0)), ((40.0, 40.0),), 10.0)
    assert Polygon(crossed).area == pytest.approx(400.0 - 25.0)
    assert profile(((5.0, 5.0),), ((5.0, 5.0),), 10.0) == ()
