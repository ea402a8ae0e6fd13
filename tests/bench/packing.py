"""Packing: open instances with known optima, and shop-sized jobs beside rectpack's best guillotine setting.

The instances are read from ../shared/bench beside the project; where they are missing only the shop-sized jobs are run.
"""

from __future__ import annotations

import json
import random
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from time import perf_counter
from typing import Any

from core.packing.one_d import Bar, BarQuestion, Length, cut_bars
from core.packing.pack import PackQuestion, SheetKind, pack_all
from core.packing.two_d import Rectangle, SheetQuestion, best_sheet
from tests.bench.measure import Measure, at_most, share
from tests.packing.rivals import best_layout, best_value, first_fit

OPEN = Path(__file__).parents[3] / "shared" / "bench"
SECONDS = 10.0
SLACK = 1.0  # s over the limit: what is being looked at is looked at to its end
SHOP_SECONDS = 10.0  # as the export command allows

# set, most optima that may be missed (None: only told)
BARS = (
    ("falkenauer_t60", 0),
    ("hard28", 4),
    ("schwerin1", 0),
    ("falkenauer_t120", None),
    ("falkenauer_u250", None),
    ("waescher", None),
    ("scholl1_n50_n100", None),
    ("scholl2_n50_n100", None),
    ("scholl3_hard", None),
)
SHEETS = (
    ("ngcut", "ngcut", frozenset(range(1, 13)), 0),
    ("cgcut1", "cgcut", frozenset({1}), 0),
    ("cgcut2-3", "cgcut", frozenset({2, 3}), None),
    ("gcut1, 2, 5, 6, 9, 10", "gcut", frozenset({1, 2, 5, 6, 9, 10}), 0),
    ("gcut3, 4, 7, 8, 11, 12", "gcut", frozenset({3, 4, 7, 8, 11, 12}), None),
)
SHOP_JOBS, SHOP_PARTS = 50, 30
SHEET = (2440.0, 1220.0, 2.2)  # length, width, kerf [mm]


def measures() -> Iterator[Measure]:
    """For each set: optima missed, proofs missed, seconds; the same for first fit or for rectpack's best setting."""
    if OPEN.is_dir():
        for name, misses in BARS:
            yield from _bars(name, misses)
        for title, name, numbers, misses in SHEETS:
            yield from _sheets(title, name, numbers, misses)
    yield from _shop()


def _read(kind: str, name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((OPEN / kind / f"{name}.json").read_text(encoding="utf-8"))
    return found


def _bars(name: str, misses: int | None) -> Iterator[Measure]:
    missed = unproven = first = 0
    times = []
    instances = _read("1d", name)
    for each in instances:
        counts = Counter(each["items"])
        parts = tuple(Length(float(length), n) for length, n in counts.items())
        question = BarQuestion(parts, (Bar(float(each["stock_length"])),))
        start = perf_counter()
        answer = cut_bars(question, SECONDS, rest=False)
        times.append(perf_counter() - start)
        missed += len(answer.bars) > each["best_bins"]
        unproven += not answer.cost.proven
        first += first_fit(each["items"], each["stock_length"]) > each["best_bins"]
    yield from _set(f"bars, {name}", len(instances), missed, misses, unproven, times)
    yield at_most(f"bars, {name}: missed by first fit", float(first), f"of {len(instances)}")


def _sheets(title: str, name: str, numbers: frozenset[int], misses: int | None) -> Iterator[Measure]:
    missed = unproven = rival = 0
    times = []
    for each in _read("2d", f"{name}_knapsack"):
        if int(each["name"].removeprefix(name)) not in numbers:
            continue
        length, width = map(float, each["sheet"])
        parts = tuple(Rectangle(float(x), float(y), n, float(value)) for x, y, n, value in each["items"])
        start = perf_counter()
        answer = best_sheet(SheetQuestion(parts, length, width), SECONDS)
        times.append(perf_counter() - start)
        missed += answer.value.reached < each["optimum"]
        unproven += not answer.value.proven
        rival += best_value(each["items"], length, width) < each["optimum"]
    yield from _set(f"sheet, {title}", len(times), missed, misses, unproven, times)
    yield at_most(f"sheet, {title}: missed by rectpack's best", float(rival), f"of {len(times)}")


def _set(
    title: str, count: int, missed: int, misses: int | None, unproven: int, times: list[float]
) -> Iterator[Measure]:
    yield at_most(f"{title}: optimum missed", float(missed), f"of {count}", misses)
    yield at_most(f"{title}: not proven", float(unproven), f"of {count}")
    yield at_most(f"{title}: median", share(times, 50), "s")
    yield at_most(f"{title}: worst", max(times), "s", None if misses is None else SECONDS + SLACK)


def shop_job(seed: int, count: int = SHOP_PARTS) -> list[tuple[float, float]]:
    """Rectangles as a shop cuts them, from drawer fronts to shelf boards. [mm]"""
    chance = random.Random(seed)
    return [(chance.randrange(1500, 12000) / 10, chance.randrange(800, 5000) / 10) for _ in range(count)]


def _shop() -> Iterator[Measure]:
    length, width, kerf = SHEET
    area = length * width
    smaller = fewer = more = unproven = 0
    gains: list[float] = []
    for seed in range(SHOP_JOBS):
        sizes = shop_job(seed)
        parts = tuple(Rectangle(*size) for size in sizes)
        answer = pack_all(PackQuestion(parts, (SheetKind(length, width),), kerf), SHOP_SECONDS)
        sheets, offcut = best_layout(sizes, length, width, kerf)
        unproven += not answer.cost.proven
        more += len(answer.sheets) > sheets
        fewer += len(answer.sheets) < sheets
        if len(answer.sheets) == sheets:
            gains.append(100 * (answer.offcut.reached - offcut) / area)
            smaller += answer.offcut.reached < offcut - 1e-6
    title = f"{SHOP_JOBS} shop jobs of {SHOP_PARTS} parts"
    yield at_most(f"{title}: more sheets than rectpack's best", float(more), "jobs", 0)
    yield at_most(f"{title}: fewer sheets than rectpack's best", float(fewer), "jobs")
    yield at_most(f"{title}: as many, smaller offcut", float(smaller), "jobs", 0)
    yield at_most(f"{title}: as many, mean gain", _mean(gains), "% of a sheet")
    yield at_most(f"{title}: fewest sheets not proven", float(unproven), "jobs")


def _mean(values: Sequence[float]) -> float:
    return sum(values) / max(1, len(values))
