"""Faces are made off the GUI thread, small ones first; levels are halvings."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from app.fold import faces
from app.fold.edges import edge_levels
from app.fold.faces import FaceKey, Faces, Wish, sheet_seed
from app.fold.levels import halved, levels_of
from app.fold.scene import EdgeKey
from core.solid.plies import ply_count

MADE_MS = 60_000


@given(st.integers(1, 700), st.integers(1, 400), st.integers(0, 2**32 - 1))
def test_levels_are_halvings_down_to_one_pixel(across: int, down: int, seed: int) -> None:
    """Sizes as OpenGL counts them: halved and rounded down, at least 1. Source: OpenGL 2.1 specification, 3.8.8."""
    face = np.random.default_rng(seed).integers(0, 256, (down, across, 3), np.uint8)
    levels = levels_of(face)
    assert levels[0] is face
    assert levels[-1].shape == (1, 1, 3)
    for finer, coarser in pairwise(levels):
        assert coarser.shape == (max(1, finer.shape[0] // 2), max(1, finer.shape[1] // 2), 3)
        assert coarser.flags["C_CONTIGUOUS"]


@given(st.integers(1, 200), st.integers(1, 300), st.integers(0, 2**32 - 1))
def test_a_halving_is_the_mean_of_four(across: int, down: int, seed: int) -> None:
    face = np.random.default_rng(seed).integers(0, 256, (2 * down, 2 * across, 3), np.uint8)
    mean = face.reshape(down, 2, across, 2, 3).mean(axis=(1, 3))
    assert np.abs(halved(face) - mean).max() <= 0.5 + 1e-9


def test_levels_stop_when_told() -> None:
    assert levels_of(np.zeros((64, 64, 3), np.uint8), lambda: True) == ()


def test_small_faces_come_first_and_then_fine_ones(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    for kept in faces._KEPT.values():
        kept.clear()
    monkeypatch.setattr(faces, "fine_size", lambda *_: (256, 128))
    maker = Faces()
    keys = [FaceKey(1000.0, 500.0, seed) for seed in range(4)]
    edge = EdgeKey(18.0, 0.6, False)
    order: list[int] = []
    maker.ready.connect(lambda: order.append(sum(len(kept) for kept in faces._KEPT.values())))
    maker.want([edge], keys)
    assert maker.kept(Wish(keys[0], "small")) is None, "it was made while the GUI waited"
    qtbot.waitUntil(lambda: not maker.is_busy, timeout=MADE_MS)
    assert order == list(range(1, 1 + 1 + 4 + faces.MOST["fine"]))
    small, fine = (maker.kept(Wish(keys[0], size)) for size in ("small", "fine"))
    assert small is not None
    assert fine is not None
    assert small[0].shape != fine[0].shape
    assert maker.kept(Wish(keys[3], "fine")) is None, "only the first sheets get a fine face"
    assert maker.kept(Wish(edge, "edge")) is not None


def test_what_is_no_longer_wanted_is_not_finished(qtbot: QtBot) -> None:
    maker = Faces()
    for kept in faces._KEPT.values():
        kept.clear()
    first, second = FaceKey(2000.0, 1000.0, 1), FaceKey(2000.0, 1000.0, 2)
    maker.want([], [first])
    maker.want([], [second])
    qtbot.waitUntil(lambda: maker.kept(Wish(second, "small")) is not None, timeout=MADE_MS)
    maker.stop()
    qtbot.waitUntil(lambda: not maker.is_busy, timeout=MADE_MS)
    assert maker.kept(Wish(first, "small")) is None


def test_kept_faces_are_few(qtbot: QtBot) -> None:
    for seed in range(faces.MOST["small"] + 10):
        faces._keep(Wish(FaceKey(10.0, 10.0, seed), "small"), ())
    assert len(faces._KEPT["small"]) == faces.MOST["small"]
    assert FaceKey(10.0, 10.0, seed) in faces._KEPT["small"]
    faces._KEPT["small"].clear()


def test_a_sheet_always_has_the_same_log_and_two_sheets_have_two() -> None:
    assert sheet_seed("oak1") == sheet_seed("oak1")
    assert sheet_seed("oak1") != sheet_seed("oak2")


@pytest.mark.parametrize("crosswise", [False, True])
def test_an_edge_has_as_many_glue_lines_as_plies_meet(crosswise: bool) -> None:
    thickness, veneer = 18.0, 0.6
    face = edge_levels(EdgeKey(thickness, veneer, crosswise))[0].astype(float).mean(axis=(1, 2))
    inner = face[1:-1]
    dark = (inner < face[:-2]) & (inner < face[2:]) & (inner < 0.93 * np.median(face))
    assert dark.sum() == pytest.approx(ply_count(thickness, veneer) - 1, abs=2)  # the outer veneers are thin
