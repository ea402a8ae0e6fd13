"""The frame as beams: the load estimate's statics against a general finite element library, on random frames.

Every frame is one that a plan has: its rail, ribs and studs are built, then each part is solved by the library as
beams, bars and springs, and compared with what `core.strength` reckons by formula.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

import numpy as np
import pytest
from anastruct import SystemElements

from core.document.model import FrameWish, Mount, Project, Screw, Sheet, Shelf, Studs, Wall
from core.plan.make import best_plan
from core.stock.panel import PLYWOOD_STIFFNESS
from core.strength import estimate, statics
from core.strength.estimate import Case
from core.strength.load import case_of

FRAMES = 24
CLOSE = 0.01
STIFF = 1e12  # a beam that does not bend, beside springs of 1
PARTS = 12  # elements of a beam


@lru_cache(FRAMES)
def frame(seed: int) -> Case:
    """A random shelf on a random wall, as the estimate reads it; with two studs at least."""
    draw = np.random.default_rng(seed)
    while True:
        length, depth, height = (float(draw.uniform(*room)) for room in ((600, 2200), (150, 320), (64, 110)))
        wall = Wall(width=3600.0, studs=Studs(float(draw.uniform(0, 600)), float(draw.choice((400.0, 406.4, 600.0)))))
        project = Project(
            (Sheet("A", 2800.0, 1500.0, float(draw.uniform(15, 21)), quantity=4),),
            (Shelf("ledge", length, depth, height, mount=Mount(float(draw.uniform(0, 1200)), 1400.0)),),
            frame=FrameWish(spacing=float(draw.uniform(180, 320)), back_layers=int(draw.integers(1, 3))),
            wall=wall,
            screw=Screw(per_stud=int(draw.integers(1, 4))),
        )
        plan = best_plan(project)
        if plan.frames and len(plan.frames[0].studs) > 1:
            return case_of(project, project.shelves[0], project.sheets[0].thickness, plan.frames[0])


def beam(places: list[float], stiffness: float, load: float = 0.0) -> SystemElements:
    """A beam through places along x, evenly loaded downwards; node 1 is at the first. [mm, N mm2, N/mm]"""
    system = SystemElements(EA=STIFF, EI=stiffness)
    for a, b in pairwise(places):
        number = system.add_element([[a, 0.0], [b, 0.0]])
        if load:
            system.q_load(q=-load, element_id=number)
    return system


def moments(system: SystemElements) -> float:
    """The greatest moment anywhere at an element's end."""
    return max(max(abs(e["Mmin"]), abs(e["Mmax"])) for e in system.get_element_results())


def sags(system: SystemElements) -> float:
    return max(abs(node["uy"]) for node in system.get_node_displacements())


def even(length: float) -> list[float]:
    return [float(x) for x in np.linspace(0.0, length, PARTS + 1)]


@pytest.fixture(params=range(FRAMES))
def case(request: pytest.FixtureRequest) -> Case:
    return frame(request.param)


def test_pull_on_the_screws(case: Case) -> None:
    """A stiff upright that turns about its lower edge, held by a spring at each screw."""
    system = SystemElements(EA=STIFF, EI=STIFF)
    for a, b in pairwise((0.0, *case.heights)):
        system.add_element([[0.0, a], [0.0, b]])
    system.add_support_hinged(1)
    for n in range(len(case.heights)):
        system.add_support_spring(n + 2, translation=1, k=1.0)
    system.moment_load(1, 1000.0)
    system.solve()
    found = [abs(system.get_node_displacements(n + 2)["ux"]) for n in range(len(case.heights))]
    assert statics.pulls(1000.0, case.heights) == pytest.approx(found, rel=CLOSE)


def test_weight_on_the_studs(case: Case) -> None:
    """A stiff beam on a spring at each stud, 1 N spread over the shelf's length."""
    places = [0.0, *case.studs, case.length]
    system = beam(places, STIFF, 1.0 / case.length)
    system.add_support_roll(1, "y")  # keeps it from sliding sideways
    for n in range(len(case.studs)):
        system.add_support_spring(n + 2, translation=2, k=1.0)
    system.solve()
    found = [abs(system.get_node_displacements(n + 2)["uy"]) for n in range(len(case.studs))]
    assert sum(found) == pytest.approx(1.0, rel=CLOSE)
    assert statics.heaviest_share(case.studs, case.length) == pytest.approx(max(found), rel=CLOSE)
    assert case.weight_share >= max(found) * (1.0 - CLOSE)


def test_turning_about_the_wall_on_the_studs(case: Case) -> None:
    """A shaft held at each stud: a bar loaded along itself obeys the same equation."""
    places = [0.0, *case.studs, case.length]
    system = SystemElements(EA=1e6, EI=1e6)
    for a, b in pairwise(places):
        number = system.add_element([[a, 0.0], [b, 0.0]])
        system.q_load(q=1.0 / case.length, element_id=number, direction="parallel")
    for n in range(len(case.studs)):
        system.add_support_fixed(n + 2)
    system.solve()
    found = [abs(system.get_node_results_system(n + 2)["Fx"]) for n in range(len(case.studs))]
    assert sum(found) == pytest.approx(1.0, rel=CLOSE)
    assert case.stud_share == pytest.approx(max(found), rel=CLOSE)


def test_bending_of_the_back_rail(case: Case) -> None:
    """Between the two studs that are farthest apart, and beyond the last, 1 N over the whole length."""
    thickness, layers, height = case.rail
    span, beyond = estimate._studless(case)
    load, stiffness = 1.0 / case.length, PLYWOOD_STIFFNESS * layers * thickness * height**3 / 12.0
    between = beam(even(span), stiffness, load)
    between.add_support_hinged(1)
    between.add_support_roll(PARTS + 1)
    out = beam(even(beyond), stiffness, load)
    out.add_support_fixed(1)
    for system in (between, out):
        system.solve()
    ends = [abs(between.get_node_results_system(n)["Fy"]) for n in (1, PARTS + 1)]
    assert ends == pytest.approx([load * span / 2.0] * 2, rel=CLOSE)
    assert abs(out.get_node_results_system(1)["Fy"]) == pytest.approx(load * beyond, rel=CLOSE)
    stress = max(moments(between), moments(out)) / (layers * thickness * height**2 / 6.0)
    assert estimate._rail_bending(case) == pytest.approx(stress, rel=CLOSE)


@pytest.mark.parametrize("place", ["spread", "front"])
def test_sag_of_a_rib(case: Case, place: estimate.Place) -> None:
    """A cantilever from the rail to the shelf's front, its share of 1 N spread along it or at its end."""
    reach = case.depth - case.rail[0] * case.rail[1]
    stiffness = PLYWOOD_STIFFNESS * case.rib[1] * case.rail[2] ** 3 / 12.0
    part = case.rib_share * estimate.CREEP
    system = beam(even(reach), stiffness, part / reach if place == "spread" else 0.0)
    system.add_support_fixed(1)
    if place == "front":
        system.point_load(PARTS + 1, Fy=-part)
    system.solve()
    assert estimate._rib_sag(case, place) == pytest.approx(sags(system) / (reach * estimate.END_SAG), rel=CLOSE)


@pytest.mark.parametrize("place", ["spread", "front"])
def test_sag_between_ribs(case: Case, place: estimate.Place) -> None:
    """A strip of the top, or the shell's front, between the two ribs that are farthest apart."""
    gap = max(b - a for a, b in pairwise(case.ribs))
    strip = min(case.depth, estimate.STRIP)
    section = strip * case.shell**3 if place == "spread" else case.shell * case.height**3
    system = beam(even(gap), PLYWOOD_STIFFNESS * section / 12.0, estimate.CREEP / case.length)
    system.add_support_hinged(1)
    system.add_support_roll(PARTS + 1)
    system.solve()
    assert estimate._panel_sag(case, place) == pytest.approx(sags(system) / (gap * estimate.BEAM_SAG), rel=CLOSE)


def test_a_rail_pulled_off_in_one_of_many_spans() -> None:
    """1 N in the middle of one span of eleven, each 100 mm: the moment there, as a share of pull and span."""
    places = [100.0 * n for n in range(12)]
    places.insert(6, 550.0)
    system = beam(places, 1e6)
    system.point_load(7, Fy=-1.0)
    system.add_support_hinged(1)
    for node, x in enumerate(places[1:], 2):
        if x != 550.0:
            system.add_support_roll(node)
    system.solve()
    assert moments(system) / 100.0 == pytest.approx(estimate.PULLED, rel=CLOSE)


def test_the_pull_on_a_rail_is_never_reckoned_too_low(case: Case) -> None:
    """The same on the ribs that the frame has, at every stud: the widest gap with the pull in its middle is worst."""
    thickness, layers, height = case.rail
    pull = case.stud_share / (estimate.ARM * max(case.heights))
    worst = 0.0
    ribs = sorted({round(x, 6) for x in case.ribs})
    for stud in case.studs:
        places = sorted({*ribs, stud})
        system = beam(places, 1e9)
        system.point_load(places.index(stud) + 1, Fy=-pull)
        for node, x in enumerate(places, 1):
            if x != stud:
                system.add_support_hinged(node) if node == 1 else system.add_support_roll(node)
        system.solve()
        worst = max(worst, moments(system))
    stress = worst / (layers * height * thickness**2 / 6.0)
    assert estimate._rail_pulled(case) >= stress * (1.0 - CLOSE)
