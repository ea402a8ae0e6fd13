"""The plan while a hand moves: what it says at once is what the whole plan says; what waits is where it was."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.load import load_project
from core.document.model import Project
from core.drawing.sheet import draw_sheet
from core.layout.hold import hold
from core.plan.make import make_plan, shapes_of
from core.plan.model import Plan
from core.plan.moving import WAITING, moving_plan
from tests.conftest import examples
from tests.plan.test_demos import DEMOS

INCH = 25.4
# Demo, number of the shelf, size, and by how much it is pulled.
PULLS = (
    st.sampled_from(DEMOS),
    st.integers(0, 2),
    st.sampled_from(["length", "depth", "height"]),
    st.floats(-150.0, 150.0),
)


def pulled(plan: Plan, index: int, size: str, by: float) -> Project:
    """The project with one shelf's size changed."""
    shelves = list(plan.project.shelves)
    shelf = shelves[index % len(shelves)]
    value = max(1.0, getattr(shelf, size) + by)
    shelves[index % len(shelves)] = msgspec.structs.replace(shelf, **{size: value})
    return msgspec.structs.replace(plan.project, shelves=tuple(shelves))


def both(before: Plan, project: Project) -> tuple[Plan | None, Plan]:
    """The moving plan and the whole one, with the nets held where they lay."""
    layout = hold(project, [shape.size for shape in shapes_of(project)], before.layout)
    return moving_plan(project, layout, before), make_plan(project, layout)


def told(plan: Plan) -> list[tuple[str, str, str]]:
    """What is said of everything but cuts and loads, and the room of frame parts."""
    shelves = {shelf.id for shelf in plan.project.shelves}
    found = [f for f in plan.findings if f.code not in WAITING and (f.code != "no-room" or f.about in shelves)]
    return sorted((f.code, f.about, f.message) for f in found)


@settings(max_examples=examples(40, 1000))
@given(*PULLS)
def test_what_is_known_at_once_is_what_the_whole_plan_says(path: Path, index: int, size: str, by: float) -> None:
    before = make_plan(load_project(path))
    moving, whole = both(before, pulled(before, index, size, by))
    if moving is None:
        return
    assert moving.whole is before
    assert moving.nets == whole.nets
    assert [msgspec.structs.replace(p, piece=None) for p in whole.panels] == list(moving.panels)
    assert moving.seams == whole.seams
    assert moving.overruns == whole.overruns
    assert moving.shapes == whole.shapes
    assert told(moving) == told(whole)
    for here, there in zip(moving.frames, whole.frames, strict=True):
        assert (here.length, here.depth, here.height, here.ribs, here.screws) == (
            there.length,
            there.depth,
            there.height,
            there.ribs,
            there.screws,
        )


@settings(max_examples=examples(40, 1000))
@given(*PULLS)
def test_nothing_lies_under_a_panel_that_has_moved(path: Path, index: int, size: str, by: float) -> None:
    before = make_plan(load_project(path))
    moving, _ = both(before, pulled(before, index, size, by))
    if moving is None:
        return
    for panel in moving.panels:
        if panel.x is None or panel.y is None or panel.sheet is None:
            continue
        box = (panel.x, panel.y, panel.x + panel.show[0], panel.y + panel.show[1])
        things = [(p.x, p.y, p.x + p.length, p.y + p.width) for p in moving.parts_on(panel.sheet) if p.x is not None]
        things += [(o.x, o.y, o.x + o.length, o.y + o.width) for o in moving.offcuts if o.sheet == panel.sheet]
        for x0, y0, x1, y1 in things:
            wide, high = min(x1, box[2]) - max(x0, box[0]), min(y1, box[3]) - max(y0, box[1])
            assert min(wide, high) < 1e-6
    for sheet in moving.sheets:
        assert draw_sheet(moving, sheet.id).items


def test_a_part_that_stays_is_the_same_part() -> None:
    before = make_plan(load_project(next(path for path in DEMOS if path.stem == "reading-corner")))
    moving, _ = both(before, pulled(before, 0, "length", -INCH / 16.0))
    assert moving is not None
    other = next(frame for frame in before.frames if frame.shelf != before.project.shelves[0].id)
    assert next(frame for frame in moving.frames if frame.shelf == other.shelf).parts is other.parts
    assert moving.cuts == before.cuts
    assert moving.loads == before.loads


@pytest.mark.parametrize("what", ["saw", "quantity", "shelf"])
def test_where_too_much_is_different_only_a_whole_plan_will_do(what: str) -> None:
    before = make_plan(load_project(next(path for path in DEMOS if path.stem == "reading-corner")))
    project = before.project
    if what == "saw":
        changed = msgspec.structs.replace(
            project, saw=msgspec.structs.replace(project.saw, kerf=project.saw.kerf + 1.0)
        )
    elif what == "quantity":
        more = msgspec.structs.replace(project.sheets[0], quantity=project.sheets[0].quantity + 1)
        changed = msgspec.structs.replace(project, sheets=(more, *project.sheets[1:]))
    else:
        changed = msgspec.structs.replace(project, shelves=project.shelves[:-1])
    assert moving_plan(changed, before.layout, before) is None
