"""Packs: energy, sag, cold, endurance; the loads solved together with the sag are checked against a
root finder.
"""

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from builder.compute.formulas.electric.battery import (
    current_for_power,
    endurance,
    pack_resistance,
    pack_volts,
    stored_energy,
    usable_charge,
    usable_energy,
    volts_under_load,
)
from builder.compute.formulas.electric.battery_state import (
    LITHIUM_ION_VOLTS,
    LITHIUM_POLYMER_VOLTS,
    SHARES,
    charge_share_lithium_ion,
    charge_share_lithium_polymer,
    cold_capacity_share,
    cold_resistance,
    mean_current,
    mean_volts_lithium_ion,
    mean_volts_lithium_polymer,
    resting_volts_lithium_ion,
    resting_volts_lithium_polymer,
)


def test_watt_hours_that_aircraft_rules_count() -> None:
    """IATA Dangerous Goods Regulations 2.3.5, 49 CFR 175.10 (secondary copies): 100 Wh; 6 cells of
    4500 mAh pass.
    """
    assert stored_energy(pack_volts(3.7, 6), 4.5 * 3600) / 3600 == pytest.approx(99.9)


@pytest.mark.parametrize("power", [0.0, 5.0, 120.0, 900.0, 2300.0])
def test_current_with_sag_against_the_roots_of_the_polynomial(power: float) -> None:
    """R I² - U I + P = 0: the smaller root is the working one (numpy's roots)."""
    volts, resistance = 16.8, 0.03
    smaller = min(np.roots([resistance, -volts, power]).real)
    assert current_for_power(power, volts, resistance) == pytest.approx(
        float(smaller), rel=1e-9, abs=1e-12
    )


def test_current_with_sag_without_resistance() -> None:
    assert current_for_power(120.0, 15.0, 0.0) == pytest.approx(8.0)


def test_power_that_cannot_be_delivered() -> None:
    most = 16.8**2 / (4 * 0.03)  # half the volts at the load: U² / 4R (any textbook)
    assert current_for_power(most, 16.8, 0.03) == pytest.approx(16.8 / 0.06)
    with pytest.raises(ValueError, match="cannot deliver this power"):
        current_for_power(most * 1.000001, 16.8, 0.03)


def test_series_and_parallel() -> None:
    assert pack_resistance(0.006, 6, 2) == pytest.approx(0.018)
    assert volts_under_load(
        pack_volts(4.2, 4), 10.0, pack_resistance(0.006, 4, 1)
    ) == pytest.approx(16.56)


# A high-rate cell's published capacity at 6.9 times its capacity an hour (read in a maker's data
# sheet): °C, share.
@pytest.mark.parametrize(("celsius", "share"), [(25, 1.0), (0, 0.80), (-10, 0.75), (-20, 0.60)])
def test_cold_takes_capacity_as_published(celsius: float, share: float) -> None:
    assert cold_capacity_share(celsius + 273.15) == pytest.approx(share, abs=1e-9)


def test_between_the_published_points_the_curve_is_scipys_and_only_rises() -> None:
    curve = PchipInterpolator([253.15, 263.15, 273.15, 298.15], [0.6, 0.75, 0.8, 1.0])
    grid = np.linspace(253.15, 298.15, 301)
    ours = [cold_capacity_share(float(t)) for t in grid]
    assert ours == pytest.approx(list(curve(grid)), abs=1e-12)
    assert all(a < b for a, b in pairwise(ours))
    assert cold_capacity_share(310.0) == 1.0


def test_cold_raises_resistance() -> None:
    """Common practice, no source: about twice as high at 0 °C as at 25 °C."""
    assert cold_resistance(0.006, 298.15, 2000.0) == pytest.approx(0.006)
    assert 1.5 < cold_resistance(1.0, 273.15, 2000.0) < 2.5
    assert cold_resistance(1.0, 313.15, 2000.0) < 1.0


@pytest.mark.parametrize(
    ("volts", "mean", "table"),
    [
        (resting_volts_lithium_polymer, mean_volts_lithium_polymer, LITHIUM_POLYMER_VOLTS),
        (resting_volts_lithium_ion, mean_volts_lithium_ion, LITHIUM_ION_VOLTS),
    ],
)
def test_mean_volts_against_a_fine_sum(
    volts: Callable[[float], float], mean: Callable[[float, float], float], table: tuple[float, ...]
) -> None:
    assert volts(1.0) == 4.20  # full, cell data sheets
    assert 3.6 <= volts(0.5) <= 3.9  # nominal 3.6 to 3.7 V is the mean under load, a little lower
    for low, high in ((0.0, 1.0), (0.2, 1.0), (0.137, 0.631), (0.41, 0.44)):
        grid = np.linspace(low, high, 20001)
        expected = np.trapezoid(np.interp(grid, SHARES, table), grid) / (high - low)
        assert mean(low, high) == pytest.approx(float(expected), abs=1e-7)


def test_state_of_charge_is_held_at_its_ends() -> None:
    assert charge_share_lithium_polymer(4.35) == 1.0
    assert charge_share_lithium_polymer(3.0) == 0.0
    assert charge_share_lithium_ion(2.5) == 0.0
    # Common practice, no source: a lithium-ion cell still has charge at volts where a
    # lithium-polymer one is empty.
    assert charge_share_lithium_ion(3.27) > 0.05 > charge_share_lithium_polymer(3.27)


def test_a_flight_in_the_cold() -> None:
    """Common practice, no source: about 290 g on a 4-cell 850 mAh pack flew 6 minutes at 4 °C.

    All of the pack at 4 °C over 6 minutes bounds the mean power from above.
    """
    charge = usable_charge(0.85 * 3600 * cold_capacity_share(277.15), 1.0, 0.2)
    energy = usable_energy(charge, pack_volts(mean_volts_lithium_polymer(0.2, 1.0), 4), 8.0, 0.04)
    assert endurance(energy, energy / 360.0) == pytest.approx(360.0)
    assert 70.0 < energy / 360.0 < 110.0


def test_what_a_log_gives() -> None:
    assert mean_current(560 * 3.6, 340.0) == pytest.approx(0.56 / (340 / 3600))


def test_endurance_is_energy_over_power() -> None:
    assert endurance(stored_energy(14.8, 3060.0), 90.0) == pytest.approx(503.2)
    assert math.isclose(usable_energy(2000.0, 15.0, 0.0, 0.03), 30000.0)


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (pack_resistance, (0.006, 4, 0), "at least one string"),
        (current_for_power, (-1.0, 16.0, 0.03), "0 or more"),
        (current_for_power, (1.0, 0.0, 0.03), "above 0"),
        (usable_charge, (3060.0, 0.2, 0.9), "Shares"),
        (usable_charge, (3060.0, 1.1, 0.2), "Shares"),
        (usable_energy, (2000.0, 15.0, 600.0, 0.03), "nothing is left"),
        (endurance, (1.0, 0.0), "above 0"),
        (cold_capacity_share, (250.0,), "-20 °C"),
        (cold_resistance, (0.006, 250.0, 2000.0), "-20 °C"),
        (resting_volts_lithium_ion, (1.2,), "does not reach"),
        (mean_volts_lithium_polymer, (0.5, 0.5), "start above the end"),
        (mean_current, (1.0, 0.0), "no time"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
