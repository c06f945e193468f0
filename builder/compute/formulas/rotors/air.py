"""The standard atmosphere below 11 km, and air that is not standard."""

import math

from builder.compute.formulas.constants import SEA_LEVEL_PRESSURE, ZERO_CELSIUS

SEA_LEVEL_TEMPERATURE = 288.15  # K
LAPSE = 0.0065  # K/m, fall of temperature with geopotential height
AIR_CONSTANT = 287.05287  # J/kg/K
GRAVITY = 9.80665  # m/s²
HEAT_RATIO = 1.4
EARTH_RADIUS = 6356766.0  # m, nominal, for geopotential height
LOWEST, TROPOPAUSE = -5000.0, 11000.0  # m of geopotential height
# All of ICAO Doc 7488 / US Standard Atmosphere 1976.

_EXPONENT = GRAVITY / (AIR_CONSTANT * LAPSE)


def kelvin(celsius: float) -> float:
    """Absolute temperature from degrees Celsius.

    Formula: T = t + 273.15
    celsius: t, temperature [°C]
    Gives: T, absolute temperature [K]
    Limits: not below absolute zero, else ValueError.
    Source: definition

    >>> kelvin(15.0)
    288.15
    """
    if celsius < -ZERO_CELSIUS:
        raise ValueError("Nothing is colder than absolute zero, -273.15 °C.")
    return celsius + ZERO_CELSIUS


def geopotential_height(height: float) -> float:
    """Geopotential height of a place at a geometric height above sea level.

    Formula: H = r z / (r + z)
    height: z, geometric height above sea level [m]
    Gives: H, geopotential height [m]
    Limits: H from -5000 m to 11000 m, else ValueError; r = 6356766 m.
    Source: US Standard Atmosphere 1976, NOAA-S/T 76-1562; ICAO Doc 7488.

    >>> round(geopotential_height(3000.0), 2)
    2998.58
    """
    if height <= -EARTH_RADIUS / 2.0:
        raise ValueError("The standard atmosphere is used from -5000 m to 11000 m only.")
    level = EARTH_RADIUS * height / (EARTH_RADIUS + height)
    if not LOWEST <= level <= TROPOPAUSE:
        raise ValueError("The standard atmosphere is used from -5000 m to 11000 m only.")
    return level


def standard_temperature(height: float) -> float:
    """Temperature of the standard atmosphere.

    Formula: T = T₀ - L H, H = r z / (r + z)
    height: z, geometric height above sea level [m]
    Gives: T, temperature of the air [K]
    Limits: H from -5000 m to 11000 m, else ValueError; T₀ = 288.15 K, L = 0.0065 K/m.
    Source: US Standard Atmosphere 1976, NOAA-S/T 76-1562; ICAO Doc 7488.

    >>> round(standard_temperature(2000.0), 3)
    275.154
    """
    return SEA_LEVEL_TEMPERATURE - LAPSE * geopotential_height(height)


def standard_pressure(height: float) -> float:
    """Pressure of the standard atmosphere.

    Formula: p = p₀ (1 - L H / T₀)^(g / (R L)), H = r z / (r + z)
    height: z, geometric height above sea level [m]
    Gives: p, pressure of the air [Pa]
    Limits: geopotential height from -5000 m to 11000 m, else ValueError; p₀ = 101325 Pa.
    Source: US Standard Atmosphere 1976, NOAA-S/T 76-1562; ICAO Doc 7488.

    >>> round(standard_pressure(1000.0), 1)
    89876.3
    """
    ratio = standard_temperature(height) / SEA_LEVEL_TEMPERATURE
    return SEA_LEVEL_PRESSURE * math.pow(ratio, _EXPONENT)


def standard_density(height: float) -> float:
    """Density of the standard atmosphere.

    Formula: ρ = p(z) / (R T(z))
    height: z, geometric height above sea level; p and T are standard there [m]
    Gives: ρ, density of the air [kg/m³]
    Limits: geopotential height from -5000 m to 11000 m, else ValueError.
    Source: US Standard Atmosphere 1976, NOAA-S/T 76-1562; ICAO Doc 7488.

    >>> round(standard_density(1000.0), 5)
    1.11166
    """
    return air_density(standard_pressure(height), standard_temperature(height))


def air_density(pressure: float, temperature: float) -> float:
    """Density of dry air at a pressure and a temperature.

    Formula: ρ = p / (R T)
    pressure: p, pressure of the air [Pa]
    temperature: T, temperature of the air [K]
    Gives: ρ, density of the air [kg/m³]
    Limits: dry air as an ideal gas, R = 287.05287 J/kg/K (humid air at 35 °C is up to 2 % lighter);
        pressure not negative, temperature above 0 K, else ValueError.
    Source: ICAO Doc 7488.

    >>> round(air_density(101325.0, 277.15), 4)
    1.2736
    """
    if pressure < 0.0 or temperature <= 0.0:
        raise ValueError("Air needs a pressure of 0 or more and a temperature above 0 K.")
    return pressure / (AIR_CONSTANT * temperature)


def speed_of_sound(temperature: float) -> float:
    """Speed of sound in air.

    Formula: a = √(γ R T)
    temperature: T, temperature of the air [K]
    Gives: a, speed of sound [m/s]
    Limits: dry air as an ideal gas, γ = 1.4; temperature not below 0 K, else ValueError.
    Source: US Standard Atmosphere 1976, NOAA-S/T 76-1562; ICAO Doc 7488.

    >>> round(speed_of_sound(288.15), 3)
    340.294
    """
    if temperature < 0.0:
        raise ValueError("No air is colder than 0 K.")
    return math.sqrt(HEAT_RATIO * AIR_CONSTANT * temperature)


def field_pressure(height: float, sea_level_pressure: float) -> float:
    """Pressure at a field from the pressure that the weather service gives for sea level.

    Formula: p = p₀ ((p_s / p₀)^(R L / g) - L H / T₀)^(g / (R L)), H = r z / (r + z)
    height: z, geometric height of the field [m]
    sea_level_pressure: p_s, pressure reduced to sea level by the standard atmosphere [Pa]
    Gives: p, pressure at the field [Pa]
    Limits: geopotential height from -5000 m to 11000 m, pressures above 0, else ValueError.
    Source: ICAO Doc 7488: two heights of the standard atmosphere subtracted.

    >>> round(field_pressure(1000.0, 101325.0), 1)
    89876.3
    """
    if sea_level_pressure <= 0.0:
        raise ValueError("Pressure at sea level lies above 0.")
    base = math.pow(sea_level_pressure / SEA_LEVEL_PRESSURE, 1.0 / _EXPONENT)
    base -= LAPSE * geopotential_height(height) / SEA_LEVEL_TEMPERATURE
    if base <= 0.0:
        raise ValueError("At this pressure there is no air at that height.")
    return SEA_LEVEL_PRESSURE * math.pow(base, _EXPONENT)
