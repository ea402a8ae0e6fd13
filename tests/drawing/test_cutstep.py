"""The bench at a step: every piece that was sawn is drawn where it lies, and the guide lies where the step says."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import msgspec
import pytest

from core.document.load import load_project
from core.document.model import Project, Saw
from core.drawing.cutstep import bench_at, draw_step, draw_where, lay_out, picture_box
from core.drawing.flatten import flatten
from core.drawing.guides import cut_line, far_edge, guide_box, lies_on, packer_boxes, room_beside
from core.drawing.model import Area, Drawing, Line, Text
from core.plan.make import make_plan
from core.plan.model import Plan
from core.sawing.piece import Piece
from core.sawing.replay import ReplaySheet, replay
from core.steps.lying import Bench, day_of
from tests.drawing.plans import hallway

TOL = 1e-6  # mm: float noise
DEMO = Path(__file__).parents[2] / "demo_projects" / "potting-shed.grainfold"
SAWS = {
    "guided": Saw(),
    "leans away": Saw(lean="away"),
    "face down": Saw(face="down"),
    "away, face down": Saw(lean="away", face="down"),
    "table": Saw(kind="table", allowance=0.5, guide_length=900.0),
    "table, away": Saw(kind="table", lean="away", guide_length=900.0),
    "table, face down": Saw(kind="table", face="down", guide_length=900.0),
    "short offset guide": Saw(guide_length=1100.0, guide_width=130.0, guide_offset=0.6),
}


@cache
def plan_with(saw: str) -> Plan:
    return make_plan(load_project(DEMO) if saw == "demo" else hallway(saw=SAWS[saw]))


def lies_beyond(bench: Bench, piece: Piece) -> bool:
    """Does it lie on the guide's side, beyond the work?"""
    box = bench.turn.box(piece.show_box())
    side = 0 if bench.axis == "x" else 1
    far = bench.turn.along(bench.axis, far_edge(bench))
    low = bench.turn.side(bench.axis, bench.step.guide) == "low"
    return box[side + 2] <= far + 12.0 if low else box[side] >= far - 12.0


def steps(plan: Plan) -> Iterator[tuple[int, Bench, Drawing]]:
    for bench in day_of(plan).benches:
        yield bench.step.number, bench, draw_step(plan, bench.step.number)


@pytest.mark.parametrize("saw", [*SAWS, "demo"])
def test_pieces_drawn_are_the_pieces_replayed(saw: str) -> None:
    plan = plan_with(saw)
    sheets = [ReplaySheet(s.id, s.length, s.width, s.thickness) for s in plan.sheets]
    for number, bench, drawing in steps(plan):
        last = max(bench.step.cuts)
        bench_now = replay(sheets, [cut for cut in plan.cuts if cut.n <= last], plan.project.saw.kerf)
        there = {name for name, sheet in bench_now.sheet_of.items() if sheet == bench.step.sheet}
        there &= bench_now.pieces.keys()
        drawn = [item.about for item in drawing.items if isinstance(item, Area) and item.about]
        assert len(drawn) == len(set(drawn))
        assert set(drawn) <= there
        if draw_where(plan, number) is None:  # the whole sheet is shown; what made room for a fence may lie outside
            beyond = {p.name for p in bench.pieces if room_beside(bench) and lies_beyond(bench, p)}
            assert there - set(drawn) <= beyond
            assert beyond or set(drawn) == there
        assert {piece.name for piece in bench.made} <= set(drawn)


@pytest.mark.parametrize("saw", [*SAWS, "demo"])
def test_each_piece_lies_where_its_numbers_say(saw: str) -> None:
    """Turned, and moved aside, but never of another size."""
    plan = plan_with(saw)
    for number, bench, _ in steps(plan):
        whole = draw_where(plan, number) is None
        for one in lay_out(plan, number):
            up = one.piece.show_box() if bench.step.face == "up" else one.piece.inside_box()
            if up[2] - up[0] <= TOL or up[3] - up[1] <= TOL or not whole:
                continue
            seen = bench.turn.box(up)
            dx, dy = one.aside
            box = (seen[0] + dx, seen[1] + dy, seen[2] + dx, seen[3] + dy)
            if one.piece not in bench.made:
                shown = picture_box(bench)
                box = (
                    *(max(a, b) for a, b in zip(box[:2], shown[:2], strict=True)),
                    *(min(a, b) for a, b in zip(box[2:], shown[2:], strict=True)),
                )
            assert one.box == pytest.approx(box, abs=TOL)


@pytest.mark.parametrize("saw", [*SAWS, "demo"])
def test_the_guide_lies_on_its_side_and_never_covers_the_off_side(saw: str) -> None:
    plan = plan_with(saw)
    for _, bench, drawing in steps(plan):
        step, box = bench.step, guide_box(bench)
        edge = abs(step.set_by.edge or 0.0)
        (x0, y0), (x1, y1) = cut_line(bench)
        pad = edge + TOL if step.set_by.device == "mark" else 0.0  # a rail may be set back, or reach over by its offset
        shrunk = (
            (box[0] + pad, box[1], box[2] - pad, box[3])
            if bench.axis == "x"
            else (box[0], box[1] + pad, box[2], box[3] - pad)
        )
        assert lies_on(bench, shrunk) == step.guide
        guides = [item for item in drawing.items if isinstance(item, Area) and item.layer == "guide"]
        assert len(guides) == (0 if step.set_by.on_line and step.set_by.device == "stop" else 1)
        assert [item for item in drawing.items if isinstance(item, Line) and item.layer == "now"]
        if step.set_by.device != "mark":  # the fence is below, the stop at the left, whatever way the wood came
            assert box[3] <= y0 + TOL if bench.axis == "y" else box[2] <= x0 + TOL
        assert (y0 == pytest.approx(y1)) if bench.axis == "y" else (x0 == pytest.approx(x1))


@pytest.mark.parametrize("saw", [*SAWS, "demo"])
def test_the_trued_edge_and_end_are_named_once_where_they_are_seen(saw: str) -> None:
    plan = plan_with(saw)
    named = 0
    for _, bench, drawing in steps(plan):
        lines = [item.points for item in drawing.items if isinstance(item, Line) and item.layer == "datum"]
        words = [item.text for item in drawing.items if isinstance(item, Text) and item.text.startswith("trued ")]
        assert len(words) == len(set(words))
        for text, level in (("trued edge", 1), ("trued end", 0)):
            long = max((abs(a[1 - level] - b[1 - level]) for a, b in lines if a[level] == b[level]), default=0.0)
            assert (text in words) == (long >= 70.0)
        named += len(words)
        assert {axis for axis, _ in bench.datums} == {"x", "y"}
    assert named


@pytest.mark.parametrize("saw", [*SAWS, "demo"])
def test_no_guide_covers_the_notes_over_the_picture(saw: str) -> None:
    """Which face is up stands higher than any guide that reaches out of the picture."""
    plan = plan_with(saw)
    for _, _, drawing in steps(plan):
        guides = [item for item in drawing.items if isinstance(item, Area) and item.layer == "guide"]
        notes = [i for i in drawing.items if isinstance(i, Text) and i.text.startswith(("show face", "grain"))]
        assert len(notes) == 2
        for guide in guides:
            assert all(note.at[1] >= max(y for _, y in guide.points) - TOL for note in notes)


@pytest.mark.parametrize("saw", ["guided", "leans away", "face down", "short offset guide"])
def test_a_guide_rail_is_as_wide_and_as_long_as_the_saws(saw: str) -> None:
    plan = plan_with(saw)
    for _, bench, _drawing in steps(plan):
        box, mine = guide_box(bench), plan.project.saw
        sides = (box[2] - box[0], box[3] - box[1])
        across, along = sides if bench.axis == "x" else sides[::-1]
        assert (across, along) == pytest.approx((mine.guide_width, mine.guide_length))


@pytest.mark.parametrize("saw", list(SAWS))
def test_packers_carry_the_guide_beside_the_work(saw: str) -> None:
    plan = plan_with(saw)
    found = 0
    for _, bench, _ in steps(plan):
        for box in packer_boxes(bench):
            found += 1
            assert lies_on(bench, box) == bench.step.guide
            assert bench.step.packer is not None
            side = min(box[2] - box[0], box[3] - box[1]), max(box[2] - box[0], box[3] - box[1])
            across = box[2] - box[0] if bench.axis == "x" else box[3] - box[1]
            assert across >= bench.step.packer.width - TOL
            assert side[0] > 0.0
    assert bool(found) == (SAWS[saw].kind == "guided")


@pytest.mark.parametrize("saw", ["face down", "table, face down"])
def test_show_face_down_is_a_mirror_and_says_so(saw: str) -> None:
    plan = plan_with(saw)
    downs = 0
    for _, bench, drawing in steps(plan):
        texts = " ".join(item.text for item in drawing.items if isinstance(item, Text))
        assert ("seen from the back" in texts) == (bench.step.face == "down")
        assert (bench.turn.x != bench.turn.y) == (bench.step.face == "down")
        downs += bench.step.face == "down"
    assert downs


def test_show_face_up_is_never_mirrored_only_turned() -> None:
    for saw in ("guided", "table", "table, away"):
        turns = {(bench.turn.x, bench.turn.y) for _, bench, _ in steps(plan_with(saw))}
        assert turns == ({(False, False)} if saw == "guided" else {(False, False), (True, True)})


@pytest.mark.parametrize("saw", ["guided", "table"])
def test_what_falls_lies_aside_and_the_kept_side_where_it_was(saw: str) -> None:
    plan = plan_with(saw)
    moved = 0
    for number, bench, _ in steps(plan):
        keep = {pair[bench.step.keep == "high"] for pair in bench.work.made}
        names = {piece.name for piece in keep if piece is not None}
        for one in lay_out(plan, number):
            if one.piece.name in names and bench.step.keep == bench.step.guide:
                assert one.layer == "kept"
                assert one.aside == (0.0, 0.0)
            if one.layer == "fallen" and one.piece in bench.made:
                moved += one.aside != (0.0, 0.0)
    assert moved


def test_the_number_is_written_once_where_it_is_measured() -> None:
    for saw in ("guided", "table"):
        plan = plan_with(saw)
        for _, bench, drawing in steps(plan):
            by = bench.step.set_by
            want = by.reading or by.stop or by.back or by.toe
            texts = [item for item in drawing.items if isinstance(item, Text) and item.layer == "setting"]
            numbers = [item for item in texts if not item.text.startswith("stick")]
            assert len(numbers) == (want > 0.3)


def test_everything_is_seen_at_the_scale_of_a_screen() -> None:
    """The guide's name and the number have room, and the picture shows all of the work."""
    plan = plan_with("guided")
    for number, bench, drawing in steps(plan):
        box = picture_box(bench)
        flat = flatten(drawing, (box[2] - box[0]) / 500.0)
        by = bench.step.set_by
        if by.toe > 0.3 or by.stick is not None:
            assert any(words.layer == "setting" for words in flat.words), number


def test_near_is_where_the_trued_edge_is_seen() -> None:
    """The words say near and far; the picture says where that is."""
    for _, bench, drawing in steps(plan_with("guided")):
        texts = " ".join(item.text for item in drawing.items if isinstance(item, Text))
        if bench.step.kind == "crosscut":
            assert "near side" not in texts
            continue
        edges = dict(bench.datums)
        at = bench.turn.along("y", edges["y"][1])
        assert ("near side at the top" in texts) == (at > bench.turn.width / 2.0)
        assert ("near side below" in texts) == (at < bench.turn.width / 2.0)


def test_no_step_no_drawing() -> None:
    plan = plan_with("guided")
    empty = make_plan(hallway(shelves=()))
    for number in (0, -1, len(day_of(plan).benches) + 1):
        with pytest.raises(KeyError, match=str(number)):
            bench_at(plan, number)
    with pytest.raises(KeyError):
        draw_step(empty, 1)
    assert day_of(empty).benches == ()


def test_the_demo_is_a_table_saws() -> None:
    project = load_project(DEMO)
    assert isinstance(project, Project)
    assert project.saw.kind == "table"
    assert msgspec.structs.replace(project, saw=Saw()) != project
