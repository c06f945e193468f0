"""First power-up in gates: what to measure first, limit and current of the supply, volts, the time
without air.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from string import ascii_uppercase

from builder.compute.circuit.feeds import PACK, Load
from builder.compute.circuit.feeds import loads as loads_of
from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.rails import PowerPlan, RailRow
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.loops.series import ends_of_series
from builder.compute.power_up.gate_checks import (
    as_before,
    lead_readings,
    volts_with_suspects,
    wire_readings,
    with_suspects,
)
from builder.compute.power_up.gate_power import Discharge, GatePower, discharge, gate_power
from builder.compute.power_up.gate_readings import (
    GateReading,
    battery_readings,
    capacitance_at,
    charging,
    feed_of,
    ground_of,
    ground_reading,
    phase_readings,
    rail_readings,
    supply_pad,
)
from builder.compute.power_up.gate_volts import RailReading, each_once, volts_at
from builder.compute.power_up.link_readings import link_readings
from builder.compute.power_up.neighbour_readings import load_readings, neighbour_readings
from builder.compute.power_up.print_readings import print_looks, print_readings, print_volts
from builder.load.assumed import assumed
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import (
    Camera,
    Capacitor,
    CombinedBoard,
    Connector,
    FlightController,
    SpeedController,
    VideoTransmitter,
)

_USUAL_DWELL = assumed("first power-up/dwell")
_SUPPLY = assumed("first power-up/supply-display")


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
class _Scene:
    """What all gates of a build share."""

    build: Build
    nets: Netlist
    power: PowerPlan
    low: float | None
    high: float | None
    centre: tuple[Fitted, ...]


def _dwell(scene: _Scene, parts: tuple[str, ...]) -> float:
    """The shortest time without moving air of what is on by now."""
    site = scene.build.site.dwell_without_air
    times = [site.value if site is not None else _USUAL_DWELL]
    for name in parts:
        part = scene.build.parts[name.split(".")[0]].part
        if isinstance(part, VideoTransmitter) and part.air_after is not None:
            times.append(part.air_after.value)
    return min(times)


def _plus(scene: _Scene) -> Contact | None:
    """The battery's plus at the first board that has one."""
    found = (Contact(f.key, f.pieces[0], p) for f in scene.centre if (p := feed_of(f)) is not None)
    return next(found, None)


def _plug(scene: _Scene) -> str:
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


def _gate(
    scene: _Scene,
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


def _charging_at_plug(scene: _Scene) -> GateReading:
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


def _rail_volts(scene: _Scene, rows: tuple[RailRow, ...], on: set[str]) -> list[RailReading]:
    out = []
    for row in rows:
        contact = supply_pad(scene.build, row)
        if contact is None:
            out.append(
                RailReading(
                    f"{row.source.part}.{row.source.name}", row.low, row.high, row.volts, (), "none"
                )
            )
        else:
            out.append(
                volts_at(scene.build, scene.nets, contact, (row.low, row.high, row.volts), on)
            )
    return out


def _board_gate(
    scene: _Scene, letter: str, boards: list[Fitted], before: list[Fitted], loads: list[Load]
) -> Gate:
    """The gate of speed controllers, or of control boards: battery, grounds, phases, rails,
    neighbours.
    """
    build = scene.build
    names = tuple(f.key for f in boards)
    on = {f.key for f in (*before, *boards)}
    rows = tuple(r for r in scene.power.rails if r.source.part.split(".")[0] in names)
    readings: list[GateReading] = []
    volts: list[RailReading] = []
    for f in boards:
        readings += as_before(battery_readings(build, scene.nets, f, on), letter)
        readings += [] if before else lead_readings(build, scene.nets, f)
        readings += [] if before else link_readings(scene.nets)
        readings += phase_readings(build, f)
        readings += ground_reading(build, scene.nets, f, before[0] if before else None)
        feed = feed_of(f)
        if feed is not None and scene.low is not None:
            band = (scene.low * (1 - _SUPPLY), scene.low * (1 + _SUPPLY), scene.low)
            volts.append(volts_at(build, scene.nets, Contact(f.key, f.pieces[0], feed), band, on))
    readings += rail_readings(build, rows)
    for f in boards:
        readings += print_readings(build, scene.nets, f)
        readings += neighbour_readings(build, scene.nets, f, f.pieces[0])
    drives = any(isinstance(f.part, SpeedController) for f in boards)
    combined = any(isinstance(f.part, CombinedBoard) for f in boards)
    if drives:
        what = "speed and flight controller" if combined else "speed controller"
        title = f"The {what} with its pigtail{' and capacitor' if build.of_kind(Capacitor) else ''}"
        connected = f"{', '.join(names)}; nothing else, no propellers"
    else:
        title = "The control board, rails measured with nothing on them"
        on_it = ", ".join((*(f.key for f in before), *names))
        connected = f"{on_it}, motors that are on; no loads on the rails, no propellers"
    volts += _rail_volts(scene, rows, on)
    volts += [v for f in boards for v in print_volts(build, scene.nets, f, rows)]
    by_now = (*(f.key for f in before), *names)
    return _gate(scene, letter, title, connected, readings, loads, each_once(volts), names, by_now)


def _by_ribbon(build: Build, keys: Sequence[str]) -> Iterator[str]:
    """What has no wires and gets power from one of these by the ribbon that came with it."""
    speaks = {getattr(build.parts[k].part, "speaks", None) for k in keys} - {None}
    for camera in build.of_kind(Camera):
        joined = camera.part.ribbon is not None and camera.part.speaks in speaks
        if joined and camera.key not in keys:
            yield f"{camera.key} by its ribbon"


def _loads_gate(
    scene: _Scene,
    letter: str,
    new: list[Load],
    on: tuple[str, ...],
    ground: Fitted,
    loads: list[Load],
) -> Gate:
    """The gate of the loads. They are joined by then, so each is measured in turn and all get power
    at once.
    """
    readings = as_before([_charging_at_plug(scene)], letter)
    volts: list[RailReading] = []
    here = {name.split(".")[0] for name in on}
    for load in new:
        rail = next((r for r in scene.power.rails if r.source == (load.source or PACK)), None)
        readings += load_readings(scene.build, scene.nets, load.pad, ground, here)
        if rail is not None:
            volts.append(
                volts_at(scene.build, scene.nets, load.pad, (rail.low, rail.high, rail.volts), here)
            )
    parts = tuple(dict.fromkeys(load.part for load in new))
    readings += wire_readings(scene.build)
    keys = tuple(dict.fromkeys(load.pad.part for load in new))
    readings += print_looks(scene.build, scene.nets, keys)
    title = "The loads: each is measured, then all get power"
    named = ", ".join((*parts, *_by_ribbon(scene.build, keys)))
    connected = f"all before, and {named}; no propellers"
    return _gate(scene, letter, title, connected, readings, loads, each_once(volts), parts, on)


def _closing_gate(scene: _Scene, letter: str, on: tuple[str, ...], loads: list[Load]) -> Gate:
    """The last one: the frame is closed, so it is measured at the plug alone."""
    links = link_readings(scene.nets)
    readings = [*as_before([_charging_at_plug(scene)], letter), *links]
    title = "Frame closed, before the propellers"
    return _gate(
        scene, letter, title, "everything; no propellers", readings, loads, [], (), on, closing=True
    )


def _all_loads(build: Build, nets: Netlist, power: PowerPlan) -> list[Load]:
    """What draws: from a rail, from the battery, and what is wired to a contact whose rail nobody
    states. Also that gets power for the first time, so it is measured before.
    """
    known = [s.load for r in power.rails for s in r.supplied] + [s.load for s in power.on_pack]
    pads = {load.pad for load in known}
    others = (x for x in loads_of(build, nets) if x.pad not in pads)
    return known + [x for x in others if len(nets.of[x.pad].contacts) > 1]


def power_gates(build: Build, nets: Netlist, power: PowerPlan) -> tuple[Gate, ...]:
    """The stages of the first power-up, each with its own limit and readings; none without a board
    on the pack.
    """
    speed = [f for f in build.parts.values() if isinstance(f.part, SpeedController)]
    control = [f for f in build.parts.values() if isinstance(f.part, FlightController)]
    if not speed and not control:
        return ()
    low = min((p.nominal for p in power.packs), default=None)
    full = max((p.full for p in power.packs), default=None)
    boards_of_all = tuple({f.key: f for f in (*speed, *control)}.values())
    scene = _Scene(build, nets, power, low, full, boards_of_all)
    centre = {f.key for f in boards_of_all}
    everything = _all_loads(build, nets, power)
    drawing: list[Load] = []
    gates: list[Gate] = []
    letters = iter(ascii_uppercase)
    for boards, before in ((speed, []), (control, speed)):
        if boards:
            keys = {f.key for f in boards}
            drawing = drawing + [x for x in everything if x.pad.part in keys]
            gates.append(_board_gate(scene, next(letters), boards, before, drawing))
    loads = [load for load in everything if load.pad.part not in centre]
    on = (*(f.key for f in boards_of_all), *(load.part for load in loads))
    if loads:
        drawing = drawing + loads
        gates.append(_loads_gate(scene, next(letters), loads, on, (speed or control)[0], drawing))
    gates.append(_closing_gate(scene, next(letters), on, drawing))
    return tuple(gates)
