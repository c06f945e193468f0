"""What the order of work insists on for each joint (common practice, no source)."""

from builder.compute.joints.bench_pieces import cuts
from builder.compute.joints.joints import Joint, touches
from builder.compute.joints.strips import before_power, hidden, hidden_lines, on_battery
from builder.compute.order.steps.joint_steps import tin_id
from builder.compute.order.steps.load_steps import underside_id
from builder.compute.order.steps.work_step import Gathered, Why
from builder.model.build import Build
from builder.model.kinds import Capacitor, Connector, FlightController, SpeedController


def before_each_joint(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """What is cut, tinned and slid on before a joint is made."""
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


def heavy_first(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """The joints of the battery before fine ones, and measured while they are alone."""
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
                "polarity is checked before any other joint is made",
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


def hidden_first(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """What is out of reach or sight later comes before what hides it."""
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
