"""What is measured of a wall, dragged with the mouse; and shelves that catch where one stud more is caught."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt

from app.hand.grid import Aim
from app.hand.keep_out import KeepOutMoved, keep_out_at
from app.hand.wall import Hanging
from app.hand.wall_measured import ABOVE_FLOOR, stud_catches, stud_handles
from app.window.window import Window
from core.document.model import KeepOut, Mount, Project, Sheet, Shelf, Studs, Wall
from core.lengths import Unit
from core.plan.make import best_plan
from tests.hand.mouse import Mouse
from tests.hand.test_sizes import steps

Open = Callable[[Project], Window]
SHEET = Sheet("A", 2440.0, 1220.0)
SHELF = Shelf("ledge", 1100.0, 200.0, 70.0, mount=Mount(700.0, 1500.0))


def project(wall: Wall) -> Project:
    return Project((SHEET,), (SHELF,), units="mm", wall=wall)


def test_a_socket_is_dragged_and_undone(open_window: Open) -> None:
    window = open_window(project(Wall(keep_outs=(KeepOut(300.0, 300.0, 80.0, 120.0),))))
    wall = Mouse(window, window.wall.picture)
    pixel = window.wall.picture.pixel()
    wall.drag(wall.pixel((340.0, 360.0)), 500.0 / pixel, -400.0 / pixel)
    (socket,) = window.store.project.wall.keep_outs
    assert (socket.x, socket.y) == pytest.approx((800.0, 700.0), abs=12.0 * pixel)
    assert (socket.width, socket.height, socket.kind) == (80.0, 120.0, "socket")
    assert window.store.project.shelves == (SHELF,)
    assert steps(window) == 1
    window.store.undo()
    assert window.store.project.wall.keep_outs[0].x == 300.0


def test_a_keep_out_stays_on_the_wall() -> None:
    wall = Wall(width=3000.0, height=2400.0, keep_outs=(KeepOut(300.0, 300.0, 80.0, 120.0),))
    edit = KeepOutMoved(project(wall), 0).drop((9000.0, -500.0), Aim(1.0, Unit.MM))
    assert edit.values == (2920.0, 0.0)


@pytest.mark.parametrize(
    ("edge", "by", "expected"),
    [
        ("right", (90.0, 0.0), (300.0, 300.0, 170.0, 120.0)),
        ("left", (-90.0, 0.0), (210.0, 300.0, 170.0, 120.0)),
        ("high", (0.0, 90.0), (300.0, 300.0, 80.0, 210.0)),
        ("low", (0.0, -90.0), (300.0, 210.0, 80.0, 210.0)),
    ],
)
def test_an_edge_of_a_keep_out_is_pulled_and_the_opposite_one_stays(
    open_window: Open, edge: str, by: tuple[float, float], expected: tuple[float, float, float, float]
) -> None:
    window = open_window(project(Wall(keep_outs=(KeepOut(300.0, 300.0, 80.0, 120.0),))))
    wall = Mouse(window, window.wall.picture)
    pixel = window.wall.picture.pixel()
    wall.hover(wall.pixel((340.0, 360.0)))
    wall.pull(f"hidden 0 {edge}", by[0] / pixel, -by[1] / pixel)
    (area,) = window.store.project.wall.keep_outs
    assert (area.x, area.y, area.width, area.height) == pytest.approx(expected, abs=12.0)
    grown = {"right": "width", "left": "width", "high": "height", "low": "height"}[edge]
    still = {"right": area.x, "left": area.x + area.width, "high": area.y, "low": area.y + area.height}[edge]
    assert still == pytest.approx({"right": 300.0, "left": 380.0, "high": 300.0, "low": 420.0}[edge])
    assert getattr(area, grown) > 120.0
    assert steps(window) == 1
    wall.key(Qt.Key.Key_Up if edge in ("high", "low") else Qt.Key.Key_Right)
    assert window.store.project.wall.keep_outs[0] != area  # arrow keys step it on
    window.store.undo()
    window.store.undo()
    assert window.store.project.wall.keep_outs == (KeepOut(300.0, 300.0, 80.0, 120.0),)


def test_a_keep_out_pulled_past_the_wall_stops_at_its_edge(open_window: Open) -> None:
    window = open_window(project(Wall(keep_outs=(KeepOut(2700.0, 300.0, 80.0, 120.0),))))
    wall = Mouse(window, window.wall.picture)
    wall.hover(wall.pixel((2740.0, 360.0)))
    wall.pull("hidden 0 right", 900.0 / window.wall.picture.pixel(), 0.0)
    assert window.store.project.wall.keep_outs[0].width == pytest.approx(300.0)


def test_handles_come_with_the_pointer_and_go_with_it(open_window: Open) -> None:
    window = open_window(project(Wall(keep_outs=(KeepOut(300.0, 300.0, 80.0, 120.0),))))
    wall = Mouse(window, window.wall.picture)

    def shown() -> int:
        return sum(handle.key.startswith("hidden") for handle in window.wall.picture.hand.reach.handles())

    wall.hover(wall.pixel((2000.0, 600.0)))
    assert shown() == 0
    wall.hover(wall.pixel((340.0, 360.0)))
    assert shown() == 4


def test_the_smaller_of_two_keep_outs_is_taken() -> None:
    job = project(Wall(keep_outs=(KeepOut(0.0, 0.0, 900.0, 900.0, "pipe"), KeepOut(300.0, 300.0, 80.0, 120.0))))
    assert keep_out_at(job, (340.0, 360.0), 0.0) == 1
    assert keep_out_at(job, (100.0, 100.0), 0.0) == 0
    assert keep_out_at(job, (340.0, 360.0), 0.0, only=0) == 0
    assert keep_out_at(job, (950.0, 950.0), 0.0) == -1


def pull_stud(window: Window, x: float, by: float) -> None:
    wall, pixel = Mouse(window, window.wall.picture), window.wall.picture.pixel()
    at = wall.pixel((x, ABOVE_FLOOR * pixel))
    wall.hover(at)
    wall.drag(at, by / pixel, 0.0)


def test_a_noted_stud_goes_by_itself(open_window: Open) -> None:
    window = open_window(project(Wall(studs=(500.0, 900.0, 1310.0))))
    pull_stud(window, 900.0, 60.0)
    one, moved, other = window.store.project.wall.studs
    assert (one, other) == (500.0, 1310.0)
    assert moved == pytest.approx(960.0, abs=10.0)


@pytest.mark.parametrize(("x", "first", "spacing"), [(200.0, 300.0, 400.0), (1000.0, 200.0, 450.0)])
def test_even_studs_go_together(open_window: Open, x: float, first: float, spacing: float) -> None:
    """The first takes them all along; the third, pulled 100 mm, puts each 50 mm farther from the one before."""
    window = open_window(project(Wall(studs=Studs(200.0, 400.0))))
    pull_stud(window, x, 100.0)
    studs = window.store.project.wall.studs
    assert isinstance(studs, Studs)
    assert (studs.first, studs.spacing) == pytest.approx((first, spacing), abs=12.0)
    assert (studs.first == 200.0) is (first == 200.0)


def test_too_many_studs_have_no_handles() -> None:
    assert stud_handles(project(Wall(studs=Studs(0.0, 20.0))), 1.0) == ()


@given(st.floats(0.0, 400.0), st.sampled_from((400.0, 406.4, 610.0)), st.floats(600.0, 2200.0))
def test_each_catch_has_as_many_studs_as_it_says(first: float, spacing: float, length: float) -> None:
    """Taken at its word: the plan's frame there catches that many, and one less a millimetre off at one side."""
    wall = Wall(width=4000.0, studs=Studs(first, spacing))
    job = Project((SHEET,), (Shelf("ledge", length, 200.0, 70.0, mount=Mount(700.0, 1500.0)),), units="mm", wall=wall)

    def caught(x: float) -> int:
        there = Shelf("ledge", length, 200.0, 70.0, mount=Mount(x, 1500.0))
        frames = best_plan(Project((SHEET,), (there,), units="mm", wall=wall)).frames
        return len(frames[0].studs)

    for catch in stud_catches(job, 0)[:3]:
        assert catch.words.startswith(f"on {caught(catch.value)} stud")
        assert caught(catch.value) > min(caught(catch.value - 1.0), caught(catch.value + 1.0))


def test_a_dragged_shelf_catches_on_one_stud_more() -> None:
    job = project(Wall(studs=Studs(200.0, 400.0)))
    catch = next(c for c in stud_catches(job, 0) if "3" in c.words)
    edit = Hanging(job, "ledge").drop((catch.value + 1.5, 1471.0), Aim(1.0, Unit.MM))
    assert edit.values[0] == catch.value
    assert edit.caught == catch.words
