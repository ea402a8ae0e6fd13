"""Nets that lie turned end for end: half a turn of the whole net, and nothing new for the saw."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given, settings

from core.document.model import Apart, EndsFrom, Project, Saw, Sheet, Shelf
from core.drawing.cutlist import cut_list_table
from core.drawing.glueup import draw_fold
from core.drawing.label import labels_of
from core.drawing.model import Line
from core.drawing.sheet import draw_sheet
from core.export.cut_list_csv import cut_list
from core.geometry.net import EDGES, OPPOSITE, turned, upright
from core.plan.contract import plan_document
from core.plan.make import make_plan
from core.plan.model import Panel, Plan
from core.plan.proof import prove
from tests.conftest import examples
from tests.solid.shelves import Case, cases

OVER: dict[str, str] = {"top": "bottom", "bottom": "top", "left": "right", "right": "left", "front": "front"}
SHELVES = (
    Shelf("one", 900.0, 210.0, 70.0, ends_from="top", right="open", scribe=4.0),
    Shelf("two", 700.0, 210.0, 70.0, left="open", scribe=4.0, apart=("bottom",)),
    Shelf("three", 500.0, 160.0, 64.0, apart=("left",)),
)


def plan_of(*shelves: Shelf) -> Plan:
    return make_plan(Project((Sheet("A", 2440.0, 1220.0),), shelves, saw=Saw(allowance=0.4)))


def over(shelf: Shelf) -> Shelf:
    """The shelf whose upright net has its panels where that shelf's turned net has their counterparts."""
    apart: list[Apart] = [role for role in ("top", "bottom", "left", "right") if OVER[role] in shelf.apart]
    strips: dict[str, EndsFrom] = {"top": "bottom", "bottom": "top", "front": "front"}
    strip = strips[shelf.ends_from]
    sides = {"left": shelf.right, "right": shelf.left}
    return msgspec.structs.replace(shelf, **sides, ends_from=strip, apart=tuple(apart), turned=False)


@settings(max_examples=examples(30, 500))
@given(cases())
def test_half_a_turn_brings_every_panel_to_the_other_side(c: Case) -> None:
    there = turned(c.net)
    assert there.turned is not c.net.turned
    for panel in c.net.panels:
        moved = there.panel(panel.role)
        box = (c.net.length - panel.box[2], c.net.width - panel.box[3], c.net.length - panel.x, c.net.width - panel.y)
        assert moved.box == pytest.approx(box, abs=1e-9)
        assert [moved.bevel(edge) for edge in EDGES] == [panel.bevel(OPPOSITE[edge]) for edge in EDGES]
    back = turned(there)
    assert back.joints == c.net.joints
    for panel in c.net.panels:
        assert back.panel(panel.role).box == pytest.approx(panel.box, abs=1e-9)
        assert back.panel(panel.role).hinge == panel.hinge
    assert upright(c.net).panel("top").y > upright(c.net).panel("bottom").y or {"top", "bottom"} & set(c.net.apart)


def test_a_turned_net_is_sawn_as_the_shelf_with_its_panels_exchanged() -> None:
    """So there is nothing in it that the cut planner does not know: only the parts are called by other names."""
    lying = [msgspec.structs.replace(shelf, turned=True) for shelf in SHELVES]
    for shelves in ((lying[0],), (SHELVES[0], lying[1]), (lying[0], lying[1], SHELVES[2]), tuple(lying)):
        plan = plan_of(*shelves)
        prove(plan)
        other = plan_of(*(over(shelf) if shelf.turned else shelf for shelf in shelves))
        lain, wanted = (
            [(n.sheet, round(n.x, 6), round(n.y, 6)) for n in one.nets if n.panel is None] for one in (plan, other)
        )
        assert lain == wanted
        nets = {net.shelf: net.turned for net in plan.nets if net.panel is None}
        assert nets == {shelf.id: shelf.turned for shelf in shelves}
        if not any(shelf.apart for shelf in shelves):
            assert [(c.kind, c.keep, round(c.at, 6), c.bevel, c.pass_) for c in plan.cuts] == [
                (c.kind, c.keep, round(c.at, 6), c.bevel, c.pass_) for c in other.cuts
            ]


def panels_by_id(plan: Plan) -> dict[str, Panel]:
    return {panel.id: panel for panel in plan.panels}


def test_paper_names_edges_with_the_top_up() -> None:
    """Cut list, labels and glue-up of a shelf are the same whichever way its net lies; the sheet's drawing is not."""
    shelf = SHELVES[0]
    plan, there = plan_of(shelf), plan_of(msgspec.structs.replace(shelf, turned=True))
    rows = [[cell for n, cell in enumerate(row) if n != 8] for row in cut_list_table(plan).rows[:4]]  # not the piece
    assert [[cell for n, cell in enumerate(row) if n != 8] for row in cut_list_table(there).rows[:4]] == rows
    assert [line.split(",")[10:14] for line in cut_list(plan).splitlines()] == [
        line.split(",")[10:14] for line in cut_list(there).splitlines()
    ]
    assert labels_of(plan)[:4] == labels_of(there)[:4]
    assert draw_fold(plan, "one").box == pytest.approx(draw_fold(there, "one").box)
    first, second = (panels_by_id(one) for one in (plan, there))
    assert second["one/top"].y == pytest.approx(first["one/bottom"].y)
    assert second["one/top"].bevels.keys() == {OPPOSITE[edge] for edge in first["one/top"].bevels}  # type: ignore[index]


def test_the_makers_triangle_points_to_the_top_of_a_turned_net() -> None:
    plan = plan_of(msgspec.structs.replace(SHELVES[0], turned=True))
    drawing = draw_sheet(plan, "A1")
    panels = panels_by_id(plan)
    marks = [item for item in drawing.items if isinstance(item, Line) and item.layer == "mark"]
    leaning = [m for m in marks if m.about == "one/front" and m.points[0][0] != m.points[1][0] and len(m.points) == 2]
    front = panels["one/front"]
    assert front.y is not None
    assert len(leaning) == 2
    low, high = (
        abs(a[0] - b[0])
        for a, b in (
            [min(m.points, key=lambda p: p[1]) for m in leaning],
            [max(m.points, key=lambda p: p[1]) for m in leaning],
        )
    )
    assert low < high, "they lean together towards the top, which lies at low y"
    for mark in marks:
        panel = panels.get(mark.about)
        if panel is not None and panel.x is not None and panel.y is not None:
            for x, y in mark.points:
                assert panel.x - 1e-6 <= x <= panel.x + panel.show[0] + 1e-6
                assert panel.y - 1e-6 <= y <= panel.y + panel.show[1] + 1e-6


def test_the_plan_file_says_which_nets_lie_turned() -> None:
    plan = plan_of(SHELVES[0], msgspec.structs.replace(SHELVES[2], turned=True))
    nets = {net["shelf"]: net for net in plan_document(plan)["nets"] if "panel" not in net}
    assert "turned" not in nets["one"]
    assert nets["three"]["turned"] is True
