"""What is laid down, not assumed: zero of the Celsius scale, the standard atmosphere at sea level, a
tenth of the normal distribution.
"""

ZERO_CELSIUS = 273.15  # K (SI Brochure, 9th edition, 2.3.1)
SEA_LEVEL_PRESSURE = 101325.0  # Pa (ISO 2533, ICAO Doc 7488)
SEA_LEVEL_DENSITY = 1.225  # kg/m³ (ISO 2533, ICAO Doc 7488)
# Standard deviations of a normal distribution beyond which one tenth lies.
UPPER_TENTH = 1.2815515655446004
