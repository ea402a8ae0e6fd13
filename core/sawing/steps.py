"""When a cut is made: stages, and in each stage turns, one for each way the guide can lie.

    stage      what is cut                                  turns
    TRIM       the sheet's own edges                        datum edge, datum end, lower edge, far end
    PART       square, round nets and between them          rips, then crosscuts, each with the guide low, then high
    RIP        bevels along the grain                       the guide on the first side, then flipped
    CROSSCUT   bevels across the grain                      the guide on the first side, then flipped
    SQUARE_UP  what is square between panels                crosscuts, the guide first where it lies; rips
    STRIP      rests into strips for the frame              first the edges that bevels left, then the strips
    STICK      strips into sticks                           first the ends that bevels left, then the sticks

All turns of a stage are gone through, and gone through again as long as something needs it. So the blade is tilted
twice, and within a stage of bevels the guide is flipped once: each V has one cut in either turn.
"""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from core.document.model import Saw
from core.sawing.guide import guide_side
from core.sawing.piece import Axis, Keep

TRIM, PART, RIP, CROSSCUT, SQUARE_UP, STRIP, STICK = range(7)  # stages
TURNS = 1000  # more than any stage has; a step is its stage's number times this, and its turn

OTHER: Mapping[Keep, Keep] = {"low": "high", "high": "low"}
Lie = tuple[Axis, Keep]  # how the guide lies: 'y' along a rip, 'x' along a crosscut, and on which side of it


class Guides(msgspec.Struct, frozen=True, gc=False):
    """What of a saw, and of all sheets of a job, the order of cuts depends on.

    kept: does the guide of a bevel cut lie on the part that is kept?
    rip, crosscut: the side it lies on first while bevels are ripped, and while they are crosscut. Default: on the wide
        piece that holds the datum edge (the upper one); for crosscuts on the body and the far end, left ends first.
    """

    kept: bool = True
    rip: Keep = "high"
    crosscut: Keep = "high"


def guides_of(saw: Saw) -> Guides:
    """The guides of a saw, each on its usual first side."""
    return Guides(guide_side(saw, 45.0, "low") == "low")


class Steps:
    """The turns of every stage for one saw."""

    def __init__(self, guides: Guides) -> None:
        self.kept = guides.kept
        rip, across = guides.rip, guides.crosscut
        rips: tuple[Lie, ...] = (("y", rip), ("y", OTHER[rip]))
        crosscuts: tuple[Lie, ...] = (("x", across), ("x", OTHER[across]))
        low_first: tuple[Lie, ...] = (("y", "low"), ("y", "high"), ("x", "low"), ("x", "high"))
        cycles: dict[int, tuple[Lie, ...]] = {
            PART: low_first,
            RIP: rips + crosscuts,
            CROSSCUT: crosscuts + rips,
            SQUARE_UP: (("x", OTHER[across]), ("x", across), ("y", "low"), ("y", "high")),
        }
        self.shared: Keep = OTHER[across]  # the side a square crosscut between two panels counts as keeping
        self._turns = {stage: {lie: turn for turn, lie in enumerate(cycle)} for stage, cycle in cycles.items()}
        # the side of a V that is cut first, as the side a cut there keeps
        self.first: dict[Axis, Keep] = {"y": self.guide(1.0, rip), "x": self.guide(1.0, across)}

    def guide(self, bevel: float, keep: Keep) -> Keep:
        """The side the guide lies on for a cut that keeps `keep`, or the other way round."""
        return keep if self.kept or not bevel else OTHER[keep]

    def step(self, now: int, stage: int, lie: Lie) -> int:
        """The first step from `now` on at which the guide lies so, in that stage or a later one `now` is in."""
        start = stage * TURNS
        if now <= start:
            return start + self._turns[stage][lie]
        if now >= start + TURNS:
            stage = now // TURNS
            start = stage * TURNS
        turn = now - start
        cycle = self._turns[stage]
        return now + (cycle[lie] - turn) % len(cycle)


STEPS = Steps(Guides())
