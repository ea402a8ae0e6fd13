"""Areas to keep clear by hand: drawn, moved, pulled, named in the rule, deleted; and nets that stop at them."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLineEdit, QPushButton, QWidget

from app.window.window import Window
from core.document.model import KeepClear, Project
from core.drawing.clear import area_name
from core.lengths import INCH_MM
from core.plan.make import make_plan
from tests.hand.mouse import Mouse
from tests.hand.test_sizes import places, steps
from tests.hand.test_slide import grab

Open = Callable[[Project], Window]
SIXTEENTH = INCH_MM / 16


def areas(window: Window) -> tuple[KeepClear, ...]:
    return window.store.project.sheets[0].keep_clear


def tool(window: Window) -> QPushButton:
    return window.sheet.areas.tool


def draw(mouse: Mouse, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Take the tool and draw from one place of the sheet to another."""
    tool(mouse.window).click()
    way = mouse.pixel(end) - mouse.pixel(start)
    mouse.drag(mouse.pixel(start), way.x(), way.y())


def sides(area: KeepClear) -> tuple[float, float, float, float]:
    xs, ys = zip(*area.corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def marked(project: Project, *some: KeepClear) -> Project:
    stock = msgspec.structs.replace(project.sheets[0], keep_clear=some)
    return msgspec.structs.replace(project, sheets=(stock, *project.sheets[1:]))


def box(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[float, float], ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


FREE = (1700.0, 1000.0, 1800.0, 1080.0)  # no net lies there


def test_a_stroke_with_the_tool_draws_an_area_as_one_step(window: Window, sheet: Mouse) -> None:
    before = window.store.project
    draw(sheet, (1700.0, 1000.0), (1850.0, 1100.0))
    (area,) = areas(window)
    x0, y0, x1, y1 = sides(area)
    pixel = window.sheet.canvas.pixel()
    assert (x0, y0, x1, y1) == pytest.approx((1700.0, 1000.0, 1850.0, 1100.0), abs=8 * pixel)
    assert (area.kind, area.of) == ("bruise", "net")
    assert window.store.selected == area_name(window.store.project.sheets[0], 0)
    assert not tool(window).isChecked()  # the hand has its other uses again
    assert steps(window) == 1
    assert window.store.plan == make_plan(window.store.project)
    window.store.undo()
    assert window.store.project == before


def test_an_area_over_a_net_makes_it_step_aside(window: Window, sheet: Mouse) -> None:
    was = places(window.store.plan)
    draw(sheet, (500.0, 300.0), (560.0, 340.0))
    assert len(areas(window)) == 1
    assert places(window.store.plan) != was
    assert not window.store.plan.errors
    window.store.undo()
    sheet.settle()
    assert places(window.store.plan) == was


def test_escape_puts_a_stroke_back_and_then_the_tool_away(window: Window, sheet: Mouse) -> None:
    before = window.store.project
    tool(window).click()
    sheet.press(sheet.pixel((1700.0, 1000.0)))
    sheet.move(60.0, -30.0)
    assert len(areas(window)) == 1
    sheet.key(Qt.Key.Key_Escape)
    sheet.release()
    assert window.store.project is before
    assert not window.store.undo_label
    tool(window).click()
    assert tool(window).isChecked()
    sheet.key(Qt.Key.Key_Escape)
    assert not tool(window).isChecked()


def test_a_small_slip_draws_nothing(window: Window, sheet: Mouse) -> None:
    before = window.store.project
    tool(window).click()
    sheet.drag(sheet.pixel((1700.0, 1000.0)), 30.0, 1.0)
    assert window.store.project == before
    assert not window.store.undo_label


def test_the_size_is_typed_while_it_is_drawn(window: Window, sheet: Mouse) -> None:
    tool(window).click()
    sheet.press(sheet.pixel((1700.0, 900.0)))
    sheet.move(60.0, -40.0)
    field = sheet.type("3")
    sheet.enter(Qt.Key.Key_Tab)
    field.setText("1 1/2")
    sheet.enter()
    x0, y0, x1, y1 = sides(areas(window)[0])
    assert (x1 - x0, y1 - y0) == pytest.approx((3 * INCH_MM, 1.5 * INCH_MM))


def test_it_is_caught_by_the_sheets_edges_and_kept_on_the_sheet(window: Window, sheet: Mouse) -> None:
    stock = window.store.project.sheets[0]
    tool(window).click()
    sheet.press(sheet.pixel((stock.length - 100.0, stock.width - 60.0)))
    sheet.move(200.0, -120.0)
    assert sheet.hand.readout is not None
    assert "past the sheet's edge" in sheet.hand.readout.trouble
    sheet.release()
    assert sides(areas(window)[0])[2:] == (stock.length, stock.width)


def test_it_is_moved_resized_and_deleted(open_window: Open, project: Project) -> None:
    window = open_window(marked(project, KeepClear(box(*FREE), "patch", "faces")))
    mouse = Mouse(window, window.sheet.canvas)
    middle = mouse.pixel((1750.0, 1040.0))
    mouse.click(middle)
    name = area_name(window.store.project.sheets[0], 0)
    assert window.store.selected == name
    mouse.drag(middle, 40.0, 10.0)
    x0, y0, x1, y1 = sides(areas(window)[0])
    pixel = window.sheet.canvas.pixel()
    assert (x0 - FREE[0], FREE[1] - y0) == pytest.approx((40.0 * pixel, 10.0 * pixel), abs=9 * pixel)
    assert (x1 - x0, y1 - y0) == pytest.approx((100.0, 80.0))
    assert (areas(window)[0].kind, areas(window)[0].of) == ("patch", "faces")
    assert steps(window) == 1
    mouse.pull("high x", 25.0, 0.0)
    now = sides(areas(window)[0])
    assert now[:2] == pytest.approx((x0, y0))
    assert now[3] == pytest.approx(y1)
    assert now[2] - x1 == pytest.approx(25.0 * pixel, abs=9 * pixel)
    mouse.pull("low y", 0.0, 12.0)
    low = sides(areas(window)[0])
    assert low[3] == pytest.approx(y1)
    assert low[1] < now[1]
    assert steps(window) == 3
    mouse.key(Qt.Key.Key_Delete)
    assert areas(window) == ()
    assert steps(window) == 4
    window.store.undo()
    assert sides(areas(window)[0]) == low


def test_it_is_stepped_by_arrow_keys_and_typed(open_window: Open, project: Project) -> None:
    window = open_window(marked(project, KeepClear(box(*FREE))))
    mouse = Mouse(window, window.sheet.canvas)
    mouse.click(mouse.pixel((1750.0, 1040.0)))
    before = sides(areas(window)[0])
    mouse.key(Qt.Key.Key_Right)
    after = sides(areas(window)[0])
    assert 0.0 < after[0] - before[0] <= SIXTEENTH + 1e-6
    mouse.click(mouse.square("high x"))
    mouse.type("5")
    mouse.enter()
    x0, _, x1, _ = sides(areas(window)[0])
    assert x1 - x0 == pytest.approx(5 * INCH_MM)


def test_a_polygons_corner_is_moved_and_crossing_sides_are_refused(open_window: Open, project: Project) -> None:
    corners = ((1700.0, 1000.0), (1800.0, 1000.0), (1760.0, 1090.0))
    window = open_window(marked(project, KeepClear(corners)))
    mouse = Mouse(window, window.sheet.canvas)
    mouse.click(mouse.pixel((1755.0, 1030.0)))
    mouse.pull("corner 2", 20.0, -15.0)
    now = areas(window)[0].corners
    assert now[:2] == corners[:2]
    assert now[2][0] > corners[2][0]
    assert now[2][1] > corners[2][1]
    mouse.drag(mouse.pixel((1755.0, 1020.0)), 15.0, 0.0)
    shifts = {round(b[0] - a[0], 6) for a, b in zip(now, areas(window)[0].corners, strict=True)}
    assert len(shifts) == 1
    assert shifts.pop() > 0.0
    kept = areas(window)
    mouse.press(mouse.square("corner 2"))
    target = mouse.pixel(kept[0].corners[0]) - mouse.square("corner 2")
    mouse.move(target.x(), target.y())
    mouse.key(Qt.Key.Key_Escape)
    mouse.release()
    assert areas(window) == kept


def test_kind_and_what_keeps_out_are_chosen_in_the_rule(open_window: Open, project: Project) -> None:
    window = open_window(marked(project, KeepClear(box(*FREE))))
    section = window.rule.findChild(QWidget, "section_area")
    assert section is not None
    assert not section.isVisibleTo(window)
    mouse = Mouse(window, window.sheet.canvas)
    mouse.click(mouse.pixel((1750.0, 1040.0)))
    assert section.isVisibleTo(window)
    kind = section.findChild(QComboBox, "area_kind")
    assert kind is not None
    kind.activated.emit(kind.findData("leaf joint"))
    fronts = section.findChild(QPushButton, "area_of_front")
    assert fronts is not None
    fronts.click()
    assert (areas(window)[0].kind, areas(window)[0].of) == ("leaf joint", "front")
    assert steps(window) == 2
    along = section.findChild(QLineEdit, "area_along")
    assert along is not None
    along.setFocus()
    along.setText("")
    mouse_text(along, "7 1/2")
    x0, _, x1, _ = sides(areas(window)[0])
    assert x1 - x0 == pytest.approx(7.5 * INCH_MM)
    remove = section.findChild(QPushButton, "area_remove")
    assert remove is not None
    remove.click()
    assert areas(window) == ()
    assert not section.isVisibleTo(window)


def mouse_text(field: QLineEdit, text: str) -> None:
    from PySide6.QtTest import QTest

    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_a_net_stops_at_an_area_and_says_why(open_window: Open, project: Project) -> None:
    bruise = KeepClear(box(1900.0, 700.0, 2300.0, 1100.0))
    window = open_window(marked(project, bruise))
    mouse = Mouse(window, window.sheet.canvas)
    net = next(n for n in window.store.plan.nets if n.shelf == "side")
    start = grab(mouse, "side")
    mouse.press(start)
    goal = mouse.pixel((1750.0, 750.0)) - mouse.pixel((net.x, net.y))
    mouse.move(goal.x(), goal.y())
    assert mouse.hand.readout is not None
    assert "into the bruise" in mouse.hand.readout.trouble
    assert not [f for f in window.store.plan.errors if f.code == "in-area"]
    mouse.release()
    assert not window.store.plan.errors
    assert window.store.plan == make_plan(window.store.project)


def test_a_click_on_a_net_under_an_area_selects_the_net(open_window: Open, project: Project) -> None:
    """A joint that only fronts keep out of may lie on a top: its outline is the area's, the rest is the net's."""
    free = make_plan(project)
    top = next(p for p in free.panels if p.id == "upper/top")
    assert top.x is not None
    assert top.y is not None
    joint = KeepClear(box(top.x + 300.0, top.y + 40.0, top.x + 420.0, top.y + 120.0), "leaf joint", "front")
    window = open_window(marked(project, joint))
    assert places(window.store.plan) == places(free)
    mouse = Mouse(window, window.sheet.canvas)
    mouse.click(mouse.pixel((top.x + 360.0, top.y + 80.0)))
    assert window.store.selected == "upper/top"
    mouse.click(mouse.pixel((top.x + 300.0, top.y + 80.0)))
    assert window.store.selected == area_name(window.store.project.sheets[0], 0)


def test_areas_are_drawn_on_the_first_copy_only(open_window: Open, project: Project) -> None:
    stock = msgspec.structs.replace(project.sheets[0], quantity=3, length=1400.0, width=700.0)
    window = open_window(msgspec.structs.replace(project, sheets=(stock,)))
    assert len(window.store.plan.sheets) > 1
    mouse = Mouse(window, window.sheet.canvas)
    window.sheet.turn(1)
    assert window.sheet.sheet == "birch2"
    tool(window).click()
    mouse.press(mouse.pixel((600.0, 300.0)))
    mouse.move(60.0, -30.0)
    assert mouse.hand.readout is not None
    assert "first sheet birch" in mouse.hand.readout.trouble
    mouse.release()
    assert areas(window) == ()
    assert not window.store.undo_label
