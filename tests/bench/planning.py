"""Planning: the three-shelf demo, and how the time grows."""

from __future__ import annotations

from collections.abc import Iterator
from math import log2

import msgspec

from core.document.load import load_project
from core.document.model import Project, Sheet, Shelf
from core.plan.make import make_plan
from tests.bench.measure import Measure, at_most, milliseconds, quietest, share
from tests.bench.places import FIRST_DEMO


def measures() -> Iterator[Measure]:
    """Plan p50 and p95 of the three-shelf demo (of the quietest of five batches), growth to 100 shelves."""
    project = load_project(FIRST_DEMO)
    layout = make_plan(project).layout

    def dragged(i: int) -> Project:
        """A length that was never planned before, as under a hand that drags."""
        shelf = msgspec.structs.replace(project.shelves[1], length=project.shelves[1].length - 0.01 * (i + 500))
        return msgspec.structs.replace(project, shelves=(project.shelves[0], shelf, *project.shelves[2:]))

    def drag(i: int) -> object:
        return make_plan(dragged(i), layout)

    def anew(i: int) -> object:
        return make_plan(dragged(i + 1000))

    times = quietest(drag, 100)
    yield at_most("plan, three shelves, layout kept, p50", share(times, 50), "ms")
    yield at_most("plan, three shelves, layout kept, p95", share(times, 95), "ms", 3.0)
    times = quietest(anew, 60)
    yield at_most("plan, three shelves, layout searched, p50", share(times, 50), "ms")
    yield at_most("plan, three shelves, layout searched, p95", share(times, 95), "ms", 8.0)
    yield from _growth()


def _growth() -> Iterator[Measure]:
    spent = {}
    for count in (3, 10, 30, 100):
        project = many_shelves(count)

        def anew(i: int, project: Project = project) -> object:
            """Another kerf each time, so that nothing is remembered from the run before."""
            saw = msgspec.structs.replace(project.saw, kerf=project.saw.kerf + 1e-4 * (i + 5))
            return make_plan(msgspec.structs.replace(project, saw=saw))

        times = milliseconds(anew, 5, 1)
        spent[count] = share(times, 50)
        yield at_most(f"plan, {count} shelves", spent[count], "ms")
    worst = max(spent[n] / (n * log2(n + 1)) for n in (10, 30, 100)) / (spent[3] / (3 * log2(4)))
    yield at_most("plan, growth against n log n", worst, "times", 1.6)


def many_shelves(count: int) -> Project:
    """A job of so many shelves, few of them alike."""
    shelves = tuple(
        Shelf(f"s{i}", 500.0 + 37 * (i * 7 % 23), 150.0 + 10 * (i % 4), 70.0 + 5 * (i % 3)) for i in range(count)
    )
    return Project((Sheet("A", 2440.0, 1220.0, quantity=200),), shelves)
