"""The standard atmosphere and off-standard air, against printed values and two other libraries."""

from collections.abc import Callable

import pytest
from ambiance import Atmosphere
from fluids.atmosphere import ATMOSPHERE_1976

from builder.compute.formulas.rotors.air import (
    air_density,
    field_pressure,
    geopotential_height,
    kelvin,
    speed_of_sound,
    standard_density,
    standard_pressure,
    standard_temperature,
)

# US Standard Atmosphere 1976 / ICAO Doc 7488 at geometric heights: m, kg/m³, Pa, m/s.
STANDARD = [
    (0.0, 1.22500, 101325.0, 340.294),
    (500.0, 1.16727, 95461.3, 338.370),
    (1000.0, 1.11166, 89876.3, 336.435),
    (2000.0, 1.00655, 79501.4, 332.532),
    (3000.0, 0.90925, 70121.1, 328.584),
]


@pytest.mark.parametrize(("height", "density", "pressure", "sound"), STANDARD)
def test_standard_atmosphere_as_printed(
    height: float, density: float, pressure: float, sound: float
) -> None:
    assert standard_density(height) == pytest.approx(density, abs=6e-6)
    assert standard_pressure(height) == pytest.approx(pressure, abs=0.06)
    assert speed_of_sound(standard_temperature(height)) == pytest.approx(sound, abs=6e-4)


@pytest.mark.parametrize("height", [-400.0, 0.0, 137.0, 1234.0, 4807.0, 8848.0, 10900.0])
def test_standard_atmosphere_against_two_libraries(height: float) -> None:
    ambiance, fluids = Atmosphere(height), ATMOSPHERE_1976(height)
    for temperature, pressure, density in (
        (ambiance.temperature[0], ambiance.pressure[0], ambiance.density[0]),
        (fluids.T, fluids.P, fluids.rho),
    ):
        assert standard_temperature(height) == pytest.approx(temperature, rel=2e-6)
        assert standard_pressure(height) == pytest.approx(pressure, rel=2e-6)
        assert standard_density(height) == pytest.approx(density, rel=2e-6)
    assert speed_of_sound(standard_temperature(height)) == pytest.approx(
        ambiance.speed_of_sound[0], rel=2e-6
    )


# Dry air as an ideal gas at 101325 Pa, R = 287.05287 J/kg/K (ICAO Doc 7488): °C, kg/m³.
@pytest.mark.parametrize(
    ("celsius", "density"),
    [(-10, 1.3414), (0, 1.2923), (4, 1.2736), (15, 1.2250), (25, 1.1839), (35, 1.1455)],
)
def test_density_off_standard(celsius: float, density: float) -> None:
    assert air_density(101325.0, kelvin(celsius)) == pytest.approx(density, abs=6e-5)


# Dry air of Lemmon and others (2000), as CoolProp gives it at 101325 Pa: an ideal gas is within 0.1
# % of it.
@pytest.mark.parametrize(
    ("celsius", "density"), [(-10, 1.34239), (4, 1.27434), (20, 1.20458), (40, 1.12745)]
)
def test_an_ideal_gas_is_close_enough(celsius: float, density: float) -> None:
    assert air_density(101325.0, kelvin(celsius)) == pytest.approx(density, rel=1e-3)


@pytest.mark.parametrize("height", [0.0, 300.0, 2500.0])
def test_field_pressure_is_standard_on_a_standard_day(height: float) -> None:
    standard = standard_pressure(height)
    assert field_pressure(height, 101325.0) == pytest.approx(standard, rel=1e-12)


def test_field_pressure_at_sea_level_is_what_the_weather_service_says() -> None:
    assert field_pressure(0.0, 99000.0) == pytest.approx(99000.0)


def test_reduced_pressure_is_a_shift_of_height() -> None:
    """A low of standard shape: the field sees the pressure of the standard height that lies as much
    higher.
    """
    shift = 300.0  # m of geopotential height, near enough geometric here
    low = standard_pressure(shift)
    assert field_pressure(500.0, low) == pytest.approx(standard_pressure(500.0 + shift), rel=1e-5)


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (geopotential_height, (12000.0,), "11000 m"),
        (geopotential_height, (-6e6,), "-5000 m"),
        (standard_density, (-5100.0,), "-5000 m"),
        (air_density, (101325.0, 0.0), "above 0 K"),
        (air_density, (-1.0, 280.0), "0 or more"),
        (speed_of_sound, (-1.0,), "colder"),
        (kelvin, (-274.0,), "absolute zero"),
        (field_pressure, (100.0, 0.0), "above 0"),
        (field_pressure, (10900.0, 10.0), "no air"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
