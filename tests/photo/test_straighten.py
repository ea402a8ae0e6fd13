"""A photographed grid comes back straight, true to size and evenly lit."""

from __future__ import annotations

import numpy as np
import pytest

from core.face.stopping import StoppedError
from core.photo.homography import Quad
from core.photo.lens import lens_from_edge
from core.photo.opening import open_picture
from core.photo.straighten import Taken, straightened
from tests.photo.synthetic import bent, cross_at, file_of, photographed, printed_grid

LENGTH, WIDTH = 2440.0, 1220.0
SIZE = (4000, 3000)
SEEN = ((420.0, 2380.0), (3560.0, 2520.0), (3300.0, 760.0), (640.0, 690.0))
PIXELS = (2048, 1024)


def shares(points: np.ndarray) -> Quad:
    a, b, c, d = ((float(x) / SIZE[0], float(y) / SIZE[1]) for x, y in points)
    return (a, b, c, d)


@pytest.fixture(scope="module")
def grid() -> np.ndarray:
    return printed_grid(LENGTH, WIDTH)


@pytest.fixture(scope="module", params=[0.0, -0.05], ids=["plain lens", "bowed lens"])
def face(request: pytest.FixtureRequest, grid: np.ndarray) -> np.ndarray:
    """The grid photographed, and made flat again with the lens found from the sheet's lower edge."""
    term = float(request.param)
    picture = photographed(grid, SEEN, SIZE, lens=term, vignette=0.35, noise=3.0)
    edge = [tuple(np.array(SEEN[0]) + share * (np.array(SEEN[1]) - SEEN[0])) for share in (0, 0.25, 0.5, 0.75, 1)]
    lens = lens_from_edge([tuple(p) for p in bent(edge, SIZE, term)], SIZE) if term else None
    taken = Taken(shares(bent(SEEN, SIZE, term)), lens.term if lens else 0.0)
    return straightened(open_picture(file_of(picture, quality=88)), taken, *PIXELS)


def test_it_is_straight_to_half_a_millimetre(face: np.ndarray) -> None:
    off = [
        np.hypot(*(np.array(cross_at(face, x, y, LENGTH, WIDTH)) - (x, y)))
        for x in np.arange(50.0, LENGTH, 100.0)
        for y in np.arange(50.0, WIDTH, 100.0)
    ]
    assert max(off) < 0.5


def test_it_is_even_to_two_hundredths(face: np.ndarray) -> None:
    """Lightness between the crosses, each block's against the mean of all."""
    tones = [
        np.median(face[row - 12 : row + 12, column - 12 : column + 12].mean(axis=2))
        for column in range(84, PIXELS[0] - 84, 84)
        for row in range(84, PIXELS[1] - 84, 84)
    ]
    assert np.abs(np.array(tones) / np.mean(tones) - 1.0).max() < 0.02


def test_light_left_alone_is_as_uneven_as_it_was(grid: np.ndarray) -> None:
    picture = photographed(grid, SEEN, SIZE, vignette=0.35)
    raw = straightened(open_picture(file_of(picture)), Taken(shares(np.array(SEEN)), even=0.0), *PIXELS)
    tones = raw[40::84, 40::84].mean(axis=2)
    assert tones.max() / tones.min() > 1.2


def test_what_is_turned_over_is_the_same_turned_over(grid: np.ndarray) -> None:
    picture = open_picture(file_of(photographed(grid, SEEN, SIZE), "PNG", compress_level=1))
    seen = shares(np.array(SEEN))
    plain = straightened(picture, Taken(seen, even=0.0), 512, 256).astype(int)
    for mirror, turned in (("along", plain[:, ::-1]), ("across", plain[::-1])):
        face = straightened(picture, Taken(seen, even=0.0, mirror=mirror), 512, 256)
        assert np.abs(face - turned).max() <= 1


def test_it_stops_and_tells(grid: np.ndarray) -> None:
    picture = open_picture(file_of(photographed(grid, SEEN, SIZE)), 1000)
    told: list[float] = []
    straightened(picture, Taken(shares(np.array(SEEN))), 512, 256, told=told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0
    with pytest.raises(StoppedError):
        straightened(picture, Taken(shares(np.array(SEEN))), 512, 256, lambda: len(told) > 0)
