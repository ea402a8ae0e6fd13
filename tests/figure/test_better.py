"""A better place for a net: allowed, better by what it says, stopped when told."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import numpy as np
import pytest

from app.fold.levels import halved
from core.document.model import Mount, Project, Sheet, Shelf
from core.face import fine_size, veneer
from core.face.stopping import StoppedError
from core.figure.better import better_places
from core.figure.match import measured
from core.figure.places import seam_places
from core.figure.seen import seen_places, together
from core.plan.make import make_plan
from core.plan.model import Plan
from core.wall.eye import is_in_sight

SHELF = Shelf("ledge", 700.0, 160.0, 60.0, mount=Mount(300.0, 1200.0))


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan(Project((Sheet("A", 1300.0, 700.0),), (SHELF, Shelf("low", 300.0, 90.0, 60.0))))


@pytest.fixture(scope="module")
def face() -> np.ndarray:
    return veneer(1300.0, 700.0, 3, *fine_size(1300.0, 700.0))


def matched(plan: Plan, face: np.ndarray) -> float:
    seen = seen_places(seam_places(plan, "ledge"), SHELF)
    figures = [measured(face, (1300.0, 700.0), place) for place in seen]
    return together(figures, lambda seam: next(p.end - p.start for p in seen if p.seam == seam))


def test_what_the_eye_sees() -> None:
    high = msgspec.structs.replace(SHELF, mount=Mount(300.0, 1900.0))
    seams = ("top-front", "front-bottom", "front-left", "top-left")
    assert [is_in_sight(f"ledge/{seam}", SHELF) for seam in seams] == [True, False, True, True]
    assert [is_in_sight(f"ledge/{seam}", high) for seam in seams] == [False, True, True, False]


def test_the_best_place_is_allowed_and_as_good_as_it_says(plan: Plan, face: np.ndarray) -> None:
    coarse = halved(halved(face))
    found = list(better_places(plan, "ledge", coarse, face))
    assert [one.match for one in found] == sorted(one.match for one in found)
    first, best = found[0], found[-1]
    assert first.match == pytest.approx(matched(plan, face))
    assert (first.x, first.y) == (plan.nets[0].x, plan.nets[0].y)
    assert best.tried == 1.0
    assert best.match > first.match
    shelves = (msgspec.structs.replace(SHELF, at=(best.x, best.y), turned=best.over), plan.project.shelves[1])
    moved = make_plan(msgspec.structs.replace(plan.project, shelves=shelves))
    assert moved.errors == plan.errors == ()
    assert matched(moved, face) == pytest.approx(best.match, abs=1.0)  # to a pixel


def test_a_net_is_turned_where_that_is_better() -> None:
    """A sheet hardly longer than the net, dark up to the seam of its one end: turned, that end lies in the light."""
    sheet, shelf = Sheet("A", 876.0, 420.0, quantity=2), msgspec.structs.replace(SHELF, right="open")
    plan = make_plan(Project((sheet,), (shelf,)))
    face = np.full((420, 876, 3), 200, np.uint8)
    face[:, :170] = 90
    *_, best = better_places(plan, "ledge", face, face)
    assert best.over
    assert best.match == 100.0
    shelves = (msgspec.structs.replace(shelf, at=(best.x, best.y), turned=True),)
    there = make_plan(msgspec.structs.replace(plan.project, shelves=shelves))
    assert not there.errors
    assert all(measured(face, (876.0, 420.0), p).match == 100.0 for p in seam_places(there))
    assert min(measured(face, (876.0, 420.0), p).match for p in seam_places(plan)) < 70.0


def stops_after(count: int) -> Callable[[], bool]:
    asked = iter(range(10**9))
    return lambda: next(asked) >= count


def test_it_stops_when_told(plan: Plan, face: np.ndarray) -> None:
    with pytest.raises(StoppedError):
        list(better_places(plan, "ledge", halved(face), face, stops_after(3)))


def test_a_shelf_that_lies_nowhere_has_no_better_place(plan: Plan, face: np.ndarray) -> None:
    assert list(better_places(plan, "none", face, face)) == []
