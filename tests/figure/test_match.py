"""Loss, step and match across seams, on faces made for it and on plain-sliced ones."""

from __future__ import annotations

from math import radians, tan

import numpy as np
import pytest

from core.document.model import Project, Sheet, Shelf
from core.face import veneer
from core.figure.match import match, measured, side_at
from core.figure.places import SeamPlace, seam_places
from core.figure.strips import both_sides
from core.plan.make import make_plan
from tests.figure.test_grain import streaked

SHEET = (600.0, 300.0)
PIXELS = (1000, 500)  # 0.6 mm each
END = SeamPlace("s/front-right", "s", "A", "y", 300.0, 303.0, 60.0, 240.0)
LONG = SeamPlace("s/top-front", "s", "A", "x", 150.0, 153.0, 60.0, 540.0)


def face_of(angle: float, seed: int = 4) -> np.ndarray:
    big = streaked(angle, seed, 1000)[:500]
    return np.clip(np.stack([big, big - 20.0, big - 50.0], axis=2), 0, 255).astype(np.uint8)


@pytest.mark.parametrize("angle", [-8.0, 0.0, 5.0, 20.0])
def test_the_grain_steps_by_loss_times_the_tangent(angle: float) -> None:
    found = measured(face_of(angle), SHEET, END)
    assert found.loss == pytest.approx(3.0)
    assert found.angle == pytest.approx(angle, abs=1.0)
    near = (3.0 * tan(radians(angle - 1.0)), 3.0 * tan(radians(angle + 1.0)))  # a degree either way
    assert found.step is not None
    assert near[0] <= found.step <= near[1]


def test_along_the_grain_it_steps_nowhere() -> None:
    found = measured(face_of(3.0), SHEET, LONG)
    assert found.step is None
    assert found.angle is not None
    assert abs(found.angle) == pytest.approx(87.0, abs=1.0)


def plain(below: tuple[int, int, int], above: tuple[int, int, int]) -> np.ndarray:
    face = np.empty((500, 1000, 3), np.uint8)
    face[:250], face[250:] = above, below
    return face


def test_the_match_of_plain_colours_by_hand() -> None:
    """Greys of sRGB 128 and 160: L* 53.585 and 65.870 (CIE 1976, by the formula); 1 - 12.285 / 30 = 0.5905."""
    same = measured(plain((128, 128, 128), (128, 128, 128)), SHEET, LONG)
    assert (same.match, same.angle, same.step) == (100.0, None, None)
    off = measured(plain((128, 128, 128), (160, 160, 160)), SHEET, LONG)
    assert off.match == pytest.approx(59.05, abs=0.05)
    assert measured(plain((10, 10, 10), (250, 250, 250)), SHEET, LONG).match == 0.0


def test_the_match_of_directions_by_hand() -> None:
    """The same colours, grain 15° apart: 100 (0.7 c + 0.3 (1 - 15 / 30)), c from the colours alone."""
    face = np.concatenate([face_of(5.0)[:250], face_of(-10.0)[250:]])
    low, high = (side_at(face, SHEET, LONG, is_high=is_high) for is_high in (False, True))
    bare = match(low._replace(grains=[]), high._replace(grains=[]))
    assert match(low, high) == pytest.approx(0.7 * bare + 30.0 * (1.0 - 15.0 / 30.0), abs=30.0 * 1.5 / 30.0)


def test_the_sides_are_those_of_the_sheet() -> None:
    """A face whose every pixel tells its place: what is shown beside a seam lies one loss apart on the sheet."""
    rows, columns = np.mgrid[:500, :1000]
    face = np.stack([columns % 256, columns // 256, rows // 2], axis=2).astype(np.uint8)
    strip, meets = both_sides(face, SHEET, LONG, 30.0)
    at = round(meets)
    assert strip.shape[1] == 800
    assert strip[at - 1, 0, 2] == (500 - 153 / 0.6 - 1) // 2
    assert strip[at, 0, 2] == (500 - 150 / 0.6) // 2
    turned, meets = both_sides(face, SHEET, END, 30.0)
    at = round(meets)
    column = turned[:, 0, 0].astype(int) + 256 * turned[:, 0, 1].astype(int)
    assert abs(column[at - 1] - column[at]) == round(3.0 / 0.6) + 1
    assert turned.shape[1] == 300


def test_seams_of_a_plan_lie_one_loss_apart() -> None:
    plan = make_plan(Project((Sheet("A", 2440.0, 1220.0),), (Shelf("ledge", 1320.0, 210.0, 84.0),)))
    places = {place.seam: place for place in seam_places(plan)}
    wraps = {seam.id: seam for seam in plan.seams if seam.figure == "wraps"}
    assert set(places) == set(wraps) != set()
    for name, place in places.items():
        assert place.loss == pytest.approx(wraps[name].show_loss)
        assert place.end - place.start == pytest.approx(wraps[name].length)
    assert {place.runs for place in places.values()} == {"x", "y"}


NEIGHBOURS = {
    "y": SeamPlace("n", "n", "A", "y", 450.0, 453.1, 120.0, 330.0),
    "x": SeamPlace("n", "n", "A", "x", 225.0, 228.1, 150.0, 750.0),
}
REACH = {"y": 420.0, "x": 195.0}  # mm: how far another neighbour may be


def is_best(face: np.ndarray, seed: int, runs: str) -> bool:
    """Does the true neighbour match better than each of 20 others, at least 50 mm away?"""
    sheet, place = (900.0, 450.0), NEIGHBOURS[runs]
    low = side_at(face, sheet, place, is_high=False)
    true = match(low, side_at(face, sheet, place, is_high=True))
    random = np.random.default_rng(seed)
    others = random.uniform(50.0, REACH[runs], 20) * random.choice([-1.0, 1.0], 20)
    return all(match(low, side_at(face, sheet, place, is_high=True, moved=float(off))) < true for off in others)


def test_on_plain_sliced_faces_the_true_neighbour_wins() -> None:
    """Where the grain crosses the seam. Along the grain, 3 mm off is another ring already: there it wins oftener than
    one time in 21, which would be chance. Tried there on the same faces: the direction of smoothed grain alone wins 42
    times in 100, with the spacing of its lines 63 times, and no more with deeper strips, longer windows or tone: the
    rings of the two sides are others, and what they share runs on for more than 50 mm."""
    wins = {"y": 0, "x": 0}
    for seed in range(100):
        face = veneer(900.0, 450.0, seed, 1536, 768)
        for runs in wins:
            wins[runs] += is_best(face, seed, runs)
    assert wins["y"] >= 95
    assert wins["x"] >= 3 * 100 / 21
