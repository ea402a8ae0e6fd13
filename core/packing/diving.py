"""Diving: round the relaxation a little, solve what is left again, and so down to whole numbers."""

from __future__ import annotations

import random

import msgspec
import numpy as np

from core.packing.clock import Clock
from core.packing.columns import Bounded, generate
from core.packing.cover import EPS, Cover, Pattern, Pricer
from core.packing.lp import Master, choose

SHUFFLE = 0.5  # how far apart two patterns' times may be for chance to choose between them
KEPT = 0.7  # of the patterns that come out whole, so many are fixed at once
WASTE = 2.0  # times a pattern must be used more, for all of its room wasted, to come first
REOPENED = 8  # patterns cut anew after a dive
FEW = 4_000  # patterns to choose from in that
NOISE = 0.02  # of a pattern's room: how far apart two patterns may be for chance to choose between them
MEND_SECONDS = 0.5


class _Dive:
    """What is fixed so far, and what is left."""

    def __init__(self, master: Master, goal: int) -> None:
        self.cover = master.cover
        self.left = list(self.cover.demand)
        self.limits = list(self.cover.limits)
        self.budget = goal
        self.fixed: list[Pattern] = []

    def fix(self, pattern: Pattern) -> bool:
        """Use a pattern once more, if what is left wants all of it."""
        limit = self.limits[pattern.stock]
        if limit == 0 or any(self.left[part] < times for part, times in pattern.counts):
            return False
        if limit is not None:
            self.limits[pattern.stock] = limit - 1
        for part, times in pattern.counts:
            self.left[part] -= times
        self.budget -= self.cover.costs[pattern.stock]
        self.fixed.append(pattern)
        return True

    def round(self, master: Master, state: Bounded, chance: random.Random) -> bool:
        """Fix whole parts of the relaxation, or else the pattern used most; False if nothing could be fixed."""
        done = False
        fractions = []
        for number in np.nonzero(state.times > EPS)[0]:
            times = float(state.times[number])
            for _ in range(int(times + EPS)):
                if chance.random() < KEPT:
                    done = self.fix(master.patterns[number]) or done
            pattern = master.patterns[number]
            share = self.cover.waste(pattern) / self.cover.rooms[pattern.stock]
            fractions.append((times + SHUFFLE * chance.random() - WASTE * share, number))
        if done:
            return True
        return any(self.fix(master.patterns[number]) for _, number in sorted(fractions, reverse=True))


def dive(
    master: Master, pricer: Pricer, root: Bounded, goal: int, chance: random.Random, clock: Clock
) -> list[Pattern]:
    """A choice of patterns meant to cost at most `goal`; it cuts only a part of the demand where the dive failed.

    root: the relaxation of the whole.
    """
    state, descent = root, _Dive(master, goal)
    while descent.round(master, state, chance) and any(descent.left) and not clock.over():
        master.restrict(descent.left, descent.limits)
        state = generate(master, pricer, descent.left, descent.limits, clock, descent.budget)
        if state.cost is None or state.cost > descent.budget + EPS:
            break
    return descent.fixed


class Mender:
    """Takes up the emptiest patterns of a failed dive again and cuts what they held and what was missing anew."""

    def __init__(self, cover: Cover, pricer: Pricer, chance: random.Random, clock: Clock) -> None:
        self.cover, self.pricer, self.chance, self.clock = cover, pricer, chance, clock
        self.reopened = REOPENED

    def __call__(self, fixed: list[Pattern], goal: int) -> list[Pattern] | None:
        """A choice that costs at most `goal`, or None."""
        cover = self.cover
        kept = sorted(fixed, key=lambda p: cover.waste(p) / cover.rooms[p.stock] + NOISE * self.chance.random())
        budget = goal - sum(cover.costs[p.stock] for p in kept)
        share = goal / max(1, len(kept))
        while kept and budget < self.reopened * share:
            budget += cover.costs[kept.pop().stock]
        left = cover.missing(kept)
        limits = [
            None if limit is None else limit - sum(p.stock == stock for p in kept)
            for stock, limit in enumerate(cover.limits)
        ]
        rest = msgspec.structs.replace(cover, demand=tuple(left), limits=tuple(limits))
        patterns = self.pricer.every(left, FEW, self.clock.part(MEND_SECONDS))
        if patterns is None:
            self.reopened = max(3, self.reopened - 1)
            return None
        choice = choose(rest, patterns, 0, budget, self.clock.part(MEND_SECONDS), exactly=False)
        return None if choice.patterns is None else [*kept, *choice.patterns]
