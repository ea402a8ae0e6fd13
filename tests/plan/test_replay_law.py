"""The replay law: the cuts of any plan, run on its sheets, give exactly what the plan promises."""

from collections import Counter

import pytest
import shapely
from hypothesis import given, settings
from shapely.geometry import box

from core.document.model import Project
from core.plan.make import make_plan
from core.plan.model import Plan
from core.plan.proof import prove
from core.sawing.piece import volume
from tests.conftest import examples
from tests.strategies import projects


@settings(max_examples=examples(50, 1000))
@given(projects(max_shelves=6))
def test_replay_gives_exactly_the_panels_and_parts(project: Project) -> None:
    plan = make_plan(project)
    done = prove(plan)  # raises at the first thing that is not as promised
    kerfless = {s.id: s.length * s.width * s.thickness for s in plan.sheets}
    for sheet, whole in kerfless.items():
        wood = sum(volume(p, _thickness(plan, sheet)) for n, p in done.pieces.items() if done.sheet_of[n] == sheet)
        assert wood + done.sawdust[sheet] == pytest.approx(whole, rel=1e-9)


def _thickness(plan: Plan, sheet: str) -> float:
    return next(s.thickness for s in plan.sheets if s.id == sheet)


@settings(max_examples=examples(50, 1000))
@given(projects(max_shelves=6))
def test_everything_asked_for_is_cut_once_or_said_to_be_missing(project: Project) -> None:
    plan = make_plan(project)
    missing = {f.about for f in plan.findings if f.code == "no-room"}
    roles = {"top", "front", "bottom"}
    for shelf in project.shelves:
        mine = [p for p in plan.panels if p.shelf == shelf.id]
        ends = {side for side, state in (("left", shelf.left), ("right", shelf.right)) if state == "mitred"}
        assert Counter(p.role for p in mine) == Counter(roles | ends)
        assert all((p.piece is None) == bool({shelf.id, p.id} & missing) for p in mine)
        assert {n.panel for n in plan.nets if n.shelf == shelf.id} == {
            role for role in (None, *shelf.apart) if not {shelf.id, f"{shelf.id}/{role}"} & missing
        }
    for frame in plan.frames:
        for part in frame.parts:
            assert (part.piece is None) == (part.id in missing or frame.shelf in missing)


@settings(max_examples=examples(50, 1000))
@given(projects(max_shelves=6))
def test_show_faces_lie_apart_inside_the_trim_and_add_up(project: Project) -> None:
    """Areas by shapely, apart from the program's own arithmetic."""
    plan = make_plan(project)
    for sheet in plan.sheets:
        faces = [box(p.x, p.y, p.x + p.show[0], p.y + p.show[1]) for p in plan.panels_on(sheet.id)]
        faces += [box(p.x, p.y, p.x + p.length, p.y + p.width) for p in plan.parts_on(sheet.id)]
        together = shapely.union_all(faces)
        assert together.area == pytest.approx(sum(f.area for f in faces), rel=1e-9)
        trim = sheet.source.trim
        inner = box(trim, trim, sheet.length - trim, sheet.width - trim)
        assert together.difference(inner.buffer(1e-6, join_style="mitre")).area < 1e-6
        assert sheet.used == pytest.approx(together.area / (sheet.length * sheet.width), rel=1e-9)
        kept = [box(o.x, o.y, o.x + o.length, o.y + o.width) for o in plan.offcuts if o.sheet == sheet.id]
        assert shapely.union_all(kept).intersection(together).area < 1e-3


@settings(max_examples=examples(50, 1000))
@given(projects(max_shelves=6))
def test_cuts_are_numbered_and_passes_are_crosscuts_at_one_place(project: Project) -> None:
    plan = make_plan(project)
    assert [c.n for c in plan.cuts] == list(range(1, len(plan.cuts) + 1))
    by_pass: dict[int, list[tuple[str, float, float, str]]] = {}
    for cut in plan.cuts:
        by_pass.setdefault(cut.pass_, []).append((cut.kind, round(cut.at, 6), cut.bevel, cut.keep))
    for cuts in by_pass.values():
        assert len(set(cuts)) == 1
        assert len(cuts) == 1 or cuts[0][0] == "crosscut"
    assert [c.pass_ for c in plan.cuts] == sorted(c.pass_ for c in plan.cuts)


@settings(max_examples=examples(50, 1000))
@given(projects(max_shelves=6))
def test_a_plan_is_the_same_every_time(project: Project) -> None:
    plan = make_plan(project)
    assert make_plan(project) == plan
    kept = make_plan(project, plan.layout)
    assert (kept.nets, kept.cuts, kept.panels) == (plan.nets, plan.cuts, plan.panels)
