"""The time a plan takes grows no worse than n log n with the shelves."""

from math import log2
from time import process_time

import msgspec
import pytest

from core.document.model import Project, Sheet, Shelf
from core.layout.model import Layout
from core.plan.make import make_plan


def job(count: int) -> Project:
    """Shelves of 23 lengths, four depths and three heights, on as many sheets as they need."""
    shelves = tuple(
        Shelf(f"s{i}", 500.0 + 37 * (i * 7 % 23), 150.0 + 10 * (i % 4), 70.0 + 5 * (i % 3)) for i in range(count)
    )
    return Project((Sheet("A", 2440.0, 1220.0, quantity=200),), shelves)


def seconds(project: Project, layout: Layout | None, runs: int) -> float:
    """The least of several runs: what the work takes when nothing disturbs it."""
    best = float("inf")
    for i in range(runs):  # another thickness each time, so that nothing is remembered from the run before
        stock = msgspec.structs.replace(project.sheets[0], thickness=18.0 + 0.01 * i)
        fresh = msgspec.structs.replace(project, sheets=(stock,))
        if layout is not None:
            layout = msgspec.structs.replace(layout, stocks=(stock,) * len(layout.stocks))
        start = process_time()
        make_plan(fresh, layout)
        best = min(best, process_time() - start)
    return best


@pytest.mark.parametrize("search", [False, True], ids=["layout given", "layout searched"])
def test_growth(search: bool) -> None:
    spent = {}
    for count in (3, 10, 30, 100):
        project = job(count)
        layout = None if search else make_plan(project).layout
        spent[count] = seconds(project, layout, 9 if count < 30 else 3)
    per_unit = {n: s / (n * log2(n + 1)) for n, s in spent.items()}
    # 1.6: sheets are fuller and rests more with more shelves; measured ratios lie under 1.1
    assert max(per_unit[n] for n in (10, 30, 100)) <= 1.6 * per_unit[3]
