"""Energy and charge of a cell held against a published discharge: one lithium-polymer pouch cell at
1 and at 5 times its capacity an hour, 25 degC. Source: the head of tests/data/cell_discharge.csv.

It is a cell made for energy, with volts between our two tables; no published log of a small
multirotor with its bench tables, its battery and its weight was found, so that times in the air are
held against the demo's logs and against logs made up elsewhere only.
"""

import csv
from pathlib import Path

import numpy as np
import pytest

from builder.compute.formulas.electric.battery import endurance, usable_energy
from builder.compute.formulas.electric.battery_state import (
    charge_share_lithium_polymer,
    mean_volts_lithium_ion,
    mean_volts_lithium_polymer,
)

DATA = Path(__file__).parents[1] / "data" / "cell_discharge.csv"
PRINTED = 7.5  # Ah, as the paper names it
GIVEN = 7.75  # Ah, what it gave at the lower rate until it was empty


def curve(rate: int) -> tuple[np.ndarray, np.ndarray]:
    """Charge given in Ah and volts under load."""
    lines = [line for line in DATA.read_text("utf-8").splitlines() if line[0] != "#"]
    rows = [r for r in csv.DictReader(lines) if int(r["rate"]) == rate]
    return np.array([float(r["charge"]) for r in rows]), np.array([float(r["volts"]) for r in rows])


def resistance() -> float:
    """By the two currents, the mean from full to a fifth left: Ohm's law and nothing of ours."""
    at = np.linspace(0.3, 0.8 * PRINTED, 200)
    one, five = (np.interp(at, *curve(rate)) for rate in (1, 5))
    return float(np.mean(one - five)) / (4 * PRINTED)


@pytest.mark.parametrize("rate", [1, 5])
@pytest.mark.parametrize("left", [0.2, 0.3])
@pytest.mark.parametrize("mean_volts", [mean_volts_lithium_polymer, mean_volts_lithium_ion])
def test_energy_and_so_time_at_a_power_is_within_three_percent(
    rate: int, left: float, mean_volts: object
) -> None:
    assert callable(mean_volts)
    charge, current = PRINTED * (1 - left), PRINTED * rate
    at = np.linspace(0.0, charge, 2000)
    measured = float(np.trapezoid(np.interp(at, *curve(rate)), at))
    ours = usable_energy(charge, mean_volts(left, 1.0), current, resistance())
    assert ours == pytest.approx(measured, rel=0.03)
    hours = charge / current
    assert endurance(ours, measured / hours) == pytest.approx(hours, rel=0.03)


@pytest.mark.parametrize("rate", [1, 5])
def test_volts_never_promise_more_than_is_left(rate: int) -> None:
    """Who lands by them lands early with such a cell, by up to a quarter of its charge."""
    charge, volts = curve(rate)
    inside = (charge > 0.05 * GIVEN) & (charge < 0.9 * GIVEN)
    rested = volts[inside] + resistance() * PRINTED * rate
    read = np.array([charge_share_lithium_polymer(float(v)) for v in rested])
    off = read - (1 - charge[inside] / GIVEN)
    assert np.max(off) < 0.0
    assert np.min(off) > -0.27
