"""Set-ups, tilt changes and flips of short lists, counted by hand."""

from typing import NamedTuple

import pytest

from core.document.model import Saw
from core.sawing.piece import Keep
from core.sawing.setups import flips, setup_numbers, tilt_changes


class Asked(NamedTuple):
    kind: str
    bevel: float
    keep: Keep


RIP_LOW, RIP_HIGH = Asked("rip", 0.0, "low"), Asked("rip", 0.0, "high")
ACROSS_LOW, ACROSS_HIGH = Asked("crosscut", 0.0, "low"), Asked("crosscut", 0.0, "high")
MITRE_LOW, MITRE_HIGH = Asked("rip", 45.5, "low"), Asked("rip", 45.5, "high")

# cuts, numbers of their set-ups, tilt changes, flips: foot of the blade under the guide, show face up
COUNTED = (
    ((), (), 0, 0),
    ((RIP_LOW, RIP_LOW), (1, 1), 0, 0),
    ((RIP_LOW, RIP_HIGH), (1, 2), 0, 1),
    ((RIP_LOW, ACROSS_HIGH, RIP_HIGH), (1, 2, 3), 0, 0),  # laid anew each time, never flipped
    ((MITRE_HIGH, MITRE_LOW, MITRE_HIGH), (1, 2, 3), 0, 2),
    ((RIP_HIGH, MITRE_HIGH, MITRE_LOW, ACROSS_LOW), (1, 2, 3, 4), 2, 1),
)


@pytest.mark.parametrize(("cuts", "numbers", "tilts", "turns"), COUNTED)
def test_counted_by_hand(cuts: tuple[Asked, ...], numbers: tuple[int, ...], tilts: int, turns: int) -> None:
    saw = Saw(lean="under", face="up")
    assert setup_numbers(cuts, saw) == numbers
    assert (tilt_changes(cuts), flips(cuts, saw)) == (tilts, turns)


def test_a_blade_that_leans_away_puts_the_guide_of_a_bevel_on_the_other_side() -> None:
    """A square cut is guided on the kept part whatever the lean, so the bevel after it is a flip."""
    cuts = (RIP_LOW, MITRE_LOW)
    assert flips(cuts, Saw(lean="under")) == 0
    assert flips(cuts, Saw(lean="away")) == 1
    assert flips(cuts, Saw(lean="away", face="down")) == 0
