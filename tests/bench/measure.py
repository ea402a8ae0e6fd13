"""What a measurement is, and how times are taken."""

from __future__ import annotations

import gc
from collections.abc import Callable
from time import perf_counter
from typing import NamedTuple


class Measure(NamedTuple):
    """One figure. `bound` is the most it may be, None where it is only told."""

    name: str
    value: float
    unit: str
    bound: float | None
    ok: bool


def at_most(name: str, value: float, unit: str, bound: float | None = None) -> Measure:
    """A figure that may be its bound at most."""
    return Measure(name, value, unit, bound, bound is None or value <= bound)


def share(times: list[float], percent: float) -> float:
    """The value below which that share of the times lies."""
    ordered = sorted(times)
    return ordered[min(len(ordered) - 1, int(len(ordered) * percent / 100.0))]


def quietest(work: Callable[[int], object], runs: int, batches: int = 5) -> list[float]:
    """The times of the quietest of several batches: a shared machine slows whole seconds by a factor of three."""
    found = []
    for n in range(batches):
        # mypy cannot tell the type of a function whose second argument is only there to keep a value
        found.append(milliseconds(lambda i, base=n * runs: work(base + i), runs, 10 if n == 0 else 0))  # type: ignore[misc]
    return min(found, key=lambda times: share(times, 50))


def milliseconds(work: Callable[[int], object], runs: int, warm_up: int = 10) -> list[float]:
    """How long each of several runs takes; `work` is given the run's number, so that nothing can be kept."""
    for i in range(warm_up):
        work(-1 - i)
    gc.collect()
    times = []
    for i in range(runs):
        start = perf_counter()
        work(i)
        times.append((perf_counter() - start) * 1000.0)
    return times
