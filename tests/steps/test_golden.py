"""The worked tables of the trade, row by row: which wood lies under the guide, and what the cut is set to.

Basis: worked example, common practice, for a guided saw and for a table saw, both with the foot leaning under the
guide and the show face up. Makers lay the net with the top at the datum or, mirrored, the bottom: rows are found by
what they do, so any order of cuts that can be sawn passes.
"""

from __future__ import annotations

import re
from itertools import pairwise
from math import sqrt
from pathlib import Path

import msgspec
import pytest

from core.document.load import load_project
from core.plan.make import make_plan
from core.steps.model import Step
from core.steps.sides import side_word
from core.steps.steps import steps_of
from core.steps.words import step_words
from tests.steps.jobs import INCH, golden_inch, golden_metric

DEMO = Path(__file__).parents[2] / "demo_projects" / "stove-alcove.grainfold"
L, D, H = 60 * INCH, 10 * INCH, 2.5 * INCH
K, C, Q = INCH / 8, INCH / 32, 0.719 * INCH
G = K * sqrt(2.0) + C


def shell_steps(**saw: object) -> list[Step]:
    plan = make_plan(golden_inch(**saw))
    return [s for s in steps_of(plan) if s.sheet == "A1"]


def rips(steps: list[Step]) -> list[Step]:
    return [s for s in steps if s.kind == "rip" and s.bevel]


def under(step: Step) -> set[str]:
    """The strips under the guide; an end lies in the strip it is cut from."""
    return {part.partition("/")[2] for part in step.parts} - {"left", "right"}


@pytest.fixture(scope="module", name="guided")
def made_with_a_guide() -> list[Step]:
    return shell_steps()


@pytest.fixture(scope="module", name="table")
def made_on_a_table() -> list[Step]:
    return shell_steps(kind="table")


def test_row_0_the_datum_edge_is_trued_a_trim_off_the_factory_edge(guided: list[Step]) -> None:
    first = next(s for s in guided if s.kind == "rip")
    assert first.bevel == 0
    assert (first.set_by.means, first.words) == ("raw edge", "the sheet")
    assert first.set_by.toe == pytest.approx(INCH / 4)


def test_rows_1_and_3_first_cuts_of_a_v(guided: list[Step]) -> None:
    """Row 1: the front's bevel with a whole net beside it, D+g+H wide; row 3: the last panel's bevel, D."""
    firsts = [s for s in rips(guided) if not s.second]
    assert len(firsts) == 2
    assert all(s.set_by.means in ("datum edge", "square edge") for s in firsts)
    assert all(
        s.width == pytest.approx({2: D + G + H, 1: D if "front" not in under(s) else H}[len(under(s))]) for s in firsts
    )
    assert all(s.set_by.stick == pytest.approx(s.width - 7.5 * INCH) for s in firsts if s.packer is None)
    assert all(s.set_by.edge == 0.0 for s in firsts)


def test_rows_2_and_4_second_cuts_of_a_v(guided: list[Step]) -> None:
    """Row 2: on a body panel, the new arris + c; row 4: on the front, a stick H long from its other toe, packed out."""
    seconds = [s for s in rips(guided) if s.second]
    assert len(seconds) == 2
    (front,) = [s for s in rips(guided) if under(s) == {"front"}]
    assert front.set_by.means == "other toe"
    assert front.set_by.toe == pytest.approx(H)
    assert front.packer is not None
    assert front.packer.width == pytest.approx(7.5 * INCH - H)
    assert front.packer.toe_to_toe
    assert front.set_by.stick == pytest.approx(H + D - 7.5 * INCH)
    for step in seconds:
        if step is not front:
            assert step.set_by.means == "arris"
            assert step.set_by.toe == pytest.approx(C)


def test_ticks_are_struck_before_the_first_bevel_and_the_first_pass_of_strips_is_tried_on_scrap() -> None:
    """Row 1: strike ticks across both seams first; several strips in one pass are tried on scrap first."""
    for kind in ("guided", "table"):
        plan = make_plan(golden_inch(kind=kind))
        steps = [s for s in steps_of(plan) if s.sheet == "A1"]
        first = next(s for s in steps if s.bevel)
        assert [s.number for s in steps if "ticks" in s.support] == [first.number]
        assert [s.number for s in steps if "splitter" in s.support] == [first.number] * (kind == "table")
        strips = next(s for s in steps if len(s.cuts) > 1)
        assert "scrap first" in " ".join(step_words(plan, strips).lines)


def test_a_guide_laid_anew_for_bevels_is_clamped(guided: list[Step]) -> None:
    assert all(("clamp" in s.support) == bool(s.bevel and s.moves) for s in guided)
    assert any(s.flip and "clamp" in s.support for s in guided)


def test_a_triangle_falls_at_every_second_cut(guided: list[Step]) -> None:
    """Its base: 2 q - 1.41 k + c."""
    for step in guided:
        bases = [fall.width for fall in step.falls if fall.kind == "triangle"]
        assert bases == [pytest.approx(2 * Q - sqrt(2.0) * K + C)] * step.second
        assert ("foam" in step.support, "triangle" in step.dangers) == (step.second, step.second)


def test_row_5_with_scribe_is_left_longer_by_it() -> None:
    """Row 5: D + scribe from the toe; all places beyond the top's back move with it."""
    project = golden_inch()
    shelf = msgspec.structs.replace(project.shelves[0], scribe=INCH / 4)
    steps = steps_of(make_plan(msgspec.structs.replace(project, shelves=(shelf,))))
    places = {round(s.set_by.toe / INCH, 3) for s in steps if s.sheet == "A1" and s.kind == "rip" and not s.bevel}
    assert 23.416 in places  # 2 (D + 1/4) + H + 2 g


def test_row_5_back_edges_are_square_and_measured_from_the_datum(guided: list[Step]) -> None:
    places = {round(s.set_by.toe / INCH, 3) for s in guided if s.kind == "rip" and not s.bevel}
    assert 22.916 in places  # 2 D + H + 2 g


def test_opposing_bevels_want_the_guide_flipped(guided: list[Step]) -> None:
    bevelled = rips(guided)
    assert all(s.guide == s.keep == s.foot for s in bevelled)
    assert all(b.flip == (a.keep != b.keep) for a, b in pairwise(bevelled) if b.number == a.number + 1)


def test_crosscuts_left_v_from_the_end_right_v_by_a_stick_of_length_l(guided: list[Step]) -> None:
    """Toe D+g from the trued end; then L from the left toe; the ends on the arris + c, or D wide."""
    cross = [s for s in guided if s.kind == "crosscut" and s.bevel]
    body = [s for s in cross if len(s.cuts) == 3]
    assert [s.set_by.means for s in body] == ["datum end", "other toe"]
    assert [s.set_by.toe for s in body] == [pytest.approx(D + G), pytest.approx(L)]
    assert [s.length for s in body] == [pytest.approx(2 * D + H)] * 2
    ends = [s for s in cross if len(s.cuts) == 1]
    assert {s.words for s in ends} == {"left end", "right end"}
    for step in ends:
        assert (step.set_by.means, step.set_by.toe) in (
            ("arris", pytest.approx(C)),
            ("square edge", pytest.approx(D)),
        )
    assert all(s.chips for s in cross)


def test_table_row_1_both_edges_are_trued_before_any_bevel_and_none_as_it_came_runs_on_the_fence(
    table: list[Step],
) -> None:
    """The first on a straight board fixed to the sheet, to its line; the other by the fence from the first."""
    bevel = next(s.number for s in table if s.bevel)
    first, other = [s for s in table if s.about == "trim" and s.kind == "rip"]
    assert first.number < other.number < bevel
    assert first.set_by.on_line
    assert first.set_by.toe == pytest.approx(INCH / 4)
    assert not other.set_by.on_line
    assert other.set_by.against == "datum"
    assert not any(s.set_by.against in ("raw", "heel") for s in table if not s.set_by.on_line)


def test_fence_readings(table: list[Step]) -> None:
    """Rows 2 to 5: D - q = 9.281 twice, (H + g + D) - q, H - q = 1.781 with the front's toe standing up the fence."""
    readings = sorted(round(s.set_by.reading / INCH, 3) for s in rips(table) if s.set_by.reading is not None)
    assert readings == pytest.approx([1.781, 9.281, 9.281, 11.989])
    (front,) = [s for s in rips(table) if under(s) == {"front"}]
    assert front.set_by.bears == "toe up"
    assert "tall fence" in front.dangers
    assert all(s.set_by.bears == "square" for s in rips(table) if s is not front)
    assert not any("trapped" in s.dangers for s in table)


def test_a_square_cut_reads_its_width_and_crosscuts_go_on_a_sled(table: list[Step]) -> None:
    for step in table:
        assert (step.set_by.device == "stop") == (step.kind == "crosscut")
        if step.kind == "rip" and not step.bevel:
            assert step.set_by.reading == pytest.approx(step.width)


def test_the_sleds_stop_bears_on_the_part_that_is_kept(table: list[Step]) -> None:
    """Common practice: a stop for the ends, on a sled; wood between stop and blade that falls off would bind."""
    cross = [s for s in table if s.kind == "crosscut" and s.bevel]
    assert cross
    assert all(s.set_by.side == s.keep == s.guide for s in cross)
    assert {round(s.set_by.toe / INCH, 3) for s in cross if len(s.cuts) == 1} == {10.0}


def test_the_metric_example() -> None:
    """Ordinates 250, 253.35, 313.35, 316.69, 566.69 across and 250, 253.35, 2053.35, 2056.69 along."""
    steps = [s for s in steps_of(make_plan(golden_metric())) if s.sheet == "A1"]
    places = {
        kind: sorted({round(s.at - 6.0, 2) for s in steps if s.kind == kind and s.bevel})
        for kind in ("rip", "crosscut")
    }
    assert places["rip"] == [250.0, 253.35, 313.35, 316.69]
    assert places["crosscut"] == [250.0, 253.35, 2053.35, 2056.69]
    (front,) = [s for s in rips(steps) if under(s) == {"front"}]
    assert front.packer is not None
    assert front.packer.width == pytest.approx(190 - 60)
    table = [s for s in steps_of(make_plan(golden_metric(kind="table"))) if s.sheet == "A1"]
    readings = sorted(s.set_by.reading for s in rips(table) if s.set_by.reading is not None)
    gap = 1.8 * sqrt(2.0) + 0.8
    assert readings == pytest.approx([60 - 17.8, 250 - 17.8, 250 - 17.8, 60 + gap + 250 - 17.8])


def test_the_guides_edge_for_each_lean_and_face() -> None:
    """From the toe to the guide's edge, positive towards the guide; worked example, common practice.

    Foot under, face up: on the line, less the saw's offset. Foot away, face up: on the waste, k / cos b short of the
    toe. Foot under, face down: the toe k / cos b - q from the edge. Foot away, face down: the toe q beyond the edge.
    """
    footprint = K * sqrt(2.0)
    wanted = {
        ("under", "up"): 0.0,
        ("away", "up"): footprint,
        ("under", "down"): footprint - Q,
        ("away", "down"): Q,
    }
    for (lean, face), edge in wanted.items():
        for offset in (0.0, 0.8):
            bevelled = [s for s in shell_steps(lean=lean, face=face, guide_offset=offset) if s.bevel]
            assert bevelled
            for step in bevelled:
                assert step.set_by.edge == pytest.approx(edge + offset)
                assert (step.guide == step.keep) == ((lean == "under") == (face == "up"))
                assert (step.foot == step.guide) == (lean == "under")


def test_left_and_right_change_places_with_the_face_down() -> None:
    up, down = (make_plan(golden_inch(face=face)) for face in ("up", "down"))
    for plan, mirrored in ((up, False), (down, True)):
        for step in steps_of(plan):
            if step.kind == "crosscut" and step.bevel:
                assert side_word(step, "low") == ("right" if mirrored else "left")
            if step.kind == "rip":
                assert side_word(step, step.datum) == "near"
    seen = [step for step in steps_of(down) if step.second and step.set_by.means == "arris"]
    assert seen
    assert all(step.set_by.seen == pytest.approx(2 * Q - sqrt(2.0) * K + C) for step in seen)


def test_scrap_packs_the_guide_out_before_a_finished_face_does() -> None:
    """Common practice: clamps mark a finished face. Of what lies there, rougher wood is taken first; where only one
    rough piece is long enough for an end, scrap is asked for at the other, and a panel named as the last resort."""
    plan = make_plan(load_project(DEMO))
    finished = {panel.piece for panel in plan.panels}
    packed = [step for step in steps_of(plan) if step.packer is not None and not step.packer.toe_to_toe]
    last_resorts = [step for step in packed if step.packer and finished.intersection(step.packer.pieces)]
    assert last_resorts
    assert len(last_resorts) < len(packed)
    for step in packed:
        assert step.packer is not None
        assert ("scrap as thick" in step.packer.words) == (step in last_resorts)
        assert re.search(r"[AB] (top|front|bottom)\b(?! rail)", step.packer.words) is None
        assert bool(step.packer.instead) == (step in last_resorts)
