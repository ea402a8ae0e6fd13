"""The cavity and the frame in it."""

from __future__ import annotations

import pytest
from hypothesis import given

from core.document.model import FrameWish, Shelf
from core.frame import cavity_of, frame_size
from tests.strategies import projects


@pytest.mark.parametrize(
    ("left", "right", "ends"), [("mitred", "mitred", 2), ("open", "mitred", 1), ("open", "open", 0)]
)
def test_an_open_end_has_no_wall(left, right, ends):
    cavity = cavity_of(Shelf("s", 1000.0, 200.0, 80.0, left, right), 18.0)
    assert (cavity.length, cavity.depth, cavity.height) == (1000.0 - ends * 18.0, 182.0, 44.0)


def test_scribe_is_not_part_of_the_depth():
    assert cavity_of(Shelf("s", 1000.0, 200.0, 80.0, scribe=12.0), 18.0).depth == 182.0


def test_play_is_left_at_both_sides_but_once_at_the_front_and_above():
    cavity = cavity_of(Shelf("s", 1000.0, 200.0, 80.0), 18.0)
    size = frame_size(cavity, FrameWish(side_play=10.0, front_play=3.0, height_play=1.5), 12.0)
    assert (size.length, size.depth, size.height) == (944.0, 179.0, 42.5)
    assert size.rib_length == 179.0 - 2 * 12.0


@given(projects())
def test_a_frame_is_inside_its_cavity(project):
    for shelf in project.shelves:
        cavity = cavity_of(shelf, project.sheets[0].thickness)
        size = frame_size(cavity, project.frame, 18.0)
        assert size.length <= cavity.length <= shelf.length
        assert size.rib_length < size.depth <= cavity.depth < shelf.depth
        assert size.height <= cavity.height < shelf.height
