"""What is kept from earlier plans never shows: a plan is the same whatever was planned before it."""

import gc

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Mount, Project, Sheet, Shelf, Wall
from core.kept import Kept
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.conftest import examples
from tests.strategies import projects


def forget_all() -> None:
    """Empty everything that keeps what was made last."""
    for kept in gc.get_objects():
        if isinstance(kept, Kept):
            kept._made.clear()


def planned_afresh(project: Project) -> Plan:
    forget_all()
    return make_plan(project)


def with_shelves(project: Project, shelves: tuple[Shelf, ...]) -> Project:
    return msgspec.structs.replace(project, shelves=shelves)


@settings(max_examples=examples(15, 500))
@given(projects(max_shelves=4, min_shelves=2), st.data())
def test_a_shelf_taken_away_or_moved_in_the_list_leaves_no_trace(project: Project, data: st.DataObject) -> None:
    make_plan(project)
    shelves = project.shelves
    gone = data.draw(st.integers(0, len(shelves) - 1))
    for now in (shelves[:gone] + shelves[gone + 1 :], shelves[::-1]):
        kept = make_plan(with_shelves(project, now))
        assert kept == planned_afresh(with_shelves(project, now))
        make_plan(project)


def test_the_fixes_of_a_shelf_that_hangs_name_it_by_its_new_number() -> None:
    low, high = (
        Shelf(name, 1200.0, 200.0, 80.0, mount=Mount(700.0, top)) for name, top in (("low", 900.0), ("high", 1600.0))
    )
    wall = Wall(3000.0, 2400.0, studs=(1200.0, 1800.0))
    project = Project((Sheet("A", 2440.0, 1220.0),), (low, high), wall=wall)
    assert any(finding.fixes for finding in make_plan(project).findings if finding.about == "high")
    kept = make_plan(with_shelves(project, (high,)))
    assert {pointer for finding in kept.findings for fix in finding.fixes for pointer in fix.set} >= {
        "/shelves/0/mount/x"
    }
    assert kept == planned_afresh(with_shelves(project, (high,)))
