"""How often the saw is set up anew while a list of cuts is made.

A set-up is a run of consecutive cuts of one tilt, one kind (rip or crosscut) and one guide side. Between two set-ups
the blade is tilted anew, or the guide is laid along another axis, or it is flipped: it comes to lie on the other side
of the cut (on a table saw the piece is turned end for end). Between a rip and a crosscut the guide is laid anew
anyway, which is no flip.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Protocol

from core.document.model import Saw
from core.sawing.guide import guide_side
from core.sawing.piece import Keep

Setup = tuple[float, str, Keep]  # tilt [deg], kind, the side that the guide lies on


class SetupCut(Protocol):
    """What a cut must say for its set-up to be known."""

    @property
    def kind(self) -> str: ...
    @property
    def bevel(self) -> float: ...
    @property
    def keep(self) -> Keep: ...


def setup_of(cut: SetupCut, saw: Saw) -> Setup:
    """The set-up a cut needs."""
    return (cut.bevel, cut.kind, guide_side(saw, cut.bevel, cut.keep))


def setup_numbers(cuts: Iterable[SetupCut], saw: Saw) -> tuple[int, ...]:
    """The number of each cut's set-up, counted from 1 in the order of the list."""
    numbers: list[int] = []
    last: Setup | None = None
    for cut in cuts:
        this = setup_of(cut, saw)
        numbers.append((numbers[-1] if numbers else 0) + (this != last))
        last = this
    return tuple(numbers)


def tilt_changes(cuts: Sequence[SetupCut]) -> int:
    """How often the blade is tilted anew, from the first cut's tilt on."""
    return sum(a.bevel != b.bevel for a, b in pairwise(cuts))


def flips(cuts: Iterable[SetupCut], saw: Saw) -> int:
    """How often the guide changes sides between two cuts of one kind."""
    setups = (setup_of(cut, saw) for cut in cuts)
    return sum(a[1] == b[1] and a[2] != b[2] for a, b in pairwise(setups))
