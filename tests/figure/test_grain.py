"""The direction of the grain on faces of known angle, and colours against OpenCV's."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from core.figure.colour import lab
from core.figure.grain import grain, grain_along, turn_between


def streaked(angle: float, seed: int = 1, size: int = 220) -> np.ndarray:
    """Noise drawn out along a direction, degrees from the length, positive towards the upper edge."""
    noise = np.random.default_rng(seed).normal(0.0, 1.0, (3 * size, 3 * size))
    drawn = cv2.GaussianBlur(noise, (0, 0), sigmaX=30.0, sigmaY=1.6)
    middle = (1.5 * size, 1.5 * size)
    turn = cv2.getRotationMatrix2D(middle, angle, 1.0)  # OpenCV: positive is against the clock, as seen
    turned = cv2.warpAffine(drawn, turn, (3 * size, 3 * size), flags=cv2.INTER_CUBIC)
    cut = turned[size : 2 * size, size : 2 * size]
    return 128.0 + 30.0 * cut / cut.std()


@pytest.mark.parametrize("angle", [-80.0, -45.0, -12.0, -3.0, 0.0, 1.0, 7.0, 30.0, 60.0, 88.0])
def test_known_angles_are_met_to_a_degree(angle: float) -> None:
    found = grain(streaked(angle))
    assert turn_between(found.angle, angle) < 1.0
    assert found.sure > 0.8


def test_windows_along_a_face_follow_it() -> None:
    face = np.concatenate([streaked(4.0), streaked(-9.0, 2)], axis=1)
    found = grain_along(face, 106, 1)
    assert [turn_between(found[0].angle, 4.0) < 1.0, turn_between(found[-1].angle, -9.0) < 1.0] == [True, True]
    down = grain_along(np.concatenate([streaked(4.0), streaked(-9.0, 2)]), 106, 0)
    assert turn_between(down[0].angle, 4.0) < 1.0
    assert turn_between(down[-1].angle, -9.0) < 1.0


def test_a_plain_colour_and_noise_have_no_sure_grain() -> None:
    assert grain(np.full((60, 60), 140.0)).sure == 0.0
    assert grain(np.random.default_rng(0).normal(128.0, 30.0, (200, 200))).sure < 0.15
    assert grain(np.zeros((4, 4))).sure == 0.0


def test_directions_have_no_sign() -> None:
    assert turn_between(89.0, -89.0) == pytest.approx(2.0)
    assert turn_between(10.0, -20.0) == pytest.approx(30.0)


def test_colours_are_those_of_the_standard() -> None:
    """L*a*b* of the three primaries of sRGB against D65, as colour tables print them (from memory); and OpenCV's,
    whose tables are 0.3 off at most."""
    primaries = lab(np.array([(255, 0, 0), (0, 255, 0), (0, 0, 255), (255, 255, 255)], np.uint8))
    wanted = [(53.24, 80.09, 67.20), (87.73, -86.18, 83.18), (32.30, 79.19, -107.86), (100.0, 0.0, 0.0)]
    assert primaries == pytest.approx(np.array(wanted), abs=0.02)
    rgb = np.random.default_rng(3).integers(0, 256, (500, 1, 3)).astype(np.uint8)
    theirs = cv2.cvtColor(rgb.astype(np.float32) / 255.0, cv2.COLOR_RGB2Lab)
    assert lab(rgb) == pytest.approx(theirs, abs=0.35)
    assert lab(rgb.astype(float)) == pytest.approx(lab(rgb), abs=1e-9)
