"""How numbers are read, shown and stepped in fields, and the edits that add and remove."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.rule import edits
from app.rule.reading import ANGLE, COUNT, LENGTH, OPTIONAL_LENGTH, THICKNESS
from core.document.check import check_project
from core.document.model import Project
from core.lengths import Unit
from core.plan.make import make_plan

UNITS = st.sampled_from([Unit.INCH, Unit.MM])


@given(st.integers(1, 64 * 120), UNITS)
def test_a_length_in_64ths_shown_in_inches_reads_back_exactly(steps: int, unit: Unit) -> None:
    value = steps * 127 / 320
    assert LENGTH.read(LENGTH.show(value, Unit.INCH), Unit.INCH) == value


@given(st.floats(1.0, 5000.0), UNITS, st.integers(1, 5))
def test_steps_up_and_down_come_back(value: float, unit: Unit, steps: int) -> None:
    for reading in (LENGTH, THICKNESS):
        on_step = reading.step(reading.step(value, unit, 1), unit, -1)  # now on a whole step
        there = reading.step(on_step, unit, steps)
        assert there is not None
        assert on_step is not None
        assert there > on_step
        assert reading.step(there, unit, -steps) == pytest.approx(on_step, abs=1e-9)


@pytest.mark.parametrize("text", ["0.5", "0,5", "0.5°", " 0.5 deg"])
def test_angles(text: str) -> None:
    assert ANGLE.read(text, Unit.MM) == 0.5


@pytest.mark.parametrize("text", ["", "steep", "nan", "inf", "1e400"])
def test_what_is_no_angle(text: str) -> None:
    with pytest.raises(ValueError, match="angle"):
        ANGLE.read(text, Unit.MM)


@pytest.mark.parametrize("text", ["", "1.5", "two"])
def test_what_is_no_count(text: str) -> None:
    with pytest.raises(ValueError, match="whole number"):
        COUNT.read(text, Unit.MM)


def test_an_optional_length_may_be_empty() -> None:
    assert OPTIONAL_LENGTH.read("  ", Unit.MM) is None
    assert OPTIONAL_LENGTH.show(None, Unit.MM) == ""


@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_new_project_with_added_shelves_can_be_built(units: str) -> None:
    project = edits.new_project(units)
    for _ in range(3):
        project, name = edits.add_shelf(project)
        check_project(project)
        assert project.shelves[-1].id == name
    tops = [shelf.mount.top for shelf in project.shelves if shelf.mount]
    assert len(set(tops)) == 3
    assert not make_plan(Project(project.sheets, project.shelves[:2], units=project.units)).errors


@pytest.mark.parametrize(("one", "other"), [("in", "mm"), ("mm", "in")])
def test_what_nobody_has_changed_is_as_it_is_sold_in_the_other_units(one: str, other: str) -> None:
    fresh = edits.new_project(one)
    assert edits.in_units(fresh, other) == edits.new_project(other)
    own = msgspec.structs.replace(fresh, sheets=(msgspec.structs.replace(fresh.sheets[0], length=2000.0),))
    assert edits.in_units(own, other).sheets == own.sheets
    assert edits.in_units(own, other).wall == edits.new_project(other).wall
    drawn, _ = edits.add_shelf(fresh)
    assert edits.in_units(drawn, other) == msgspec.structs.replace(drawn, units=edits.new_project(other).units)


def test_one_more_shelf_is_like_another() -> None:
    project, _ = edits.add_shelf(edits.new_project("mm"))
    first = msgspec.structs.replace(project.shelves[0], length=1100.0, height=60.0, left="open")
    project = msgspec.structs.replace(project, shelves=(first,))
    second = edits.add_shelf(project, first)[0].shelves[1]
    assert (second.length, second.depth, second.height) == (1100.0, first.depth, 60.0)
    assert (second.left, second.right) == ("open", first.right)
    assert second.mount is not None
    assert first.mount is not None
    assert second.mount.top != first.mount.top


def test_a_wall_that_is_full_leaves_the_next_shelf_off_it() -> None:
    project = edits.new_project("mm")
    for _ in range(12):
        project, _ = edits.add_shelf(project)
    assert project.shelves[-1].mount is None
    check_project(project)


@given(st.lists(st.sampled_from(["add", "copy", "remove"]), max_size=20))
def test_names_stay_unique(moves: list[str]) -> None:
    project = edits.new_project("in")
    for move in moves:
        if move == "add":
            project, _ = edits.add_shelf(project)
            project, _ = edits.add_sheet(project)
        elif move == "copy" and project.shelves:
            project, _ = edits.duplicate_shelf(project, len(project.shelves) // 2)
            project, _ = edits.duplicate_sheet(project, 0)
        elif move == "remove" and project.shelves:
            project, _ = edits.remove_shelf(project, 0)
            project, _ = edits.remove_sheet(project, 0)
        check_project(project)
