"""The edge picture shows the plies there are."""

from __future__ import annotations

import numpy as np
import pytest

from core.face.edge import edge_face
from core.solid.plies import plies


@pytest.mark.parametrize(("thickness", "veneer"), [(18.2, 0.6), (17.6, 1.1), (12.0, 1.1), (6.5, 0.9)])
@pytest.mark.parametrize("crosswise", [False, True])
def test_bands_of_the_picture_are_the_plies(thickness: float, veneer: float, crosswise: bool) -> None:
    layers = plies(thickness, veneer)
    picture = edge_face(layers, 1, 800, 400, crosswise=crosswise)
    rows = np.median(picture[..., 0], axis=1)
    middles = [rows[int((ply.top + ply.bottom) / 2.0 / thickness * 400)] for ply in layers]
    light = [value > 205.0 for value in middles]
    assert light == [ply.along != crosswise for ply in layers]
    # Between each two plies runs a darker line.
    for above in layers[:-1]:
        line = int(above.bottom / thickness * 400)
        assert rows[line - 1 : line + 2].min() < min(middles) - 5.0


def test_the_rows_are_the_same_at_any_number_of_pixels() -> None:
    layers = plies(18.0, 0.6)
    fine = edge_face(layers, 1, 8192, 256).mean(axis=1)
    coarse = edge_face(layers, 1, 8192, 32).mean(axis=1)
    assert fine.reshape(32, 8, 3).mean(axis=1) == pytest.approx(coarse, abs=4.0)
