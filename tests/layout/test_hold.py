"""A held layout: still where it can be, sound always."""

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Project, Sheet, Shelf
from core.layout.hold import hold
from core.layout.model import Layout
from core.plan.make import make_plan, shapes_of
from core.plan.proof import prove
from tests.conftest import examples
from tests.strategies import projects

replace = msgspec.structs.replace


def with_shelf(project: Project, i: int, **fields: float) -> Project:
    shelf = replace(project.shelves[i], **fields)
    return replace(project, shelves=(*project.shelves[:i], shelf, *project.shelves[i + 1 :]))


def held(project: Project, before: Layout) -> Layout:
    return hold(project, [shape.size for shape in shapes_of(project)], before)


def places(layout: Layout) -> dict[int, tuple[int, float, float]]:
    return {s.index: (s.sheet, s.x, s.y) for s in layout.spots}


@settings(max_examples=examples(50, 1000))
@given(projects(max_shelves=6))
def test_nothing_moves_where_nothing_changed(project: Project) -> None:
    before = make_plan(project).layout
    if before.misfits:
        return
    assert places(held(project, before)) == places(before)


@settings(max_examples=examples(60, 1000))
@given(projects(max_shelves=6), st.integers(0, 5), st.sampled_from(["length", "depth", "height"]), st.floats(0.6, 1.5))
def test_a_held_plan_is_sound(project: Project, which: int, key: str, factor: float) -> None:
    before = make_plan(project).layout
    i = which % len(project.shelves)
    changed = with_shelf(project, i, **{key: getattr(project.shelves[i], key) * factor})
    layout = held(changed, before)
    plan = make_plan(changed, layout)
    prove(plan)
    fresh = make_plan(changed)
    missing = {f.about for f in plan.errors if f.code == "no-room" and "/" not in f.about}
    if not missing:
        return
    assert {f.about for f in fresh.errors if f.code == "no-room" and "/" not in f.about}  # nobody is lost by holding


THREE = Project(
    (Sheet("A", 2440.0, 1220.0, trim=5.0),),
    (Shelf("a", 600.0, 200.0, 70.0), Shelf("b", 500.0, 200.0, 70.0), Shelf("c", 700.0, 200.0, 70.0)),
)


def test_a_shorter_shelf_leaves_everything_where_it_was() -> None:
    before = make_plan(THREE).layout
    assert places(held(with_shelf(THREE, 0, length=650.0), before)) == places(before)


def test_a_longer_shelf_pushes_only_its_row() -> None:
    before = make_plan(THREE).layout
    was, now = places(before), places(held(with_shelf(THREE, 0, length=720.0), before))
    row = {i for i, p in was.items() if p[2] == was[0][2] and p[1] > was[0][1]}
    assert {i for i in was if now[i] != was[i]} == row
    assert all(now[i][1] - was[i][1] == 20.0 or abs(now[i][1] - was[i][1] - 20.0) < 1e-9 for i in row)


def test_a_deeper_shelf_lifts_the_rows_above_it() -> None:
    before = make_plan(THREE).layout
    was = places(before)
    low = min(was, key=lambda i: (was[i][2], was[i][1]))  # the lowest at the left; another stands above it
    now = places(held(with_shelf(THREE, low, depth=205.0), before))
    above = [i for i in was if was[i][2] > was[low][2]]
    assert above
    assert all(abs(now[i][2] - was[i][2] - 10.0) < 1e-9 for i in above)
    assert now[low] == was[low]


def test_back_again_is_just_as_before() -> None:
    """A drag is always held against the layout it began with, so going back undoes every move."""
    before = make_plan(THREE).layout
    held(with_shelf(THREE, 0, length=900.0), before)
    assert places(held(THREE, before)) == places(before)
