"""Handbook properties of the metals at the bench, by alloy, as plain tables with their sources."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Alloy:
    """A solder: melting range in K, conductivity in W/m/K, density in kg/m³, heats in J/kg/K and
    J/kg.
    """

    name: str
    solidus: float
    liquidus: float
    conductivity: float
    density: float
    heat_capacity: float
    latent_heat: float
    lead_free: bool


# Melting ranges, conductivity and density of Sn63Pb37 and SAC305: read in secondary copies of
# makers' tables; density of Sn60Pb40, heat capacities and latent heats from memory. Some tables
# print 188 or 191 °C for Sn60Pb40.
ALLOYS = (
    Alloy("Sn63Pb37", 456.15, 456.15, 50.0, 8400.0, 176.0, 45000.0, False),
    Alloy("Sn60Pb40", 456.15, 463.15, 50.0, 8500.0, 176.0, 45000.0, False),
    Alloy("SAC305", 490.15, 493.15, 58.0, 7380.0, 230.0, 65000.0, True),
)

COPPER_HEAT_CAPACITY = 384.0  # J/kg/K, handbook value
COPPER_CONDUCTIVITY = 401.0  # W/m/K at 25 °C, handbook value
