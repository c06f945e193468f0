"""The air that a build flies in: density from the field's altitude and temperature."""

from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.constants import SEA_LEVEL_PRESSURE
from builder.compute.formulas.rotors.air import air_density, field_pressure, kelvin, speed_of_sound
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.site import FlyingPlace
from builder.model.values.quantities import Quantity

_ALTITUDE_SPREAD = assumed("flight/altitude-spread")
_TEMPERATURE_SPREAD = assumed("flight/temperature-spread")
_PRESSURE_SPREAD = assumed("flight/pressure-spread")


@dataclass(frozen=True, eq=False)
class Air:
    """Density and speed of sound at the field; `temperature` in degC, `absolute` in K."""

    altitude: Figure
    temperature: Figure
    absolute: MaybeFigure
    density: MaybeFigure
    sound: MaybeFigure


def standard_sea_level() -> Figure:
    """Pressure at sea level of the standard atmosphere, Pa (ICAO Doc 7488)."""
    return constant(
        "air/sea-level-pressure", "Pressure at sea level", SEA_LEVEL_PRESSURE, "Pa", "ICAO Doc 7488"
    )


def _sea_level(site: FlyingPlace) -> Figure:
    """Pressure reduced to sea level, as weather reports give it; that of the standard atmosphere
    for want of it.
    """
    if site.pressure is None:
        return standard_sea_level()
    given, where = site.pressure, Where("site.yaml", ("place", "pressure"))
    own = given.spread if given.spread is not None else _PRESSURE_SPREAD
    note = "reduced to sea level"
    return leaf(
        "site/place/pressure",
        "Pressure of the air",
        given.value,
        "Pa",
        own=own,
        basis="setting",
        where=where,
        note=note,
    )


def altitude_of(key: str, of: str, given: Quantity | None, where: Where, own: float) -> Figure:
    """An altitude as it is written; sea level for want of it."""
    label = f"Altitude of the {of}"
    if given is None:
        note = "sea level, for want of an altitude"
        return leaf(key, label, 0.0, "m", own=own, basis="setting", note=note)
    return leaf(key, label, given.value, "m", own=own, basis="setting", where=where)


def warmth_of(key: str, label: str, given: Quantity | None, where: Where, own: float) -> Figure:
    """A temperature of air as it is written; that of the standard atmosphere for want of it."""
    if given is None:
        note = "15 degC, for want of a temperature"
        return leaf(key, label, 15.0, "degC", own=own, basis="setting", note=note)
    return leaf(key, label, given.value, "degC", own=own, basis="setting", where=where)


def air(
    build: Build, temperature: float | None = None, key: str = "air", read_at: Where | None = None
) -> Air:
    """The field's air; `temperature` in degC, read at a place of its own, takes the place of the
    site's for one flight.
    """
    own, site = build.source.setup.place, build.site.place
    altitude = (own.altitude if own is not None else None) or site.altitude
    usual = (own.temperature if own is not None else None) or site.temperature
    site_at, own_at = Where("site.yaml", ("place",)), build.where("setup", "place")
    has_altitude = own is not None and own.altitude is not None
    has_temperature = own is not None and own.temperature is not None
    high_at = (own_at if has_altitude else site_at).at("altitude")
    warm_at = (own_at if has_temperature else site_at).at("temperature")
    name = f"{build.name}/{key}"
    shared = "site/place" if own is None else f"{build.name}/place"
    high = altitude_of(f"{shared}/altitude", "field", altitude, high_at, _ALTITUDE_SPREAD)
    if temperature is None:
        own_key = f"{shared}/temperature"
        warm = warmth_of(own_key, "Temperature of the air", usual, warm_at, _TEMPERATURE_SPREAD)
    else:
        warm = leaf(
            f"{name}/temperature",
            "Temperature of the air",
            temperature,
            "degC",
            own=1.0,
            basis="setting",
            where=read_at,
        )
    sea = _sea_level(site)
    pressure = apply(
        f"{name}/pressure", "Pressure at the field", formula(field_pressure), high, sea
    )
    absolute = apply(f"{name}/kelvin", "Absolute temperature", formula(kelvin), warm)
    density = apply(
        f"{name}/density", "Density of the air", formula(air_density), pressure, absolute
    )
    sound = apply(f"{name}/sound", "Speed of sound", formula(speed_of_sound), absolute)
    return Air(high, warm, absolute, density, sound)
