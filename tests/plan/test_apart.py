"""Panels cut apart: where they lie, what the plan says of their seams, and when they are a way out."""

from __future__ import annotations

from math import cos, radians

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.document.model import Apart, Mount, Project, Sheet, Shelf
from core.document.patch import apply_pointers
from core.layout.hold import hold
from core.plan.contract import plan_document
from core.plan.make import make_plan, shapes_of
from core.plan.model import Fix, Plan
from core.plan.proof import prove
from core.wall.eye import EYE
from tests.conftest import examples
from tests.strategies import projects

SHEET = Sheet("A", 2440.0, 1220.0)
LEDGE = Shelf("ledge", 1320.0, 210.0, 84.0)
SPLIT = msgspec.structs.replace(LEDGE, apart=("bottom", "left"))
LOSS = 2.2 / cos(radians(45.5))


def job(*shelves: Shelf, sheets: tuple[Sheet, ...] = (SHEET,), **more: object) -> Project:
    return msgspec.structs.replace(Project(sheets, shelves, units="mm"), **more)


def parts(plan: Plan) -> dict[str | None, str]:
    """The sheet of each part of the one shelf."""
    return {net.panel: net.sheet for net in plan.nets}


def offered(project: Project, about: str = "ledge") -> list[Fix]:
    return [fix for f in make_plan(project).errors if f.about == about for fix in f.fixes]


def apart_ways(project: Project) -> list[Fix]:
    return [fix for fix in offered(project) if "/shelves/0/apart" in fix.set]


def test_a_panel_cut_apart_lies_outside_every_net() -> None:
    plan = make_plan(job(SPLIT, msgspec.structs.replace(LEDGE, id="other")))
    prove(plan)
    boxes = [(n.x, n.y, n.x + n.length, n.y + n.width) for n in plan.nets]
    assert [n.panel for n in plan.nets] == [None, None, "bottom", "left"]
    for i, a in enumerate(boxes):
        for b in boxes[:i]:
            assert max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3]) >= 2.2 - 1e-6


def test_its_seams_are_mitred_as_before_but_the_figure_is_broken() -> None:
    whole, split = (make_plan(job(shelf)) for shelf in (LEDGE, SPLIT))
    broken = {"ledge/front-bottom", "ledge/front-left"}
    for before, after in zip(whole.seams, split.seams, strict=True):
        assert (after.id, after.length, after.bevel, after.inside_gap) == (
            before.id,
            before.length,
            before.bevel,
            before.inside_gap,
        )
        assert after.broken == (after.id in broken)
        if after.broken:
            assert after.figure == "turns"
            assert (after.show_loss, after.void_width, after.void_area) == (None, None, None)
        else:
            assert (after.figure, after.show_loss) == (before.figure, before.show_loss)
    assert {p.id: (p.show, p.inside, p.bevels) for p in whole.panels} == {
        p.id: (p.show, p.inside, p.bevels) for p in split.panels
    }


def test_the_file_names_the_panel_only_where_it_is_cut_apart() -> None:
    document = plan_document(make_plan(job(SPLIT)))
    assert [net.get("panel", "") for net in document["nets"]] == ["", "bottom", "left"]
    assert all("panel" not in net for net in plan_document(make_plan(job(LEDGE)))["nets"])


def test_it_comes_from_wood_as_thick_as_the_net() -> None:
    """The second board is nearly as thick: a mitre would not meet."""
    narrow, thin = Sheet("A", 2440.0, 320.0, 18.2), Sheet("B", 2440.0, 320.0, 17.9)
    only = make_plan(job(SPLIT, sheets=(narrow, thin)))
    assert "ledge/bottom" in {f.about for f in only.errors if f.code == "no-room"}
    bottom = next(p for p in only.panels if p.role == "bottom")
    assert (bottom.sheet, bottom.piece, bottom.x) == (None, None, None)
    assert parts(only)[None] == "A1"
    alike = make_plan(job(SPLIT, sheets=(narrow, msgspec.structs.replace(thin, thickness=18.2))))
    assert "ledge/bottom" not in {f.about for f in alike.errors}
    assert parts(alike)["bottom"] == "B1"


def test_where_the_net_has_no_room_nothing_of_it_is_cut() -> None:
    plan = make_plan(job(msgspec.structs.replace(SPLIT, length=2400.0)))
    assert [f.about for f in plan.errors if f.code == "no-room"] == ["ledge"]
    assert plan.nets == ()
    assert all(panel.piece is None for panel in plan.panels)


def test_a_pin_is_the_nets_alone() -> None:
    pinned = msgspec.structs.replace(SPLIT, at=(400.0, 300.0))
    net, *others = make_plan(job(pinned)).nets
    assert (net.x, net.y) == (400.0, 300.0)
    assert len(others) == 2


@settings(max_examples=examples(40, 800))
@given(projects(max_shelves=3), st.data())
def test_cut_apart_under_a_dragging_hand_the_plan_stays_sound(project: Project, data: st.DataObject) -> None:
    """A net pinned anywhere on its sheet, the rest held: what is cut apart gives way, and the cuts replay."""
    before = make_plan(project)
    for net in before.nets:
        if net.panel is None:
            index = next(i for i, s in enumerate(project.shelves) if s.id == net.shelf)
            to = (net.x + data.draw(st.floats(-50.0, 50.0)), net.y + data.draw(st.floats(-50.0, 50.0)))
            shelves = list(project.shelves)
            shelves[index] = msgspec.structs.replace(shelves[index], at=(max(0.0, to[0]), max(0.0, to[1])))
            moved = msgspec.structs.replace(project, shelves=tuple(shelves))
            layout = hold(moved, [shape.size for shape in shapes_of(moved)], before.layout)
            prove(make_plan(moved, layout))


# Ways out


@pytest.mark.parametrize(("mount", "strip"), [(None, "bottom"), (EYE - 100.0, "bottom"), (EYE + 100.0, "top")])
def test_too_wide_the_strip_that_is_not_seen_comes_from_a_second_board(mount: float | None, strip: Apart) -> None:
    """Narrower by one depth and one V: 210 + 2.2 / cos 45.5° = 213.1 mm."""
    hung = msgspec.structs.replace(LEDGE, mount=None if mount is None else Mount(300.0, mount))
    project = job(hung, sheets=(msgspec.structs.replace(SHEET, width=480.0),))
    (fix,) = apart_ways(project)
    assert fix.set["/shelves/0/apart"] == [strip]
    assert "213.1 mm narrower" in fix.text
    after = make_plan(apply_pointers(project, fix.set))
    assert not after.errors
    prove(after)
    kept = "top-front" if strip == "bottom" else "front-bottom"
    assert next(s.figure for s in after.seams if s.id == f"ledge/{kept}") == "wraps"


def test_where_a_board_is_there_no_other_is_bought() -> None:
    two = msgspec.structs.replace(SHEET, width=480.0, quantity=2)
    (fix,) = apart_ways(job(LEDGE, sheets=(two,)))
    assert list(fix.set) == ["/shelves/0/apart"]


@pytest.mark.parametrize(("x", "end"), [(100.0, "left"), (800.0, "right")])
def test_too_long_the_end_nearer_to_a_wall_comes_from_an_offcut(x: float, end: Apart) -> None:
    long = msgspec.structs.replace(LEDGE, length=2100.0, mount=Mount(x, 1400.0))
    project = job(long)
    (fix,) = apart_ways(project)
    assert fix.set == {"/shelves/0/apart": [end]}
    assert "213.1 mm shorter" in fix.text
    assert "broken" in fix.text
    assert not make_plan(apply_pointers(project, fix.set)).errors


def test_both_ends_where_one_is_not_enough() -> None:
    long = msgspec.structs.replace(LEDGE, length=2300.0)
    (fix,) = apart_ways(job(long))
    assert fix.set == {"/shelves/0/apart": ["left", "right"]}
    assert "426.2 mm shorter" in fix.text


def test_they_stand_after_a_larger_sheet_and_before_two_shelves() -> None:
    long = msgspec.structs.replace(LEDGE, length=2100.0, mount=Mount(300.0, 1400.0))
    keys = [list(fix.set) for fix in offered(job(long))]
    places = [next(i for i, key in enumerate(keys) if at in key) for at in ("/sheets/0/length", "/shelves/0/apart")]
    assert places[0] < places[1] < next(i for i, key in enumerate(keys) if "/shelves/-" in key)


def test_a_panel_without_room_has_its_own_ways_out() -> None:
    """The net fits the narrow board, the bottom finds nothing beside it."""
    project = job(msgspec.structs.replace(SPLIT, length=1900.0), sheets=(msgspec.structs.replace(SHEET, width=330.0),))
    finding = next(f for f in make_plan(project).errors if f.about == "ledge/bottom")
    assert finding.code == "no-room"
    assert {"/sheets/0/quantity": 2} in [fix.set for fix in finding.fixes]
    for fix in finding.fixes:
        assert not any(f.about == "ledge/bottom" for f in make_plan(apply_pointers(project, fix.set)).errors)


def test_an_end_that_is_opened_is_no_longer_cut_apart() -> None:
    """Two shelves on a stud meet with open ends: their ends cut apart are gone, the others stay."""
    long = msgspec.structs.replace(LEDGE, length=2450.0, mount=Mount(300.0, 1400.0), apart=("left", "right"))
    project = job(long, sheets=(msgspec.structs.replace(SHEET, quantity=2),))
    joints = [fix for fix in offered(project) if "/shelves/-" in fix.set]
    assert joints
    for fix in joints:
        left, right = apply_pointers(project, fix.set).shelves
        assert (left.apart, right.apart) == (("left",), ("right",))
