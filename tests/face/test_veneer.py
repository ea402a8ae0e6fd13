"""A plain-sliced face measured as a picture: one figure at any size, no repeat but leaf joints, grain along x."""

from __future__ import annotations

import tracemalloc
from functools import lru_cache

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.ndimage import gaussian_filter, uniform_filter, uniform_filter1d

from core.face import StoppedError, fine_size, leaf_width, small_size, veneer
from core.face.veneer import Match

LENGTH, WIDTH = 2440.0, 1220.0
SEEDS = (0, 7, 23)
HALF = (2048, 1024)  # pixels of the pictures measured here: 1.19 mm each


@lru_cache(maxsize=16)
def grey(seed: int, across: int = HALF[0], down: int = HALF[1], match: Match = "book") -> np.ndarray:
    """Lightness of a face, (down, across)."""
    return veneer(LENGTH, WIDTH, seed, across, down, match=match).mean(axis=2)


def leaf_rows(seed: int) -> float:
    return leaf_width(WIDTH, seed) / WIDTH * HALF[1]


def agreement(a: np.ndarray, b: np.ndarray) -> float:
    return float(np.corrcoef(a.ravel(), b.ravel())[0, 1])


def figure(picture: np.ndarray) -> np.ndarray:
    """What is left of a picture without pores and fibres, and without what runs on along a whole row."""
    smooth = gaussian_filter(picture, (1.5, 4.0))
    return smooth - uniform_filter1d(smooth, 601, axis=1)


def repeats(picture: np.ndarray) -> np.ndarray:
    """Likeness of a picture to itself for every shift; no shift is in the middle, (2 down, 2 across)."""
    picture = picture - picture.mean()
    size = (2 * picture.shape[0], 2 * picture.shape[1])

    def product(of: np.ndarray) -> np.ndarray:
        return np.fft.irfft2(np.abs(np.fft.rfft2(of, size)) ** 2, size)

    shared = product(np.ones_like(picture))
    like = np.where(shared > 0.15 * picture.size, product(picture) / np.maximum(shared, 1.0), 0.0)
    return np.fft.fftshift(like / like[0, 0])


def test_a_seed_is_a_face_and_another_seed_another() -> None:
    first = veneer(LENGTH, WIDTH, 5, 512, 256)
    assert first.shape == (256, 512, 3)
    assert first.dtype == np.uint8
    assert np.array_equal(first, veneer(LENGTH, WIDTH, 5, 512, 256))
    assert agreement(first[..., 1], veneer(LENGTH, WIDTH, 6, 512, 256)[..., 1]) < 0.3


@pytest.mark.parametrize("seed", SEEDS)
def test_the_small_face_is_the_fine_one_seen_from_farther_off(seed: int) -> None:
    across, down = fine_size(LENGTH, WIDTH)
    fine = grey(seed, across, down)
    small = grey(seed, *small_size(LENGTH, WIDTH))
    step = across // small.shape[1]
    averaged = fine.reshape(small.shape[0], step, small.shape[1], step).mean(axis=(1, 3))
    assert agreement(averaged, small) > 0.9
    assert abs(averaged.mean() - small.mean()) < 1.0
    # One row or column off would be another picture: the figure lies where it should.
    assert agreement(averaged[1:], small[:-1]) < agreement(averaged, small) - 0.2


def test_sizes_that_are_no_whole_fraction_show_the_same_figure() -> None:
    """Each pixel of an odd size against the fine pixel at its middle, both blurred."""
    across, down = fine_size(LENGTH, WIDTH)
    fine = gaussian_filter(grey(1, across, down), 4.0)
    odd = gaussian_filter(grey(1, 1000, 333), (4.0 * 333 / down, 4.0 * 1000 / across))
    rows = ((np.arange(333) + 0.5) / 333 * down).astype(int)
    columns = ((np.arange(1000) + 0.5) / 1000 * across).astype(int)
    assert agreement(fine[rows][:, columns], odd) > 0.75


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("match", ["book", "slip"])
def test_pores_and_fibres_repeat_nowhere(seed: int, match: Match) -> None:
    picture = grey(seed, match=match)
    like = repeats(picture - uniform_filter1d(picture, 25, axis=1))
    middle = (like.shape[0] // 2, like.shape[1] // 2)
    like[middle[0] - 4 : middle[0] + 5, middle[1] - 40 : middle[1] + 41] = 0.0
    assert np.abs(like).max() < 0.15


@pytest.mark.parametrize("seed", SEEDS)
def test_the_figure_repeats_from_leaf_to_leaf_and_nowhere_else(seed: int) -> None:
    like = repeats(figure(grey(seed, match="slip")))
    middle = (like.shape[0] // 2, like.shape[1] // 2)
    shift = np.abs(np.arange(like.shape[0]) - middle[0])
    to_leaf = np.abs((shift + leaf_rows(seed) / 2.0) % leaf_rows(seed) - leaf_rows(seed) / 2.0)
    between = like[to_leaf > 0.2 * leaf_rows(seed)]
    assert np.abs(between).max() < 0.35
    # From one leaf to the next it is nearly the same figure, and not quite: slices move on.
    row = middle[0] + round(leaf_rows(seed))
    next_leaf = like[row - 3 : row + 4, middle[1] - 60 : middle[1] + 61].max()
    assert 0.4 < next_leaf < 0.9
    # Along the grain nothing comes back.
    far = like[:, np.abs(np.arange(like.shape[1]) - middle[1]) > 300]
    assert np.abs(far).max() < 0.35


@pytest.mark.parametrize("seed", SEEDS)
def test_book_matched_leaves_mirror_at_their_joints_and_only_there(seed: int) -> None:
    picture = figure(grey(seed))
    near = round(0.3 * leaf_rows(seed))

    def mirrored(row: int) -> float:
        return agreement(picture[row : row + near], picture[row - near : row][::-1])

    joints = [round(n * leaf_rows(seed)) for n in range(1, round(HALF[1] / leaf_rows(seed)))]
    at_joints = [max(mirrored(row) for row in range(j - 2, j + 3)) for j in joints]
    elsewhere = [
        mirrored(row)
        for row in range(near, HALF[1] - near, 5)
        if min(abs(row - j) for j in joints) > 6 and abs((row / leaf_rows(seed)) % 1.0 - 0.5) > 0.1
    ]
    assert min(at_joints) > max(elsewhere)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_grain_runs_along_the_sheet(seed: int) -> None:
    """By the structure tensor: the direction of least change, in degrees from x, over patches of 60 mm."""
    picture = grey(seed)
    down, across = np.gradient(gaussian_filter(picture, 1.0))
    xx, yy, xy = (uniform_filter(p, 50) for p in (across * across, down * down, across * down))
    angle = np.degrees(0.5 * np.arctan2(-2.0 * xy, yy - xx))
    along = (np.hypot(yy - xx, 2.0 * xy)) / (xx + yy)
    assert abs(np.average(angle, weights=along)) < 1.0
    assert np.quantile(np.abs(angle), 0.95) < 8.0
    assert np.median(along) > 0.8


@pytest.mark.parametrize("seed", SEEDS)
def test_straight_grain_at_the_edges_of_a_leaf_and_cathedrals_along_its_middle(seed: int) -> None:
    """What changes along the grain, pores smoothed away, in the middle quarter of leaves and their outer eighths."""
    down, across = np.gradient(gaussian_filter(grey(seed), (1.5, 15.0)))
    place = (np.arange(HALF[1]) + 0.5) / leaf_rows(seed) % 1.0
    middle, edges = np.abs(place - 0.5) < 1 / 8, np.abs(place - 0.5) > 3 / 8
    change = (across**2).mean(axis=1)
    lean = change / (down**2).mean(axis=1)
    assert change[middle].mean() > 3.0 * change[edges].mean()
    assert np.median(lean[middle]) > 2.0 * np.median(lean[edges])


def test_colour_drifts_gently() -> None:
    """Patches of 100 mm differ, by a few levels of 255 and in no sudden step."""
    face = veneer(LENGTH, WIDTH, 2, *small_size(LENGTH, WIDTH)).astype(float)
    patches = face[:504, :1008].reshape(12, 42, 24, 42, 3).mean(axis=(1, 3))
    assert 0.5 < patches.std(axis=(0, 1)).min() < 12.0
    assert np.abs(np.diff(patches, axis=1)).max() < 12.0


def test_it_can_be_stopped_between_blocks() -> None:
    asked: list[int] = []

    def stop() -> bool:
        asked.append(1)
        return len(asked) > 3

    with pytest.raises(StoppedError):
        veneer(LENGTH, WIDTH, 1, 512, 256, stop)
    assert len(asked) == 4


def test_a_fine_face_needs_little_memory_beside_its_picture() -> None:
    across, down = fine_size(LENGTH, WIDTH)
    tracemalloc.start()
    try:
        veneer(LENGTH, WIDTH, 91, across, down)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert peak < 150e6


def test_a_sheet_made_longer_keeps_its_figure() -> None:
    """2,560 mm instead of 2,440: the first 2,440 look the same, pores apart."""
    longer = figure(veneer(2560.0, WIDTH, 4, 2148, 1024).mean(axis=2))[:, :2048]
    assert agreement(longer[:, :1800], figure(grey(4))[:, :1800]) > 0.8


@settings(max_examples=15)
@given(
    st.floats(1.0, 100_000.0),
    st.floats(1.0, 100_000.0),
    st.integers(0, 2**32),
    st.integers(1, 130),
    st.integers(1, 130),
)
@example(1.0, 1.0, 0, 1, 128)  # more rows than the fine face has
def test_any_sheet_has_a_face(length: float, width: float, seed: int, across: int, down: int) -> None:
    face = veneer(length, width, seed, across, down)
    assert face.shape == (down, across, 3)
    assert 60 < face.mean() < 240
