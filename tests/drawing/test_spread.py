import random
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.drawing.spread import spread

places = st.lists(st.floats(0.0, 1000.0), min_size=1, max_size=30).map(sorted)


@given(places, st.floats(0.1, 50.0))
def test_no_two_are_closer_than_the_pitch_and_the_order_stays(marks: list[float], pitch: float) -> None:
    assert all(b - a >= pitch - 1e-6 for a, b in pairwise(spread(marks, pitch)))


@given(places, st.floats(0.1, 50.0))
def test_the_first_stays_by_the_corner_it_is_measured_from(marks: list[float], pitch: float) -> None:
    assert spread(marks, pitch)[0] >= marks[0] - pitch / 2.0 - 1e-9


def test_marks_with_room_stay_where_they_are() -> None:
    assert spread([0.0, 20.0, 45.0], 10.0) == [0.0, 20.0, 45.0]


def test_a_crowd_is_spread_about_its_middle() -> None:
    assert spread([0.0, 100.0, 101.0, 102.0], 10.0) == pytest.approx([0.0, 91.0, 101.0, 111.0])


@given(st.lists(st.floats(100.0, 200.0), min_size=2, max_size=8).map(sorted), st.integers(0, 99))
def test_no_other_spread_moves_the_marks_less(marks: list[float], seed: int) -> None:
    """Least squares: random rows that keep the pitch and the corner are never nearer to the marks."""
    pitch, chance = 12.0, random.Random(seed)
    least = marks[0] - pitch / 2.0

    def cost(row: list[float]) -> float:
        return sum((a - b) ** 2 for a, b in zip(row, marks, strict=True))

    best = spread(marks, pitch)
    for _ in range(20):
        row = [max(least, best[0] + chance.uniform(-3, 3))]
        for place in best[1:]:
            row.append(max(row[-1] + pitch, place + chance.uniform(-3, 3)))
        assert cost(best) <= cost(row) + 1e-6
