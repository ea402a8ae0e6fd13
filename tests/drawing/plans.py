"""Plans to draw: a hallway in inches, an alcove in millimetres, one that cannot fit."""

from __future__ import annotations

from functools import cache

from core.document.model import Mount, Project, Saw, Sheet, Shelf
from core.plan.make import make_plan
from core.plan.model import Plan

INCH = 25.4


def hallway(**changes: object) -> Project:
    """Three unlike shelves on one sheet, in inches."""
    values: dict[str, object] = {
        "name": "Hallway ledges",
        "units": "in",
        "sheets": (Sheet("A", 96 * INCH, 48 * INCH, 0.717 * INCH, trim=0.25 * INCH),),
        "shelves": (
            Shelf("ledge", 52 * INCH, 7.5 * INCH, 2.5 * INCH, mount=Mount(300, 1400)),
            Shelf("short", 31.5 * INCH, 8.5 * INCH, 2.75 * INCH, right="open", mount=Mount(300, 1800)),
            Shelf("nook", 24 * INCH, 7.5 * INCH, 2.5 * INCH, ends_from="top"),
        ),
    }
    return Project(**(values | changes))  # type: ignore[arg-type]


def too_long() -> Project:
    """A shelf whose net is longer than its sheet."""
    return hallway(shelves=(Shelf("ledge", 96 * INCH, 7.5 * INCH, 2.5 * INCH),))


def golden_inch() -> Project:
    """60 x 10 x 2-1/2, 0.719 ply, kerf 1/8, clean-up 1/32, bevel 45."""
    return Project(
        name="Golden",
        units="in",
        saw=Saw(kerf=INCH / 8, overcut=0.0, allowance=INCH / 32),
        sheets=(Sheet("A", 96 * INCH, 48 * INCH, 0.719 * INCH, trim=0.25 * INCH),),
        shelves=(Shelf("one", 60 * INCH, 10 * INCH, 2.5 * INCH),),
    )


def many(count: int) -> Project:
    """Many shelves of unlike lengths."""
    shelves = tuple(Shelf(f"s{i}", 500.0 + 3.7 * i, 180.0 + i % 5, 64.0) for i in range(count))
    return hallway(shelves=shelves, sheets=(Sheet("A", 2440.0, 1220.0, quantity=count),))


@cache
def plan_of(name: str) -> Plan:
    """The plan of one of the projects above, made once."""
    projects = {"hallway": hallway, "too long": too_long, "golden": golden_inch}
    return make_plan(projects[name]())
