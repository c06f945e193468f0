"""Heat of a joint: fins, plane and dwell against a textbook example, Bessel functions and
step-by-step integration.
"""

import math
from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import quad, solve_bvp

from builder.compute.formulas.electric.conductor import awg_diameter, wire_area
from builder.compute.formulas.soldering.fins import (
    film_through_insulation,
    long_fin_heat,
    ring_heat,
    round_perimeter,
    soaked_heat,
)
from builder.compute.formulas.soldering.heat import (
    conduction_heat,
    dwell_time,
    end_temperature,
    joint_heat,
    loss_conductance,
    melting_heat,
    warming_heat,
)
from builder.compute.formulas.soldering.solder import (
    ALLOYS,
    COPPER_CONDUCTIVITY,
    COPPER_HEAT_CAPACITY,
)
from tests.compute.formulas.solve import time_until

ROD = (100.0, round_perimeter(0.005), 398.0, wire_area(0.005))


def test_long_fin_of_the_textbook() -> None:
    """Incropera and DeWitt, example 3.9: a 5 mm copper rod, base 100 °C, air 25 °C, h = 100 W/m²K:
    8.3 W (memory).
    """
    assert long_fin_heat(*ROD, 75.0) == pytest.approx(8.3, abs=0.05)


def test_thicker_wire_leads_more_heat_away() -> None:
    """Gauge by gauge, and less through a thick insulation than off the bare metal of the same
    outside.
    """
    losses = []
    for gauge in (30, 28, 24, 20, 16, 12):
        bare = awg_diameter(gauge)
        film = film_through_insulation(15.0, bare, bare + 0.0006, 0.2)
        losses.append(
            long_fin_heat(film, round_perimeter(bare), COPPER_CONDUCTIVITY, wire_area(bare), 215.0)
        )
    assert losses == sorted(losses)
    assert losses[-1] > 5.0 * losses[0]


def test_insulation_of_no_thickness_does_nothing() -> None:
    assert film_through_insulation(20.0, 0.001, 0.001, 0.2) == pytest.approx(20.0)


def test_ring() -> None:
    """q = 2π k t Δθ / ln(r₂/r₁) against a thin ring as a flat bar."""
    bar = 401.0 * 7e-5 * (2 * math.pi * 0.01) / 1e-5 * 3.0
    assert ring_heat(401.0, 7e-5, 0.01 - 5e-6, 0.01 + 5e-6, 3.0) == pytest.approx(bar, rel=1e-6)


def test_dwell_against_an_integration() -> None:
    """C dT/dt = G (T_i - T) - L (T - T_a), scipy, until the working temperature."""
    heat, working, iron, ambient, tip, loss = 8.5, 513.15, 653.15, 298.15, 0.06, 0.02
    capacity = heat / (working - ambient)

    def gain(joint: float) -> float:
        return (tip * (iron - joint) - loss * (joint - ambient)) / capacity

    expected = time_until(gain, ambient, lambda joint: joint - working, 60.0)
    assert dwell_time(heat, working, iron, ambient, tip, loss) == pytest.approx(expected, rel=1e-6)


def test_dwell_without_loss_is_a_plain_exponential() -> None:
    expected = 8.5 / 215.0 / 0.1 * math.log(355.0 / 140.0)
    assert dwell_time(8.5, 513.15, 653.15, 298.15, 0.1, 0.0) == pytest.approx(expected)


def test_a_tip_that_just_holds_never_gets_there() -> None:
    """What it gives at the working temperature is what flows away there."""
    tip = 0.05 * (513.15 - 298.15) / (653.15 - 513.15)
    assert end_temperature(653.15, 298.15, tip, 0.05) == pytest.approx(513.15)
    with pytest.raises(ValueError, match="never gets hot enough"):
        dwell_time(8.5, 513.15, 653.15, 298.15, 0.999 * tip, 0.05)


def test_heat_of_the_parts_adds_up() -> None:
    copper = warming_heat(4.6e-5, COPPER_HEAT_CAPACITY, 200.0)
    assert copper == pytest.approx(3.53, abs=0.01)
    assert joint_heat(copper, 0.5, 1.0, melting_heat(2e-5, 45000.0)) == pytest.approx(copper + 2.4)
    assert loss_conductance(8.0, 200.0) == 0.04


# Melting ranges of solders (secondary copies of tables): solidus and liquidus in °C.
@pytest.mark.parametrize(
    ("name", "solidus", "liquidus"),
    [("Sn63Pb37", 183, 183), ("Sn60Pb40", 183, 190), ("SAC305", 217, 220)],
)
def test_melting_ranges(name: str, solidus: float, liquidus: float) -> None:
    alloy = next(a for a in ALLOYS if a.name == name)
    assert alloy.solidus - 273.15 == pytest.approx(solidus)
    assert alloy.liquidus - 273.15 == pytest.approx(liquidus)
    assert alloy.lead_free == (name == "SAC305")


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (long_fin_heat, (-1.0, 0.01, 400.0, 1e-6, 10.0), "negative"),
        (film_through_insulation, (10.0, 0.002, 0.001, 0.2), "no thinner"),
        (ring_heat, (400.0, 1e-4, 0.002, 0.002, 10.0), "smaller"),
        (loss_conductance, (1.0, 0.0), "warmer"),
        (end_temperature, (600.0, 300.0, 0.0, 0.0), "above 0"),
        (dwell_time, (-1.0, 510.0, 650.0, 300.0, 0.1, 0.01), "0 or more"),
        (dwell_time, (1.0, 290.0, 650.0, 300.0, 0.1, 0.01), "above the temperature"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)


def test_a_bar_is_the_limit_of_a_fin_that_gives_nothing_off() -> None:
    """A short fin with its end held cold: Fourier's law against the slope of the exact profile at
    its base (scipy).
    """
    length, excess = 0.01, 200.0
    found = solve_bvp(
        lambda _x, y: np.vstack([y[1], 0.0 * y[0]]),
        lambda a, b: np.array([a[0] - excess, b[0]]),
        np.array([0.0, length]),
        np.array([[excess, 0.0], [0.0, 0.0]]),
    )
    assert found.success
    assert conduction_heat(120.0, 2e-6, length, excess) == pytest.approx(
        -120.0 * 2e-6 * found.y[1][0]
    )


def test_heat_in_a_ring_is_its_profile_summed_up() -> None:
    """θ ln(r₂/r)/ln(r₂/r₁), the profile of a ring between two circles, times area and capacity, by
    scipy's quadrature.
    """
    inner, outer, excess, capacity = 0.0023, 0.015, 205.0, 3500.0
    profile, _ = quad(
        lambda r: 2 * math.pi * r * math.log(outer / r) / math.log(outer / inner), inner, outer
    )
    assert soaked_heat(capacity, inner, outer, excess) == pytest.approx(capacity * excess * profile)
