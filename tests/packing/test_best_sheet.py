"""The most value from one sheet: laws for random questions, and the answers of trying everything for tiny ones."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from core.packing.two_d import Rectangle, SheetQuestion, best_sheet
from tests.conftest import examples
from tests.packing.asked import check_lying, check_tree, rectangles
from tests.packing.brute import Cutting


@settings(max_examples=examples(30, 300))
@given(st.lists(rectangles(), min_size=1, max_size=7), st.sampled_from((0.0, 2.2)))
def test_the_pattern_can_be_cut_and_is_worth_what_is_said(parts: list[Rectangle], kerf: float) -> None:
    question = SheetQuestion(tuple(parts), 2430.0, 1210.0, kerf)
    answer = best_sheet(question, 0.3)
    assert answer.value.bound >= answer.value.reached
    assert answer.tree is not None
    lying = check_tree(answer.tree, question.length, question.width, kerf, None)
    for place in lying:
        check_lying(place, parts[place.part])
    counts = Counter(place.part for place in lying)
    assert all(counts[number] <= part.count for number, part in enumerate(parts))
    value = sum(parts[number].value * times for number, times in counts.items())
    assert abs(value - answer.value.reached) <= 1e-9 * max(1.0, value)


@settings(max_examples=examples(30, 300))
@given(
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 5), st.integers(1, 20)), min_size=1, max_size=5),
    st.integers(3, 9),
    st.integers(3, 8),
    st.integers(0, 1),
    st.booleans(),
)
def test_tiny_questions_are_answered_as_by_trying_everything(
    parts: list[tuple[int, int, int]], length: int, width: int, kerf: int, turn: bool
) -> None:
    question = SheetQuestion(
        tuple(Rectangle(float(x), float(y), 1, float(value), turn) for x, y, value in parts),
        float(length),
        float(width),
        float(kerf),
    )
    answer = best_sheet(question)
    cutting = Cutting(tuple((x, y) for x, y, _ in parts), kerf, turn)
    assert answer.value.proven
    assert answer.value.reached == cutting.best_value([value for _, _, value in parts], length, width)


@settings(max_examples=examples(20, 200))
@given(st.lists(rectangles(), min_size=1, max_size=5))
def test_a_larger_sheet_is_never_worth_less(parts: list[Rectangle]) -> None:
    small = best_sheet(SheetQuestion(tuple(parts), 1600.0, 900.0, 2.2), 0.5)
    large = best_sheet(SheetQuestion(tuple(parts), 1700.0, 950.0, 2.2), 0.5)
    if small.value.proven and large.value.proven:
        assert large.value.reached >= small.value.reached - 1e-9


def test_a_pattern_of_three_stages_is_found() -> None:
    """Two stages cannot hold these: a full-height part, beside it a part over two that lie side by side."""
    parts = ((4, 6), (6, 3), (3, 3), (3, 3))
    question = SheetQuestion(tuple(Rectangle(float(x), float(y), 1, float(x * y)) for x, y in parts), 10.0, 6.0)
    assert best_sheet(question).value.reached == sum(x * y for x, y in parts)


def test_nothing_of_worth_gives_no_pattern() -> None:
    answer = best_sheet(
        SheetQuestion((Rectangle(100.0, 50.0, 3, 0.0), Rectangle(5000.0, 50.0, 3, 1.0)), 2430.0, 1210.0)
    )
    assert answer.tree is None
    assert answer.value.proven
