"""What the order of work insists on, each constraint with its reason (common practice, no source)."""

from collections.abc import Callable
from itertools import pairwise

from builder.compute.bench_pieces import cuts, gate_letters, is_centre, loads, pieces, plug_name
from builder.compute.joint_steps import tin_id
from builder.compute.joints import Joint
from builder.compute.power_gates import Gate
from builder.compute.steps import Gathered
from builder.model.build import Build
from builder.model.kinds import (
    Antenna,
    Capacitor,
    Connector,
    FlightController,
    Motor,
    Receiver,
    SpeedController,
    VideoTransmitter,
)

Insist = Callable[[Build, Gathered, tuple[Joint, ...], tuple[str, str, str]], None]


def touches(joint: Joint, piece: str) -> bool:
    """Whether a joint is on a piece or its wires lead there."""
    return any(piece in (c.board, c.part) for c in (joint.contact, *joint.others))


def _hot(plan: Gathered) -> list[str]:
    return [s.id for s in plan.steps.values() if s.do in ("tin", "solder")]


def _accepting(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    checks = [*plan.named("usb ", "spin "), *(["weigh"] if "weigh" in plan.steps else [])]
    for step in _hot(plan):
        for check in checks:
            plan.need(check, step, "soldered parts are not taken back")
        plan.need("dry fit", step, "what does not fit shows before it is fixed with solder")
    for check in checks:
        plan.need(check, "dry fit", "what goes back to the shop is not marked or cut")
    for step in plan.named("cut ", "trim ", "legs "):
        plan.need("dry fit", step, "lengths are known once everything lies in its place")
    plan.need("dry fit", "screws", "the stack-up is known once it stands together")


def _before_each_joint(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    for joint in joints:
        plan.need(tin_id(joint), joint.key, "a tinned pad takes the wire in seconds")
        for board, runs in cuts(build).items():
            if any(w.wire is r.wire for w in joint.wires for r in runs):
                cup = "sleeve on the wire before the joint: afterwards it does not go on" if joint.cup else ""
                plan.need(f"cut {board}", joint.key, cup or "a wire is cut, stripped and tinned before it is soldered")
        if joint.cup:
            plan.need(f"mate {joint.contact.part}", joint.key, "the mate holds the contacts in line while they are hot")
            plan.need(joint.key, f"sleeve {joint.contact.part}", "the sleeve is drawn over the finished cup")
        for f in build.of_kind(Capacitor):
            if touches(joint, f.key):
                plan.need(f"legs {f.key}", joint.key, "legs are cut and sleeved while they are free")


def _heavy_first(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    for f in build.of_kind(SpeedController):
        own = [j for j in joints if j.contact.part == f.key]
        battery = [j for j in own if build.pad(j.contact).battery]
        for j in battery:
            plan.need(j.key, f"mount {f.key}", "the soft mounts melt under the heat of the battery contacts")
            plan.need(j.key, f"ring {f.key}", "polarity is looked at while only these joints are made")
            for m in battery:
                if m.ground and m is not j:
                    plan.need(m.key, j.key, "minus sits on the plane and wants the most heat: it goes first")
            for light in own:
                if light not in battery and light.side == j.side:
                    plan.need(
                        j.key, light.key, "the heat of the battery joints runs through the board: fine ones after it"
                    )
            for c in build.of_kind(Connector):
                plan.need(
                    f"sleeve {c.key}", j.key, "cups are done while the leads are free, and their ends are covered"
                )
        plan.need(f"ring {f.key}", f"gate {gates[0]}", "plus and minus are measured before power goes on")


def _motors(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    feed = f"gate {gates[0]}"
    for esc in build.of_kind(SpeedController):
        plan.need(f"ring {esc.key}", f"phases {esc.key}", "a short at the battery would show on every phase")
    for f in build.of_kind(Motor):
        for board in pieces(f):
            plan.need("screws", f"mount {board}", "a screw too long reaches the winding")
            plan.need(f"spin {board}", f"mount {board}", "a rough bell is found before it is screwed down")
            plan.need(f"mount {board}", f"trim {board}", "a lead can be shortened, never lengthened")
            plan.need(f"mount {board}", f"plug {board}", "its leads are routed once it sits")
            for s in build.of_kind(SpeedController):
                plan.need(f"mount {s.key}", f"trim {board}", "leads are cut where both ends have their place")
                plan.need(f"mount {s.key}", f"plug {board}", "its leads are routed once the board sits")
                plan.need(f"phases {s.key}", f"plug {board}", "a joined winding hides a dead output")
            plan.need(feed, f"plug {board}", "the board is known to be sound before motors hang on it")
            for j in joints:
                if touches(j, board) and j.board != board:
                    at = j.contact.part
                    plan.need(f"trim {board}", j.key, "leads are soldered at the length at which they lie")
                    plan.need(f"phases {at}", j.key, "a joined winding hides a dead output")
                    plan.need(feed, j.key, "the speed controller is known to be sound before motors hang on it")
                    plan.need(j.key, f"inspect {at}", "a bridge is found by eye before it is found by smoke")


def _hidden(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    for j in joints:
        if j.side == "under":
            at = j.contact.part
            plan.need(j.key, f"mount {at}", "the underside is out of reach once the board is mounted")
            for k in joints:
                if k.board == j.board and k.side == "top":
                    plan.need(j.key, k.key, "the hidden side comes first")
    for f in build.of_kind(FlightController):
        over = f"mount {f.key}"
        plan.need(f"gate {gates[0]}", over, "a fault of the speed controller would take the control board with it")
        for s in build.of_kind(SpeedController):
            why = f"{s.key} lies under {f.key}: its contacts are out of reach afterwards"
            plan.need(f"inspect {s.key}", over, why)
            plan.need(f"mount {s.key}", over, "the stack is built from below")
            for j in joints:
                if j.contact.part == s.key:
                    plan.need(j.key, over, why)
        plan.need(over, f"gate {gates[1]}", "this gate measures the control board's rails")


def _plugs(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    feed, rails = f"gate {gates[0]}", f"gate {gates[1]}"
    for plug in build.plugs:
        name = plug_name(plug)
        plan.need(f"ring {name}", f"plug {name}", "a harness that lies the wrong way round burns both boards")
        ends = {plug.start[0], plug.end[0]}
        if all(is_centre(build, e) for e in ends):
            plan.need(feed, f"plug {name}", "a fault of the speed controller would take the control board with it")
            plan.need(f"plug {name}", rails, "power comes through this plug")
            for e in ends:
                if isinstance(build.parts[e].part, FlightController):
                    plan.need(f"plug {name}", f"mount {e}", "the sockets are in sight until the board lies over them")
                else:
                    plan.need(f"mount {e}", f"plug {name}", "the lower board sits before its harness is laid")
        else:
            for e in ends:
                if not is_centre(build, e):
                    plan.need(f"mount {e}", f"plug {name}", "its lead is laid once it sits")
                    plan.need(rails, f"plug {name}", "each rail is measured with nothing on it")
            plan.need(f"plug {name}", f"gate {gates[2]}", "this gate puts power on it")


def _early(build: Build, joint: Joint) -> bool:
    """Whether a board's joint cannot wait for the gate of its rails: on an underside, or on a battery contact."""
    return joint.side == "under" or build.pad(joint.contact).battery


def _waits(build: Build, load: Joint, joints: tuple[Joint, ...]) -> bool:
    """Whether a load's own joint waits for its gate in place of the board's, which cannot."""
    ends = {c for c in load.others if is_centre(build, c.part)}
    return any(_early(build, j) for j in joints if j.contact in ends)


def _joint_of_load(build: Build, plan: Gathered, joints: tuple[Joint, ...], key: str, j: Joint, rails: str) -> None:
    """What one joint of a load waits for."""
    places = [p for p in (f"lay {key}", f"mount {key}") if p in plan.steps][:1]
    if j.contact.part == key:
        for place in places:
            plan.need(j.key, place, "its own ends are soldered while it lies free on the bench")
    if not is_centre(build, j.contact.part):
        if _waits(build, j, joints):
            plan.need(rails, j.key, "each rail is measured with nothing on it")
    elif not _early(build, j):
        plan.need(rails, j.key, "each rail is measured with nothing on it")
        for place in places:
            plan.need(place, j.key, "leads are cut where they lie")


def _loads(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    rails, last = f"gate {gates[1]}", f"gate {gates[2]}"
    for f in loads(build):
        for j in joints:
            if touches(j, f.key):
                _joint_of_load(build, plan, joints, f.key, j, rails)
                plan.need(j.key, last, "this gate puts power on it")
        place = f"lay {f.key}" if isinstance(f.part, Receiver) else f"mount {f.key}"
        plan.need(place, last, "this gate puts power on it")
    for f in build.of_kind(SpeedController, FlightController):
        for j in joints:
            if j.contact.part == f.key:
                plan.need(j.key, f"look over {f.key}", "a bridge is found by eye before it is found by smoke")
        plan.need(f"look over {f.key}", last, "a bridge is found by eye before it is found by smoke")


def _covers(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    last = f"gate {gates[2]}"
    radios = build.of_kind(Receiver, VideoTransmitter)
    for f in radios:
        for j in joints:
            if j.contact.part == f.key:
                plan.need(j.key, f"cover {f.key}", "a cover that is shrunk first has to be cut off again")
        plan.need(f"cover {f.key}", f"mount {f.key}", "the sleeve does not go over a part that is tied down")
        if isinstance(f.part, Receiver):
            plan.need(last, f"cover {f.key}", "its button and lamp are wanted until the link stands")
    for a in build.of_kind(Antenna):
        served = [f for f in radios if _serves(build, a.key, f.key)]
        for f in served:
            for j in joints:
                if j.contact.part == f.key:
                    plan.need(j.key, f"antenna {a.key}", "the antenna's foot is kept from the iron")
            plan.need(f"antenna {a.key}", f"cover {f.key}", "the antenna's foot is under the cover")
        plan.need(f"antenna {a.key}", last, "a transmitter without its antenna burns its output")


def _serves(build: Build, antenna: str, radio: str) -> bool:
    """Whether an antenna belongs to a radio: the same connector, or the only radio there is."""
    a, r = build.parts[antenna].part, build.parts[radio].part
    coax, other = getattr(a, "coax", None), getattr(r, "coax", None)
    if coax is not None and other is not None:
        return bool(coax.type == other.type)
    return len(build.of_kind(Receiver, VideoTransmitter)) == 1


def _end(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]) -> None:
    powered = plan.named("gate ")
    for a, b in pairwise(powered):
        plan.need(a, b, "each gate adds one thing to what has passed")
    for gate in powered:
        plan.need(gate, "coat", "coating comes off badly: it goes on what works")
        plan.need(gate, "tie", "what does not work is mended before it is tied down")
        plan.need(gate, "setup", "the set-up wants boards that are sound")
    for step in _hot(plan):
        plan.need(step, "coat", "solder does not take on coating")
        plan.need(step, "tie", "wires are tied when all of them lie")
    plan.need("coat", "setup", "it dries while the ports are set")
    plan.need("setup", "rotation", "motors turn from the set-up")
    last = ("close", "unplug", "propellers")
    for step in list(plan.steps):
        if step not in last:
            plan.need(step, "close", "a closed frame is not opened again for this")
    plan.need("close", "unplug", "it is weighed and balanced whole")
    plan.need("rotation", "propellers", "rotation is checked without them")
    plan.need("unplug", "propellers", "propellers go on with the pack away, last of all")


_ALL: tuple[Insist, ...] = (
    _accepting,
    _before_each_joint,
    _heavy_first,
    _motors,
    _hidden,
    _plugs,
    _loads,
    _covers,
    _end,
)


def constrain(build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> None:
    """Adds all that is insisted on."""
    letters = gate_letters(build, gates)
    for insist in _ALL:
        insist(build, plan, joints, letters)
