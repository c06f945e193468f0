"""The heat a joint takes and leads away, and from that the tip, the iron's temperature and the dwell."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, sqrt
from typing import Literal

from builder.compute.contacts import Join
from builder.compute.formulas.fins import film_through_insulation, long_fin_heat, plane_heat, round_perimeter
from builder.compute.formulas.heat import holding_power, loss_conductance
from builder.compute.wire_mass import COVER, copper_area
from builder.model.build import Build, Contact
from builder.model.kinds import Consumable, Tool

# Copper's conductivity: handbook figure (Incropera and DeWitt, table A.1: 401 W/m/K).
_COPPER = 401.0
_FILM = 15.0  # W/m²K, bare and covered wire in still air with radiation (common practice, no source)
_COVER_CONDUCTIVITY = 0.2  # W/m/K, silicone (from memory)
_FOIL = 70e-6  # m, two layers of 35 µm behind a plane
_AMBIENT = 25.0
_LEADED, _LEADFREE = 183.0, 217.0  # °C, melting of Sn63Pb37 and SAC305
_OVER = 40.0  # K above melting at which a joint wets (common practice, no source)
# Bench practice by tip class: iron in °C, dwell in s (common practice, no source).
PRACTICE = {"fine": ((320, 350), (2, 3)), "medium": ((350, 380), (3, 5)), "broad": ((380, 420), (8, 10))}
LEADFREE_MORE = 20
_PLANE_RADIUS = 0.015


@dataclass(frozen=True)
class Heat:
    """What a joint asks for. Flow in W that wire and copper lead away while it is hot; iron in °C, dwell in s."""

    flow: float
    power: float
    tip: Literal["fine", "medium", "broad"]
    iron: tuple[int, int]
    dwell: tuple[int, int]
    melts: float


def _melting(build: Build) -> float:
    for fitted in build.of_kind(Consumable):
        part = fitted.part
        if getattr(part, "melts", None) is not None:
            return float(part.melts.high)  # type: ignore[attr-defined]
        if getattr(part, "leaded", None) is False:
            return _LEADFREE
    return _LEADED


def _wire_flow(join: Join, build: Build, excess: float) -> float:
    wire = join.wire
    gauge = wire.gauge if wire is not None else None
    if gauge is None:
        leads = build.parts[join.a.part].part.leads
        gauge = leads.gauge if leads is not None else None
    if gauge is None:
        return 0.3
    area = copper_area(gauge)
    bare = 2 * sqrt(area / pi)
    outer = bare + 2 * COVER
    film = film_through_insulation(_FILM, bare, outer, _COVER_CONDUCTIVITY)
    return long_fin_heat(film, round_perimeter(bare), _COPPER, area, excess)


def _pad_flow(copper: str, pad_radius: float, excess: float) -> float:
    if copper == "plane":
        return plane_heat(_FILM, _FOIL, _COPPER, pad_radius, _PLANE_RADIUS, excess)
    if copper == "power":
        return 0.5 * plane_heat(_FILM, _FOIL / 2, _COPPER, pad_radius, _PLANE_RADIUS / 2, excess)
    trace = 0.5e-3 * 35e-6
    return long_fin_heat(_FILM, 2 * 0.5e-3, _COPPER, trace, excess)


def heat_of(build: Build, contact: Contact, wires: Sequence[Join], *, cup: bool) -> Heat:
    """Heat flow of a joint by the fin equation, and the tip class that holds it."""
    pad = build.pad(contact)
    melts = _melting(build)
    excess = melts + _OVER - _AMBIENT
    radius = max(pad.pad_size.along) / 2 if pad.pad_size is not None else 0.0008
    copper = pad.copper or ("plane" if pad.battery and pad.role == "ground" else "power" if pad.battery else "signal")
    flow = sum(_wire_flow(j, build, excess) for j in wires) + (1.5 if cup else _pad_flow(copper, radius, excess))
    power = holding_power(loss_conductance(flow, excess), melts + _OVER, _AMBIENT)
    tip: Literal["fine", "medium", "broad"] = "fine" if flow < 0.7 else "medium" if flow < 4.5 else "broad"
    low, high = PRACTICE[tip][0]
    more = LEADFREE_MORE if melts > 200 else 0
    return Heat(flow, power, tip, (low + more, high + more), PRACTICE[tip][1], melts)


def iron_power(build: Build) -> float | None:
    """Watts of the builder's iron, if a tool says so."""
    for fitted in build.of_kind(Tool):
        if getattr(fitted.part, "tips", None) is not None and fitted.part.power is not None:  # type: ignore[attr-defined]
            return float(fitted.part.power.value)  # type: ignore[attr-defined]
    return None
