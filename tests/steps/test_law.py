"""Every step's instructions against a second derivation from the sawn pieces, over random jobs and saws."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Project, Saw, Shelf
from core.plan.make import make_plan
from core.plan.model import Plan
from core.plan.proof import prove
from core.sawing.piece import Box
from core.steps.model import Packer, Step
from core.steps.steps import steps_of
from core.steps.words import step_words
from tests.conftest import examples
from tests.steps.derive import Seen, edge_at, foot_of, guide_of, kept_side, plane_beside, seen_cuts
from tests.steps.jobs import golden_metric
from tests.strategies import lengths, one_of, projects

WAYS = {"low": -1.0, "high": 1.0}


@st.composite
def sawn_projects(draw: st.DrawFn) -> Project:
    """Any project, on a saw that leans and lies any way."""
    project = draw(projects())
    saw = msgspec.structs.replace(
        project.saw,
        face=draw(one_of("up", "down")),
        guide_offset=draw(one_of(0.0, 0.0, 0.8, -0.5)),
        guide_width=draw(lengths(60.0, 250.0)),
        guide_length=draw(one_of(1400.0, 2800.0, 4000.0)),
        fence_travel=draw(one_of(400.0, 800.0, 1400.0)),
    )
    return msgspec.structs.replace(project, saw=saw)


def check_plan(plan: Plan) -> None:
    check_findings(plan)
    steps, passes = steps_of(plan), seen_cuts(plan)
    assert [step.cuts for step in steps] == [tuple(s.cut.n for s in seen) for seen in passes]
    last: dict[str, str] = {}
    for step, seen in zip(steps, passes, strict=True):
        saw = plan.project.saw
        face = saw.face if step.bevel else "up"
        for one in seen:
            assert step.foot == foot_of(one, face)
            assert step.guide == guide_of(one, saw.lean, face)
        assert step.flip == (last.get(step.kind, step.guide) != step.guide)
        last[step.kind] = step.guide
        check_guide(plan, step, seen[0], saw)
        check_bearing(step, seen, saw)
        check_abouts(plan, step, seen)
        check_setting(step, seen[0])
        check_falls(step, seen)
        words = step_words(plan, step)
        assert words.title
        assert all(line.endswith(".") for line in words.lines)


def check_findings(plan: Plan) -> None:
    """What a step warns of, the plan says once; and nothing else."""
    dangers = {danger for step in steps_of(plan) for danger in step.dangers}
    told = {f.code for f in plan.findings}
    codes = {
        "narrow": "narrow",
        "guide short": "guide-short",
        "fence travel": "fence-travel",
        "trapped": "trapped",
        "waste side": "waste-side",
    }
    assert {codes[d] for d in dangers if d in codes} == told & set(codes.values())
    assert len([f for f in plan.findings if f.code in codes.values()]) == len(told & set(codes.values()))


def check_guide(plan: Plan, step: Step, seen: Seen, saw: Saw) -> None:
    """The guide's edge touches the blade on the face that is up; the fence reads the gap on the face that is down."""
    by, sign = step.set_by, WAYS[step.guide]
    up = 0 if step.face == "up" else 1
    beside = plane_beside(seen, step.guide)
    if by.edge is not None:
        offset = saw.guide_offset if step.bevel else 0.0
        assert seen.cut.at + sign * by.edge == pytest.approx(beside[up] + sign * offset)
        carried = (edge_at(seen, step.guide, up) - seen.cut.at - sign * by.edge) * sign
        assert step.width == pytest.approx(max(0.0, carried), abs=1e-6)
        assert (step.packer is not None or "narrow" in step.dangers) == (
            saw.guide_width - step.width > 5.0
        )  # common practice
        if by.stick is not None and step.packer is None:
            assert step.width >= saw.guide_width - 1e-6
    if step.packer is not None:
        check_packer(plan, step, step.packer, seen)
    if by.stop is not None:
        ends = [edge_at(seen, step.guide, face) for face in (0, 1)]
        bearing = max(ends) if step.guide == "high" else min(ends)
        assert step.kind == "crosscut"
        assert by.stop >= abs(bearing - beside[1 - up]) - 1e-6  # another strip of the pass may reach further
        assert len(step.cuts) > 1 or by.stop == pytest.approx(abs(bearing - beside[1 - up]), abs=1e-6)
        assert ("tall fence" in step.dangers) == (bearing != pytest.approx(ends[1 - up], abs=1e-6))
    if by.reading is not None:
        bears = [edge_at(seen, step.guide, face) for face in (0, 1)]
        bearing = max(bears) if step.guide == "high" else min(bears)
        assert by.reading == pytest.approx(abs(bearing - beside[1 - up]), abs=1e-6)
        assert ("narrow" in step.dangers) == (by.reading < 25.0 and "waste side" not in step.dangers)
        assert ("fence travel" in step.dangers) == (by.reading > saw.fence_travel + 1e-6)
        assert (by.bears == "square") == (abs(bears[0] - bears[1]) < 1e-6)
        if by.bears != "square":
            assert (by.bears == "toe up") == (bearing == bears[up])
        assert ("trapped" in step.dangers) == (bool(step.bevel) and step.foot != step.guide)


def check_abouts(plan: Plan, step: Step, seen: list[Seen]) -> None:
    """A bevel is told of every panel whose edge it makes: those in what is kept, with an edge of that tilt on the line.
    An end goes with the strip it is cut from."""
    if not step.bevel:
        return
    edge = f"{'high' if step.keep == 'low' else 'low'}_{'y' if step.kind == 'rip' else 'x'}"
    kept = [piece for one in seen if (piece := one.low if step.keep == "low" else one.high) is not None]
    made = set()
    for panel in plan.panels:
        if panel.sheet == step.sheet and panel.x is not None and panel.y is not None and edge in panel.bevels:
            box = (panel.x, panel.y, panel.x + panel.show[0], panel.y + panel.show[1])
            at = box[(step.kind == "rip") + (2 if step.keep == "low" else 0)]
            if abs(at - step.at) < 1e-6 and any(_within(box, piece.show_box()) for piece in kept):
                made.add(panel.id)
    strips = {
        f"{s.id}/{end}": f"{s.id}/{s.ends_from}" for s in plan.project.shelves for end in {"left", "right"} - {*s.apart}
    }
    assert set(step.abouts) == {panel for panel in made if strips.get(panel) not in made}


def _within(inner: Box, outer: Box) -> bool:
    return all(a >= b - 1e-6 for a, b in zip(inner[:2], outer[:2], strict=True)) and all(
        a <= b + 1e-6 for a, b in zip(inner[2:], outer[2:], strict=True)
    )


def check_bearing(step: Step, seen: list[Seen], saw: Saw) -> None:
    """Nothing is guided by an edge that is not straight and sound at that moment: not one as it came, nor one that the
    other cut of a V has just left (common practice). A guide rail lies on the wood and needs none, its stick does."""
    by = step.set_by
    waste = saw.kind == "table" and bool(step.bevel) and step.guide != kept_side(seen[0])
    assert ("waste side" in step.dangers) == waste
    if by.on_line or waste:
        return  # brought to a line; or the plan says that no fence can do it
    for one in seen:
        show, inside = (edge_at(one, step.guide, face) for face in (0, 1))
        lines = one.before.low(one.axis) if step.guide == "low" else one.before.high(one.axis)
        sound = len(lines) == 1 and (show - inside) * WAYS[step.guide] >= -1e-6 and not _raw(step, one)
        assert sound or (saw.kind == "guided" and (by.stick is None or step.packer is not None))


def _raw(step: Step, one: Seen) -> bool:
    """Is the edge on the guide's side still a factory edge, on a sheet whose edges are trued?"""
    return _uncut(one, step.guide) and one.trim > 0.0


def check_packer(plan: Plan, step: Step, packer: Packer, seen: Seen) -> None:
    """What packs the guide out lies there, is wide enough, and carries it all along or at both ends."""
    assert packer.width > 0
    finished = {part.piece for part in plan.panels if part.piece}
    used = finished.intersection(packer.pieces)
    assert bool(packer.instead) == (bool(used) and not packer.toe_to_toe)
    if packer.instead:  # nothing rougher lies there
        rough = [
            sorted((box[2] - box[0], box[3] - box[1]))
            for name, piece in seen.lying.items()
            if name.startswith(f"{step.sheet}.") and name not in finished
            for box in (piece.clear_box(),)
        ]
        assert not any(a >= packer.width and b >= step.length for a, b in rough)
        assert sum(a >= packer.width and b >= 150.0 for a, b in rough) < 2
    assert len(set(packer.pieces)) == len(packer.pieces) in (1, 2)
    for name in packer.pieces:
        x0, y0, x1, y1 = seen.lying[name].clear_box()
        sides = sorted((x1 - x0, y1 - y0))
        least = step.length - 12.0 if len(packer.pieces) == 1 else 150.0  # near enough; common practice
        assert any(a >= packer.width and b >= least for a, b in (sides, sides[::-1]))


def check_setting(step: Step, seen: Seen) -> None:
    """The toe really is that far from what it is measured from, and that edge is fit to be measured from."""
    by = step.set_by
    show, inside = (edge_at(seen, by.side, face) for face in (0, 1))
    lines = seen.before.low(seen.axis) if by.side == "low" else seen.before.high(seen.axis)
    assert by.toe == pytest.approx(abs(show - seen.cut.at), abs=1e-6)
    if by.means in ("datum edge", "datum end", "square edge"):
        assert len(lines) == 1
        assert show == pytest.approx(inside)
    if by.means == "other toe":
        assert (show - inside) * WAYS[by.side] > 0
    if by.means == "arris":
        assert by.side != step.keep
        assert by.toe <= abs(plane_beside(seen, "low")[0] - plane_beside(seen, "high")[0]) + 1e-6
    if by.means == "raw edge":  # nothing better was there
        for side in ("low", "high"):
            face = seen.before.low(seen.axis) if side == "low" else seen.before.high(seen.axis)
            bare = len(face) == 1 and face[0][0] == face[0][1]
            assert not bare or seen.before.name == step.sheet or _uncut(seen, side)
            assert (face[0][0] - face[0][1]) * WAYS[side] <= 0 or len(face) > 1


def _uncut(seen: Seen, side: str) -> bool:
    """Is a side still the sheet's own edge?"""
    ends = seen.sheet[seen.axis == "y"]
    return abs(edge_at(seen, side, 0) - (0.0 if side == "low" else ends)) < 1e-6


def check_falls(step: Step, seen: list[Seen]) -> None:
    made = {p.name: (side, p) for one in seen for side, p in (("low", one.low), ("high", one.high)) if p is not None}
    assert {fall.piece for fall in step.falls} <= made.keys()
    for fall in step.falls:
        side, piece = made[fall.piece]
        assert (fall.lies == "guide") == (side == step.guide)
        if fall.kind == "triangle":
            box = piece.clear_box()
            low, high = (0, 2) if seen[0].axis == "x" else (1, 3)
            assert box[high] - box[low] <= 1e-6
    assert set(step.under) == {name for name, (side, _) in made.items() if side == step.guide}


@settings(max_examples=examples(30, 300))
@given(sawn_projects())
def test_instructions_agree_with_the_sawn_pieces(project: Project) -> None:
    check_plan(make_plan(project))


@pytest.mark.parametrize(
    "saw", [{"kerf": 0.8}, {"kerf": 5.0}, {"overcut": -1.0}, {"overcut": 2.0}, {"guide_width": 60.0}]
)
@pytest.mark.parametrize("kind", ["guided", "table"])
@pytest.mark.parametrize("lean", ["under", "away"])
@pytest.mark.parametrize("face", ["up", "down"])
def test_extremes_of_the_saw(saw: dict[str, Any], kind: str, lean: str, face: str) -> None:
    plan = make_plan(golden_metric(kind=kind, lean=lean, face=face, **saw))
    prove(plan)
    check_plan(plan)


@pytest.mark.parametrize(("wide", "packed"), [(60.0, False), (65.0, False), (65.1, True)])
def test_a_guide_as_wide_as_the_strip_needs_no_packer(wide: float, packed: bool) -> None:
    """The front's strip is 60 mm wide, the narrowest of the shell; 5 mm of overhang lie firm (common practice)."""
    plan = make_plan(golden_metric(guide_width=wide))
    (front,) = [s for s in steps_of(plan) if s.bevel and s.kind == "rip" and s.words.startswith("front")]
    assert (front.packer is not None) == packed
    assert "narrow" not in front.dangers
    assert front.width == pytest.approx(60.0)


@pytest.mark.parametrize("thickness", [6.0, 40.0])
@pytest.mark.parametrize("kind", ["guided", "table"])
def test_extremes_of_the_ply(thickness: float, kind: str) -> None:
    project = golden_metric(kind=kind, depth_at_bevel=90.0)
    sheets = tuple(msgspec.structs.replace(s, thickness=thickness) for s in project.sheets)
    shelves = (msgspec.structs.replace(project.shelves[0], height=3 * thickness + 30),)
    plan = make_plan(msgspec.structs.replace(project, sheets=sheets, shelves=shelves))
    prove(plan)
    check_plan(plan)


@pytest.mark.parametrize("count", [0, 1, 30])
@pytest.mark.parametrize("kind", ["guided", "table"])
def test_extremes_of_the_job(count: int, kind: str) -> None:
    project = golden_metric(kind=kind)
    sheets = tuple(msgspec.structs.replace(s, quantity=20) for s in project.sheets)
    shelves = tuple(Shelf(f"s{n}", 700.0 + 9 * n, 200.0, 60.0 + n % 3) for n in range(count))
    plan = make_plan(msgspec.structs.replace(project, sheets=sheets, shelves=shelves))
    prove(plan)
    check_plan(plan)
    assert bool(steps_of(plan)) == bool(count)
    assert len([panel for panel in plan.panels if panel.piece]) == 5 * count
