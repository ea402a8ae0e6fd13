"""The one gate for every edit."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from app.store import Store
from core.document.errors import ProjectError
from core.document.model import Project
from core.plan.make import make_plan
from core.plan.model import Fix


def length(value: float) -> Callable[[Project], Project]:
    def change(project: Project) -> Project:
        shelf = msgspec.structs.replace(project.shelves[0], length=value)
        return msgspec.structs.replace(project, shelves=(shelf, *project.shelves[1:]))

    return change


@pytest.fixture
def store(qtbot: QtBot, project: Project) -> Store:
    return Store(project)


def test_an_edit_replaces_the_project_and_its_plan(qtbot: QtBot, store: Store) -> None:
    with qtbot.waitSignals([store.changed, store.plan_changed]):
        store.apply("Length", length(800.0))
    assert store.project.shelves[0].length == 800.0
    assert store.plan == make_plan(store.project)
    assert store.undo_label == "Length"


def test_a_failed_edit_leaves_everything(qtbot: QtBot, store: Store) -> None:
    store.apply("Length", length(800.0))
    store.undo()
    before, plan = store.project, store.plan
    with qtbot.assertNotEmitted(store.changed), pytest.raises(ProjectError):
        store.apply("Length", length(-1.0))
    assert (store.project, store.plan) == (before, plan)
    assert store.redo_label == "Length"


def test_an_edit_that_changes_nothing_is_no_step(qtbot: QtBot, store: Store) -> None:
    with qtbot.assertNotEmitted(store.changed):
        store.apply("Length", length(store.project.shelves[0].length))
    assert not store.undo_label


def test_a_run_with_one_key_is_one_step_until_it_ends(store: Store) -> None:
    first = store.project
    for value in (800.0, 801.0, 802.0):
        store.apply("Length", length(value), "length")
    store.end_run()
    store.apply("Length", length(900.0), "length")
    store.undo()
    assert store.project.shelves[0].length == 802.0
    store.undo()
    assert store.project == first
    assert not store.undo_label


def test_a_run_that_comes_back_to_its_start_is_no_step(store: Store) -> None:
    first = store.project
    store.apply("Length", length(800.0), "length")
    store.apply("Length", length(first.shelves[0].length), "length")
    assert store.project == first
    assert not store.undo_label
    store.apply("Length", length(700.0), "length")
    store.undo()
    assert store.project == first


def test_undo_back_to_the_saved_project_is_saved_again(store: Store, tmp_path: object) -> None:
    assert not store.unsaved
    store.apply("Length", length(800.0))
    assert store.unsaved
    store.undo()
    assert not store.unsaved
    store.redo()
    assert store.unsaved


def test_a_fix_is_applied_through_its_pointers(store: Store) -> None:
    store.apply_fix(Fix("Depth 150", {"/shelves/1/depth": 150.0, "/saw/lean": "away"}))
    assert store.project.shelves[1].depth == 150.0
    assert store.project.saw.lean == "away"
    assert store.undo_label == "Depth 150"


def test_selection_falls_back_when_its_shelf_goes(store: Store) -> None:
    store.select("lower/top")
    assert store.shelf is not None
    assert store.shelf.id == "lower"
    store.apply("Remove", lambda p: msgspec.structs.replace(p, shelves=p.shelves[:1]))
    assert store.selected == "upper"
    store.undo()
    assert store.selected == "lower/top"


def test_slow_plans_are_gathered_and_never_starved(qtbot: QtBot, store: Store) -> None:
    store.planner._times.extend([1e3] * 5)  # as if every plan took a second
    made = []
    store.plan_changed.connect(lambda: made.append(store.plan.project))
    with qtbot.waitSignal(store.plan_changed):
        for value in range(700, 720):
            store.apply("Length", length(float(value)), "length")
        assert not made
    assert made == [store.project]
    assert store.planner.settled


def test_an_error_while_planning_keeps_the_work(qtbot: QtBot, store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    import app.planner

    def broken(project: Project) -> None:
        raise RuntimeError("broken on purpose")

    plan = store.plan
    monkeypatch.setattr(app.planner, "best_plan", broken)
    with qtbot.waitSignal(store.failed):
        store.apply("Length", length(800.0))
    assert store.project.shelves[0].length == 800.0
    assert store.plan is plan


@given(st.lists(st.one_of(st.floats(100, 2000), st.sampled_from(["undo", "redo", "end"])), max_size=30))
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_undo_and_redo_walk_through_the_same_projects(project: Project, moves: list[float | str]) -> None:
    """Against a model: a list of projects and a place in it. Every edit is a step of its own here."""
    store = Store(project)
    past, at = [project], 0
    for move in moves:
        if move == "undo":
            store.undo()
            at = max(0, at - 1)
        elif move == "redo":
            store.redo()
            at = min(len(past) - 1, at + 1)
        elif move == "end":
            store.end_run()
        elif isinstance(move, float) and move != past[at].shelves[0].length:
            store.apply("Length", length(move))
            past = [*past[: at + 1], store.project]
            at += 1
        assert store.project == past[at]
        assert bool(store.undo_label) == (at > 0)
        assert bool(store.redo_label) == (at < len(past) - 1)
        assert store.unsaved == (past[at] != project)
