"""A stage of the first power-up, and what every stage is made of: limit, volts, the time without air."""

from dataclasses import dataclass, replace

from builder.compute.circuit.feeds import Load
from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.loops.series import ends_of_series
from builder.compute.power_up.gate_checks import volts_with_suspects, with_suspects
from builder.compute.power_up.gate_power import Discharge, GatePower, discharge, gate_power
from builder.compute.power_up.gate_readings import (
    GateReading,
    capacitance_at,
    charging,
    feed_of,
    ground_of,
)
from builder.compute.power_up.gate_volts import RailReading
from builder.load.assumed import assumed
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Connector, VideoTransmitter

_USUAL_DWELL = assumed("first power-up/dwell")


@dataclass(frozen=True, eq=False)
class Gate:
    """One stage: what is connected now, what to measure first, the supply's limit, current and
    volts to expect.

    `dwell` is in s without moving air. `closing` is the last one, with the frame closed. `plug` is
    what the supply's lead goes to: the battery's plug, or the board's own contacts.
    """

    letter: str
    title: str
    connected: str
    readings: tuple[GateReading, ...]
    power: GatePower
    volts: tuple[RailReading, ...]
    supply_low: float | None
    supply_high: float | None
    dwell: float
    parts: tuple[str, ...]
    discharge: Discharge
    plug: str
    closing: bool = False

    @property
    def starting(self) -> Figure:
        """All loads of this gate as they start (A)."""
        return self.power.starting

    @property
    def limit(self) -> MaybeFigure:
        """What the supply is limited to (A)."""
        return self.power.limit


@dataclass(frozen=True, eq=False)
class GateScene:
    """What all gates of a build share."""

    build: Build
    nets: Netlist
    power: PowerPlan
    low: float | None
    high: float | None
    centre: tuple[Fitted, ...]


def _dwell(scene: GateScene, parts: tuple[str, ...]) -> float:
    """The shortest time without moving air of what is on by now."""
    site = scene.build.site.dwell_without_air
    times = [site.value if site is not None else _USUAL_DWELL]
    for name in parts:
        part = scene.build.parts[name.split(".")[0]].part
        if isinstance(part, VideoTransmitter) and part.air_after is not None:
            times.append(part.air_after.value)
    return min(times)


def _plus(scene: GateScene) -> Contact | None:
    """The battery's plus at the first board that has one."""
    found = (Contact(f.key, f.pieces[0], p) for f in scene.centre if (p := feed_of(f)) is not None)
    return next(found, None)


def _plug(scene: GateScene) -> str:
    """Where the supply's lead goes: the connector on the battery net, or that net's contact itself."""
    plus = _plus(scene)
    if plus is None:
        return ""
    ends = ends_of_series(scene.nets)
    if ends is not None:  # no connector has both poles: between two of them is nothing to be read
        return f"{ends[0]} and {ends[1]}"
    net = scene.nets.of[plus].contacts
    on_net = [c.board for c in net if isinstance(scene.build.parts[c.part].part, Connector)]
    return on_net[0] if on_net else str(plus)


def gate_of(
    scene: GateScene,
    letter: str,
    title: str,
    connected: str,
    readings: list[GateReading],
    loads: list[Load],
    volts: list[RailReading],
    parts: tuple[str, ...],
    on: tuple[str, ...],
    *,
    closing: bool = False,
) -> Gate:
    """The stage in which these parts are on, with what is known of its supply."""
    build, plus = scene.build, _plus(scene)
    drawing = {load.pad.part for load in loads}
    here = {name.split(".")[0] for name in on}
    silent = tuple(f.key for f in scene.centre if f.key in here and f.key not in drawing)
    taken = gate_power(build, scene.power, letter, loads, silent, scene.low)
    farads = capacitance_at(build, scene.nets, plus) if plus is not None else None
    emptied = discharge(build, letter, farads, scene.high, taken.limit)
    dwell = _dwell(scene, on)
    return Gate(
        letter,
        title,
        connected,
        tuple(with_suspects(build, scene.nets, readings, here)),
        taken,
        tuple(volts_with_suspects(build, scene.nets, volts, here)),
        scene.low,
        scene.high,
        dwell,
        parts,
        emptied,
        _plug(scene),
        closing,
    )


def charging_at_plug(scene: GateScene) -> GateReading:
    """What a meter does at the plug's plus and minus."""
    plus, plug = _plus(scene), _plug(scene)
    farads = capacitance_at(scene.build, scene.nets, plus) if plus is not None else None
    ends = ends_of_series(scene.nets)
    pair = (f"{plug} plus" if plug else "battery plus", "minus")
    found = charging(pair if ends is None else (str(ends[0]), str(ends[1])), farads)
    minus = ground_of(scene.build.parts[plus.part]) if plus is not None else None
    if plus is None or minus is None:
        return found
    return replace(found, pairs=((plus, Contact(plus.part, plus.piece, minus)),))
