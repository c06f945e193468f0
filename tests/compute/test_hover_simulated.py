"""Printed spreads of hover power (within 3 %) and of times (within 5 %) against a simulation that is
written anew from textbooks and shares no code with the estimate (JCGM 101:2008).

Momentum theory: Leishman, Principles of Helicopter Aerodynamics, ch. 2. Dry air: 287.05 J/kg/K, and
the isothermal barometric formula. Capacity in the cold: straight lines through 0.80 at 0 degC and 1
at 25 degC of one maker's data sheet. Resistance in the cold: Arrhenius, 2000 K (from memory).
"""

from typing import Any

import numpy as np
import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.flight.flight import PackFlight
from tests.compute.small_workspace import one_build
from tests.compute.test_safe_landing import SHELF

DRAWS = 200_000
# Curve of resting volts of lithium-polymer from full to a fifth left, tenth by tenth (from memory).
CURVE = (4.20, 4.11, 4.02, 3.95, 3.87, 3.84, 3.80, 3.77, 3.73)
BUILD = """title: T
parts: {frame: frame, motor: {use: motor, count: 4}, prop: {use: prop, count: 4}}
packs: {pack: {use: pack, temperature: 20 degC}}
setup: {landing: {share: 20 %%}, style: {factor: %s ± 0.05}}
"""


def _flown(factor: float, celsius: float) -> PackFlight:
    place = f"title: T\nplace: {{altitude: 0 m, temperature: {celsius} degC}}"
    build = one_build(SHELF % ("lithium-polymer", ""), BUILD % factor, place)
    return compute(build).flight.packs["pack"]


def _leaf(figure: MaybeFigure, end: str) -> tuple[float, float]:
    """What goes in: value and spread of a leaf of the estimate, which are no formula."""
    assert isinstance(figure, Figure)
    (found,) = [n for n in figure.derivation if n.formula is None and n.key.endswith(end)]
    return found.value, found.own


def _near(random: np.random.Generator, value: float, spread: float) -> Any:
    """A quantity above nothing with this mean and spread, in logarithms."""
    return value * np.exp(spread / value * random.standard_normal(DRAWS))


def _simulated(found: PackFlight, factor: float, celsius: float) -> tuple[Any, Any]:
    """Hover power in W, and seconds in the air down to a fifth left in the builder's style."""
    random, of = np.random.default_rng(7), found.reserve.time
    kilograms = 0.29 + _leaf_spread_of_mass(found) * random.standard_normal(DRAWS)
    air = 273.15 + celsius + _leaf(of, "place/temperature")[1] * random.standard_normal(DRAWS)
    height = _leaf(of, "place/altitude")[1] * random.standard_normal(DRAWS)
    density = 101325.0 * np.exp(-9.81 * height / 287.05 / air) / 287.05 / air
    merit = _near(random, *_leaf(of, "prop/merit"))
    efficiency = _near(random, *_leaf(of, "drive-efficiency"))
    disc = np.pi * 0.04445**2
    each = (kilograms * 9.80665 / 4) ** 1.5 / np.sqrt(2 * density * disc)
    hover = 4 * each / merit / efficiency
    style = factor + 0.05 * random.standard_normal(DRAWS)
    cell = (293.15 + 4.0 * random.standard_normal(DRAWS) + air) / 2
    share = 0.80 + 0.20 * (cell - 273.15) / 25.0
    charge = 0.8 * 3060.0 * share * (1 + 0.04 * random.standard_normal(DRAWS))
    volts = 4 * float(np.mean(np.convolve(CURVE, (0.5, 0.5), "valid")))
    ohms = 4 * _near(random, *_leaf(of, "pack/resistance"))
    ohms = ohms * np.exp(2000.0 * (1 / cell - 1 / 298.15))
    power = hover * style
    amperes = (volts - np.sqrt(volts**2 - 4 * ohms * power)) / (2 * ohms)
    return hover, charge * (volts - ohms * amperes) / power


def _leaf_spread_of_mass(found: PackFlight) -> float:
    assert isinstance(found.mass, Figure)
    return found.mass.spread


def _spread(drawn: Any) -> float:
    return float(np.std(np.log(drawn)))


@pytest.mark.parametrize(("factor", "celsius"), [(1.2, 4.0), (1.6, 4.0), (1.3, 20.0)])
def test_printed_spreads_are_what_a_simulation_written_anew_finds(
    factor: float, celsius: float
) -> None:
    found = _flown(factor, celsius)
    hover, seconds = _simulated(found, factor, celsius)
    power, time = found.hover_power, found.reserve.time
    assert isinstance(power, Figure)
    assert isinstance(time, Figure)
    assert float(np.median(hover)) == pytest.approx(power.value, rel=0.01)
    assert _spread(hover) == pytest.approx(power.spread / power.value, rel=0.03)
    assert float(np.median(seconds)) == pytest.approx(time.value, rel=0.03)
    assert _spread(seconds) == pytest.approx(time.spread / time.value, rel=0.05)


def test_a_spread_that_is_a_tenth_off_would_be_seen() -> None:
    """The check can fail: a tenth more or less in the largest error moves it by more than it bears."""
    found = _flown(1.2, 4.0)
    hover, _ = _simulated(found, 1.2, 4.0)
    wider = hover**1.1
    power = found.hover_power
    assert isinstance(power, Figure)
    assert _spread(wider) != pytest.approx(power.spread / power.value, rel=0.03)
