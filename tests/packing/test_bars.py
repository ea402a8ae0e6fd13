"""Lengths from bars: laws for random questions, and the answers of trying everything for tiny ones."""

from hypothesis import given, settings
from hypothesis import strategies as st

from core.packing.bounds import bars_needed
from core.packing.one_d import Bar, BarQuestion, Length, cut_bars
from tests.conftest import examples
from tests.packing.asked import bar_questions, check_bars
from tests.packing.brute import least_bars


@settings(max_examples=examples(40, 400))
@given(bar_questions())
def test_every_part_is_cut_once_or_said_to_be_missing(question: BarQuestion) -> None:
    check_bars(question, cut_bars(question, 1.0))


@settings(max_examples=examples(40, 400))
@given(
    st.lists(st.integers(1, 12), min_size=1, max_size=6),
    st.lists(st.tuples(st.integers(8, 20), st.integers(1, 3), st.sampled_from((2, 6))), min_size=1, max_size=2),
    st.integers(0, 2),
)
def test_tiny_questions_are_answered_as_by_trying_everything(
    lengths: list[int], bars: list[tuple[int, int, int]], kerf: int
) -> None:
    question = BarQuestion(
        tuple(Length(float(length)) for length in lengths),
        tuple(Bar(float(length), float(cost), count) for length, cost, count in bars),
        float(kerf),
    )
    answer = cut_bars(question)
    best = least_bars(lengths, bars, kerf)
    if best is None:
        assert any(answer.missing)
        return
    assert not any(answer.missing)
    assert answer.cost.proven
    assert answer.cost.reached == best[0]
    assert answer.rest.proven
    assert abs(answer.rest.reached - best[1]) < 1e-6


@settings(max_examples=examples(60, 600))
@given(st.lists(st.integers(1, 20), min_size=1, max_size=6), st.integers(20, 30))
def test_the_bound_never_exceeds_what_trying_everything_needs(lengths: list[int], room: int) -> None:
    best = least_bars(lengths, [(room, 1, len(lengths))], 0)
    assert best is not None
    assert 1 <= bars_needed(lengths, [1] * len(lengths), room) <= best[0]


@settings(max_examples=examples(25, 250))
@given(bar_questions(), st.floats(1.0, 200.0))
def test_longer_bars_never_cost_more(question: BarQuestion, longer: float) -> None:
    more = BarQuestion(
        question.parts,
        tuple(Bar(bar.length + longer, bar.cost, bar.count) for bar in question.bars),
        question.kerf,
    )
    before, after = cut_bars(question, rest=False), cut_bars(more, rest=False)
    if not any(before.missing) and before.cost.proven and after.cost.proven:
        assert not any(after.missing)
        assert after.cost.reached <= before.cost.reached + 1e-9


@given(st.integers(2, 9), st.floats(100.0, 800.0), st.floats(0.5, 5.0))
def test_parts_and_kerfs_that_fill_a_bar_exactly_fit_it(count: int, length: float, kerf: float) -> None:
    bar = sum([length] * count) + sum([kerf] * (count - 1))
    answer = cut_bars(BarQuestion((Length(length, count),), (Bar(bar),), kerf))
    assert len(answer.bars) == 1
    short = cut_bars(BarQuestion((Length(length, count),), (Bar(bar - 0.001),), kerf))
    assert len(short.bars) == 2


def test_a_part_longer_than_every_bar_is_missing() -> None:
    answer = cut_bars(BarQuestion((Length(1000.0, 2), Length(300.0)), (Bar(900.0),), 2.2))
    assert answer.missing == (2, 0)
    assert len(answer.bars) == 1


def test_no_bars_or_no_parts_is_no_error() -> None:
    assert cut_bars(BarQuestion((Length(100.0),), ())).missing == (1,)
    assert cut_bars(BarQuestion((), (Bar(100.0),))).bars == ()


def test_a_search_that_is_stopped_still_answers() -> None:
    parts = tuple(Length(250.0 + 0.7 * n, 1) for n in range(60))
    question = BarQuestion(parts, (Bar(1000.0),))
    check_bars(question, cut_bars(question, 60.0, lambda: True))
