"""Pulling a shelf's sizes on the sheet, with a real mouse."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import Qt

from app.hand.net import net_handles
from app.window.window import Window
from core.document.model import Project, Shelf
from core.lengths import INCH_MM
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.hand.mouse import SHIFT, Mouse

Open = Callable[[Project], Window]
SIXTEENTH = INCH_MM / 16.0


def shelf(window: Window, name: str) -> Shelf:
    return next(one for one in window.store.project.shelves if one.id == name)


def places(plan: Plan) -> dict[str, tuple[float, float]]:
    return {net.shelf: (net.x, net.y) for net in plan.nets}


def steps(window: Window) -> int:
    """How many steps undo takes back; they are done again."""
    count = 0
    while window.store.undo_label:
        window.store.undo()
        count += 1
    for _ in range(count):
        window.store.redo()
    return count


@pytest.mark.parametrize(("ends_from", "turned"), [("front", False), ("top", False), ("bottom", False), ("top", True)])
def test_every_handle_keeps_its_edge_under_the_pointer(
    open_window: Open, project: Project, ends_from: str, turned: bool
) -> None:
    shelves = tuple(msgspec.structs.replace(one, ends_from=ends_from, turned=turned) for one in project.shelves)
    window = open_window(msgspec.structs.replace(project, shelves=shelves))
    window.store.select("lower")
    mouse = Mouse(window, window.sheet.canvas)
    before = window.store.project
    keys = [handle.key for handle in mouse.hand.reach.handles()]
    assert {"length", "depth", "height"} <= set(keys)
    for key in keys:
        handle = mouse.handle(key, "lower")
        x, y = handle.number.axis
        outward = 1.0 if handle.number.per > 0.0 else -1.0
        mouse.press(mouse.square(key, "lower"))
        mouse.move(9.0 * x * outward, -9.0 * y * outward)
        size = handle.number.name
        value = getattr(shelf(window, "lower"), size)
        assert value > getattr(shelf_of(before, "lower"), size), key
        assert value / SIXTEENTH == pytest.approx(round(value / SIXTEENTH), abs=1e-6)
        if not window.store.plan.overruns and handle.number.per > 0.0:
            off = mouse.square(key, "lower") - mouse.at
            step = 16 * SIXTEENTH / window.sheet.canvas.pixel()
            assert abs(off.x() * x + off.y() * y) <= step
        assert window.store.undo_label == f"{size.capitalize()} of lower"
        mouse.release()
        assert window.store.plan == make_plan(window.store.project)
        assert steps(window) == 1
        window.store.undo()
        mouse.settle()
        assert window.store.project == before


def shelf_of(project: Project, name: str) -> Shelf:
    return next(one for one in project.shelves if one.id == name)


def test_while_it_is_pulled_nothing_moves_but_what_must(window: Window, sheet: Mouse) -> None:
    window.store.select("upper")
    was = places(window.store.plan)
    sheet.press(sheet.square("length"))
    sheet.move(-12.0, 0.0)
    assert places(window.store.plan) == was
    sheet.move(20.0, 0.0)
    now = places(window.store.plan)
    row = {name for name, place in was.items() if place[1] == was["upper"][1] and place[0] > was["upper"][0]}
    assert {name for name in was if now.get(name) != was[name]} <= row
    assert now["upper"] == was["upper"]
    sheet.release()
    assert window.store.plan == make_plan(window.store.project)


def test_what_is_too_long_is_said_with_its_amount(window: Window, sheet: Mouse) -> None:
    window.store.select("upper")
    view = window.sheet.canvas.view
    sheet.press(sheet.square("length"))
    sheet.move(260.0, 0.0)
    readout = sheet.hand.readout
    assert readout is not None
    over = next(over for over in window.store.plan.overruns if over.shelf == "upper")
    assert over.over_x > 0.0
    assert "too long" in readout.trouble
    assert '"' in readout.trouble
    assert window.sheet.canvas.view == view  # nothing jumps while it is held
    sheet.release()
    assert window.sheet.canvas.view != view


def test_the_section_makes_way_for_what_is_too_large_and_comes_back(window: Window, sheet: Mouse) -> None:
    window.store.select("upper")
    inset = window.sheet.inset
    sheet.press(sheet.square("depth"))
    sheet.move(0.0, -8.0)
    assert inset.isVisible()
    sheet.move(0.0, -102.0)
    assert any(over.over_x > 0.0 for over in window.store.plan.overruns)
    assert not inset.isVisible()
    sheet.release()
    assert inset.isVisible()


def test_escape_puts_everything_back(window: Window, sheet: Mouse) -> None:
    store = window.store
    store.apply("Name", lambda p: msgspec.structs.replace(p, name="Other"))
    store.undo()
    store.select("side/top")
    before, redo = store.project, store.redo_label
    x, y = places(store.plan)["lower"]
    sheet.hover(sheet.pixel((x + 300.0, y + 30.0)))
    sheet.press(sheet.square("depth", "lower"))
    sheet.move(0.0, -20.0)
    assert store.held is not None
    plan = store.held.plan  # not sooner: one that is slow, or the proof of one, may have come meanwhile
    assert store.selected == "lower"
    assert store.project != before
    assert not store.redo_label
    sheet.key(Qt.Key.Key_Escape)
    assert store.project is before
    assert store.plan is plan
    assert (store.selected, store.redo_label, store.undo_label) == ("side/top", redo, "")
    sheet.move(0.0, -20.0)  # the button is still down
    sheet.release()
    assert store.project is before
    store.redo()
    assert store.project.name == "Other"


def test_a_drag_that_comes_back_was_none(window: Window, sheet: Mouse) -> None:
    store = window.store
    store.apply("Name", lambda p: msgspec.structs.replace(p, name="Other"))
    store.undo()
    store.select("lower")
    sheet.press(sheet.square("length"))
    sheet.move(30.0, 0.0)
    assert store.held is not None
    plan = store.held.plan
    sheet.key(Qt.Key.Key_0)
    field = sheet.hand.typed.field
    assert field is not None
    field.setText("24")
    sheet.enter()
    sheet.release()
    assert store.plan is plan
    assert not store.undo_label
    assert store.redo_label == "Name"


def test_undo_while_dragging_takes_back_the_drag(window: Window, sheet: Mouse) -> None:
    store = window.store
    store.select("lower")
    before = store.project
    sheet.press(sheet.square("length"))
    sheet.move(30.0, 0.0)
    store.undo()
    assert store.project is before
    assert not sheet.hand.busy
    sheet.move(30.0, 0.0)
    sheet.release()
    assert store.project is before
    assert store.plan == make_plan(before)


def test_a_digit_replaces_the_value(window: Window, sheet: Mouse) -> None:
    window.store.select("lower")
    before = window.store.project
    sheet.press(sheet.square("length"))
    sheet.move(14.0, 0.0)
    field = sheet.type("31 3/16")
    assert field.text() == "31 3/16"
    sheet.move(40.0, 0.0)  # while it is typed the pointer changes nothing
    sheet.enter()
    assert shelf(window, "lower").length == pytest.approx(31.1875 * INCH_MM)
    sheet.move(40.0, 0.0)
    sheet.release()
    assert shelf(window, "lower").length == pytest.approx(31.1875 * INCH_MM)
    assert steps(window) == 1
    assert window.store.plan == make_plan(window.store.project)
    window.store.undo()
    assert window.store.project == before


def test_what_cannot_be_used_stays_and_says_why(window: Window, sheet: Mouse) -> None:
    window.store.select("lower")
    before = window.store.project
    sheet.press(sheet.square("length"))
    sheet.move(14.0, 0.0)
    field = sheet.type("3 feet or so")
    sheet.enter()
    readout = sheet.hand.readout
    assert field.isVisible()
    assert readout is not None
    assert "3 feet or so" in readout.trouble
    field.setText("0")
    sheet.enter()
    assert field.isVisible()
    sheet.enter(Qt.Key.Key_Escape)
    assert not field.isVisible()
    assert window.store.project is before
    sheet.release()
    assert not window.store.undo_label


def test_a_letter_chooses_and_a_digit_types_without_the_mouse(window: Window, sheet: Mouse) -> None:
    window.store.select("lower")
    window.sheet.canvas.setFocus()
    sheet.key(Qt.Key.Key_D)
    sheet.type("7.5")
    sheet.enter()
    assert shelf(window, "lower").depth == pytest.approx(7.5 * INCH_MM)
    assert window.sheet.canvas.hasFocus()
    assert steps(window) == 1


def test_arrow_keys_step_and_a_run_is_one_step(window: Window, sheet: Mouse) -> None:
    window.store.select("lower")
    before = shelf(window, "lower").length
    sheet.click(sheet.square("length"))
    assert not window.store.undo_label
    for _ in range(3):
        sheet.key(Qt.Key.Key_Right)
    assert shelf(window, "lower").length == pytest.approx(before + 3 * SIXTEENTH)
    sheet.key(Qt.Key.Key_Up, SHIFT)
    assert shelf(window, "lower").length == pytest.approx(before + 3.25 * SIXTEENTH)
    assert steps(window) == 1
    assert window.store.plan == make_plan(window.store.project)


def test_arrow_keys_step_while_dragging(window: Window, sheet: Mouse) -> None:
    window.store.select("lower")
    sheet.press(sheet.square("length"))
    sheet.move(10.0, 0.0)
    value = shelf(window, "lower").length
    sheet.key(Qt.Key.Key_Right)
    assert shelf(window, "lower").length == pytest.approx(value + SIXTEENTH)
    sheet.release()
    assert shelf(window, "lower").length == pytest.approx(value + SIXTEENTH)
    assert steps(window) == 1


def test_millimetres_step_by_millimetres(open_window: Open, project: Project) -> None:
    window = open_window(msgspec.structs.replace(project, units="mm"))
    mouse = Mouse(window, window.sheet.canvas)
    window.store.select("lower")
    mouse.click(mouse.square("length"))
    mouse.key(Qt.Key.Key_Right)
    assert shelf(window, "lower").length == 610.0
    mouse.key(Qt.Key.Key_Left, SHIFT)
    assert shelf(window, "lower").length == pytest.approx(609.9)


def test_shift_drags_a_tenth_of_the_way(window: Window, sheet: Mouse) -> None:
    window.store.select("lower")
    before = shelf(window, "lower").length
    sheet.press(sheet.square("length"))
    sheet.move(40.0, 0.0, keys=SHIFT)
    fine = shelf(window, "lower").length - before
    sheet.release()
    window.store.undo()
    sheet.press(sheet.square("length"))
    sheet.move(40.0, 0.0)
    coarse = shelf(window, "lower").length - before
    sheet.release()
    assert fine == pytest.approx(coarse / 10.0, abs=2.0 * window.sheet.canvas.pixel())
    assert (before + fine) * 64.0 / INCH_MM == pytest.approx(round((before + fine) * 64.0 / INCH_MM), abs=1e-6)


def test_a_pinned_net_pulled_at_its_left_keeps_its_right_end(open_window: Open, project: Project) -> None:
    net = next(net for net in make_plan(project).nets if net.shelf == "upper")
    pinned = msgspec.structs.replace(project.shelves[0], at=(net.x + 300.0, net.y), length=900.0)
    window = open_window(msgspec.structs.replace(project, shelves=(pinned, *project.shelves[1:])))
    mouse = Mouse(window, window.sheet.canvas)
    window.store.select("upper")
    right = mouse.handle("length").at
    mouse.pull("length left", -20.0, 0.0)
    changed = shelf(window, "upper")
    assert changed.at is not None
    assert changed.length > 900.0
    assert changed.at[0] + changed.length == pytest.approx(net.x + 300.0 + 900.0)
    assert mouse.handle("length").at == pytest.approx(right)


def test_equal_depths_catch(window: Window, sheet: Mouse) -> None:
    """Shelves of one depth share a strip, so the drag holds there."""
    window.store.select("side")
    target = shelf(window, "upper").depth
    handle = sheet.handle("depth")
    pixels = (target - handle.number.value) / handle.number.per / window.sheet.canvas.pixel()
    sheet.press(sheet.square("depth"))
    sheet.move(0.0, -(pixels + 1.5))
    assert shelf(window, "side").depth == target
    assert sheet.hand.readout is not None
    assert sheet.hand.readout.caught
    sheet.release()


def test_handles_are_where_the_plan_has_the_edges(project: Project) -> None:
    plan = make_plan(project)
    for one in project.shelves:
        panels = {panel.role: panel for panel in plan.panels if panel.shelf == one.id}
        handles = {handle.key: handle for handle in net_handles(plan, plan.sheets[0].id, one.id)}
        top, front = panels["top"], panels["front"]
        assert top.x is not None
        assert top.y is not None
        assert front.y is not None
        assert handles["length"].at[0] == pytest.approx(top.x + top.show[0])
        assert handles["length left"].at[0] == pytest.approx(top.x)
        assert handles["depth"].at[1] == pytest.approx(top.y + top.show[1])
        assert handles["height"].at[1] == pytest.approx(front.y + front.show[1])
        assert ("depth left" in handles) == (one.left == "mitred")
