"""Killed at random moments of editing and saving: the file always opens, and at most 10 s of work are lost.

In the run all times are made shorter by one factor; --long has the real ones too.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from time import monotonic, sleep

import pytest

from app.safe.keeper import AFTER_MS
from app.safe.places import Claim, lock_beside, read_rescue, rescue_beside
from core.document.load import load_project
from core.document.model import Project, Sheet, Shelf
from core.document.save import save_project
from tests.conftest import examples
from tests.safe.kill_child import content

ROOT = Path(__file__).parents[2]
PROMISE_S = 10.0
SHORT_MS = 45  # stands for AFTER_MS
PATIENCE_S = 20.0  # for a child to begin, on a busy machine

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="children are forked")

Begin = Callable[[Path, int, int], int]
Line = tuple[float, str, float]


@pytest.fixture(scope="module")
def begin(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Begin]:
    """Begin a process that edits a file; returns its number."""
    first = tmp_path_factory.mktemp("first") / "hall.grainfold"
    save_project(project(), first)
    command = [sys.executable, "-m", "tests.safe.kill_child", str(first)]
    surroundings = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    with subprocess.Popen(
        command, cwd=ROOT, env=surroundings, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as server:
        assert server.stdin is not None
        assert server.stdout is not None
        assert server.stdout.readline() == "ready\n"
        to, back = server.stdin, server.stdout

        def one(file: Path, seed: int, after_ms: int) -> int:
            print(file, seed, after_ms, file=to, flush=True)
            return int(back.readline())

        yield one
        server.stdin.close()


def project() -> Project:
    return Project((Sheet("A", 2440.0, 1220.0),), (Shelf("ledge", 900.0, 200.0, 80.0),), name="Hall", units="mm")


def read_log(file: Path) -> list[Line]:
    """What the child wrote down; a line it was killed in is left out."""
    try:
        lines = Path(f"{file}.log").read_text().split("\n")[:-1]
    except FileNotFoundError:
        return []
    parts = (line.split() for line in lines)
    return [(float(at), kind, float(what)) for at, kind, what in parts]


def kill_after(file: Path, child: int, seconds: float) -> float:
    """Kill the child so long after its first edit; returns when."""
    began = monotonic()
    while not read_log(file) and monotonic() < began + PATIENCE_S:
        sleep(0.01)
    sleep(seconds)
    at = monotonic()
    os.kill(child, signal.SIGKILL)
    while alive(child) and monotonic() < at + PATIENCE_S:
        sleep(0.005)
    return at


def alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True


def stalls(log: list[Line]) -> float:
    """How long the child could do nothing, or waited for the disk, at the worst: that is the machine's doing."""
    gaps = [b[0] - a[0] for a, b in pairwise(log)]
    writes, since = [0.0], None
    for at, kind, _ in log:
        if kind == "begin" and since is None:
            since = at
        elif kind == "end" and since is not None:
            writes.append(at - since)
            since = None
    return max(gaps, default=0.0) + max(writes)


def check(file: Path, killed: float, after_ms: int) -> bool:
    """The law; returns whether there was unsaved work to recover."""
    saved = content(load_project(file))  # the file always opens
    beside = rescue_beside(file)
    rescue = read_rescue(beside)
    assert (rescue is not None) == beside.exists()  # what is there can be read
    found = content(rescue.project) if rescue is not None else saved
    log = read_log(file)
    states = [(at, what) for at, kind, what in log if kind == "edit"]
    ends = [at for at, _ in states[1:]] + [killed]
    last = max((end for (_, what), end in zip(states, ends, strict=True) if what == found), default=None)
    assert last is not None, "what was recovered is something that was there"
    assert killed - last <= PROMISE_S * after_ms / AFTER_MS + 2.0 * stalls([*log, (killed, "killed", 0.0)])
    claim = Claim(lock_beside(file))
    assert claim.held  # nobody has it open any more
    claim.let_go()
    return rescue is not None


def test_killed_at_random_moments(begin: Begin, tmp_path: Path) -> None:
    chance = random.Random(7)
    recovered = 0
    for n in range(examples(20, 200)):
        file = tmp_path / f"hall {n}.grainfold"
        save_project(project(), file)
        child = begin(file, n, SHORT_MS)
        killed = kill_after(file, child, chance.uniform(0.0, 0.5))
        recovered += check(file, killed, SHORT_MS)
    assert recovered  # or the test would prove nothing of the rescue


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(5))
def test_killed_with_the_times_a_maker_has(begin: Begin, tmp_path: Path, seed: int) -> None:
    file = tmp_path / "hall.grainfold"
    save_project(project(), file)
    child = begin(file, seed, AFTER_MS)
    killed = kill_after(file, child, random.Random(seed).uniform(4.0, 14.0))
    check(file, killed, AFTER_MS)
