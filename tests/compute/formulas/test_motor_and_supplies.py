"""Motors, converters, drops, capacitors and the bench supply, against power balances and integrated
circuits.
"""

import math
from collections.abc import Callable

import pytest
from scipy.integrate import quad

from builder.compute.formulas.electric.capacitors import (
    capacitor_energy,
    chirp_time,
    inrush_current,
)
from builder.compute.formulas.electric.electronics import (
    converter_input_current,
    linear_regulator_heat,
    supply_limit,
)
from builder.compute.formulas.magnetics.motor import (
    back_volts,
    current_at_volts,
    loaded_speed,
    motor_efficiency,
    motor_torque,
    torque_constant,
    unloaded_speed,
)
from tests.compute.formulas.solve import time_until
from tests.units import UNITS

KV = float(UNITS.Quantity(3800, "rpm/V").to("rad/s/V").magnitude)


def test_speed_without_loss_is_rpm_per_volt_times_volts() -> None:
    assert unloaded_speed(KV, 16.0, 0.0, 0.1) * 30 / math.pi == pytest.approx(3800 * 16.0)


def test_power_of_a_motor_balances() -> None:
    """Electrical power is shaft power, heat of the winding, and the no-load loss; nothing is left."""
    volts, current, idle, resistance = 15.0, 14.0, 0.6, 0.095
    speed = loaded_speed(KV, volts, current, resistance)
    shaft = motor_torque(current, idle, KV) * speed
    heat = current**2 * resistance
    assert shaft + heat + idle * back_volts(speed, KV) == pytest.approx(volts * current)
    assert shaft / (volts * current) == pytest.approx(
        motor_efficiency(volts, current, idle, resistance)
    )


def test_torque_constant_in_the_units_of_the_trade() -> None:
    """K_t in N·m/A is 60 / (2π K_v) with K_v in rpm/V, 9.549 / K_v."""
    assert torque_constant(KV) == pytest.approx(9.5493 / 3800, rel=1e-5)


def test_current_falls_with_the_square_of_volts() -> None:
    assert current_at_volts(16.0, 8.0, 16.0) == 4.0


def test_converter_passes_on_power() -> None:
    current = converter_input_current(5.0, 1.2, 14.8, 0.85)
    assert current * 14.8 * 0.85 == pytest.approx(5.0 * 1.2)
    assert linear_regulator_heat(8.4, 3.3, 0.1) == pytest.approx(8.4 * 0.1 - 3.3 * 0.1)


def test_chirp_against_an_integrated_circuit() -> None:
    """The meter sounds while the volts across the probes over the current are below its threshold."""
    resistance, capacitance, threshold = 1000.0, 470e-6, 50.0

    def gain(volts: float) -> float:
        return (3.0 - volts) / (resistance * capacitance)

    expected = time_until(
        gain, 0.0, lambda volts: volts * resistance - threshold * (3.0 - volts), 1.0
    )
    assert chirp_time(resistance, capacitance, threshold) == pytest.approx(expected, rel=1e-6)


def test_energy_of_a_capacitor_is_the_area_below_its_charge() -> None:
    area, _ = quad(lambda u: 470e-6 * u, 0.0, 25.2)
    assert capacitor_energy(470e-6, 25.2) == pytest.approx(area)
    assert inrush_current(16.8, 0.08) == pytest.approx(210.0)


@pytest.mark.parametrize(("starting", "limit"), [(0.0, 0.3), (0.1, 0.3), (0.4, 0.7), (1.0, 1.6)])
def test_limit_of_the_bench_supply(starting: float, limit: float) -> None:
    """Common practice, no source: 1.5 times the starting loads plus 0.1 A, at least 0.3 A."""
    assert supply_limit(starting) == pytest.approx(limit)


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (back_volts, (100.0, 0.0), "above 0"),
        (torque_constant, (0.0,), "above 0"),
        (loaded_speed, (400.0, 1.0, 20.0, 0.1), "more than all"),
        (unloaded_speed, (400.0, 0.01, 1.0, 0.1), "more than all"),
        (motor_torque, (0.5, 0.6, 400.0), "no less"),
        (motor_efficiency, (15.0, 0.5, 0.6, 0.1), "drives nothing"),
        (current_at_volts, (16.0, 14.0, 0.0), "above 0"),
        (converter_input_current, (5.0, 1.0, 0.0, 0.9), "volts at its input"),
        (converter_input_current, (5.0, 1.0, 10.0, 1.1), "efficiency"),
        (linear_regulator_heat, (3.0, 3.3, 0.1), "more volts"),
        (chirp_time, (0.0, 1.0, 50.0), "above 0"),
        (inrush_current, (16.0, 0.0), "above 0"),
        (supply_limit, (-0.1,), "negative"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[object, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
