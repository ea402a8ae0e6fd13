"""How many objects plans leave behind, in a process of its own: `python -m tests.plan.memory`."""

from __future__ import annotations

import gc

import msgspec

from core.document.load import load_project
from core.plan.make import make_plan
from tests.plan.test_demos import DEMOS

RUN = 60  # plans: more than are remembered


def _plan_many(start: int) -> int:
    """Plan a run of projects, no two alike; returns how many objects the collector then knows."""
    project = load_project(next(path for path in DEMOS if path.stem == "reading-corner"))
    layout = make_plan(project).layout
    first = project.shelves[0]
    for n in range(start, start + RUN):
        shelf = msgspec.structs.replace(first, length=first.length - 0.01 * n)
        make_plan(msgspec.structs.replace(project, shelves=(shelf, *project.shelves[1:])), layout)
    gc.collect()
    return len(gc.get_objects())


def left_behind() -> float:
    """Objects each plan leaves, once what is remembered is full."""
    _plan_many(0)
    before = _plan_many(RUN)
    return (_plan_many(2 * RUN) - before) / RUN


if __name__ == "__main__":
    print(left_behind())
