"""Least layouts: 200 jobs of up to 12 shelves with frames; how long they take, and how many are not proven."""

from __future__ import annotations

from collections.abc import Iterator
from time import perf_counter

from core.layout.bands import lay_out
from core.plan.least import least_layout
from core.plan.make import shapes_of
from tests.bench.measure import Measure, at_most, share
from tests.layout.jobs import shop_job

JOBS = 200


def measures() -> Iterator[Measure]:
    """First good layout, whole search, share of jobs not proven and by how many sheets."""
    least_layout(shop_job(0))  # loads what is loaded at first use
    first, whole, gaps = [], [], []
    for number in range(JOBS):
        project = shop_job(number)
        sizes = [shape.size for shape in shapes_of(project)]
        start = perf_counter()
        lay_out(project, sizes)
        first.append((perf_counter() - start) * 1000.0)
        start = perf_counter()
        found = least_layout(project)
        whole.append((perf_counter() - start) * 1000.0)
        gaps.append(found.proof.cost - found.proof.bound)
    yield at_most("first layout, p50", share(first, 50), "ms")
    yield at_most("first layout, p95", share(first, 95), "ms", 5.0)
    yield at_most("least layout, p50", share(whole, 50), "ms", 100.0)
    yield at_most("least layout, p95", share(whole, 95), "ms", 1000.0)
    yield at_most("least layout, longest", max(whole), "ms")
    yield at_most("jobs not proven fewest", 100.0 * sum(gap > 0 for gap in gaps) / JOBS, "%", 5.0)
    yield at_most("largest gap", max(gaps), "sheets")
