"""What faces are made of, each against its definition written plainly."""

from __future__ import annotations

import numpy as np
import pytest

from core.face.noise import Field, dashes, fibres, streaks, wander, waves
from core.face.rings import REACH, STEP, rings
from core.face.species import OAK


def test_a_field_is_the_sum_of_its_waves_at_any_pitch() -> None:
    random = np.random.default_rng(1)
    made = waves(random, 9, (50.0, 500.0), (5.0, 50.0), 2.0) + waves(random, 4, (20.0, 30.0), (5.0, 9.0), 0.5)
    u, v = np.linspace(0.0, 1000.0, 333), np.linspace(-100.0, 100.0, 57)
    angle = made.across[:, None, None] * u + made.down[:, None, None] * v[:, None] + made.phase[:, None, None]
    plain = (made.height[:, None, None] * np.cos(angle)).sum(axis=0)
    assert Field(made, u).rows(v) == pytest.approx(plain, abs=1e-3)
    assert Field(made, u[::3]).rows(v) == pytest.approx(plain[:, ::3], abs=1e-3)


def test_a_field_has_the_deviation_asked_for() -> None:
    made = waves(np.random.default_rng(2), 40, (50.0, 100.0), (50.0, 100.0), 3.0)
    field = Field(made, np.linspace(0.0, 5000.0, 800)).rows(np.linspace(0.0, 5000.0, 800))
    assert field.std() == pytest.approx(3.0, rel=0.1)
    assert abs(field.mean()) < 0.3


def test_a_path_wanders_with_the_slope_asked_for() -> None:
    at = np.linspace(0.0, 200_000.0, 100_001)
    paths = [wander(np.random.default_rng(s), at, (2000.0, 900.0), 0.02) for s in range(20)]
    slopes = [np.gradient(path, at).std() for path in paths]
    assert np.mean(slopes) == pytest.approx(0.02, rel=0.1)


def test_streaks_shrink_to_the_average_of_what_a_pixel_covers() -> None:
    random = np.random.default_rng(3)
    made = streaks(random, fibres(random, 6, 256, ((6.0, 1.0),)), 64)
    whole = made.sampler(256, 64).block(0, 64)
    assert whole.std() == pytest.approx(1.0, rel=0.2)
    for row in range(64):
        assert np.array_equal(whole[row], np.roll(made.rows[made.kind[row]], -made.start[row]))
    # To whole picture pixels: rows start at the nearest one, so a quarter's rows may lie up to half a pixel off.
    aligned = streaks(np.random.default_rng(4), made.rows, 64)
    aligned = type(aligned)(aligned.rows, aligned.kind, aligned.start // 4 * 4)
    quarter = aligned.sampler(64, 16).block(0, 16)
    averaged = aligned.sampler(256, 64).block(0, 64).reshape(16, 4, 64, 4).mean(axis=(1, 3))
    assert quarter == pytest.approx(averaged, abs=1e-5)


def test_streaks_at_a_broken_fraction_keep_their_mean_row_by_row() -> None:
    random = np.random.default_rng(5)
    made = streaks(random, fibres(random, 6, 256, ((20.0, 1.0),)), 64)
    odd = made.sampler(100, 64).block(0, 64)
    assert odd.mean(axis=1) == pytest.approx(made.sampler(256, 64).block(0, 64).mean(axis=1), abs=1e-3)


def test_dashes_are_as_many_and_as_long_as_asked() -> None:
    rows = dashes(np.random.default_rng(6), 40, 4096, 50.0, 10.0)
    assert rows.min() == 0.0
    assert rows.max() <= 1.0
    inside = rows > 1e-6
    starts, covered = (inside[:, 1:] & ~inside[:, :-1]).sum(), inside.mean()
    # Lengths are log-normal about a median of 10, mean 10 e^(0.5^2 / 2) = 11.3, and one more for the soft end;
    # dashes that fall on one another count once: Poisson, so 1 - e^-(12.3 / 50) of a row is covered.
    assert covered == pytest.approx(1.0 - np.exp(-12.3 / 50.0), rel=0.1)
    assert starts == pytest.approx(40 * 4096 / 50.0 * (1.0 - covered), rel=0.15)


def test_ring_tables_hold_averages_over_what_a_pixel_sees() -> None:
    made = rings(np.random.default_rng(7), OAK, 120.0)
    fine = made.early[: made.count].astype(float)
    for level, reach in enumerate(REACH):
        table = made.early[level * made.count : (level + 1) * made.count]
        assert made.level(np.array([reach]))[0] == level * made.count
        assert table.mean() == pytest.approx(fine.mean(), rel=0.01)
        if reach < 0.4:
            continue  # the finest level is itself averaged, which shows where early wood begins
        span = 2 * round(reach / STEP / 2.0) + 1
        plain = np.convolve(fine, np.full(span, 1.0 / span), mode="same")
        inside = slice(span, made.count - span)
        assert table[inside] == pytest.approx(plain[inside], abs=0.05)


def test_rings_are_as_wide_as_the_species_grows_them() -> None:
    made = rings(np.random.default_rng(8), OAK, 600.0)
    early = made.early[: made.count]
    years = ((early[1:] > 0.3) & (early[:-1] <= 0.3)).sum()
    assert 600.0 / years == pytest.approx(OAK.ring, rel=0.25)


def test_a_larger_log_keeps_the_rings_it_had() -> None:
    small, large = (rings(np.random.default_rng(9), OAK, radius) for radius in (150.0, 300.0))
    assert large.early[: small.count - 200] == pytest.approx(small.early[: small.count - 200])
