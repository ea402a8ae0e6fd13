"""Spreading marks along a line so that none lie closer than a pitch, each moved as little as may be."""

from __future__ import annotations

from collections.abc import Sequence


def spread(places: Sequence[float], pitch: float) -> list[float]:
    """The nearest places (least squares) that are at least `pitch` apart and in the same order.

    places: ascending. The first stays within half a pitch of its own place, so that a row does not run past the
    corner it is measured from. Taking i x pitch off the i-th leaves the problem of the nearest ascending row,
    solved by pooling neighbours that are out of order (isotonic regression).
    """
    pools: list[tuple[float, int]] = []  # mean, count
    for i, place in enumerate(places):
        mean, count = place - i * pitch, 1
        while pools and pools[-1][0] >= mean:
            other, size = pools.pop()
            mean, count = (mean * count + other * size) / (count + size), count + size
        pools.append((mean, count))
    row = [mean for mean, count in pools for _ in range(count)]
    least = places[0] - pitch / 2.0 if places else 0.0
    return [max(mean, least) + i * pitch for i, mean in enumerate(row)]
