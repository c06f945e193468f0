"""First power-up in gates: what to ring first, the limit of the supply, the volts to expect, the time without air."""

from dataclasses import dataclass
from string import ascii_uppercase

from builder.compute.feeds import PACK, Load
from builder.compute.figure import Figure, Known, apply, formula, leaf, total
from builder.compute.formulas.electronics import supply_limit
from builder.compute.gate_readings import (
    Reading,
    battery_readings,
    feed_of,
    ground_reading,
    load_readings,
    neighbour_readings,
    phase_readings,
    rail_readings,
)
from builder.compute.nets import Netlist
from builder.compute.rails import Power, RailRow
from builder.model.build import Build, Fitted
from builder.model.kinds import Capacitor, CombinedBoard, FlightController, SpeedController, VideoTransmitter

# times the typical current, where nobody says what a load takes at start (common practice, no source)
_USUAL_START = 2.0
_USUAL_DWELL = 60.0  # s without moving air (common practice, no source)
_SUPPLY = 0.05  # share by which a bench supply's own display is off (common practice, no source)


@dataclass(frozen=True)
class RailReading:
    """Volts to expect at a contact once power is on."""

    contact: str
    low: float
    high: float
    nominal: float


@dataclass(frozen=True, eq=False)
class Gate:
    """One stage: what is connected now, what to ring through first, the supply's limit, volts to expect.

    `starting` and `limit` are in A, `dwell` in s without moving air.
    """

    letter: str
    title: str
    connected: str
    readings: tuple[Reading, ...]
    starting: Figure
    limit: Known
    volts: tuple[RailReading, ...]
    supply_low: float | None
    supply_high: float | None
    dwell: float
    parts: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class _Scene:
    """What all gates of a build share."""

    build: Build
    nets: Netlist
    power: Power
    low: float | None
    high: float | None


def _start(scene: _Scene, load: Load) -> Figure:
    """Current that a load takes from the bench supply as it starts; through a converter, by its volts."""
    rail = next((r for r in scene.power.rails if r.source == load.source), None)
    share = rail.volts / scene.low if rail is not None and scene.low else 1.0
    given = load.start if load.start is not None else _USUAL_START * (load.typical or load.idle or 0.0)
    key = f"{scene.build.name}/start/{load.part}"
    label = f"Starting current of {load.part}" + (" at the supply" if rail is not None else "")
    note = "" if load.start is not None else f"{_USUAL_START:g} times its typical current (common practice, no source)"
    if rail is not None:
        note = "; ".join(n for n in (note, f"at {rail.volts:g} V, brought to the supply's volts") if n)
    return leaf(key, label, given * share, "A", own=0.2 * given * share, basis="estimate", where=load.where, note=note)


def _dwell(scene: _Scene, parts: tuple[str, ...]) -> float:
    """The shortest time without moving air of what is on by now."""
    site = scene.build.site.dwell_without_air
    times = [site.value if site is not None else _USUAL_DWELL]
    for name in parts:
        part = scene.build.parts[name.split(".")[0]].part
        if isinstance(part, VideoTransmitter) and part.air_after is not None:
            times.append(part.air_after.value)
    return min(times)


def _gate(
    scene: _Scene,
    letter: str,
    title: str,
    connected: str,
    readings: list[Reading],
    starts: list[Figure],
    volts: list[RailReading],
    parts: tuple[str, ...],
    on: tuple[str, ...],
) -> Gate:
    key = f"{scene.build.name}/gate/{letter}"
    starting = total(f"{key}/starting", f"Starting loads at gate {letter}", "A", starts)
    limit = apply(f"{key}/limit", f"Current limit at gate {letter}", formula(supply_limit), starting)
    dwell = _dwell(scene, on)
    return Gate(
        letter, title, connected, tuple(readings), starting, limit, tuple(volts), scene.low, scene.high, dwell, parts
    )


def _rail_volts(build: Build, rows: tuple[RailRow, ...]) -> list[RailReading]:
    out = []
    for row in rows:
        pads = build.parts[row.source.part.split(".")[0]].part.pads.items()
        pad = next((p for p, x in pads if x.role == "supply" and x.rail == row.source.name), row.source.name)
        out.append(RailReading(f"{row.source.part}.{pad}", row.low, row.high, row.volts))
    return out


def _board_gate(scene: _Scene, letter: str, boards: list[Fitted], before: list[Fitted], starts: list[Figure]) -> Gate:
    """The gate of speed controllers, or of control boards: battery, grounds, phases, rails, neighbours."""
    build = scene.build
    names = tuple(f.key for f in boards)
    rows = tuple(r for r in scene.power.rails if r.source.part.split(".")[0] in names)
    readings: list[Reading] = []
    volts: list[RailReading] = []
    for f in boards:
        readings += battery_readings(build, f) + phase_readings(build, f)
        readings += ground_reading(build, scene.nets, f, before[0] if before else None)
        feed = feed_of(f)
        if feed is not None and scene.low is not None:
            name = f"{f.key}.{f.pieces[0]}" if f.pieces[0] else f.key
            volts.append(RailReading(f"{name}.{feed}", scene.low * (1 - _SUPPLY), scene.low * (1 + _SUPPLY), scene.low))
    readings += rail_readings(build, rows)
    for f in boards:
        readings += neighbour_readings(build, scene.nets, f, f.pieces[0])
    drives = any(isinstance(f.part, SpeedController) for f in boards)
    combined = any(isinstance(f.part, CombinedBoard) for f in boards)
    if drives:
        what = "speed and flight controller" if combined else "speed controller"
        title = f"The {what} with its pigtail{' and capacitor' if build.of_kind(Capacitor) else ''}"
        connected = f"{', '.join(names)}; nothing else, no propellers"
    else:
        title = "The control board, rails measured with nothing on them"
        connected = f"{', '.join((*(f.key for f in before), *names))}; no loads on the rails"
    volts += _rail_volts(build, rows)
    on = (*(f.key for f in before), *names)
    return _gate(scene, letter, title, connected, readings, starts, volts, names, on)


def _loads_gate(
    scene: _Scene, letter: str, loads: list[Load], on: tuple[str, ...], ground: Fitted, starts: list[Figure]
) -> Gate:
    """The gate of the loads. They are joined by then, so each is rung through in turn and all get power at once."""
    readings: list[Reading] = []
    volts: list[RailReading] = []
    for load in loads:
        rail = next((r for r in scene.power.rails if r.source == (load.source or PACK)), None)
        readings += load_readings(scene.build, scene.nets, load.pad, ground)
        if rail is not None:
            volts.append(RailReading(str(load.pad), rail.low, rail.high, rail.volts))
    parts = tuple(dict.fromkeys(load.part for load in loads))
    title = "The loads: each rung through in turn, then all of them on"
    connected = f"all before, and {', '.join(parts)}; no propellers"
    return _gate(scene, letter, title, connected, readings, starts, volts, parts, on)


def power_gates(build: Build, nets: Netlist, power: Power) -> tuple[Gate, ...]:
    """The stages of the first power-up, each with its own limit and readings; none without a board on the pack."""
    speed = [f for f in build.parts.values() if isinstance(f.part, SpeedController)]
    control = [f for f in build.parts.values() if isinstance(f.part, FlightController)]
    if not speed and not control:
        return ()
    low = min((p.nominal for p in power.packs), default=None)
    scene = _Scene(build, nets, power, low, max((p.full for p in power.packs), default=None))
    centre = {f.key for f in (*speed, *control)}
    everything = [s.load for r in power.rails for s in r.supplied] + [s.load for s in power.on_pack]
    starts: list[Figure] = []
    gates: list[Gate] = []
    letters = iter(ascii_uppercase)
    for boards, before in ((speed, []), (control, speed)):
        if boards:
            keys = {f.key for f in boards}
            starts = starts + [_start(scene, x) for x in everything if x.pad.part in keys]
            gates.append(_board_gate(scene, next(letters), boards, before, starts))
    loads = [load for load in everything if load.pad.part not in centre]
    if loads:
        starts = starts + [_start(scene, load) for load in loads]
        on = (*(f.key for f in (*speed, *control)), *(load.part for load in loads))
        gates.append(_loads_gate(scene, next(letters), loads, on, (speed or control)[0], starts))
    return tuple(gates)
