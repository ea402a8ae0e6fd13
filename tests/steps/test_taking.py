"""A maker finds each cut's wood by the cards alone: it lies at the saw, or is taken up by the name it was put by with.

Basis: reading the cards of two jobs cold, with a log of the pieces; nothing but what stands on them was known.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from pathlib import Path

import pytest

from core.document.load import load_project
from core.plan.make import make_plan
from core.plan.model import Plan
from core.steps.bench import TRIM
from core.steps.cards import NEW_NUMBER, STAYS, cards_of
from core.steps.contents import ONE
from core.steps.lying import day_of
from core.steps.steps import steps_of
from core.steps.words import step_words

DEMOS = Path(__file__).parents[2] / "demo_projects"


@lru_cache(maxsize=2)
def planned(name: str) -> Plan:
    return make_plan(load_project(DEMOS / f"{name}.grainfold"))


JOBS = pytest.mark.parametrize("name", ["pantry-offcut", "stove-alcove"])  # a table saw's, a guided saw's


@JOBS
def test_what_is_sawn_lies_at_the_saw_or_is_taken_by_its_name(name: str) -> None:
    plan = planned(name)
    cuts, named, at_the_saw = {cut.n: cut for cut in plan.cuts}, dict[str, str](), set[str]()
    for step in steps_of(plan):
        mine = [cuts[n] for n in step.cuts]
        for cut, told in zip(mine, step.take or [""] * len(mine), strict=True):
            assert cut.piece in at_the_saw | {cut.sheet} or told == named[cut.piece], step.number
        put_by = {fall.piece: fall.words.removesuffix(ONE) for fall in step.falls}
        at_the_saw = {made for cut in mine for made in cut.makes if made}
        named |= put_by


@JOBS
def test_a_card_says_which_wood_is_taken_and_whether_its_number_is_new(name: str) -> None:
    plan = planned(name)
    steps = {step.number: step for step in steps_of(plan)}
    for before, card in pairwise(cards_of(plan)):
        step = steps[card.number]
        if step.take and card.times == 1:
            assert card.changes[0].startswith("Take "), card.number
            assert all(wood.partition(" of ")[0] in card.changes[0] for wood in step.take), card.number
        if not step.moves:
            assert card.changes[-1] == (STAYS if card.setting == before.setting else NEW_NUMBER), card.number


def test_the_edge_that_is_below_goes_against_the_sleds_fence() -> None:
    """Its fence is towards the maker, and he feeds upwards: once the sheet is turned its upper edge is below."""
    plan = planned("pantry-offcut")
    told = []
    for bench in day_of(plan).benches:
        step = bench.step
        if step.about == TRIM and step.kind == "crosscut":
            says = " ".join(step_words(plan, step).do)
            assert ("The trued edge goes against" in says) == bench.turn.y, step.number
            assert ("below in the picture" in says) == (not bench.turn.y), step.number
            told.append(bench.turn.y)
    assert sorted(told) == [False, False, True, True]  # each sheet's two ends


def test_of_two_square_edges_it_is_said_which_bears_on_the_fence() -> None:
    cards = cards_of(planned("pantry-offcut"))
    assert any("its square edge, the one just sawn" in " ".join(card.do) for card in cards)
    assert any("Fence against the top + front, its square edge, the top's back;" in " ".join(card.do) for card in cards)


def test_where_several_strips_are_sawn_at_once_each_end_is_told_by_its_strip() -> None:
    """The two offcuts of a pass look alike, but one may hold a bruise: their names must not be swapped."""
    told = [line for card in cards_of(planned("pantry-offcut")) for line in card.falls if line.startswith("Keep as")]
    pairs = [line for line in told if ";" in line]
    assert len(pairs) == 2  # at either end of top and bottom
    assert all(line.partition(";")[0].endswith(", off the top") for line in pairs)
    assert all(line.endswith(", off the bottom.") for line in pairs)
