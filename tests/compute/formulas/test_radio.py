"""Radio figures against Rec. ITU-R P.525 and definitions."""

import math
from collections.abc import Callable

import pytest

from builder.compute.formulas.radio import (
    decibels,
    free_space_loss,
    link_margin,
    polarisation_loss,
    power_level,
    power_ratio,
    radiated_power,
    received_level,
    wavelength,
)


def test_path_loss_at_5800_mhz_and_1_km() -> None:
    """Rec. ITU-R P.525: 107.67 dB with the printed 32.4, 107.72 dB with the exact constant 32.448."""
    loss = free_space_loss(5.8e9, 1000.0)
    assert loss == pytest.approx(107.72, abs=0.005)
    assert loss == pytest.approx(32.448 + 20 * math.log10(5800) + 20 * math.log10(1.0), abs=1e-3)
    assert loss - 0.048 == pytest.approx(107.67, abs=0.005)


@pytest.mark.parametrize(
    ("frequency", "distance"), [(868e6, 30.0), (2.44e9, 500.0), (5.8e9, 12000.0)]
)
def test_path_loss_is_the_printed_formula_everywhere(frequency: float, distance: float) -> None:
    printed = 32.4 + 20 * math.log10(frequency / 1e6) + 20 * math.log10(distance / 1000)
    assert free_space_loss(frequency, distance) == pytest.approx(printed, abs=0.05)


def test_twice_as_far_costs_6_db() -> None:
    assert free_space_loss(5.8e9, 200.0) - free_space_loss(5.8e9, 100.0) == pytest.approx(
        6.0206, abs=1e-4
    )


def test_radiated_power() -> None:
    """ITU Radio Regulations 1.161: e.i.r.p. is power less loss plus gain over isotropic, in
    decibels.
    """
    assert power_level(radiated_power(0.025, 0.5, 2.0)) == pytest.approx(
        power_level(0.025) - 0.5 + 2.0
    )
    assert radiated_power(0.025, 0.0, 0.0) == pytest.approx(0.025)


def test_levels() -> None:
    assert power_level(0.001) == pytest.approx(0.0)
    assert power_level(1.0) == pytest.approx(30.0)
    assert decibels(1000.0) == pytest.approx(30.0)
    assert power_ratio(-10.0) == pytest.approx(0.1)


@pytest.mark.parametrize("turn", [0.0, 0.4, 1.5])
def test_linear_to_circular_costs_3_db(turn: float) -> None:
    assert polarisation_loss(0.0, 1.0, turn) == pytest.approx(3.0103, abs=1e-4)
    assert polarisation_loss(-1.0, 0.0, turn) == pytest.approx(3.0103, abs=1e-4)


def test_alike_costs_nothing() -> None:
    for kind in (-1.0, -0.4, 0.0, 0.7, 1.0):
        assert polarisation_loss(kind, kind, 0.0) == pytest.approx(0.0, abs=1e-12)


def test_two_straight_antennas_lose_with_the_square_of_the_cosine() -> None:
    for turn in (0.2, 0.7, 1.2):
        assert polarisation_loss(0.0, 0.0, turn) == pytest.approx(-20 * math.log10(math.cos(turn)))


def field(ratio: float, turn: float) -> tuple[complex, complex]:
    """Unit vector of an elliptic wave with a signed axis ratio, its long axis turned."""
    size = math.hypot(1.0, ratio)
    long, short = complex(1.0 / size), complex(0.0, -ratio / size)
    c, s = math.cos(turn), math.sin(turn)
    return long * c - short * s, long * s + short * c


@pytest.mark.parametrize(("sent", "received"), [(0.8, 0.5), (0.8, -0.5), (-0.3, 0.9), (0.1, 0.2)])
@pytest.mark.parametrize("turn", [0.0, 0.6, 1.4])
def test_elliptic_waves_against_field_vectors(sent: float, received: float, turn: float) -> None:
    wave, antenna = field(sent, 0.0), field(received, turn)
    share = abs(sum(a * b.conjugate() for a, b in zip(wave, antenna, strict=True))) ** 2
    assert polarisation_loss(sent, received, turn) == pytest.approx(-10 * math.log10(share))


def test_a_link_from_end_to_end_against_friis() -> None:
    """P_r = P_t G_t G_r (λ / 4π d)² (Friis, 1946)."""
    power, distance = 0.025, 800.0
    expected = (
        power
        * power_ratio(1.2)
        * power_ratio(2.0)
        * (wavelength(5.8e9) / (4 * math.pi * distance)) ** 2
    )
    level = received_level(
        power_level(radiated_power(power, 0.0, 1.2)), free_space_loss(5.8e9, distance), 0.0, 2.0
    )
    assert level == pytest.approx(power_level(expected))
    farther = distance * 10 ** (link_margin(level, -90.0) / 20)
    left = free_space_loss(5.8e9, farther) - free_space_loss(5.8e9, distance)
    assert left == pytest.approx(link_margin(level, -90.0))


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (wavelength, (0.0,), "above 0"),
        (free_space_loss, (5.8e9, 0.0), "distance"),
        (power_level, (0.0,), "above 0"),
        (decibels, (0.0,), "above 0"),
        (radiated_power, (-1.0, 0.0, 0.0), "negative"),
        (polarisation_loss, (1.0, -1.0, 0.0), "take in nothing"),
        (polarisation_loss, (0.0, 0.0, math.pi / 2), "take in nothing"),
        (polarisation_loss, (1.1, 0.0, 0.0), "axis ratio"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
