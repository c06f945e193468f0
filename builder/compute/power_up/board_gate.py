"""The stage of speed controllers, or of control boards."""

from builder.compute.circuit.feeds import Load
from builder.compute.circuit.rails import RailRow
from builder.compute.power_up.gate import Gate, GateScene, gate_of
from builder.compute.power_up.gate_checks import as_before, lead_readings
from builder.compute.power_up.gate_readings import (
    GateReading,
    battery_readings,
    feed_of,
    ground_reading,
    phase_readings,
    rail_readings,
    supply_pad,
)
from builder.compute.power_up.gate_volts import RailReading, each_once, volts_at
from builder.compute.power_up.link_readings import link_readings
from builder.compute.power_up.neighbour_readings import neighbour_readings
from builder.compute.power_up.print_readings import print_readings, print_volts
from builder.load.assumed import assumed
from builder.model.build import Contact, Fitted
from builder.model.kinds import Capacitor, CombinedBoard, SpeedController

_SUPPLY = assumed("first power-up/supply-display")


def _rail_volts(scene: GateScene, rows: tuple[RailRow, ...], on: set[str]) -> list[RailReading]:
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


def board_gate(
    scene: GateScene, letter: str, boards: list[Fitted], before: list[Fitted], loads: list[Load]
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
    return gate_of(
        scene, letter, title, connected, readings, loads, each_once(volts), names, by_now
    )
