"""Spreads, chances and bands against scipy, numpy and simulated samples."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from builder.compute.formulas.uncertainty.few_samples import (
    mean_margin,
    next_margin,
    pooled_spread,
    student_quantile,
)
from builder.compute.formulas.uncertainty.statistics import (
    chance_above,
    log_spread,
    resolution_spread,
    robust_distance,
)


def test_a_scale_with_steps_of_one_gram() -> None:
    """Common practice, no source: 1 g readings carry 0.29 g each; scipy's uniform distribution
    agrees.
    """
    assert resolution_spread(1.0) == pytest.approx(0.29, abs=0.005)
    assert resolution_spread(0.1) == pytest.approx(float(stats.uniform(0, 0.1).std()))


@pytest.mark.parametrize(
    ("value", "limit", "spread"), [(249.0, 250.0, 0.5), (252.0, 250.0, 1.0), (245.0, 250.0, 0.7)]
)
def test_chance_of_exceeding_a_limit(value: float, limit: float, spread: float) -> None:
    assert chance_above(value, limit, spread) == pytest.approx(
        float(stats.norm.sf(limit, value, spread)), rel=1e-12
    )


def test_chance_far_from_the_limit_does_not_round_to_nothing() -> None:
    assert chance_above(240.0, 250.0, 1.0) == pytest.approx(float(stats.norm.sf(10.0)), rel=1e-9)


def test_chance_without_spread() -> None:
    assert chance_above(249.6, 250.0, 0.0) == 0.0
    assert (
        chance_above(249.6, 249.476, 0.0) == 1.0
    )  # 0.55 lb: passes the one limit and fails the other
    assert chance_above(250.0, 250.0, 0.0) == 0.0


@given(st.lists(st.floats(0.2, 5.0), min_size=2, max_size=12))
@settings(max_examples=60, deadline=None)
def test_logarithms_of_ratios_against_scipy_and_numpy(ratios: list[float]) -> None:
    assert log_spread(*ratios) == pytest.approx(
        float(np.std(np.log(ratios), ddof=1)), rel=1e-9, abs=1e-12
    )


def test_an_outlier_does_not_hide_itself() -> None:
    flights = (1.41, 1.52, 1.47, 1.55, 2.9)
    assert robust_distance(2.9, *flights) > 3.5
    assert all(abs(robust_distance(x, *flights)) < 3.5 for x in flights[:-1])
    plain = (2.9 - np.mean(flights)) / np.std(flights, ddof=1)
    assert plain < 2.0, "a plain spread would not have marked it"


def test_robust_distance_counts_in_normal_spreads() -> None:
    """scipy's median_abs_deviation with scale='normal' is the same yardstick to four digits."""
    sample = np.random.default_rng(7).normal(0.0, 1.0, 501)
    yardstick = stats.median_abs_deviation(sample, scale="normal")
    expected = (sample[0] - np.median(sample)) / yardstick
    assert robust_distance(float(sample[0]), *(float(x) for x in sample)) == pytest.approx(
        float(expected), rel=1e-4
    )


def test_robust_distance_among_equals() -> None:
    assert robust_distance(1.5, 1.5, 1.5, 1.5, 2.0) == 0.0
    assert robust_distance(2.0, 1.5, 1.5, 1.5, 2.0) == math.inf
    assert robust_distance(1.0, 1.5, 1.5, 1.5, 1.0) == -math.inf


@given(
    st.one_of(st.floats(1e-6, 0.499), st.floats(0.501, 1 - 1e-6)),
    st.one_of(st.integers(1, 60).map(float), st.floats(0.5, 2000.0)),
)
@settings(max_examples=150, deadline=None)
def test_students_t_against_scipy(chance: float, freedom: float) -> None:
    assert student_quantile(chance, freedom) == pytest.approx(
        float(stats.t.ppf(chance, freedom)), rel=1e-7
    )


# Student's t as printed in every table (two-sided 95 %): degrees of freedom, t.
@pytest.mark.parametrize(
    ("freedom", "printed"), [(1, 12.706), (2, 4.303), (4, 2.776), (10, 2.228), (30, 2.042)]
)
def test_students_t_as_printed(freedom: float, printed: float) -> None:
    assert student_quantile(0.975, freedom) == pytest.approx(printed, abs=6e-4)
    assert student_quantile(0.025, freedom) == pytest.approx(
        -student_quantile(0.975, freedom), rel=1e-12
    )
    assert student_quantile(0.5, freedom) == 0.0


def test_bands_from_few_samples_against_scipy() -> None:
    sample = np.array([1.41, 1.52, 1.47, 1.60])
    low, _ = stats.t.interval(0.8, 3, loc=sample.mean(), scale=stats.sem(sample))
    assert mean_margin(float(sample.std(ddof=1)), 4, 3, 0.8) == pytest.approx(
        float(sample.mean() - low)
    )


def test_the_band_for_the_next_flight_covers_what_it_says() -> None:
    """1,000 logs of five flights and a sixth (numpy): the 80 % band holds it in 75 to 85 % of them."""
    draw = np.random.default_rng(1)
    held = 0
    for _ in range(1000):
        logs = draw.normal(math.log(1.5), 0.15, 6)
        known = logs[:5]
        margin = next_margin(float(known.std(ddof=1)), 5, 4, 0.8)
        held += abs(logs[5] - known.mean()) <= margin
    assert 750 <= held <= 850


def test_one_flight_leans_on_what_was_known_before() -> None:
    assert pooled_spread(0.2, 4.0, 0.0, 1) == 0.2
    assert pooled_spread(0.2, 0.0, 0.35, 6) == pytest.approx(0.35)
    two = pooled_spread(0.2, 4.0, 0.4, 2)
    assert two == pytest.approx(math.sqrt((4 * 0.04 + 0.16) / 5))


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (resolution_spread, (-1.0,), "negative"),
        (chance_above, (1.0, 1.0, -1.0), "negative"),
        (log_spread, (1.0,), "two of them"),
        (robust_distance, (1.0, 1.0, 2.0), "three values"),
        (pooled_spread, (0.2, 0.0, 0.0, 1), "knowledge from before"),
        (student_quantile, (1.0, 4), "1e-6"),
        (student_quantile, (0.9, 0.1), "degree of freedom"),
        (mean_margin, (0.1, 0.0, 1, 0.8), "one sample"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[object, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
