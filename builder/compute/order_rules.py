"""What the order of work insists on, each constraint with its reason (common practice, no source)."""

from itertools import pairwise

from builder.compute.joints import Joint
from builder.compute.steps import Gathered, WorkStep
from builder.model.build import Build
from builder.model.kinds import (
    Antenna,
    CombinedBoard,
    FlightController,
    Motor,
    Receiver,
    SpeedController,
    VideoTransmitter,
)


def _first_solder(plan: Gathered) -> list[WorkStep]:
    return [s for s in plan.steps.values() if s.do in ("tin", "solder")]


def _accepting(plan: Gathered) -> None:
    heat = _first_solder(plan)
    for step in heat:
        for check in plan.steps.values():
            if check.id == "weigh" or check.id.startswith(("usb ", "spin ")):
                plan.need(check.id, step.id, "soldered parts are not taken back")
        plan.need("dry fit", step.id, "what does not fit shows before it is fixed with solder")
    plan.need("weigh", "dry fit", "weights are taken of parts as bought")
    plan.need("dry fit", "screws", "the stack-up is known once it stands together")


def _tinning(plan: Gathered, joints: tuple[Joint, ...]) -> None:
    for joint in joints:
        plan.need(f"tin {joint.board} {joint.tip}", joint.key, "a tinned pad takes the wire in seconds")


def _heavy_first(build: Build, plan: Gathered, joints: tuple[Joint, ...]) -> None:
    for f in build.of_kind(SpeedController):
        own = [j for j in joints if j.contact.part == f.key]
        battery = [j for j in own if build.pad(j.contact).battery]
        minus = [j for j in battery if build.pad(j.contact).role == "ground"]
        for j in battery:
            if not isinstance(f.part, CombinedBoard):
                plan.need(j.key, f"mount {f.key}", "the soft mounts melt under the heat of the battery pads")
            plan.need(j.key, "gate A", "gate A feeds through these joints")
            for m in minus:
                if m is not j:
                    plan.need(m.key, j.key, "minus sits on the plane and wants the most heat: it goes first, alone")
        for j in own:
            if j not in battery and build.pad(j.contact).role == "phase":
                for b in battery:
                    plan.need(b.key, j.key, "the battery joints' heat runs through the board; fine joints come after")
        for cup in (j for j in joints if j.cup):
            for b in battery:
                plan.need(
                    cup.key,
                    b.key,
                    "the connector's cups are soldered with a mate plugged in, before its leads are on the board",
                )


def _motors(build: Build, plan: Gathered, joints: tuple[Joint, ...]) -> None:
    for f in build.of_kind(Motor):
        for piece in f.pieces:
            board = f"{f.key}.{piece}" if piece else f.key
            plan.need(f"spin {board}", f"mount {board}", "a rough bell is found before it is screwed down")
            plan.need("screws", f"mount {board}", "a screw too long reaches the winding")
            plan.need(f"mount {board}", f"trim {board}", "a lead can be shortened, never lengthened")
            for j in joints:
                if any(c.board == board for w in j.wires for c in (w.a, w.b)) and j.board != board:
                    plan.need(f"trim {board}", j.key, "leads are cut where they lie")
                    plan.need(
                        f"mount {j.contact.part}",
                        j.key,
                        "leads are soldered at the length that the mounted board asks for",
                    )
                    plan.need("gate A", j.key, "the speed controller is known to be sound before motors hang on it")


def _boards(build: Build, plan: Gathered, joints: tuple[Joint, ...]) -> None:
    speed = [f.key for f in build.of_kind(SpeedController)]
    for f in build.of_kind(FlightController):
        plan.need("gate A", f"mount {f.key}", "a fault of the speed controller would take the control board with it")
        for key in speed:
            for j in joints:
                if j.contact.part == key:
                    plan.need(
                        j.key, f"mount {f.key}", f"{key} lies under {f.key}: its pads are out of reach afterwards"
                    )
        plan.need(f"mount {f.key}", "gate B", "gate B measures the control board's rails")
        for j in joints:
            if j.contact.part == f.key:
                plan.need("gate B", j.key, "each rail is measured with nothing on it")
    for j in joints:
        hidden = [k for k in joints if k.board == j.board and k.side == "under" and j.side == "top"]
        for k in hidden:
            plan.need(k.key, j.key, "the hidden side comes first")
        if j.side == "under":
            plan.need(j.key, f"mount {j.contact.part}", "the underside is out of reach once the board is mounted")


def _loads(build: Build, plan: Gathered, joints: tuple[Joint, ...]) -> None:
    gates = [s for s in plan.steps if s.startswith("gate ")]
    last = gates[-1] if gates else ""
    for f in build.of_kind(Receiver, VideoTransmitter):
        near = [j for j in joints if any(c.part == f.key for w in j.wires for c in (w.a, w.b))]
        antennas = [a.key for a in build.of_kind(Antenna) if _serves(build, a.key, f.key)]
        for j in near:
            plan.need(j.key, f"cover {f.key}", "a cover that is shrunk first has to be cut off again")
            plan.need(j.key, last, "this gate puts power on it")
        for a in antennas:
            plan.need(f"antenna {a}", f"cover {f.key}", "the antenna goes on before the cover")
            plan.need(f"antenna {a}", last, "a transmitter without its antenna burns its output")
        plan.need(last, f"cover {f.key}", "what does not work is mended before it is covered")
    for j in joints:
        if last and j.contact.part not in {f.key for f in build.of_kind(SpeedController)} and not j.cup:
            plan.need(j.key, last, "this gate puts power on it")


def _serves(build: Build, antenna: str, radio: str) -> bool:
    """Whether an antenna belongs to a radio: the same connector, or the only radio there is."""
    a, r = build.parts[antenna].part, build.parts[radio].part
    coax, other = getattr(a, "coax", None), getattr(r, "coax", None)
    return coax is not None and other is not None and coax.type == other.type


def _end(plan: Gathered) -> None:
    gates = [s for s in plan.steps if s.startswith("gate ")]
    for a, b in pairwise(gates):
        plan.need(a, b, "each gate adds one thing to what has passed")
    for gate in gates:
        plan.need(gate, "coat", "coating comes off badly: it goes on what works")
        plan.need(gate, "setup", "the set-up wants a board that is sound")
    for step in _first_solder(plan):
        plan.need(step.id, "coat", "solder does not take on coating")
    plan.need("coat", "setup", "it dries while the ports are set")
    plan.need("setup", "rotation", "motors turn from the set-up")
    for step in list(plan.steps.values()):
        if step.id not in ("close", "unplug", "propellers", "rotation") and step.own is None:
            plan.need(step.id, "close", "a closed frame is not opened again for this")
    plan.need("rotation", "close", "a wrong direction is mended with the leads in reach")
    plan.need("close", "unplug", "it is weighed whole")
    plan.need("rotation", "propellers", "rotation is checked without them")
    plan.need("unplug", "propellers", "propellers go on with the pack away, last of all")
    on_propellers = {c.after for c in plan.constraints if c.before == "propellers"}
    for step in list(plan.steps.values()):
        if step.own is not None and step.id not in on_propellers:
            plan.need(step.id, "propellers", "propellers go on last of all")


def constrain(build: Build, plan: Gathered, joints: tuple[Joint, ...]) -> None:
    """Adds all that is insisted on."""
    _accepting(plan)
    _tinning(plan, joints)
    _heavy_first(build, plan, joints)
    _motors(build, plan, joints)
    _boards(build, plan, joints)
    _loads(build, plan, joints)
    _end(plan)
