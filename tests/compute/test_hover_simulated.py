"""Printed spreads of hover power (within 3 %) and of times (within 5 %) against a simulation that is
written anew from textbooks and shares no code with the estimate (JCGM 101:2008).
"""

from typing import Any

import numpy as np
import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import PackFlight
from tests.compute.hover_simulation import DRAWS, drawn_parts, simulated
from tests.compute.small_workspace import one_build
from tests.compute.test_safe_landing import SHELF

BUILD = """title: T
parts: {frame: frame, motor: {use: motor, count: 4}, prop: {use: prop, count: 4}}
packs: {pack: {use: pack, temperature: 20 degC}}
setup: {landing: {share: 20 %%}, style: {factor: %s ± 0.05}}
"""


def _flown(factor: float, celsius: float) -> PackFlight:
    place = f"title: T\nplace: {{altitude: 0 m, temperature: {celsius} degC}}"
    build = one_build(SHELF % ("lithium-polymer", ""), BUILD % factor, place)
    return compute(build).flight.packs["pack"]


def _simulated(found: PackFlight, factor: float, celsius: float) -> tuple[Any, Any]:
    """Hover power in W, and seconds in the air."""
    random = np.random.default_rng(7)
    assert isinstance(found.mass, Figure)
    kilograms = 0.29 + found.mass.spread * random.standard_normal(DRAWS)
    return simulated(random, drawn_parts(random, found.reserve.time, celsius), kilograms, factor)


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
