"""First power-up in stages: boards, then loads, then all with the frame closed."""

from collections.abc import Iterator, Sequence
from string import ascii_uppercase

from builder.compute.circuit.feeds import PACK, Load
from builder.compute.circuit.feeds import loads as loads_of
from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.rails import PowerPlan
from builder.compute.power_up.board_gate import board_gate
from builder.compute.power_up.gate import Gate, GateScene, charging_at_plug, gate_of
from builder.compute.power_up.gate_checks import as_before, wire_readings
from builder.compute.power_up.gate_volts import RailReading, each_once, volts_at
from builder.compute.power_up.link_readings import link_readings
from builder.compute.power_up.neighbour_readings import load_readings
from builder.compute.power_up.print_readings import print_looks
from builder.model.build import Build, Fitted
from builder.model.kinds import Camera, FlightController, SpeedController


def _by_ribbon(build: Build, keys: Sequence[str]) -> Iterator[str]:
    """What has no wires and gets power from one of these by the ribbon that came with it."""
    speaks = {getattr(build.parts[k].part, "speaks", None) for k in keys} - {None}
    for camera in build.of_kind(Camera):
        joined = camera.part.ribbon is not None and camera.part.speaks in speaks
        if joined and camera.key not in keys:
            yield f"{camera.key} by its ribbon"


def _loads_gate(
    scene: GateScene,
    letter: str,
    new: list[Load],
    on: tuple[str, ...],
    ground: Fitted,
    loads: list[Load],
) -> Gate:
    """The gate of the loads. They are joined by then, so each is measured in turn and all get power
    at once.
    """
    readings = as_before([charging_at_plug(scene)], letter)
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
    return gate_of(scene, letter, title, connected, readings, loads, each_once(volts), parts, on)


def _closing_gate(scene: GateScene, letter: str, on: tuple[str, ...], loads: list[Load]) -> Gate:
    """The last one: the frame is closed, so it is measured at the plug alone."""
    links = link_readings(scene.nets)
    readings = [*as_before([charging_at_plug(scene)], letter), *links]
    title = "Frame closed, before the propellers"
    return gate_of(
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
    scene = GateScene(build, nets, power, low, full, boards_of_all)
    centre = {f.key for f in boards_of_all}
    everything = _all_loads(build, nets, power)
    drawing: list[Load] = []
    gates: list[Gate] = []
    letters = iter(ascii_uppercase)
    for boards, before in ((speed, []), (control, speed)):
        if boards:
            keys = {f.key for f in boards}
            drawing = drawing + [x for x in everything if x.pad.part in keys]
            gates.append(board_gate(scene, next(letters), boards, before, drawing))
    loads = [load for load in everything if load.pad.part not in centre]
    on = (*(f.key for f in boards_of_all), *(load.part for load in loads))
    if loads:
        drawing = drawing + loads
        gates.append(_loads_gate(scene, next(letters), loads, on, (speed or control)[0], drawing))
    gates.append(_closing_gate(scene, next(letters), on, drawing))
    return tuple(gates)
