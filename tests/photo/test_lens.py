"""The lens's one term, against OpenCV's model and against edges it has bent."""

from __future__ import annotations

import numpy as np
import pytest

from core.photo import PhotoError
from core.photo.lens import Lens, lens_from_edge
from tests.photo.synthetic import bent

SIZE = (4000, 3000)
EDGE = tuple((300.0 + 3400.0 * n / 6.0, 260.0 + 20.0 * n) for n in range(7))


@pytest.mark.parametrize("term", [-0.08, -0.01, 0.0, 0.02, 0.1])
def test_it_bends_as_opencv_does_and_back(term: float) -> None:
    places = np.random.default_rng(2).uniform((0, 0), SIZE, (200, 2))
    lens = Lens(term, (4000.0, 3000.0))
    assert lens.bent(places) == pytest.approx(bent(tuple(map(tuple, places)), SIZE, term), abs=1e-6)
    assert lens.unbent(lens.bent(places)) == pytest.approx(places, abs=1e-6)


@pytest.mark.parametrize("term", [-0.1, -0.02, 0.0, 0.03, 0.1])
def test_an_edge_marked_as_straight_gives_the_lens(term: float) -> None:
    shown = [tuple(place) for place in bent(EDGE, SIZE, term)]
    assert lens_from_edge(shown, (4000.0, 3000.0)).term == pytest.approx(term, abs=1e-7)


@pytest.mark.parametrize(
    ("points", "word"),
    [
        (((0, 0), (4000, 0)), "three points"),
        (((0, 0), (50, 0), (100, 0)), "too short"),
        (((0, 1500), (1000, 1500), (4000, 1500)), "middle"),
        (((0, 100), (2000, 600), (4000, 100)), "more than a lens"),
    ],
)
def test_edges_that_tell_nothing(points: tuple[tuple[float, float], ...], word: str) -> None:
    with pytest.raises(PhotoError, match=word):
        lens_from_edge(points, (4000.0, 3000.0))
