"""Sliding nets about on the sheet, and moving the sheet itself."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import QPointF, Qt

from app.window.window import Window
from core.document.model import Project
from core.lengths import INCH_MM
from core.plan.make import make_plan
from tests.hand.mouse import MIDDLE, PLAIN, SHIFT, Mouse
from tests.hand.test_sizes import places, steps

Open = Callable[[Project], Window]


def grab(mouse: Mouse, shelf: str) -> QPointF:
    """A pixel on a shelf's front, clear of its handles."""
    panel = next(p for p in mouse.window.store.plan.panels if p.id == f"{shelf}/front")
    assert panel.x is not None
    assert panel.y is not None
    return mouse.pixel((panel.x + 0.35 * panel.show[0], panel.y + 0.5 * panel.show[1]))


def test_a_net_is_slid_and_the_others_are_pinned_where_they_lie(window: Window, sheet: Mouse) -> None:
    before, was = window.store.project, places(window.store.plan)
    sheet.press(grab(sheet, "lower"))
    sheet.move(40.0, -60.0)
    now = places(window.store.plan)
    assert now["lower"] != was["lower"]
    assert {name: now[name] for name in was if name != "lower"} == {name: was[name] for name in was if name != "lower"}
    moved = now["lower"][0] - was["lower"][0]
    assert moved == pytest.approx(40.0 * window.sheet.canvas.pixel(), abs=8.0 * window.sheet.canvas.pixel())
    assert window.store.selected == "lower"
    sheet.release()
    assert {shelf.id: shelf.at for shelf in window.store.project.shelves} == now
    assert window.store.plan == make_plan(window.store.project)
    assert places(window.store.plan) == now
    assert not window.store.plan.errors
    assert steps(window) == 1
    window.store.undo()
    assert window.store.project == before


def test_a_net_stops_at_another_and_says_why(window: Window, sheet: Mouse) -> None:
    was = places(window.store.plan)
    sheet.press(grab(sheet, "lower"))
    upper = sheet.pixel(was["upper"]) - sheet.pixel(was["lower"])
    sheet.move(upper.x() + 25.0, upper.y() - 3.0)
    readout = sheet.hand.readout
    assert readout is not None
    assert "too near to A" in readout.trouble
    assert not window.store.plan.errors
    nets = {net.shelf: net for net in window.store.plan.nets}
    low, high = nets["lower"], nets["upper"]
    apart = max(
        low.x - high.x - high.length,
        high.x - low.x - low.length,
        low.y - high.y - high.width,
        high.y - low.y - low.width,
    )
    assert apart >= window.store.project.saw.kerf - 1e-6
    sheet.release()
    assert not window.store.plan.errors


def test_a_net_stops_at_the_trimmed_edge_with_the_amount(window: Window, sheet: Mouse) -> None:
    sheet.press(grab(sheet, "lower"))
    sheet.move(-120.0, 0.0)
    readout = sheet.hand.readout
    assert readout is not None
    assert "past the trimmed edge" in readout.trouble
    assert places(window.store.plan)["lower"][0] == pytest.approx(window.store.project.sheets[0].trim)
    assert readout.numbers[0] == ("from trued end", '0"')
    sheet.key(Qt.Key.Key_Escape)
    assert not window.store.undo_label


def test_a_typed_place_and_the_next_with_tab(window: Window, sheet: Mouse) -> None:
    trim = window.store.project.sheets[0].trim
    sheet.press(grab(sheet, "lower"))
    sheet.move(40.0, -30.0)
    sheet.type("30")
    sheet.enter(Qt.Key.Key_Tab)
    field = sheet.hand.typed.field
    assert field is not None
    assert field.isVisible()
    field.setText("24 1/2")
    sheet.enter()
    sheet.release()
    assert places(window.store.plan)["lower"] == pytest.approx((trim + 30 * INCH_MM, trim + 24.5 * INCH_MM))
    assert steps(window) == 1


def test_arrow_keys_move_the_selected_net(window: Window, sheet: Mouse) -> None:
    was = places(window.store.plan)["lower"]
    sheet.click(grab(sheet, "lower"))
    assert window.store.selected == "lower/front"
    sheet.key(Qt.Key.Key_Up)
    sheet.key(Qt.Key.Key_Up)
    now = places(window.store.plan)["lower"]
    assert now[0] == pytest.approx(was[0])
    assert 0.0 < now[1] - was[1] <= 2.0 * INCH_MM / 16.0 + 1e-9
    assert window.store.selected == "lower/front"
    assert steps(window) == 1


def test_arrow_keys_do_not_push_a_net_over_the_edge(window: Window, sheet: Mouse) -> None:
    sheet.click(grab(sheet, "lower"))
    before = window.store.project
    sheet.key(Qt.Key.Key_Left)
    assert window.store.project == before
    assert sheet.hand.readout is not None
    assert "past the trimmed edge" in sheet.hand.readout.trouble


def test_on_a_second_copy_of_a_sheet_nothing_is_slid(open_window: Open, project: Project) -> None:
    """A pin of the file is always on the first copy of its sheet."""
    many = tuple(
        msgspec.structs.replace(project.shelves[0], id=f"s{n}", depth=250.0, height=120.0, mount=None) for n in range(4)
    )
    sheets = (msgspec.structs.replace(project.sheets[0], quantity=4),)
    window = open_window(msgspec.structs.replace(project, shelves=many, sheets=sheets))
    plan = window.store.plan
    assert len(plan.sheets) > 1
    mouse = Mouse(window, window.sheet.canvas)
    window.sheet.turn(1)
    shelf = next(net.shelf for net in plan.nets if net.sheet == window.sheet.sheet)
    before = window.store.project
    mouse.press(grab(mouse, shelf))
    mouse.move(60.0, -20.0)
    assert mouse.hand.readout is not None
    assert plan.sheets[1].id in mouse.hand.readout.trouble
    mouse.release()
    assert window.store.project == before
    assert not window.store.undo_label


def test_a_click_without_a_drag_selects_and_changes_nothing(window: Window, sheet: Mouse) -> None:
    before = window.store.project
    sheet.press(grab(sheet, "upper"))
    sheet.move(2.0, 1.0)
    sheet.release()
    assert window.store.selected == "upper/front"
    assert window.store.project is before
    assert not window.store.undo_label


@pytest.mark.parametrize("way", ["ground", "middle", "space"])
def test_the_sheet_is_moved_by_ground_middle_button_or_space(window: Window, sheet: Mouse, way: str) -> None:
    view, before = window.sheet.canvas.view, window.store.project
    assert view is not None
    start = QPointF(25.0, 60.0) if way == "ground" else grab(sheet, "upper")
    button = MIDDLE if way == "middle" else Qt.MouseButton.LeftButton
    if way == "space":
        from PySide6.QtTest import QTest

        window.sheet.canvas.setFocus()
        QTest.keyPress(window.sheet.canvas, Qt.Key.Key_Space)
    sheet.press(start, button)
    sheet.move(50.0, 20.0, button=button, keys=PLAIN)
    sheet.release(button)
    now = window.sheet.canvas.view
    assert now is not None
    assert (now.x - view.x, now.y - view.y) == pytest.approx((50.0, 20.0))
    assert window.store.project is before
    assert not window.store.undo_label


def test_fine_dragging_is_not_caught(window: Window, sheet: Mouse) -> None:
    start = grab(sheet, "lower")
    sheet.press(start)
    sheet.move(60.0, -20.0)
    sheet.move(0.0, 33.0, keys=SHIFT)
    at = places(window.store.plan)["lower"]
    assert sheet.hand.readout is not None
    assert not sheet.hand.readout.caught
    trim = window.store.project.sheets[0].trim
    assert (at[1] - trim) * 64.0 / INCH_MM == pytest.approx(round((at[1] - trim) * 64.0 / INCH_MM), abs=1e-6)
    sheet.release()
