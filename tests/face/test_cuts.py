"""The four cuts and the five woods: what the trade says of each, measured on the pictures."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import pi

import numpy as np
import pytest
from scipy.ndimage import gaussian_filter

from core.face import leaf_width, veneer
from core.face.cuts import LIES, SLICE, Cut, places, round_log
from core.face.species import WOODS, Wood
from tests.face.test_veneer import agreement, figure

LENGTH, WIDTH = 1200.0, 600.0
PIXELS = (1536, 768)  # 0.78 mm each


@lru_cache(maxsize=32)
def face(cut: Cut, wood: Wood = "oak", seed: int = 3, pixels: tuple[int, int] = PIXELS) -> np.ndarray:
    return veneer(LENGTH, WIDTH, seed, *pixels, cut=cut, wood=wood)


def across_to_along(cut: Cut, wood: Wood = "oak", seed: int = 3) -> float:
    """How much changes along the grain against what changes across it, pores smoothed away."""
    down, across = np.gradient(gaussian_filter(face(cut, wood, seed).mean(axis=2), (1.0, 6.0)))
    return float((across**2).mean() / (down**2).mean())


@pytest.mark.parametrize(
    ("cut", "low", "high"),
    [("plain", 0.0, 60.0), ("rift", 30.0, 60.0), ("quartered", 75.0, 90.0)],
)
def test_rings_meet_the_face_as_the_cut_is_named(cut: Cut, low: float, high: float) -> None:
    """Rings at 30-60° to the face are rift, at 75-90° quartered, less than that plain (common practice)."""
    for leaf in LIES[cut].leaf:
        for off in LIES[cut].off:
            v = np.linspace(-leaf / 2.0, leaf / 2.0, 51)
            across, above = places(cut, v, np.zeros(51, int), leaf, off)
            angle = np.degrees(np.arctan2(np.abs(across), above))
            assert low <= angle.min()
            assert angle.max() <= high
            assert cut != "plain" or angle.min() < 1.0, "along its middle a plain slice runs with the rings"


def test_a_rotary_knife_peels_one_thickness_for_each_turn() -> None:
    y = np.linspace(0.0, 3000.0, 4000)
    radius, turn = round_log(y, 170.0)
    peeled = 170.0 - radius
    assert np.allclose(peeled, SLICE * turn / (2.0 * pi))
    walked = np.hypot(np.diff(radius * np.cos(turn)), np.diff(radius * np.sin(turn))).sum()
    assert walked == pytest.approx(3000.0, rel=0.001)
    assert leaf_width(1220.0, 5, "rotary") == 1220.0, "one leaf, no joint"


def test_rotary_wanders_plain_has_cathedrals_and_rift_is_straight() -> None:
    cuts: tuple[Cut, ...] = ("plain", "rift", "rotary")
    plain, rift, rotary = (np.mean([across_to_along(cut, "maple", seed) for seed in (1, 3)]) for cut in cuts)
    assert rotary > 1.5 * plain
    assert plain > 1.2 * rift


def test_quartered_oak_shows_its_rays_and_no_other_cut_does() -> None:
    """Flakes lie across the grain and are lighter than the wood between."""

    def flakes(cut: Cut, wood: Wood) -> float:
        tone = gaussian_filter(face(cut, wood).mean(axis=2), (2.5, 0.8))
        along = tone - gaussian_filter(tone, (0.0, 12.0))
        return float((along**3).mean() / along.std() ** 3)  # positive: a few places stand out lighter

    assert flakes("quartered", "oak") > 0.2
    assert flakes("rift", "oak") < 0.1
    assert flakes("plain", "oak") < 0.0, "there the pores stand out, and they are darker"
    assert flakes("quartered", "walnut") < 0.0


def test_the_woods_tell_themselves_apart() -> None:
    """Maple is the lightest, walnut much the darkest, cherry the reddest of the light ones (common knowledge)."""
    mean = {wood: face("plain", wood).reshape(-1, 3).mean(axis=0) for wood in WOODS}
    tone = {wood: colour.mean() for wood, colour in mean.items()}
    order = sorted(tone, key=tone.__getitem__)
    assert order[0] == "walnut"
    assert tone["walnut"] < 0.65 * tone[order[1]]
    assert order[-1] == "maple"
    assert order[-2] == "birch"
    red = {wood: colour[0] / colour[2] for wood, colour in mean.items()}
    assert red["cherry"] > max(red["birch"], red["maple"])
    for one, other in pairwise(WOODS):
        assert agreement(figure(face("plain", one)[..., 1]), figure(face("plain", other)[..., 1])) < 0.95


def test_pores_are_oaks_and_walnuts() -> None:
    """Ring-porous oak and half ring-porous walnut show dark dashes, the diffuse-porous woods hardly (common
    knowledge): how far the darkest hundredth of a fine face is from its middle, in levels of 255."""

    def depth(wood: Wood) -> float:
        tone = veneer(300.0, 200.0, 2, 666, 444, wood=wood).mean(axis=2)
        fine = tone - gaussian_filter(tone, 6.0)
        return float(-np.quantile(fine, 0.01))

    depths = {wood: depth(wood) for wood in WOODS}
    assert min(depths["oak"], depths["walnut"]) > 2.0 * max(depths[wood] for wood in ("birch", "maple", "cherry"))


@pytest.mark.parametrize(("cut", "wood"), [("rift", "walnut"), ("quartered", "oak"), ("rotary", "birch")])
def test_each_cut_is_the_same_figure_at_any_size_and_seeded(cut: Cut, wood: Wood) -> None:
    fine = face(cut, wood).mean(axis=2)
    small = face(cut, wood, pixels=(384, 192)).mean(axis=2)
    averaged = fine.reshape(192, 4, 384, 4).mean(axis=(1, 3))
    assert agreement(averaged, small) > 0.85
    assert agreement(averaged[1:], small[:-1]) < agreement(averaged, small) - 0.1
    assert np.array_equal(face(cut, wood), veneer(LENGTH, WIDTH, 3, *PIXELS, cut=cut, wood=wood))
    other = veneer(LENGTH, WIDTH, 4, *PIXELS, cut=cut, wood=wood).mean(axis=2)
    assert agreement(figure(other), figure(fine)) < 0.4


@pytest.mark.parametrize("cut", ["rift", "quartered"])
def test_narrow_leaves_are_matched_too(cut: Cut) -> None:
    """Slip-matched leaves repeat side by side, book-matched ones mirror at their joint."""
    leaf = leaf_width(WIDTH, 3, cut) / WIDTH * PIXELS[1]
    near, joint = round(0.4 * leaf), PIXELS[1] - round(leaf)  # rows run from the upper edge: the first joint
    book = gaussian_filter(face(cut, "walnut").mean(axis=2), (1.5, 6.0))
    slid = veneer(LENGTH, WIDTH, 3, *PIXELS, cut=cut, wood="walnut", match="slip")
    slip = gaussian_filter(slid.mean(axis=2), (1.5, 6.0))

    def mirrored(of: np.ndarray) -> float:
        rows = range(joint - 2, joint + 3)
        return max(agreement(of[row : row + near], of[row - near : row][::-1]) for row in rows)

    def repeated(of: np.ndarray) -> float:
        first = of[joint - round(leaf) : joint - round(leaf) + near]
        return max(agreement(of[row : row + near], first) for row in (joint - 1, joint, joint + 1))

    assert mirrored(book) > 0.5
    assert mirrored(book) > mirrored(slip) + 0.3
    assert repeated(slip) > 0.35
    assert repeated(slip) > repeated(book) + 0.2
