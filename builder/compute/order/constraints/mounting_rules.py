"""What the order of work insists on for the frame, motors and plugs (common practice, no source)."""

from builder.compute.joints.bench_pieces import is_centre, plug_name
from builder.compute.joints.joints import Joint, touches
from builder.compute.joints.strips import under
from builder.compute.order.steps.mounting_steps import leads_id
from builder.compute.order.steps.work_step import Gathered, Why
from builder.model.build import Build, piece_names
from builder.model.kinds import FlightController, Motor, SpeedController


def frame_first(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """The frame after all was tried in its place, and before what it carries."""
    for frame in plan.named("assemble "):
        for before in ("dry fit", "screws"):
            plan.need(before, frame, "all is tried in its place before a screw is driven", Why.EASE)
        for step in plan.named("mount ", "lay ", "trim ", "fit "):
            plan.need(frame, step, "the frame carries it")


def motors_after_gates(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """Motors after the board that drives them was measured; their leads where they lie."""
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
                        "a bridge has to be found before power goes on",
                        Why.SAFETY,
                    )


def plugs_after_gates(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """Each harness after its beep test, and after the gate of what it joins."""
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
                        "the harness needs the lower board in its place",
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
