"""Pixels of a face: fine enough, and where the sheet's points are."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.face import fine_size, pixel_of, small_size
from core.face.size import LONGEST

SIDES = st.floats(10.0, 0.6 * LONGEST)


def test_a_full_sheet_has_a_texture_of_4096_by_2048() -> None:
    assert fine_size(2440.0, 1220.0) == (4096, 2048)
    assert small_size(2440.0, 1220.0) == (1024, 512)


@given(SIDES, SIDES)
def test_no_pixel_of_a_fine_face_is_over_0_6_mm(length: float, width: float) -> None:
    across, down = fine_size(length, width)
    assert length / across <= 0.6 + 1e-12
    assert width / down <= 0.6 + 1e-12
    assert small_size(length, width) == (across / 4, down / 4)


@given(st.floats(1.0, 100_000.0), st.floats(1.0, 100_000.0))
def test_no_face_is_larger_than_a_texture_may_be(length: float, width: float) -> None:
    assert max(fine_size(length, width)) <= LONGEST
    assert min(small_size(length, width)) >= 1


def test_the_first_row_is_the_upper_edge() -> None:
    sheet, pixels = (2440.0, 1220.0), (4096, 2048)
    assert pixel_of(0.0, 1220.0, sheet, pixels) == (0.0, 0.0)
    assert pixel_of(2440.0, 0.0, sheet, pixels) == (4096.0, 2048.0)
    assert pixel_of(1220.0, 305.0, sheet, pixels) == pytest.approx((2048.0, 1536.0))
