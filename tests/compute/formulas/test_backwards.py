"""Each formula that depends on an argument gives that argument back when it is solved for it."""

import inspect
import math
from collections.abc import Callable

import pytest

from builder.compute.formulas import radio
from builder.compute.formulas.electric import (
    battery,
    battery_state,
    capacitors,
    circuits,
    conductor,
    conductor_heat,
    electronics,
)
from builder.compute.formulas.magnetics import motor
from builder.compute.formulas.rotors import air, bench_table, rotor, rotor_scaling, wash
from builder.compute.formulas.soldering import fins, heat
from builder.compute.formulas.uncertainty import few_samples, statistics
from builder.compute.formulas.weight import fit, mass
from tests.compute.formulas.solve import solved

# Any sane values will do: the test compares the formula with itself.
CASES: list[tuple[Callable[..., float], tuple[float, ...]]] = [
    (air.geopotential_height, (1500.0,)),
    (air.standard_temperature, (1500.0,)),
    (air.standard_pressure, (1500.0,)),
    (air.standard_density, (1500.0,)),
    (air.air_density, (95000.0, 280.0)),
    (air.speed_of_sound, (280.0,)),
    (air.field_pressure, (800.0, 100500.0)),
    (circuits.part_of_current, (20.0, 0.25)),
    (circuits.short_circuit_current, (16.8, 0.024, 0.004)),
    (conductor_heat.time_to_melt, (100.0, 8.23e-7, 298.15)),
    (rotor.disc_area, (0.076,)),
    (rotor.thrust_for_mass, (0.25, 4.0)),
    (rotor.induced_velocity, (0.6, 1.2, 0.0046)),
    (rotor.ideal_hover_power, (0.6, 1.2, 0.0046)),
    (rotor.shaft_power, (4.5, 0.45)),
    (rotor.electrical_power, (10.0, 0.7)),
    (rotor.figure_of_merit, (4.5, 10.0)),
    (rotor.figure_of_merit_from_coefficients, (0.13, 0.1)),
    (rotor.thrust_from_coefficient, (0.13, 1.2, 1000.0, 0.1)),
    (rotor.power_from_coefficient, (0.1, 1.2, 1000.0, 0.1)),
    (rotor.small_propeller_merit, (0.1,)),
    (wash.thrust_in_clear_air, (2.0, 1.28)),
    (wash.thrust_in_wash, (2.0, 1.28)),
    (wash.overlap_of_discs, (0.05, 0.1)),
    (wash.power_with_overlap, (0.4, 6.0)),
    (rotor_scaling.disc_loading, (0.6, 0.0046)),
    (rotor_scaling.tip_speed, (3000.0, 0.1)),
    (rotor_scaling.mach_number, (150.0, 340.0)),
    (rotor_scaling.thrust_to_weight, (12.0, 2.5)),
    (bench_table.bench_current, (1.0, 0.5, 1.1, 2.0, 7.5)),
    (bench_table.bench_speed, (1.0, 0.5, 1000.0, 2.0, 2100.0)),
    (rotor_scaling.throttle_at_volts, (0.3, 14.0, 16.0)),
    (battery.stored_energy, (14.8, 3060.0)),
    (battery.pack_volts, (3.9, 4.0)),
    (battery.pack_resistance, (0.006, 4.0, 2.0)),
    (battery.volts_under_load, (15.0, 20.0, 0.03)),
    (battery.resting_volts, (14.0, 20.0, 0.03)),
    (battery.current_for_power, (300.0, 15.0, 0.03)),
    (battery.usable_charge, (3060.0, 0.9, 0.2)),
    (battery.usable_energy, (2400.0, 15.0, 8.0, 0.03)),
    (battery.endurance, (36000.0, 120.0)),
    (battery_state.cold_resistance, (0.006, 275.0, 2000.0)),
    (battery_state.cold_capacity_share, (280.0,)),
    (battery_state.mean_current, (2000.0, 340.0)),
    (conductor.awg_diameter, (24.0,)),
    (conductor.wire_area, (0.0005,)),
    (conductor.wire_diameter, (2e-7,)),
    (conductor.copper_resistivity, (310.0,)),
    (conductor.resistance_per_length, (2e-7, 310.0)),
    (conductor.stranded_resistance, (0.084, 0.05)),
    (conductor.wire_resistance, (0.084, 0.1)),
    (conductor_heat.onderdonk_current, (2e-7, 5.0, 300.0)),
    (conductor_heat.wire_temperature_rise, (4.0, 2e-7, 0.001, 20.0, 300.0)),
    (conductor_heat.current_for_rise, (50.0, 2e-7, 0.001, 20.0, 300.0)),
    (fins.round_perimeter, (0.002,)),
    (heat.conduction_heat, (120.0, 2e-6, 0.01, 200.0)),
    (fins.soaked_heat, (3500.0, 0.002, 0.015, 200.0)),
    (fins.long_fin_heat, (20.0, 0.003, 400.0, 1e-6, 200.0)),
    (fins.film_through_insulation, (20.0, 0.0005, 0.0011, 0.2)),
    (fins.ring_heat, (400.0, 7e-5, 0.002, 0.018, 200.0)),
    (heat.warming_heat, (1e-4, 384.0, 200.0)),
    (heat.melting_heat, (1e-4, 45000.0)),
    (heat.joint_heat, (4.0, 1.0, 1.5, 2.0)),
    (heat.loss_conductance, (8.0, 200.0)),
    (heat.end_temperature, (650.0, 300.0, 0.2, 0.05)),
    (heat.dwell_time, (8.0, 510.0, 650.0, 300.0, 0.1, 0.03)),
    (radio.wavelength, (5.8e9,)),
    (radio.free_space_loss, (5.8e9, 1000.0)),
    (radio.power_level, (0.025,)),
    (radio.decibels, (2.5,)),
    (radio.power_ratio, (3.0,)),
    (radio.radiated_power, (0.025, 0.5, 1.2)),
    (radio.received_level, (15.0, 107.0, 3.0, 2.0)),
    (radio.link_margin, (-80.0, -95.0)),
    (statistics.resolution_spread, (0.1,)),
    (statistics.chance_above, (249.0, 250.0, 0.8)),
    (few_samples.student_quantile, (0.9, 4.0)),
    (few_samples.pooled_spread, (0.2, 4.0, 0.3, 3.0)),
    (few_samples.mean_margin, (0.2, 5.0, 4.0, 0.8)),
    (few_samples.next_margin, (0.2, 5.0, 4.0, 0.8)),
    (electronics.converter_input_current, (5.0, 1.2, 14.8, 0.85)),
    (electronics.linear_regulator_heat, (8.4, 3.3, 0.1)),
    (electronics.drop, (5.0, 0.01)),
    (electronics.series_resistance, (0.02, 0.01)),
    (capacitors.chirp_time, (1000.0, 4.7e-4, 50.0)),
    (capacitors.discharge_time, (1000.0, 4.7e-4, 16.8, 1.0)),
    (capacitors.charge_time_at_limit, (4.7e-4, 14.8, 0.3)),
    (capacitors.capacitor_energy, (4.7e-4, 25.0)),
    (capacitors.inrush_current, (16.0, 0.08)),
    (electronics.supply_limit, (0.4,)),
    (mass.trim_place, (0.001, 0.17, 0.002, 0.07)),
    (mass.symmetric_hover_share, (4.0, 0.003, 0.002, 0.05, 0.06, 0.01, 0.0144)),
    (fit.grip_in_diameters, (0.002, 0.0021)),
    (fit.clearance_below, (0.008, 0.006, 0.003)),
    (fit.stack_height, (0.003, 0.006)),
    (motor.back_volts, (3000.0, 400.0)),
    (motor.torque_constant, (400.0,)),
    (motor.unloaded_speed, (400.0, 10.0, 0.6, 0.1)),
    (motor.loaded_speed, (400.0, 15.0, 14.0, 0.1)),
    (motor.motor_torque, (14.0, 0.6, 400.0)),
    (motor.motor_efficiency, (15.0, 14.0, 0.6, 0.1)),
    (motor.current_at_volts, (16.0, 14.0, 16.0)),
]


@pytest.mark.parametrize(
    ("function", "arguments"), CASES, ids=lambda x: getattr(x, "__name__", None)
)
def test_solved_for_each_argument(
    function: Callable[..., float], arguments: tuple[float, ...]
) -> None:
    names = list(inspect.signature(function).parameters)
    for place, given in enumerate(arguments):
        found = solved(function, arguments, place)
        assert found == pytest.approx(given, rel=1e-6), names[min(place, len(names) - 1)]


# Pairs that undo each other, each at values that both take.
INVERSES: list[tuple[Callable[[float], float], Callable[[float], float], tuple[float, ...]]] = [
    (conductor.wire_area, conductor.wire_diameter, (1e-4, 0.00051, 0.0026)),
    (radio.decibels, radio.power_ratio, (1e-6, 0.5, 1.0, 100.0)),
    (
        battery_state.resting_volts_lithium_polymer,
        battery_state.charge_share_lithium_polymer,
        (0.0, 0.13, 0.5, 1.0),
    ),
    (
        battery_state.resting_volts_lithium_ion,
        battery_state.charge_share_lithium_ion,
        (0.0, 0.13, 0.5, 1.0),
    ),
]


@pytest.mark.parametrize(
    ("there", "back", "values"), INVERSES, ids=lambda x: getattr(x, "__name__", None)
)
def test_pairs_undo_each_other(
    there: Callable[[float], float], back: Callable[[float], float], values: tuple[float, ...]
) -> None:
    for value in values:
        assert back(there(value)) == pytest.approx(value, rel=1e-9, abs=1e-6)


def test_pairs_with_more_arguments() -> None:
    rise = conductor_heat.wire_temperature_rise(4.0, 2e-7, 0.001, 20.0, 300.0)
    assert conductor_heat.current_for_rise(rise, 2e-7, 0.001, 20.0, 300.0) == pytest.approx(4.0)
    current = battery.current_for_power(300.0, 15.0, 0.03)
    assert battery.volts_under_load(15.0, current, 0.03) * current == pytest.approx(300.0)
    place = mass.trim_place(0.0, 0.17, 0.002, 0.07)
    assert mass.centre_of_mass((0.17, 0.07), (0.002, place)) == pytest.approx(0.0, abs=1e-12)
    assert math.isclose(
        rotor.figure_of_merit(rotor.ideal_hover_power(0.6, 1.2, 0.0046), 8.0) * 8.0,
        rotor.ideal_hover_power(0.6, 1.2, 0.0046),
    )
