"""The estimate itself: what uses up how much of a frame, and the loads at which the first of it is used up.

section, wall at the left      screw  ->|======== rib ========|     The frame turns about the back rail's lower
                                  y     |                     |     edge. Its own weight and the load turn it one
                    lower edge -> o-----+---------------------+     way, the pull of the screws the other.

How what turns about the wall reaches the studs: the shell twists by hardly anything, so load and weight come to the
ribs next to each stud, wherever they lie ("shell twisting"). Each rib presses the rail's lower edge to the wall and
pulls its upper part off it; the screw between two ribs holds that pull, which bends the rail sideways ("back rail
pulled off at a stud"). So nothing is carried by twisting the rail. The joint of rib and rail is not reckoned: no
published rule gives it.
"""

from __future__ import annotations

from math import inf
from typing import Final, Literal

import msgspec

from core.document.model import Rules
from core.stock.panel import PLYWOOD_DENSITY, PLYWOOD_GRAVITY, PLYWOOD_SHEAR, PLYWOOD_STIFFNESS, PLYWOOD_STRENGTH
from core.strength import european, imperial, statics

Place = Literal["spread", "front"]
Line = tuple[float, float]  # a, b of a + b times the load
Held = tuple[Line, float]  # what is asked of a screw, and what it holds

GRAVITY: Final = 9.80665  # m/s2
FACTOR: Final = 2.0  # kept back from what the design values allow, after own weight: common practice, it is halved
ARM: Final = 0.85  # of the screws' height: the edge it turns about crushes, and lies higher than it should
BEAM_SAG, END_SAG = 1.0 / 300.0, 1.0 / 150.0  # of the span, of the reach: EN 1995-1-1 table 7.2, from memory
CREEP: Final = 1.8  # what bends for good sags so much more: plywood indoors, k_def 0.8, from memory
PULLED: Final = 0.171  # of pull x span: the moment of a point load in one span of a beam over many supports
STRIP: Final = 100.0  # mm: what stands on the top need not use more of its depth
TOGETHER: Final = "screws, pull and shear together"
STEPS, CLOSE = 60, 1e-9  # of the search for what pull and shear together allow


class Case(msgspec.Struct, frozen=True):
    """All that the estimate reads of one shelf. Lengths mm, masses kg."""

    rules: Rules
    length: float  # of the shelf
    depth: float  # wall to front edge
    height: float  # of the shelf
    shell: float  # thickness of its sheet
    own: float  # mass of shell and frame
    own_reach: float  # its centre, from the wall
    rail: tuple[float, int, float]  # thickness of a back rail layer, layers, height
    rib: tuple[float, float]  # length and thickness
    ribs: tuple[float, ...]  # centre lines from the shelf's left end
    studs: tuple[float, ...]  # the same
    heights: tuple[float, ...]  # of a stud's screws above the rail's lower edge
    diameter: float
    thread: float  # in the stud
    board: float
    gravity: float

    @property
    def stud_share(self) -> float:
        """What the busiest stud holds of all that turns about the wall: a shaft that hands it to the nearest studs."""
        return statics.widest_share(self.studs, self.length)

    @property
    def weight_share(self) -> float:
        """What the busiest stud carries of all weight: an end that reaches far beyond the studs loads the last more."""
        return max(self.stud_share, statics.heaviest_share(self.studs, self.length))

    @property
    def rib_share(self) -> float:
        """What the busiest rib carries of all."""
        return statics.widest_share(self.ribs, self.length)

    def reach(self, place: Place) -> float:
        """How far from the wall a load stands. [mm]"""
        return self.depth / 2.0 if place == "spread" else self.depth


class Estimate(msgspec.Struct, frozen=True):
    """What it may carry, the factor taken off. [kg]"""

    governs: str
    spread: float
    front: float


def estimate(case: Case) -> Estimate:
    """What a shelf may carry spread over its depth and at its front edge, and what governs the first."""
    spread, governs = allowed(case, "spread")
    front, _ = allowed(case, "front")
    return Estimate(governs, spread, min(front, spread))


def allowed(case: Case, place: Place, over: float = 0.0) -> tuple[float, str]:
    """What it may carry at one place, and what governs. [kg]

    over: where one thing alone allows no more than this, that is the answer: no other is looked at.
    """
    loads, screws = _each_alone(case, place)
    governs = min(loads, key=loads.__getitem__)
    load = loads[governs]
    if load <= over:
        return load, governs
    both = _kilograms(_greatest_together(case.rules, *screws, load * GRAVITY * FACTOR))
    return (both, TOGETHER) if both < load else (load, governs)


def limits(case: Case, place: Place) -> dict[str, float]:
    """The load at which each thing is used up, the factor taken off, by its name in words. [kg]"""
    loads, screws = _each_alone(case, place)
    alone = min(loads["screw withdrawal"], loads["screw shear"])
    both = _greatest_together(case.rules, *screws, alone * GRAVITY * FACTOR)
    return {**loads, TOGETHER: _kilograms(both)}


def _each_alone(case: Case, place: Place) -> tuple[dict[str, float], tuple[Held, Held]]:
    """The load at which each thing by itself is used up [kg]; pull and shear of the busiest screw."""
    own, reach = case.own * GRAVITY, case.reach(place)
    pull, shear = capacities(case)
    top = statics.pulls(1.0, case.heights)[-1] / ARM * case.stud_share
    across = case.weight_share / len(case.heights)
    moment, weight = (own * case.own_reach, reach), (own, 1.0)
    pulled, sheared = _times(moment, top), _times(weight, across)
    loads = {
        "screw withdrawal": _greatest(pulled, pull),
        "screw shear": _greatest(sheared, shear),
        "back rail bending": _greatest(_times(weight, _rail_bending(case)), PLYWOOD_STRENGTH),
        "back rail pulled off at a stud": _greatest(_times(moment, _rail_pulled(case)), PLYWOOD_STRENGTH),
        "shell twisting": _greatest(_times(moment, _shell_twisting(case)), PLYWOOD_SHEAR),
        "rib bending": _greatest(_times(moment, _rib_bending(case)), PLYWOOD_STRENGTH),
        "rib sag": 1.0 / _rib_sag(case, place),
        f"sag of the {'top' if place == 'spread' else 'front'} between ribs": 1.0 / _panel_sag(case, place),
    }
    return {name: _kilograms(load) for name, load in loads.items()}, ((pulled, pull), (sheared, shear))


def _kilograms(load: float) -> float:
    """A load with the factor taken off. [N -> kg]"""
    return load / GRAVITY / FACTOR


def _times(line: Line, by: float) -> Line:
    return line[0] * by, line[1] * by


def _greatest(line: Line, most: float) -> float:
    """The greatest load under which a + b times it stays within `most`. [N]"""
    return max(0.0, (most - line[0]) / line[1])


def _greatest_together(rules: Rules, pulled: Held, sheared: Held, high: float) -> float:
    """The greatest load, at most `high`, under which pull and shear together use up no more than a screw. [N]"""
    ((a, b), pull), ((c, d), shear) = pulled, sheared

    def over(load: float) -> float:
        return together(rules, a + b * load, c + d * load, pull, shear) - 1.0

    if high <= 0.0:
        return 0.0
    low, under, above = 0.0, over(0.0), over(high)
    if under >= 0.0:
        return 0.0
    if above <= CLOSE:
        return high
    before = 0.0
    for _ in range(STEPS):  # false position: what is used up is nearly straight
        middle = low - under * (high - low) / (above - under)
        now = over(middle)
        if abs(now) < CLOSE:
            return middle
        if now < 0.0:
            low, under = middle, now
            above = above / 2.0 if before < 0.0 else above  # the other end stays a second time: come nearer to it
        else:
            high, above = middle, now
            under = under / 2.0 if before > 0.0 else under
        before = now
    return low


def capacities(case: Case) -> tuple[float, float]:
    """What one screw may carry in withdrawal and in shear. [N]"""
    thickness, layers, _ = case.rail
    side = thickness * layers
    if case.rules == "imperial":
        pull = imperial.withdrawal(case.gravity, case.diameter, case.thread)
        return pull, imperial.lateral((PLYWOOD_GRAVITY, case.gravity), case.diameter, side, case.thread, case.board)
    density, count = case.gravity * european.DENSITY_OF_GRAVITY, len(case.heights) * len(case.studs)
    pull = european.withdrawal(density, case.diameter, case.thread, count)
    return pull, european.lateral((PLYWOOD_DENSITY, density), case.diameter, side, case.thread, case.board)


def together(rules: Rules, pulled: float, sheared: float, pull: float, shear: float) -> float:
    """Share of a screw that pull and shear use up together, never less than either alone."""
    one, other = _part(pulled, pull), _part(sheared, shear)
    if rules == "european":
        return european.combined_use(one, other)
    whole = (pulled * pulled + sheared * sheared) ** 0.5
    return max(one, other, (pulled * one + sheared * other) / whole if whole else 0.0)


def _part(used: float, of: float) -> float:
    return used / of if of > 0.0 else inf


def _rail_bending(case: Case) -> float:
    """Stress in the back rail for 1 N of weight, between studs and beyond the last, layers not glued. [MPa/N]"""
    thickness, layers, height = case.rail
    span, beyond = _studless(case)
    bend = max(statics.span_moment(1.0, span), statics.overhang_moment(1.0, beyond))
    return bend / case.length / (layers * thickness * height**2 / 6.0)


def _rail_pulled(case: Case) -> float:
    """Stress in the back rail, bent sideways at the busiest stud, for 1 N mm about the wall. [MPa/N mm]

    The pull of that stud's highest screw, between the two ribs beside it; what a lower one pulls the wall presses
    back right below it. Layers not glued.
    """
    thickness, layers, height = case.rail
    pull = case.stud_share / (ARM * max(case.heights))
    bend = PULLED * pull * (statics.widest_round(case.ribs, case.studs) or case.length)
    return bend / (layers * height * thickness**2 / 6.0)


def _shell_twisting(case: Case) -> float:
    """Shear in the shell for 1 N mm about the wall: a thin channel, open at the back, T t / J. [MPa/N mm]

    Twisted between two studs by half of what lies between them, beyond the last by all that lies there.
    """
    span, beyond = _studless(case)
    twist = max(span / 2.0, beyond) / case.length
    return 3.0 * twist / ((2.0 * case.depth + case.height) * case.shell**2)


def _studless(case: Case) -> tuple[float, float]:
    """The widest way between studs, and beyond the last. [mm]"""
    return statics.widest_gap(case.studs), max(case.studs[0], case.length - case.studs[-1], 0.0)


def _rib_bending(case: Case) -> float:
    """Stress in the busiest rib for 1 N mm about the wall, all of it taken where the rib meets the rail. [MPa/N mm]"""
    return case.rib_share / (case.rib[1] * case.rail[2] ** 2 / 6.0)


def _rib_sag(case: Case, place: Place) -> float:
    """Share of its limit that a rib's end sags by for 1 N, reaching out from the rail to the shelf's front."""
    stiffness, part = PLYWOOD_STIFFNESS * case.rib[1] * case.rail[2] ** 3 / 12.0, case.rib_share * CREEP
    reach = case.depth - case.rail[0] * case.rail[1]
    if place == "spread":
        return statics.overhang_sag(part / reach, reach, stiffness) / (reach * END_SAG)
    return statics.tip_sag(part, reach, stiffness) / (reach * END_SAG)


def _panel_sag(case: Case, place: Place) -> float:
    """Share of its limit that 1 N makes the top sag by between two ribs, or the shell's front where it stands there."""
    gap = statics.widest_gap(case.ribs) or case.length
    section = min(case.depth, STRIP) * case.shell**3 if place == "spread" else case.shell * case.height**3
    sag = statics.span_sag(CREEP / case.length, gap, PLYWOOD_STIFFNESS * section / 12.0)
    return sag / (gap * BEAM_SAG)
