"""The program as a whole: start, memory, export; each in a fresh process."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from statistics import median

from tests.bench.child import STARTED
from tests.bench.measure import Measure, at_most
from tests.bench.places import FIRST_DEMO, HOME

RUNS = 5


def measures() -> Iterator[Measure]:
    """Cold start to the first painted window, its memory, and the PDF of the three-shelf demo."""
    starts = [_child("window") for _ in range(RUNS)]
    yield at_most("start to first painted window", median(s["seconds"] for s in starts), "s", 1.2)
    yield at_most("memory of the window at its start", max(s["peak"] for s in starts), "MB", 400.0)
    papers = [_child("paper") for _ in range(3)]
    yield at_most("PDF of three shelves, after start", median(p["seconds"] for p in papers), "s", 0.5)
    large = _child("hundred")
    yield at_most("PDF of 100 shelves, after they are planned", large["seconds"], "s", 5.0)
    yield at_most("its first page", large["first"] * 1000.0, "ms", 100.0)
    yield at_most("memory of it", large["peak"], "MB", 500.0)
    start = time.perf_counter()
    subprocess.run([sys.executable, "-m", "app", "--version"], cwd=HOME, check=True, capture_output=True)
    yield at_most("command line, version", time.perf_counter() - start, "s", 0.5)


def _child(what: str) -> dict[str, float]:
    started = os.environ | {STARTED: repr(time.time())}
    command = [sys.executable, "-m", "tests.bench.child", what, str(FIRST_DEMO)]
    done = subprocess.run(command, cwd=HOME, env=started, check=True, capture_output=True, text=True)
    result: dict[str, float] = json.loads(done.stdout.splitlines()[-1])
    return result
