"""What the order of work insists on, each constraint with its reason (common practice, no source).

Of the boards in the middle, their motors and plugs; loads, covers and the end of the work are in
load_rules.py.
"""

from collections.abc import Callable

from builder.compute.joints.bench_pieces import cuts, gate_letters, is_centre, plug_name
from builder.compute.joints.joints import Joint, touches
from builder.compute.joints.strips import before_power, hidden, hidden_lines, on_battery, under
from builder.compute.order.joint_steps import tin_id
from builder.compute.order.load_rules import covers, hot, loads_joined, until_done
from builder.compute.order.load_steps import underside_id
from builder.compute.order.mounting_steps import leads_id
from builder.compute.order.steps import Gathered, Why
from builder.compute.power_up.power_gates import Gate
from builder.model.build import Build, piece_names
from builder.model.kinds import (
    Capacitor,
    Connector,
    FlightController,
    Motor,
    SpeedController,
)

Insist = Callable[[Build, Gathered, tuple[Joint, ...], tuple[str, str, str]], None]


def _accepting(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    checks = [*plan.named("usb ", "spin "), *(["weigh"] if "weigh" in plan.steps else [])]
    for step in hot(plan):
        for check in checks:
            plan.need(check, step, "soldered parts are not taken back", Why.EASE)
        plan.need("dry fit", step, "nothing then has to be unsoldered", Why.EASE)
    for check in checks:
        plan.need(check, "dry fit", "a marked part cannot be returned", Why.EASE)
    for step in plan.named("cut ", "trim ", "legs "):
        plan.need("dry fit", step, "lengths are known once everything lies in its place", Why.EASE)
    plan.need("dry fit", "screws", "the stack-up is known once it stands together", Why.EASE)


def _frame(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    for frame in plan.named("assemble "):
        for before in ("dry fit", "screws"):
            plan.need(before, frame, "all is tried in its place before a screw is driven", Why.EASE)
        for step in plan.named("mount ", "lay ", "trim ", "fit "):
            plan.need(frame, step, "the frame carries it")


def _before_each_joint(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    for joint in joints:
        what = "cup" if joint.cup else "pad"
        plan.need(tin_id(build, joint), joint.key, f"a tinned {what} takes the wire in seconds")
        for board, runs in cuts(build).items():
            if any(w.wire is r.wire for w in joint.wires for r in runs):
                cup = (
                    "sleeve on the wire before the joint: afterwards it does not go on"
                    if joint.cup
                    else ""
                )
                plan.need(
                    f"cut {board}",
                    joint.key,
                    cup or "a wire is cut, stripped and tinned before it is soldered",
                )
        if joint.cup:
            for step in (tin_id(build, joint), joint.key):
                plan.need(
                    f"mate {joint.contact.part}",
                    step,
                    "the mate holds the contacts in line while they are hot",
                )
            plan.need(
                joint.key,
                f"sleeve {joint.contact.part}",
                "the sleeve is drawn over the finished cup",
            )
        for f in build.of_kind(Capacitor):
            if touches(joint, f.key):
                plan.need(
                    f"legs {f.key}",
                    joint.key,
                    "legs are cut and sleeved while they are free",
                    Why.EASE,
                )


def _heavy_first(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    for f in build.of_kind(SpeedController):
        own = [j for j in joints if j.contact.part == f.key]
        battery = [j for j in own if on_battery(build, j)]
        for j in battery:
            plan.need(
                j.key,
                f"mount {f.key}",
                "the soft mounts melt under the heat of the battery contacts",
            )
            plan.need(
                j.key,
                f"ring {f.key}",
                "polarity is looked at while only these joints are made",
                Why.SAFETY,
            )
            for m in battery:
                if m.ground and not j.ground and m.board == j.board:
                    plan.need(
                        m.key,
                        j.key,
                        "minus is on the ground plane and takes the most heat: it goes first",
                        Why.EASE,
                    )
            for light in own:
                if light not in battery and (
                    light.side == j.side or not before_power(build, light)
                ):
                    plan.need(
                        j.key,
                        light.key,
                        "the heat of the battery joints runs through the board: fine ones after it",
                        Why.EASE,
                    )
            for c in build.of_kind(Connector):
                plan.need(
                    f"sleeve {c.key}",
                    j.key,
                    "cups are done while the leads are free, and their ends are covered",
                    Why.EASE,
                )
        plan.need(
            f"ring {f.key}",
            f"gate {gates[0]}",
            "plus and minus are measured before power goes on",
            Why.SAFETY,
        )
        plan.need(
            f"phases {f.key}",
            f"gate {gates[0]}",
            "a dead output is found before power goes on",
            Why.SAFETY,
        )


def _motors(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    feed = f"gate {gates[0]}"
    for esc in build.of_kind(SpeedController):
        plan.need(
            f"ring {esc.key}",
            f"phases {esc.key}",
            "a short at the battery would show on every phase",
            Why.SAFETY,
        )
    for f in build.of_kind(Motor):
        for board in piece_names(f):
            plan.need(
                "screws", f"mount {board}", "a screw too long reaches the winding", Why.SAFETY
            )
            plan.need(
                f"spin {board}",
                f"mount {board}",
                "a rough bell is found before it is screwed down",
                Why.EASE,
            )
            plan.need(
                f"mount {board}",
                f"trim {board}",
                "a lead can be shortened, never lengthened",
                Why.EASE,
            )
            plan.need(
                f"mount {board}", f"plug {board}", "its leads are routed once it sits", Why.EASE
            )
            for s in build.of_kind(SpeedController):
                if not under(build, joints, board):
                    plan.need(
                        f"mount {s.key}",
                        f"trim {board}",
                        "leads are cut where both ends have their place",
                        Why.EASE,
                    )
                plan.need(
                    f"mount {s.key}",
                    f"plug {board}",
                    "its leads are routed once the board sits",
                    Why.EASE,
                )
                plan.need(
                    f"phases {s.key}",
                    f"plug {board}",
                    "a joined winding hides a dead output",
                    Why.SAFETY,
                )
            plan.need(
                feed,
                f"plug {board}",
                "the board is known to be sound before motors hang on it",
                Why.SAFETY,
            )
            for j in joints:
                if touches(j, board) and j.board != board:
                    at = j.contact.part
                    plan.need(
                        f"trim {board}", j.key, "leads are soldered at the length at which they lie"
                    )
                    plan.need(
                        f"trim {board}",
                        leads_id(f.key),
                        "leads are stripped at the length at which they lie",
                    )
                    plan.need(
                        leads_id(f.key),
                        j.key,
                        "a tinned lead takes to a tinned pad in seconds",
                        Why.EASE,
                    )
                    plan.need(
                        f"phases {at}", j.key, "a joined winding hides a dead output", Why.SAFETY
                    )
                    plan.need(
                        feed,
                        j.key,
                        "the speed controller is known to be sound before motors hang on it",
                        Why.SAFETY,
                    )
                    plan.need(
                        j.key,
                        f"inspect {at}",
                        "a bridge is found by eye before it is found by smoke",
                        Why.SAFETY,
                    )


def _hidden(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    for j in joints:
        if j.side == "under":
            at = j.contact.part
            plan.need(
                j.key, f"mount {at}", "the underside is out of reach once the board is mounted"
            )
            if all(
                k.side == "under"
                for k in joints
                if k.contact.part == at and build.pad(k.contact).role == "phase"
            ):
                plan.need(
                    f"inspect {at}",
                    f"mount {at}",
                    "the underside is out of sight once the board is mounted",
                )
            for k in joints:
                free = (
                    on_battery(build, k) and hidden(build, j) and not before_power(build, j)
                )  # a gate lies between
                if k.board == j.board and k.side == "top" and not free:
                    plan.need(j.key, k.key, "the hidden side comes first", Why.EASE)
    for f in build.of_kind(SpeedController, FlightController):
        for j in hidden_lines(build, joints, f.key):
            look, why = underside_id(f.key), "no eye and no probe reaches the underside afterwards"
            plan.need(j.key, look, why, Why.SAFETY)
            plan.need(look, f"mount {f.key}", why, Why.SAFETY)
    for f in build.of_kind(FlightController):
        over = f"mount {f.key}"
        plan.need(
            f"gate {gates[0]}",
            over,
            "a fault of the speed controller would take the control board with it",
            Why.SAFETY,
        )
        for s in build.of_kind(SpeedController):
            why = f"{s.key} lies under {f.key}: its contacts are out of reach afterwards"
            plan.need(f"inspect {s.key}", over, why)
            plan.need(f"mount {s.key}", over, "the stack is built from below", Why.EASE)
            for j in joints:
                if j.contact.part == s.key:
                    plan.need(j.key, over, why)
        plan.need(
            over, f"gate {gates[1]}", "this gate measures the control board's rails", Why.SAFETY
        )


def _plugs(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    feed, rails = f"gate {gates[0]}", f"gate {gates[1]}"
    for plug in build.plugs:
        name = plug_name(plug)
        plan.need(
            f"ring {name}",
            f"plug {name}",
            "a harness that lies the wrong way round burns both boards",
            Why.SAFETY,
        )
        ends = {plug.start[0], plug.end[0]}
        if all(is_centre(build, e) for e in ends):
            plan.need(
                feed,
                f"plug {name}",
                "a fault of the speed controller would take the control board with it",
                Why.SAFETY,
            )
            plan.need(f"plug {name}", rails, "power comes through this plug", Why.SAFETY)
            for e in ends:
                if isinstance(build.parts[e].part, FlightController):
                    plan.need(
                        f"plug {name}",
                        f"mount {e}",
                        "the sockets are in sight until the board lies over them",
                        Why.EASE,
                    )
                else:
                    plan.need(
                        f"mount {e}",
                        f"plug {name}",
                        "the lower board sits before its harness is laid",
                        Why.EASE,
                    )
        else:
            for e in ends:
                if not is_centre(build, e):
                    plan.need(
                        f"mount {e}", f"plug {name}", "its lead is laid once it sits", Why.EASE
                    )
                    plan.need(
                        rails,
                        f"plug {name}",
                        "each rail is measured with nothing on it",
                        Why.SAFETY,
                    )
            plan.need(f"plug {name}", f"gate {gates[2]}", "this gate puts power on it", Why.SAFETY)


_ALL: tuple[Insist, ...] = (
    _accepting,
    _frame,
    _before_each_joint,
    _heavy_first,
    _motors,
    _hidden,
    _plugs,
    loads_joined,
    covers,
    until_done,
)


def constrain(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[Gate, ...]
) -> None:
    """Adds all that is insisted on."""
    letters = gate_letters(build, gates)
    for insist in _ALL:
        insist(build, plan, joints, letters)
