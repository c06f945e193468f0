"""Resistance of the battery leads on the aircraft, out and back."""

from collections.abc import Sequence
from math import fsum

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, leaf
from builder.compute.power.battery_ways import BatteryNets, BatteryWays
from builder.compute.power.path_wires import STRANDS, Half, SupplyWire
from builder.model.build import Build
from builder.model.kinds import SpeedController


def battery_lead_ohms(
    build: Build, wires: Sequence[SupplyWire], several: BatteryNets, of: BatteryWays
) -> MaybeFigure:
    """For the volts that are lost: the thinner way counts for both; those of several batteries
    together.
    """
    key, label = f"{build.name}/path/leads", "Battery leads"
    battery = [w.resistance for w in wires if w.motors]
    if several.batteries and of.leads is not None:
        note = "of all leads together, by how they share the current"
        return leaf(key, label, of.leads, "Ω", own=STRANDS * of.leads, basis="estimate", note=note)
    if several.batteries or not battery:
        return Unknown(key, label, ("the battery leads",))
    return battery[0]


def leads_as_they_are(
    build: Build, turning: Sequence[tuple[float, Half]], leads: MaybeFigure
) -> MaybeFigure:
    """For a short, which less resistance makes worse: each wire of the motors' current with its share
    of it, by the heat of one ampere, R = Σ s² R_k. `leads` where several speed controllers have
    leads of their own.
    """
    if sum(f.count for f in build.of_kind(SpeedController)) != 1 or isinstance(leads, Unknown):
        return leads
    key, label = f"{build.name}/path/leads-as-they-are", "Battery leads, each wire as it is"
    ohms = [(share * share, wire.ohms) for share, wire in turning]
    missing = (m for _, f in ohms if isinstance(f, Unknown) for m in f.missing)
    if lacks := tuple(dict.fromkeys(missing)):
        return Unknown(key, label, lacks)
    whole = fsum(part * f.value for part, f in ohms if isinstance(f, Figure))
    note = "each wire by its share of the current"
    return leaf(key, label, whole, "Ω", own=STRANDS * whole, basis="estimate", note=note)
