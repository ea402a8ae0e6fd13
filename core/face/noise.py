"""Seeded noise for faces: smooth fields that can be sampled at any pitch, and streaks that run with the
grain."""

from __future__ import annotations

from math import log, pi

import msgspec
import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

Floats = NDArray[np.float32]
Span = tuple[float, float]


class Waves(msgspec.Struct, frozen=True):
    """A smooth random field over (u, v): a sum of plane waves, so it is the same at any pitch."""

    across: NDArray[np.float64]  # wave numbers along u [rad/mm], (n,)
    down: NDArray[np.float64]  # along v [rad/mm], (n,)
    phase: NDArray[np.float64]  # (n,)
    height: NDArray[np.float64]  # (n,)

    def __add__(self, other: Waves) -> Waves:
        return Waves(
            np.concatenate([self.across, other.across]),
            np.concatenate([self.down, other.down]),
            np.concatenate([self.phase, other.phase]),
            np.concatenate([self.height, other.height]),
        )


def waves(random: np.random.Generator, count: int, lengths_u: Span, lengths_v: Span, deviation: float) -> Waves:
    """A field of `count` waves with wave lengths in the given spans [mm] and a standard deviation."""
    u = np.exp(random.uniform(log(lengths_u[0]), log(lengths_u[1]), count))
    v = np.exp(random.uniform(log(lengths_v[0]), log(lengths_v[1]), count))
    sign = random.choice([-1.0, 1.0], count)
    phase = random.uniform(0.0, 2.0 * pi, count)
    return Waves(2.0 * pi / u, sign * 2.0 * pi / v, phase, np.full(count, deviation * np.sqrt(2.0 / count)))


class Field:
    """A field of waves at fixed places u, for as many v as wanted.

    A sum of products, cos(ku + p) cos(kv) - sin(ku + p) sin(kv), and so a matrix product. It is made in
    strips so narrow that numpy's matrix library stays on this thread: several threads would wait for each
    other, and for the window's, many times longer than the product takes.
    """

    STRIP = 64

    def __init__(self, waves: Waves, u: NDArray[np.float64]) -> None:
        self._waves, self._across = waves, len(u)
        strips = -(-len(u) // self.STRIP)
        padded = np.concatenate([u, np.full(strips * self.STRIP - len(u), u[-1])])
        angle = np.outer(waves.across, padded) + waves.phase[:, None]
        factor = np.concatenate([np.cos(angle), np.sin(angle)]).astype(np.float32)
        self._factor = np.ascontiguousarray(factor.reshape(len(factor), strips, self.STRIP).transpose(1, 0, 2))

    def rows(self, v: NDArray[np.float64]) -> Floats:
        """The field at each v and each u, (len(v), len(u))."""
        angle = np.outer(v, self._waves.down)
        factor = np.concatenate([self._waves.height * np.cos(angle), -self._waves.height * np.sin(angle)], axis=1)
        strips = len(self._factor)
        field: Floats = np.empty((len(v), strips * self.STRIP), np.float32)
        by_strip = field.reshape(len(v), strips, self.STRIP).transpose(1, 0, 2)
        np.matmul(factor.astype(np.float32), self._factor, out=by_strip)
        return field[:, : self._across]


def wander(
    random: np.random.Generator, at: NDArray[np.float64], lengths: tuple[float, ...], slope: float
) -> NDArray[np.float64]:
    """A slow random path at the places `at`: a few waves of about `lengths` [mm], of a mean `slope`."""
    path = np.zeros_like(at)
    share = slope * np.sqrt(2.0 / len(lengths))
    for about in lengths:
        length = about * random.uniform(0.8, 1.25)
        height = share * random.uniform(0.6, 1.4) * length / (2.0 * pi)
        path += height * np.sin(2.0 * pi * at / length + random.uniform(0.0, 2.0 * pi))
    return path


class Streaks(msgspec.Struct, frozen=True):
    """Rows of noise that runs along the grain, each row of the fine grid a cut from one of a few long ones.

    Rows are cut at random places, so that no two neighbours agree and no row is met twice on one sheet.
    """

    rows: Floats  # (kinds, across): a whole sheet's length each, closed to a ring
    kind: NDArray[np.intp]  # (down,)
    start: NDArray[np.intp]  # (down,)

    def sampler(self, across: int, down: int) -> Sampler:
        """Averages for a picture of `across` x `down` pixels over the same sheet."""
        fine_down, fine_across = len(self.kind), self.rows.shape[1]
        step = fine_across / across
        shrunk = _shrink(self.rows, across)
        shrunk = np.concatenate([shrunk, shrunk], axis=1)
        first = np.rint(np.arange(down + 1) * fine_down / down).astype(np.intp)
        start = np.minimum(np.rint(self.start / step).astype(np.intp), across)
        return Sampler(sliding_window_view(shrunk, across, axis=1), self.kind, start, first)


class Sampler(msgspec.Struct, frozen=True):
    """Streaks averaged to the pixels of one picture."""

    windows: Floats  # (kinds, across + 1, across), a view
    kind: NDArray[np.intp]
    start: NDArray[np.intp]
    first: NDArray[np.intp]  # (down + 1,): the first fine row of each picture row

    def block(self, low: int, high: int) -> Floats:
        """Picture rows low..high, (high - low, across)."""
        first, last = self.first[low:high], self.first[low + 1 : high + 1]
        count = max(1, int((last - first).max()))
        total: Floats | None = None
        for offset in range(count):
            row = np.minimum(np.minimum(first + offset, np.maximum(last - 1, first)), self.first[-1] - 1)
            part = self.windows[self.kind[row], self.start[row]]
            total = part if total is None else np.add(total, part, out=total)
        assert total is not None
        return total if count == 1 else np.multiply(total, np.float32(1.0 / count), out=total)


def streaks(random: np.random.Generator, rows: Floats, down: int) -> Streaks:
    """Cut `down` rows of a sheet from a few long ones, (kinds, across)."""
    kinds, across = rows.shape
    return Streaks(rows, random.integers(0, kinds, down), random.integers(0, across, down))


def fibres(random: np.random.Generator, kinds: int, across: int, blend: tuple[tuple[float, float], ...]) -> Floats:
    """Long rows of smooth noise, (kinds, across), standard deviation 1.

    blend: (length in pixels, weight) of the streaks that are mixed.
    """
    noise = random.standard_normal((kinds, across), dtype=np.float32)
    frequency = np.fft.rfftfreq(across)
    power = sum(w * w * n * np.exp(-2.0 * (frequency * n * pi / 2.0) ** 2) for n, w in blend)
    rows = np.fft.irfft(np.fft.rfft(noise, axis=1) * np.sqrt(power), across, axis=1)
    result: Floats = (rows / rows.std()).astype(np.float32)
    return result


def dashes(random: np.random.Generator, kinds: int, across: int, spacing: float, length: float) -> Floats:
    """Long rows of dashes, (kinds, across), 0 between and up to 1 in them.

    spacing: mean distance from one dash's start to the next in a row; length: their median. [pixels]
    """
    count = int(kinds * across / spacing)
    row, start = random.integers(0, kinds, count), random.integers(0, across, count)
    long = np.maximum(2, random.lognormal(log(length), 0.5, count)).astype(np.intp)
    dark = random.uniform(0.45, 1.0, count)
    steps = np.bincount(row * across + start, dark, kinds * across)
    steps -= np.bincount(row * across + (start + long) % across, dark, kinds * across)
    wrapped = np.bincount(row, dark * (start + long >= across), kinds)  # run on over the row's end
    level = np.cumsum(steps.reshape(kinds, across), axis=1) + wrapped[:, None]
    level += 0.5 * (np.roll(level, 1, axis=1) - level)  # soft ends
    result: Floats = np.clip(level, 0.0, 1.0).astype(np.float32)
    return result


def _shrink(rows: Floats, across: int) -> Floats:
    """Rows averaged to `across` pixels, whole or broken steps alike."""
    step = rows.shape[1] / across
    if step == round(step):
        shrunk = rows[:, :: round(step)].copy()
        for offset in range(1, round(step)):
            shrunk += rows[:, offset :: round(step)]
        shrunk *= np.float32(1.0 / step)
        return shrunk
    total = np.concatenate([np.zeros((rows.shape[0], 1)), np.cumsum(rows, axis=1, dtype=np.float64)], axis=1)
    edges = np.arange(across + 1) * step
    whole = np.minimum(edges.astype(np.intp), rows.shape[1] - 1)
    upto = total[:, whole] + (edges - whole) * (total[:, whole + 1] - total[:, whole])
    result: Floats = (np.diff(upto, axis=1) / step).astype(np.float32)
    return result
