"""Cuts with one setting share a card: what they share is alike, and nothing of any of them is lost."""

from __future__ import annotations

from itertools import groupby

import msgspec
from hypothesis import given, settings

from core.document.model import Project
from core.drawing.names import shelf_letters
from core.plan.make import make_plan
from core.steps.cards import cards_of
from core.steps.contents import contents_of, in_series, listed, piece_words, wood_in_words
from core.steps.runs import as_one, runs_of
from core.steps.steps import steps_of
from core.steps.titles import step_title
from core.steps.words import step_words
from tests.conftest import examples
from tests.drawing.plans import plan_of
from tests.steps.test_law import sawn_projects


@settings(max_examples=examples(15, 200))
@given(sawn_projects())
def test_a_run_is_cuts_of_frame_parts_with_one_setting(project: Project) -> None:
    plan = make_plan(project)
    steps, runs = steps_of(plan), runs_of(plan)
    assert tuple(step for run in runs for step in run) == steps
    frame = {part.id for one in plan.frames for part in one.parts}
    for run in runs:
        told = [step_words(plan, step) for step in run]
        assert len({(words.number, words.number_is) for words in told}) == 1
        assert len({(step.guide, step.keep, step.face, step.kind, step.bevel, step.sheet) for step in run}) == 1
        assert len(run) == 1 or all(set(step.abouts) <= frame for step in run)
        one = as_one(run)
        assert all(one.packer is not None and one.packer.width >= p.width for step in run if (p := step.packer))
        assert set(one.support) == {support for step in run for support in step.support}
        assert not any(step.moves for step in run[1:])


@settings(max_examples=examples(15, 200))
@given(sawn_projects())
def test_sticks_of_one_size_are_cut_one_after_the_other(project: Project) -> None:
    """On each sheet, so that a stop or a fence is set once for all of them: lengths and widths only ever go down."""
    plan = make_plan(project)
    lengths = {part.id: round(part.length, 4) for one in plan.frames for part in one.parts}
    for _, group in groupby(plan.cuts, key=lambda cut: cut.sheet):
        sizes = [lengths[c.about] for c in group if c.kind == "crosscut" and c.keep == "low" and c.about in lengths]
        assert sorted(sizes, reverse=True) == sizes


def test_names_that_count_on_are_told_by_the_first_and_the_last() -> None:
    names = ["A rib 1", "A rib 2", "A rib 3", "A rib 5", "A rib 6", "back rail", "B rib 1"]
    assert in_series(names) == ["A ribs 1 to 3", "A rib 5", "A rib 6", "back rail", "B rib 1"]
    assert in_series(["rib 1", "rib 3"]) == ["rib 1", "rib 3"]


@settings(max_examples=examples(15, 200))
@given(sawn_projects())
def test_a_card_names_the_parts_of_its_cuts(project: Project) -> None:
    plan = make_plan(project)
    letters = shelf_letters(plan) if len(plan.project.shelves) > 1 else {}
    for card, run in zip(cards_of(plan), runs_of(plan), strict=True):
        assert (card.number, card.last, card.times) == (run[0].number, run[-1].number, len(run))
        if card.times > 1 and "strips for the frames" not in card.title:
            for step in run:
                shelf, _, part = step.about.rpartition("/")
                assert part.rstrip(" 0123456789") in card.title
                assert letters.get(shelf, "") in card.title


@settings(max_examples=examples(15, 200))
@given(sawn_projects())
def test_a_card_of_many_cuts_says_what_wood_is_taken_in_which_order(project: Project) -> None:
    """All of it that is there before the first of them: what one cut leaves for the next needs no name."""
    plan = make_plan(project)
    contents, cuts = contents_of(plan), {cut.n: cut for cut in plan.cuts}
    for card, run in zip(cards_of(plan), runs_of(plan), strict=True):
        if card.times == 1:
            continue
        own = [cuts[n] for step in run for n in step.cuts]
        made = {name for cut in own for name in cut.makes}
        wood = [piece_words(contents, cut.piece) for cut in own if cut.piece not in made]
        assert card.do[0].startswith(("Taken in this order: ", "Out of ")), card.do
        assert wood_in_words(wood) in card.do[0]


def test_wood_for_one_part_each_is_told_together_and_lists_are_kept_apart() -> None:
    names = ["stock for B rib 1", "stock for B rib 2", "stock for B rib 3", "stock for A ribs 1 to 8"]
    assert wood_in_words(names) == "the stock for each of B ribs 1 to 3 and the stock for A ribs 1 to 8"
    assert listed(["the stock for rib 1 and rib 2", "A left end"]) == "the stock for rib 1 and rib 2; A left end"
    assert listed(["A top", "A bottom"]) == "A top and A bottom"


def test_a_title_tells_of_stock_only_where_all_that_is_kept_is_stock() -> None:
    plan = plan_of("golden")
    strips = [step for step in map(as_one, runs_of(plan)) if "strips for the frames" in step_title(plan, step)]
    assert strips
    for step in strips:
        some = msgspec.structs.replace(step, falls=step.falls[:1])  # the others are parts, or sawn on at once
        assert "strips" not in step_title(plan, some)
        assert "stock" not in step_title(plan, some)
