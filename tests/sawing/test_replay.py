"""The replay refuses cut lists that cannot be sawn as written: each fault put into a sound plan is found."""

from collections.abc import Callable

import msgspec
import pytest

from core.document.model import Project, Sheet, Shelf
from core.plan.make import make_plan
from core.plan.model import Cut, Plan
from core.plan.proof import prove
from core.sawing.replay import ReplayError

PLAN = make_plan(Project((Sheet("A", 2440.0, 1220.0),), (Shelf("s", 900.0, 200.0, 80.0),)))

replace = msgspec.structs.replace


def with_cut(change: Callable[[Cut], Cut], at: int) -> Plan:
    cuts = list(PLAN.cuts)
    cuts[at] = change(cuts[at])
    return replace(PLAN, cuts=tuple(cuts))


BEVELLED = next(i for i, c in enumerate(PLAN.cuts) if c.bevel)
FAULTS: dict[str, tuple[Plan, str]] = {
    "a piece that is not there": (with_cut(lambda c: replace(c, piece="A1.999"), 5), "there is no piece"),
    "a cut made twice": (replace(PLAN, cuts=(*PLAN.cuts[:3], PLAN.cuts[2], *PLAN.cuts[3:])), "there is no piece"),
    "a wrong place": (with_cut(lambda c: replace(c, at=c.at + 0.01), BEVELLED), "lies at|inside face|not sawn|sheet"),
    "the wrong side kept": (
        with_cut(lambda c: replace(c, keep="low" if c.keep == "high" else "high"), BEVELLED),
        "lies at|inside face|not sawn|no wood|wood is left|square",
    ),
    "a square cut for a bevel": (with_cut(lambda c: replace(c, bevel=0.0), BEVELLED), "lies at|inside|not sawn|wood"),
    "a side said to be empty": (with_cut(lambda c: replace(c, makes=(None, c.makes[1])), 4), "wood is left|no piece"),
    "a name used again": (with_cut(lambda c: replace(c, makes=("A1.1", c.makes[1])), 4), "exists already|no piece"),
    "a piece the plan forgot": (replace(PLAN, offcuts=PLAN.offcuts[1:]), "does not know"),
    "a promised piece": (
        replace(PLAN, panels=(replace(PLAN.panels[0], piece="A1.777"), *PLAN.panels[1:])),
        "does not know|no cut makes it",
    ),
    "a piece used twice": (
        replace(PLAN, panels=(replace(PLAN.panels[0], piece=PLAN.panels[1].piece), *PLAN.panels[1:])),
        "used twice",
    ),
    "an offcut that is not square through": (
        replace(PLAN, offcuts=(replace(PLAN.offcuts[0], length=PLAN.offcuts[0].length + 1), *PLAN.offcuts[1:])),
        "square through",
    ),
}


def test_the_sound_plan_is_proved() -> None:
    assert len(prove(PLAN).pieces) > len(PLAN.panels)


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_found(fault: str) -> None:
    plan, said = FAULTS[fault]
    with pytest.raises(ReplayError, match=said):
        prove(plan)
