"""First power-up in gates: what should read open, what low, the limit of the supply, the volts to expect."""

from dataclasses import dataclass

from builder.compute.feeds import PACK, Load
from builder.compute.formulas.electronics import supply_limit
from builder.compute.nets import Netlist
from builder.compute.rails import Power, RailRow
from builder.model.build import Build, Contact
from builder.model.kinds import Capacitor, CombinedBoard, FlightController, SpeedController

METER_OHMS, CHIRP_BELOW = (
    1000.0,
    0.1,
)  # a meter's ringing range: about 1 kΩ, sounds below a tenth of it (common practice)
_USUAL_START = (
    2.0  # times the typical current, where nobody says what a load takes at start (common practice, no source)
)
_USUAL_DWELL = 60.0


@dataclass(frozen=True)
class Reading:
    """One reading with the pack away: between two contacts, what is expected, and why."""

    between: tuple[str, str]
    expect: str
    why: str


@dataclass(frozen=True)
class RailReading:
    """Volts to expect at a contact once power is on."""

    contact: str
    low: float
    high: float
    nominal: float


@dataclass(frozen=True)
class Gate:
    """One stage: what is connected now, what to ring through first, the supply's limit in A, volts to expect."""

    letter: str
    title: str
    connected: str
    readings: tuple[Reading, ...]
    limit: float
    volts: tuple[RailReading, ...]
    supply_low: float | None
    supply_high: float | None
    dwell: float
    parts: tuple[str, ...]


def _start(load: Load) -> float:
    if load.start is not None:
        return load.start
    return _USUAL_START * (load.typical or load.idle or 0.0)


def _chirp(build: Build) -> float:
    """Seconds for which a meter rings while the capacitors charge: about R·C, for all of them in parallel."""
    farads = 0.0
    for fitted in build.of_kind(Capacitor):
        if isinstance(fitted.part, Capacitor) and fitted.part.capacitance is not None:
            farads += fitted.part.capacitance.value * fitted.count
    return METER_OHMS * farads


def _battery_reading(build: Build, boards: tuple[str, ...]) -> list[Reading]:
    out = []
    seconds = _chirp(build)
    low = (
        f"open; the meter may ring for about {seconds:.1f} s while the capacitor charges" if seconds >= 0.05 else "open"
    )
    for board in boards:
        part = build.parts[board].part
        plus = next((p for p, pad in part.pads.items() if pad.battery and pad.role != "ground"), None)
        minus = next((p for p, pad in part.pads.items() if pad.battery and pad.role == "ground"), None)
        if plus is None:
            plus = part.supply.pad if part.supply is not None else None
        if minus is None:
            minus = next((p for p, pad in part.pads.items() if pad.role == "ground"), None)
        if plus and minus:
            out.append(
                Reading(
                    (f"{board}.{plus}", f"{board}.{minus}"),
                    low,
                    "a steady ring is a short: find it before any power is put on",
                )
            )
    return out


def _phase_readings(build: Build, board: str) -> list[Reading]:
    part = build.parts[board].part
    minus = next((p for p, pad in part.pads.items() if pad.battery and pad.role == "ground"), None)
    channels: dict[int, list[str]] = {}
    for name, pad in part.pads.items():
        if pad.role == "phase" and pad.channel is not None:
            channels.setdefault(pad.channel, []).append(name)
    out = []
    for channel, pads in sorted(channels.items()):
        if minus:
            out.append(
                Reading(
                    (f"{board} channel {channel}: {', '.join(pads)}", minus),
                    "alike on all its contacts, not a ring",
                    "a contact that rings to minus has a dead output behind it",
                )
            )
    return out


def _rail_readings(build: Build, rows: tuple[RailRow, ...]) -> list[Reading]:
    out = []
    for row in rows:
        key = row.source.part.split(".")[0]
        part = build.parts[key].part
        pad = next((p for p, x in part.pads.items() if x.role == "supply" and x.rail == row.source.name), None)
        ground = next((p for p, x in part.pads.items() if x.role == "ground"), None)
        if pad and ground:
            out.append(
                Reading(
                    (f"{row.source.part}.{pad}", f"{row.source.part}.{ground}"),
                    "no ring; hundreds of ohms or more",
                    "a ring on a rail is a bridge or a wrong wire",
                )
            )
    return out


def _rail_volts(build: Build, rows: tuple[RailRow, ...]) -> tuple[RailReading, ...]:
    out = []
    for row in rows:
        part = build.parts[row.source.part.split(".")[0]].part
        pad = next(
            (p for p, x in part.pads.items() if x.role == "supply" and x.rail == row.source.name), row.source.name
        )
        out.append(RailReading(f"{row.source.part}.{pad}", row.low, row.high, row.volts))
    return tuple(out)


def power_gates(build: Build, nets: Netlist, power: Power) -> tuple[Gate, ...]:
    """The stages of the first power-up, each with its own limit and readings; none without a board on the pack."""
    speed = tuple(f.key for f in build.parts.values() if isinstance(f.part, SpeedController))
    control = tuple(f.key for f in build.parts.values() if isinstance(f.part, FlightController))
    boards = {*speed, *control}
    if not boards:
        return ()
    low = min((p.nominal for p in power.packs), default=None)
    high = max((p.full for p in power.packs), default=None)
    dwell = build.site.dwell_without_air.value if build.site.dwell_without_air is not None else _USUAL_DWELL
    by_part = {s.load.part: s.load for s in power.on_pack}
    gates: list[Gate] = []
    running = 0.0
    letters = iter("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    combined = any(isinstance(build.parts[k].part, CombinedBoard) for k in speed)
    if speed:
        running += sum(_start(by_part[k]) for k in speed if k in by_part)
        rails = tuple(r for r in power.rails if r.source.part.split(".")[0] in speed)
        what = "speed and flight controller" if combined else "speed controller"
        readings = (
            *_battery_reading(build, speed),
            *(r for k in speed for r in _phase_readings(build, k)),
            *_rail_readings(build, rails),
        )
        gates.append(
            Gate(
                next(letters),
                f"The {what} with its pigtail{' and capacitor' if build.of_kind(Capacitor) else ''}",
                f"{', '.join(speed)}; nothing else, no propellers",
                readings,
                supply_limit(running),
                _rail_volts(build, rails),
                low,
                high,
                dwell,
                speed,
            )
        )
    if control:
        running += sum(_start(by_part[k]) for k in control if k in by_part)
        rails = tuple(r for r in power.rails if r.source.part.split(".")[0] in control)
        gates.append(
            Gate(
                next(letters),
                "The control board, rails measured with nothing on them",
                f"{', '.join((*speed, *control))}; no loads on the rails",
                (*_battery_reading(build, control), *_rail_readings(build, rails)),
                supply_limit(running),
                _rail_volts(build, rails),
                low,
                high,
                dwell,
                control,
            )
        )
    loads = [s.load for r in power.rails for s in r.supplied] + [
        s.load for s in power.on_pack if s.load.part not in boards
    ]
    for load in loads:
        source = load.source or PACK
        rail = next((r for r in power.rails if r.source == source), None)
        running += _start(load) * (rail.volts / low if rail is not None and low else 1.0)
        ground = next((p for p, x in build.parts[load.pad.part].part.pads.items() if x.role == "ground"), None)
        readings = (
            (
                Reading(
                    (str(load.pad), str(Contact(load.pad.part, load.pad.piece, ground))),
                    "no ring",
                    "a ring is a bridge",
                ),
            )
            if ground
            else ()
        )
        volts = (RailReading(str(load.pad), rail.low, rail.high, rail.volts),) if rail is not None else ()
        gates.append(
            Gate(
                next(letters, "Z"),
                f"{build.parts[load.pad.part].part.name} ({load.part}) on {source.label}",
                f"all before, and {load.part}",
                readings,
                supply_limit(running),
                volts,
                low,
                high,
                dwell,
                (load.part,),
            )
        )
    return tuple(gates)
