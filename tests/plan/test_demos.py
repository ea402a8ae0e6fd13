"""Every demo project is a test."""

from pathlib import Path

import pytest

from core.document.load import load_project
from core.document.patch import apply_pointers
from core.plan.make import make_plan
from core.plan.proof import prove

DEMOS = sorted((Path(__file__).parents[2] / "demo_projects").glob("*.grainfold"))
CANNOT_FIT = "landing-ledge"


def test_there_are_demos() -> None:
    assert {"reading-corner", "stove-alcove", CANNOT_FIT, "hearth", "pantry-offcut"} <= {d.stem for d in DEMOS}


@pytest.mark.parametrize("path", DEMOS, ids=lambda p: p.stem)
def test_demo_plans_and_replays(path: Path) -> None:
    plan = make_plan(load_project(path))
    prove(plan)
    assert bool(plan.errors) == (path.stem == CANNOT_FIT)
    assert not [f for f in plan.findings if f.severity == "warning"]
    assert [load.shelf for load in plan.loads] == [shelf.id for shelf in plan.project.shelves]
    assert all(load.front_edge_kg > 1.0 for load in plan.loads)


def test_the_one_that_cannot_fit_has_ways_out_and_each_works() -> None:
    project = load_project(next(d for d in DEMOS if d.stem == CANNOT_FIT))
    plan = make_plan(project)
    assert [f.code for f in plan.errors] == ["no-room"]
    fixes = plan.errors[0].fixes
    assert len(fixes) >= 3
    for fix in fixes:
        mended = make_plan(apply_pointers(project, fix.set))
        assert "no-room" not in {f.code for f in mended.errors}, fix.text
        prove(mended)


def test_three_shelves_of_one_sheet_with_their_frames() -> None:
    """The first demo: unlike lengths, nothing at the defaults, everything from one sheet."""
    project = load_project(next(d for d in DEMOS if d.stem == "reading-corner"))
    plan = make_plan(project)
    assert len(plan.sheets) == 1
    assert len({s.length for s in project.shelves}) == 3
    assert all(s.depth != pytest.approx(9 * 25.4) and s.height != pytest.approx(3 * 25.4) for s in project.shelves)
    assert (project.frame.spacing, project.frame.side_play) != (228.6, 25.4)
    assert all(part.piece for frame in plan.frames for part in frame.parts)
    assert len(plan.frames) == 3
