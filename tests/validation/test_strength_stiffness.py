"""Beams of the load estimate against an independent reckoning: direct stiffness with two-node elements in numpy.

The method is that of any textbook of matrix structural analysis, the element's matrix from memory.
"""

from __future__ import annotations

import numpy as np
import pytest

from core.strength import statics

ELEMENTS = 16


def solved(
    length: float, stiffness: float, load: float, tip: float, held: tuple[int, ...]
) -> tuple[float, float, float]:
    """Greatest deflection, greatest moment, and reaction at the first support. held: freedoms, 2 for each node."""
    h = length / ELEMENTS
    one, other = [12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h]
    far = [6 * h, 2 * h * h, -6 * h, 4 * h * h]
    k = stiffness / h**3 * np.array([one, other, [-x for x in one], far])
    fixed = load * h / 12.0 * np.array([6.0, h, 6.0, -h])
    size = 2 * ELEMENTS + 2
    whole, forces = np.zeros((size, size)), np.zeros(size)
    for n in range(ELEMENTS):
        here = slice(2 * n, 2 * n + 4)
        whole[here, here] += k
        forces[here] += fixed
    forces[-2] += tip
    free = [n for n in range(size) if n not in held]
    moved = np.zeros(size)
    moved[free] = np.linalg.solve(whole[np.ix_(free, free)], forces[free])
    ends = [k @ moved[2 * n : 2 * n + 4] - fixed for n in range(ELEMENTS)]
    moment = max(abs(end[at]) for end in ends for at in (1, 3))
    reaction = float((whole @ moved - forces)[held[0]])
    return float(np.abs(moved[::2]).max()), float(moment), abs(reaction)


@pytest.mark.parametrize("seed", range(24))
def test_beams_and_cantilevers_within_a_hundredth(seed: int) -> None:
    draw = np.random.default_rng(seed)
    length, load, tip = (float(draw.uniform(*room)) for room in ((100, 900), (0.01, 2.0), (1.0, 200.0)))
    stiffness = 7000.0 * float(draw.uniform(12, 25)) * float(draw.uniform(25, 100)) ** 3 / 12.0
    sag, moment, reaction = solved(length, stiffness, load, 0.0, (0, 2 * ELEMENTS))
    assert statics.span_sag(load, length, stiffness) == pytest.approx(sag, rel=0.01)
    assert statics.span_moment(load, length) == pytest.approx(moment, rel=0.01)
    assert statics.widest_share((0.0, length), length) * load * length == pytest.approx(reaction, rel=0.01)
    sag, moment, reaction = solved(length, stiffness, load, tip, (0, 1))
    assert statics.overhang_sag(load, length, stiffness) + statics.tip_sag(tip, length, stiffness) == pytest.approx(
        sag, rel=0.01
    )
    assert statics.overhang_moment(load, length) + tip * length == pytest.approx(moment, rel=0.01)
    assert load * length + tip == pytest.approx(reaction, rel=0.01)
