"""Panels cut apart under the hand: a net slides where they lie and they give way; they are not slid themselves."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest

from app.hand.net import net_handles
from app.window.window import Window
from core.document.model import Project
from core.plan.make import make_plan
from core.plan.proof import prove
from tests.hand.mouse import Mouse
from tests.hand.test_slide import grab

Open = Callable[[Project], Window]


@pytest.fixture
def project(project: Project) -> Project:
    """The first shelf with its bottom and an end cut apart, alone on the sheet."""
    shelf = msgspec.structs.replace(project.shelves[0], apart=("bottom", "left"))
    return msgspec.structs.replace(project, shelves=(shelf,))


def test_a_net_slides_over_what_is_cut_apart_and_that_gives_way(window: Window, sheet: Mouse) -> None:
    bottom = next(net for net in window.store.plan.nets if net.panel == "bottom")
    net = next(net for net in window.store.plan.nets if net.panel is None)
    sheet.press(grab(sheet, "upper"))
    way = sheet.pixel((bottom.x, bottom.y)) - sheet.pixel((net.x, net.y))
    sheet.move(way.x(), way.y())
    sheet.settle()  # the hand pauses
    prove(window.store.plan)
    sheet.release()
    plan = window.store.plan
    moved = next(net for net in plan.nets if net.panel is None)
    assert (moved.x, moved.y) != (net.x, net.y)
    assert window.store.project.shelves[0].at == (moved.x, moved.y)
    assert {net.panel for net in plan.nets} == {None, "bottom", "left"}
    assert not plan.errors
    assert plan == make_plan(window.store.project)


def test_what_is_cut_apart_is_chosen_but_not_slid(window: Window, sheet: Mouse) -> None:
    before = window.store.project
    bottom = next(panel for panel in window.store.plan.panels if panel.role == "bottom")
    assert bottom.x is not None
    assert bottom.y is not None
    sheet.drag(sheet.pixel((bottom.x + 0.6 * bottom.show[0], bottom.y + 0.5 * bottom.show[1])), 30.0, 20.0)
    assert window.store.project == before


@pytest.mark.parametrize(
    "apart", [("bottom",), ("top",), ("top", "bottom"), ("left",), ("left", "right"), ("top", "left")]
)
@pytest.mark.parametrize("ends_from", ["front", "top"])
def test_every_handle_changes_its_size(project: Project, apart: tuple[str, ...], ends_from: str) -> None:
    """Its edge stays under the pointer: the edge moves by as much as the handle says for a millimetre of the size."""
    if ends_from in apart and set(apart) < {"left", "right", ends_from}:
        return
    shelf = msgspec.structs.replace(project.shelves[0], apart=apart, ends_from=ends_from, at=(200.0, 200.0))
    project = msgspec.structs.replace(project, shelves=(shelf,))
    plan = make_plan(project)
    handles = net_handles(plan, plan.sheets[0].id, shelf.id)
    assert {"length", "height"} <= {handle.key for handle in handles}
    for handle in handles:
        if handle.key not in ("length", "depth", "height"):
            continue
        grown = msgspec.structs.replace(shelf, **{handle.key: getattr(shelf, handle.key) + 1.0})
        after = make_plan(msgspec.structs.replace(project, shelves=(grown,)))
        there = next(h for h in net_handles(after, after.sheets[0].id, shelf.id) if h.key == handle.key)
        axis = 0 if handle.key == "length" else 1
        moved = there.at[axis] - handle.at[axis]
        assert moved * handle.number.per == pytest.approx(1.0, abs=1e-6)
