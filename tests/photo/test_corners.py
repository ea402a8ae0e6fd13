"""The corners that are proposed."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image

from core.face import veneer
from core.photo.corners import proposed_corners
from tests.photo.synthetic import photographed

SIZE = (2000, 1500)
VIEWS = {
    "from the front": ((210.0, 1190.0), (1780.0, 1260.0), (1650.0, 380.0), (320.0, 345.0)),
    "upright": ((520.0, 1400.0), (1330.0, 1390.0), (1250.0, 120.0), (610.0, 100.0)),
    "askew": ((150.0, 800.0), (1200.0, 1380.0), (1850.0, 700.0), (800.0, 130.0)),
}


@pytest.mark.parametrize("view", VIEWS)
def test_a_sheet_on_a_plain_ground_is_found(view: str) -> None:
    sheet = veneer(2440.0, 1220.0, 3, 2048, 1024)
    picture = photographed(sheet, VIEWS[view], SIZE, vignette=0.25, noise=4.0)
    corners, found = proposed_corners(Image.fromarray(picture))
    assert found
    off = np.array(corners) * SIZE - np.array(VIEWS[view])
    assert np.hypot(off[:, 0], off[:, 1]).max() < 0.004 * np.hypot(*SIZE)


def test_where_nothing_stands_out_they_are_inside_the_picture() -> None:
    plain = np.random.default_rng(0).normal(150, 5, (300, 400, 3)).clip(0, 255).astype(np.uint8)
    corners, found = proposed_corners(Image.fromarray(plain))
    assert not found
    assert all(0.0 < x < 1.0 and 0.0 < y < 1.0 for x, y in corners)
