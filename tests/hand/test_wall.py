"""Drawing, moving and pulling shelves on the wall."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QPushButton

from app.hand.grid import Aim
from app.hand.wall import Drawing, Hanging, spacing_catches, stud_centres
from app.rule.edits import new_project
from app.window.window import Window
from core.document.model import Mount, Project, Shelf, Studs, Wall
from core.lengths import INCH_MM, Unit
from core.plan.make import make_plan
from tests.hand.mouse import SHIFT, Mouse
from tests.hand.test_sizes import shelf, steps

Open = Callable[[Project], Window]


def mount(window: Window, name: str) -> Mount:
    found = shelf(window, name).mount
    assert found is not None
    return found


def stroke(mouse: Mouse, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Draw from one place on the wall to another."""
    a, b = mouse.pixel(start), mouse.pixel(end)
    mouse.drag(a, b.x() - a.x(), b.y() - a.y())


def test_from_an_empty_wall_to_two_shelves_and_all_the_way_back(open_window: Open) -> None:
    """Two shelves are drawn, one is pulled too deep, the offered way out is taken, and all of it is undone."""
    empty = new_project("in")
    window = open_window(empty)
    wall, sheet = Mouse(window, window.wall.picture), Mouse(window, window.sheet.canvas)
    stroke(wall, (600.0, 1500.0), (2100.0, 1490.0))
    stroke(wall, (900.0, 1000.0), (1900.0, 1010.0))
    first, second = window.store.project.shelves
    assert first.length > second.length > 900.0
    assert first.height == second.height == 2.5 * INCH_MM
    assert window.store.selected == second.id
    assert not window.store.plan.errors
    sheet.press(sheet.square("depth", second.id))
    sheet.move(0.0, -60.0)
    assert window.store.plan.errors
    assert sheet.hand.readout is not None
    assert "too wide" in sheet.hand.readout.trouble or "too long" in sheet.hand.readout.trouble
    sheet.release()
    pills = [child for child in window.line.findChildren(QPushButton, "fix_0") if not child.isHidden()]
    pills[0].click()
    sheet.settle()
    assert not window.store.plan.errors
    assert steps(window) == 4
    assert window.store.plan == make_plan(window.store.project)
    for _ in range(4):
        window.store.undo()
    assert window.store.project == empty
    assert window.store.plan == make_plan(empty)


def test_a_drawn_shelf_has_its_length_from_the_stroke(open_window: Open) -> None:
    window = open_window(new_project("mm"))
    wall = Mouse(window, window.wall.picture)
    pixel = window.wall.picture.pixel()
    stroke(wall, (2000.0, 1700.0), (900.0, 1702.0))  # from right to left
    (drawn,) = window.store.project.shelves
    assert drawn.mount is not None
    assert drawn.length == pytest.approx(1100.0, abs=8.0 * pixel)
    assert drawn.mount.x == pytest.approx(900.0, abs=8.0 * pixel)
    assert drawn.height == 60.0
    assert steps(window) == 1


def test_a_steep_stroke_gives_the_height_too(open_window: Open) -> None:
    window = open_window(new_project("mm"))
    wall = Mouse(window, window.wall.picture)
    pixel = window.wall.picture.pixel()
    stroke(wall, (900.0, 1300.0), (1900.0, 1000.0))
    (drawn,) = window.store.project.shelves
    assert drawn.mount is not None
    assert drawn.height == pytest.approx(300.0, abs=6.0 * pixel)
    assert drawn.mount.top == pytest.approx(1300.0, abs=6.0 * pixel)


def test_escape_while_drawing_leaves_an_empty_wall(open_window: Open) -> None:
    empty = new_project("in")
    window = open_window(empty)
    wall = Mouse(window, window.wall.picture)
    wall.press(wall.pixel((600.0, 1500.0)))
    wall.move(90.0, 0.0)
    assert len(window.store.project.shelves) == 1
    wall.key(Qt.Key.Key_Escape)
    wall.release()
    assert window.store.project is empty
    assert not window.store.undo_label
    assert not window.store.redo_label


def test_a_typed_length_and_height_while_drawing(open_window: Open) -> None:
    window = open_window(new_project("in"))
    wall = Mouse(window, window.wall.picture)
    wall.press(wall.pixel((600.0, 1500.0)))
    wall.move(90.0, 0.0)
    wall.type("41")
    wall.enter(Qt.Key.Key_Tab)
    field = wall.hand.typed.field
    assert field is not None
    field.setText("3 1/4")
    wall.enter()
    wall.release()
    (drawn,) = window.store.project.shelves
    assert (drawn.length, drawn.height) == pytest.approx((41 * INCH_MM, 3.25 * INCH_MM))
    assert steps(window) == 1


def test_a_short_touch_draws_nothing(window: Window, wall: Mouse) -> None:
    before = window.store.project
    wall.drag(wall.pixel((2400.0, 700.0)), 2.0, 1.0)
    assert window.store.project is before
    assert window.store.selected == ""


def test_a_shelf_is_moved_and_stays_on_the_wall(window: Window, wall: Mouse) -> None:
    was = mount(window, "lower")
    start = wall.pixel((was.x + 300.0, was.top - 30.0))
    wall.press(start)
    wall.move(21.0, -17.0)
    now, pixel = mount(window, "lower"), window.wall.picture.pixel()
    assert now.x - was.x == pytest.approx(21.0 * pixel, abs=7.0 * pixel)
    assert now.top - was.top == pytest.approx(17.0 * pixel, abs=7.0 * pixel)
    wall.move(600.0, 0.0)
    width = window.store.project.wall.width
    assert mount(window, "lower").x + shelf(window, "lower").length == pytest.approx(width)
    assert wall.hand.readout is not None
    assert "past the wall" in wall.hand.readout.trouble
    wall.release()
    assert steps(window) == 1
    assert window.store.plan == make_plan(window.store.project)


def test_the_left_edge_keeps_the_right_end(window: Window, wall: Mouse) -> None:
    window.store.select("lower")
    was, length = mount(window, "lower"), shelf(window, "lower").length
    wall.pull("length left", -15.0, 0.0)
    now = mount(window, "lower")
    assert now.x < was.x
    assert now.x + shelf(window, "lower").length == pytest.approx(was.x + length)
    assert steps(window) == 1


def test_the_right_edge_and_the_lower_one(window: Window, wall: Mouse) -> None:
    window.store.select("lower")
    was, size = mount(window, "lower"), shelf(window, "lower")
    wall.pull("length", 15.0, 0.0)
    wall.pull("height", 0.0, 6.0)
    now = shelf(window, "lower")
    assert now.length > size.length
    assert now.height > size.height
    assert mount(window, "lower") == was
    assert steps(window) == 2


def test_an_end_is_caught_by_another_shelf(window: Window, wall: Mouse) -> None:
    window.store.select("lower")
    other = mount(window, "upper").x + shelf(window, "upper").length
    start = wall.square("length")
    target = wall.pixel((other, 0.0)).x()
    wall.press(start)
    wall.move(target - start.x() + 3.0, 0.0)
    assert mount(window, "lower").x + shelf(window, "lower").length == pytest.approx(other)
    assert wall.hand.readout is not None
    assert wall.hand.readout.caught == "in line with A"
    wall.release()


def test_a_top_is_caught_by_another_and_not_while_fine(window: Window, wall: Mouse) -> None:
    was, other = mount(window, "lower"), mount(window, "upper").top
    start = wall.pixel((was.x + 300.0, was.top - 30.0))
    rise = (other - was.top) / window.wall.picture.pixel()
    wall.press(start)
    wall.move(0.0, -rise + 2.0)
    assert mount(window, "lower").top == other
    wall.move(0.0, 10.0, keys=SHIFT)
    assert mount(window, "lower").top != other
    wall.release()


def test_a_shelf_is_hung_from_the_tray(window: Window, wall: Mouse) -> None:
    (waiting, box), *rest = window.wall.picture.tray().items()
    assert (waiting, rest) == ("side", [])
    wall.drag(box.center(), 60.0, -120.0)
    assert mount(window, "side").top > 0.0
    assert window.wall.picture.tray() == {}
    assert steps(window) == 1
    window.store.undo()
    assert shelf(window, "side").mount is None


def test_dropped_below_the_floor_it_stays_in_the_tray(window: Window, wall: Mouse) -> None:
    box = window.wall.picture.tray()["side"]
    wall.drag(box.center(), 40.0, 2.0)
    assert shelf(window, "side").mount is None
    assert not window.store.undo_label


def test_arrow_keys_move_the_selected_shelf(window: Window, wall: Mouse) -> None:
    was = mount(window, "lower")
    wall.click(wall.pixel((was.x + 300.0, was.top - 30.0)))
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Up):
        wall.key(key)
    now, step = mount(window, "lower"), INCH_MM / 16.0
    assert was.x < now.x <= was.x + 2 * step
    assert was.top < now.top <= was.top + step
    assert now.x / step == pytest.approx(round(now.x / step), abs=1e-6)
    assert steps(window) == 1


def test_the_empty_wall_says_how_to_begin(open_window: Open) -> None:
    window = open_window(new_project("in"))
    wall = Mouse(window, window.wall.picture)
    wall.hover(QPointF(window.wall.picture.rect().center()))
    assert window.wall.picture.cursor().shape() is Qt.CursorShape.CrossCursor
    add = window.wall.findChild(QPushButton, "wall_add")
    assert add is not None
    assert add.isVisible()
    stroke(wall, (300.0, 700.0), (1500.0, 700.0))
    assert not add.isVisible()


@given(st.floats(0, 3000), st.floats(100, 2400), st.floats(-3500, 3500), st.floats(-800, 800), st.floats(0.5, 20.0))
def test_whatever_is_drawn_hangs_on_the_wall(x: float, y: float, across: float, down: float, pixel: float) -> None:
    project = new_project("mm")
    grip = Drawing(project, (x, y), pixel)
    edit = grip.drop((across, down), Aim(pixel, Unit.MM))
    if edit is None:
        return
    (drawn,) = edit.project.shelves
    assert drawn.mount is not None
    assert drawn.mount.x >= -1e-9
    assert drawn.mount.x + drawn.length <= project.wall.width + 1e-9
    assert edit.values == (drawn.length, drawn.height)


@given(st.floats(-500, 900), st.floats(200, 700), st.floats(800, 6000))
def test_studs_are_evenly_spaced_and_all_on_the_wall(first: float, spacing: float, width: float) -> None:
    found = stud_centres(Wall(width=width, studs=Studs(first, spacing)))
    assert all(-1e-9 <= x <= width + 1e-9 for x in found)
    assert all(b - a == pytest.approx(spacing) for a, b in pairwise(found))
    assert all((x - first) / spacing == pytest.approx(round((x - first) / spacing), abs=1e-6) for x in found)
    if found:
        assert found[0] - spacing <= 1e-9 or found[0] == pytest.approx(first)
        assert found[-1] + spacing > width - 1e-9


def test_a_shelf_longer_than_the_wall_can_still_be_moved(open_window: Open, project: Project) -> None:
    long = Shelf("beam", 3600.0, 200.0, 60.0, mount=Mount(0.0, 1500.0))
    window = open_window(msgspec.structs.replace(project, shelves=(long,)))
    wall = Mouse(window, window.wall.picture)
    wall.drag(wall.pixel((1000.0, 1480.0)), 0.0, 20.0)
    assert mount(window, "beam").top < 1500.0


def test_equal_clear_heights_and_level_undersides_catch() -> None:
    """Two shelves 60 high with 240 clear between them; a third one, 84 high, is offered every equal spacing."""
    one = Shelf("one", 900.0, 200.0, 60.0, mount=Mount(300.0, 1500.0))
    two = Shelf("two", 900.0, 200.0, 60.0, mount=Mount(300.0, 1200.0))
    third = Shelf("third", 900.0, 200.0, 84.0, mount=Mount(300.0, 700.0))
    project = msgspec.structs.replace(new_project("mm"), shelves=(one, two, third))
    caught = {catch.words: catch.value for catch in spacing_catches(project, third)}
    below, above, middle = (
        next(v for w, v in caught.items() if w.startswith(word)) for word in ("as far below", "as far above", "midway")
    )
    clear = 1500.0 - 60.0 - 1200.0
    assert 1200.0 - 60.0 - below == clear
    assert above - 84.0 - 1500.0 == clear
    assert 1440.0 - middle == middle - 84.0 - 1200.0
    assert {caught["underside level with A"] - 84.0, caught["underside level with B"] - 84.0} == {1440.0, 1140.0}
    aim = Aim(1.0, Unit.MM)
    edit = Hanging(project, "third").drop((300.0, below + 3.0), aim)
    assert edit.values[1] == below
    assert "below" in edit.caught
