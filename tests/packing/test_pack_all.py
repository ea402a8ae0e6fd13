"""All rectangles on sheets: laws for random questions, and the answers of trying everything for tiny ones."""

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from core.packing.bounds import sheets_needed
from core.packing.pack import PackAnswer, PackQuestion, SheetKind, pack_all
from core.packing.two_d import Rectangle
from tests.conftest import examples
from tests.packing.asked import check_pack, pack_questions
from tests.packing.brute import Cutting


@settings(max_examples=examples(30, 300))
@given(pack_questions())
def test_every_part_lies_once_or_is_said_to_be_missing(question: PackQuestion) -> None:
    check_pack(question, pack_all(question, 0.5))


@settings(max_examples=examples(25, 400))
@given(
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 5)), min_size=1, max_size=5),
    st.lists(
        st.tuples(st.integers(4, 8), st.integers(4, 7), st.integers(1, 3), st.sampled_from((1, 5))),
        min_size=1,
        max_size=2,
    ),
    st.integers(0, 1),
    st.booleans(),
)
def test_tiny_questions_are_answered_as_by_trying_everything(
    parts: list[tuple[int, int]], sheets: list[tuple[int, int, int, int]], kerf: int, turn: bool
) -> None:
    question = PackQuestion(
        tuple(Rectangle(float(x), float(y), turn=turn) for x, y in parts),
        tuple(SheetKind(float(length), float(width), float(cost), count) for length, width, cost, count in sheets),
        float(kerf),
    )
    answer = pack_all(question)
    check_pack(question, answer)
    best = Cutting(tuple(parts), kerf, turn).cheapest(sheets)
    if best is None:
        assert any(answer.missing)
        return
    assert not any(answer.missing)
    assert answer.cost.proven
    assert answer.cost.reached == best[0]
    assert answer.offcut.proven
    assert abs(answer.offcut.reached - best[1]) < 1e-6


@settings(max_examples=examples(40, 400))
@given(
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 5)), min_size=1, max_size=5),
    st.integers(6, 8),
    st.integers(5, 7),
)
def test_the_bound_never_exceeds_what_trying_everything_needs(
    parts: list[tuple[int, int]], length: int, width: int
) -> None:
    best = Cutting(tuple(parts), 0).cheapest([(length, width, 1, len(parts))])
    assert best is not None
    assert 1 <= sheets_needed(parts, [1] * len(parts), (length, width)) <= best[0]


def test_the_cheaper_kinds_are_taken() -> None:
    """By hand: three parts of half a large sheet each; a large and a small sheet at 3 + 1 beat two large at 6."""
    question = PackQuestion(
        (Rectangle(1200.0, 1000.0, 3),), (SheetKind(2430.0, 1210.0, 3.0), SheetKind(1250.0, 1210.0, 1.0, 1)), 2.2
    )
    answer = pack_all(question)
    check_pack(question, answer)
    assert answer.cost.proven
    assert answer.cost.reached == 4.0


def test_parts_keep_to_the_sheets_they_may_come_from() -> None:
    question = PackQuestion(
        (Rectangle(1000.0, 500.0, 2, kinds=(1,)), Rectangle(1000.0, 500.0, 2)),
        (SheetKind(2430.0, 1210.0), SheetKind(1100.0, 1210.0)),
        2.2,
    )
    answer = pack_all(question)
    check_pack(question, answer)
    assert answer.cost.reached == 2.0
    assert {sheet.sheet for sheet in answer.sheets} == {0, 1}


def test_what_limited_sheets_cannot_hold_is_missing_and_proven() -> None:
    """Two sheets of one part each and three parts: one is left over, the smallest."""
    question = PackQuestion(
        (Rectangle(2000.0, 1000.0), Rectangle(1900.0, 1000.0), Rectangle(1500.0, 800.0)),
        (SheetKind(2430.0, 1210.0, count=2),),
        2.2,
    )
    answer = pack_all(question)
    check_pack(question, answer)
    assert answer.missing == (0, 0, 1)
    assert answer.cost.proven


def test_no_sheets_or_no_parts_is_no_error() -> None:
    assert pack_all(PackQuestion((Rectangle(100.0, 50.0, 2),), ())).missing == (2,)
    assert pack_all(PackQuestion((), (SheetKind(2430.0, 1210.0),))).sheets == ()
    assert pack_all(PackQuestion((Rectangle(100.0, 50.0),), (SheetKind(2430.0, 1210.0, count=0),))).missing == (1,)


def test_better_answers_are_reported_on_the_way() -> None:
    chance = random.Random(3)
    parts = tuple(Rectangle(chance.uniform(150.0, 1200.0), chance.uniform(80.0, 500.0)) for _ in range(20))
    told: list[PackAnswer] = []
    question = PackQuestion(parts, (SheetKind(2430.0, 1210.0),), 2.2)
    final = pack_all(question, 0.5, report=told.append)
    assert told
    for answer in told:
        check_pack(question, answer)
        assert answer.cost.reached >= final.cost.reached


def test_a_search_that_is_stopped_still_answers() -> None:
    question = PackQuestion((Rectangle(700.0, 400.0, 9),), (SheetKind(2430.0, 1210.0),), 2.2)
    answer = pack_all(question, 60.0, lambda: True)
    check_pack(question, answer)
    assert not any(answer.missing)
