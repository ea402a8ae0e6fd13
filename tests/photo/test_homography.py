"""The map of four corners, against an outside library and values worked out by hand."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from core.photo import PhotoError
from core.photo.homography import applied, corner_complaint, homography

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))


def random_quad(random: np.random.Generator, scale: float) -> list[tuple[float, float]]:
    """Corners of a convex quadrilateral: of a square, each pushed about."""
    while True:
        corners = (np.array(SQUARE) + random.uniform(-0.35, 0.35, (4, 2))) * scale + random.uniform(-scale, scale, 2)
        if not corner_complaint([(float(x), float(y)) for x, y in corners]):
            return [(float(x), float(y)) for x, y in corners]


def test_200_random_quads_as_opencv_maps_them() -> None:
    random = np.random.default_rng(11)
    for _ in range(200):
        source, target = random_quad(random, 4000.0), random_quad(random, 2000.0)
        # Not getPerspectiveTransform: it solves for the points as they come and is itself 1e-3 off at times.
        wanted, _ = cv2.findHomography(np.float32(source), np.float32(target))
        # OpenCV takes single precision: its points, not ours, are what is mapped.
        source = [(float(x), float(y)) for x, y in np.float32(source)]
        target = [(float(x), float(y)) for x, y in np.float32(target)]
        shares = random.dirichlet(np.ones(4), 20)  # places inside the quadrilateral
        places = shares @ np.array(source)
        theirs = cv2.perspectiveTransform(places.reshape(-1, 1, 2), wanted).reshape(-1, 2)
        assert applied(homography(source, target), places) == pytest.approx(theirs, rel=1e-6, abs=1e-6)
        assert applied(homography(source, target), np.array(source)) == pytest.approx(np.array(target), abs=1e-6)


def test_a_square_to_a_trapezium_by_hand() -> None:
    """Exact rational arithmetic: H = [4 2 0; 0 4 0; 0 1 1]; the centre lands on the crossing of the diagonals."""
    matrix = homography(SQUARE, ((0.0, 0.0), (4.0, 0.0), (3.0, 2.0), (1.0, 2.0)))
    assert matrix == pytest.approx(np.array([[4, 2, 0], [0, 4, 0], [0, 1, 1.0]]), abs=1e-9)
    places = applied(matrix, np.array([(0.5, 0.5), (0.5, 0.0), (0.0, 0.5)]))
    assert places == pytest.approx(np.array([(2, 4 / 3), (2, 0), (2 / 3, 4 / 3)]), abs=1e-9)


def test_a_photograph_to_millimetres_by_hand() -> None:
    """Exact rational arithmetic."""
    pixels = ((102.0, 98.0), (898.0, 140.0), (850.0, 610.0), (60.0, 560.0))
    matrix = homography(pixels, ((0.0, 0.0), (2400.0, 0.0), (2400.0, 1200.0), (0.0, 1200.0)))
    assert applied(matrix, np.array([(480.0, 350.0)]))[0] == pytest.approx((1217.631, 592.541), abs=1e-3)


def test_four_points_to_themselves() -> None:
    quad = ((102.0, 98.0), (898.0, 140.0), (850.0, 610.0), (60.0, 560.0))
    assert homography(quad, quad) == pytest.approx(np.eye(3), abs=1e-12)


@pytest.mark.parametrize(
    ("corners", "word"),
    [
        (((0, 0), (5, 5), (10, 10), (0, 10)), "one line"),
        (((0, 0), (10, 0), (5, 0.01), (0, 10)), "one line"),
        (((0, 0), (10, 10), (10, 0), (0, 10)), "cross"),
        (((0, 0), (0, 0), (10, 10), (0, 10)), "one place"),
        (((0, 0), (10, 0), (3, 3), (0, 10)), "inside"),
        (((0, 0), (10, 0), (10, 10)), "four corners"),
        (((0, 0), (10, 0), (10, float("nan")), (0, 10)), "finite"),
    ],
)
def test_corners_that_are_none(corners: tuple[tuple[float, float], ...], word: str) -> None:
    with pytest.raises(PhotoError) as caught:
        homography(corners, SQUARE)
    assert word in str(caught.value)
    assert len(str(caught.value).splitlines()) == 1
