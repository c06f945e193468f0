"""The steps of a build, derived from what it holds. The builder's own steps are in builder_steps.py."""

from collections.abc import Iterator

from builder.compute.geometry.seat_words import seat_words
from builder.compute.joints.bench_pieces import CENTRES, coating_steps, frame_of
from builder.compute.joints.joints import Joint
from builder.compute.order.steps.cover_parts import carried_covers
from builder.compute.order.steps.hold_words import hold_words
from builder.compute.order.steps.joint_steps import battery_steps, joint_steps
from builder.compute.order.steps.load_steps import load_steps
from builder.compute.order.steps.mounting_steps import control_steps, motor_steps, plug_steps
from builder.compute.order.steps.part_steps import frame_steps, has_strap, loose_parts
from builder.compute.order.steps.power_steps import (
    charging_steps,
    gate_steps,
    powered_steps,
    usb_off,
)
from builder.compute.order.steps.propeller_step import propeller_steps
from builder.compute.order.steps.screw_steps import with_screws
from builder.compute.order.steps.winding_readings import winding_readings
from builder.compute.order.steps.work_step import Gathered, Measure, Phase, WorkStep
from builder.compute.power_up.gate import Gate
from builder.model.build import Build, Fitted, piece_names
from builder.model.kinds import Antenna, Capacitor, CombinedBoard, FlightController, Motor, Payload


def _accept(build: Build) -> Iterator[WorkStep]:
    at = Phase.ACCEPT
    yield WorkStep("weigh", "check", "Weigh and photograph every part as it came.", at)
    for f in build.of_kind(FlightController, CombinedBoard):
        yield WorkStep(
            f"usb {f.key}",
            "check",
            f"Connect {f.part.name} by USB alone: no battery, no supply. Check that the computer"
            f" finds it. Then {usb_off(f)}",
            at,
            f.key,
            power="usb",
        )
    for f in build.of_kind(Motor):
        for board in piece_names(f):
            text, readings = winding_readings(f, board)
            yield WorkStep(f"spin {board}", "check", text, at, board, measures=readings)
    text = (
        "Put everything together without solder, propellers or battery. Mark the arrow, the upper"
        " side and where the battery leads leave."
    )
    yield WorkStep("dry fit", "fit", text, Phase.DRY, frame_of(build))
    if build.screws:
        text = "Choose the screws of each place and write place and length on their bag."
        yield WorkStep("screws", "fit", text, Phase.DRY, frame_of(build))


def _antenna_places(build: Build) -> Iterator[str]:
    """Where each antenna stays, but for one that a step of the builder's own puts there."""
    own = {(s.part or "").split(".")[0] for s in build.source.steps}
    for f in build.of_kind(Antenna):
        where = seat_words(build, f)
        if where and f.key not in own:
            yield f" Fix {f.part.name}{where}."


def _ends(build: Build) -> Iterator[WorkStep]:
    if build.wires:
        capacitor = ", the capacitor" if build.of_kind(Capacitor) else ""
        antennas = ", antenna leads" if build.of_kind(Antenna) else ""
        text = f"Tie down what may swing: wires clear of propellers and edges{capacitor}{antennas}."
        text += "".join(_antenna_places(build))
        for cover in carried_covers(build):
            text = f"{text} Tape the {cover} aside until it is fitted: it must not reach a motor."
        yield WorkStep("tie", "fit", text, Phase.COVER)
    coats = bool(build.of_kind(*CENTRES))
    if coats:
        text = (
            "Optional: coat the boards. Glue what a tie does not hold. Mask contacts, sockets,"
            " buttons and sensors: they stay bare."
        )
        yield WorkStep("coat", "cover", text, Phase.COAT)
    if coats or coating_steps(build):
        text = (
            "Let coating and glue dry as long as their labels say, overnight where they say"
            " nothing. No power until then."
        )
        yield WorkStep("dry", "check", text, Phase.COAT)
    yield WorkStep(
        "close", "mount", "Close the frame. Pinch no wire.", Phase.CLOSE, frame_of(build)
    )
    yield from propeller_steps(build)
    reading = (Measure("weight", "see the weight table", "g"),)
    payloads = build.of_kind(Payload)
    carried = " and payload" if payloads else ""
    holds, clear = "Put each battery in its place", "Keep its leads clear of edges and propellers."
    if has_strap(build):
        holds = "Strap each battery on"
        clear = "Keep the strap off its leads and its balance lead."
    text = (
        f"Weigh the finished aircraft with propellers, without battery{carried}. {holds} without"
        f" plugging it in. {clear}{''.join(_payload(build, f) for f in payloads)} Weigh it again."
        " Lift it on two fingertips, left and right of the middle of its motors. If the nose drops, move"
        " the battery back; if the tail drops, forward."
    )
    yield WorkStep("balance", "check", text, Phase.LAST, frame_of(build), measures=reading)


def _payload(build: Build, payload: Fitted) -> str:
    """How a payload goes on for the scale."""
    where = f"Put {payload.part.name} in its place{seat_words(build, payload)}"
    return f" {where}. {hold_words(build, payload)}"


def step_list(build: Build, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> Gathered:
    """All derived steps in the usual order; ties between orders are broken by it."""
    made = (
        _accept(build),
        frame_steps(build),
        *(steps(build, joints) for steps in (battery_steps, motor_steps, load_steps, joint_steps)),
        plug_steps(build),
        control_steps(build),
        gate_steps(build, gates),
        powered_steps(build, gates),
        _ends(build),
        charging_steps(build),
    )
    found = with_screws(build, [step for steps in made for step in steps])
    found += loose_parts(build, found)
    plan = Gathered()
    for step in sorted(found, key=lambda s: s.phase):
        plan.add(step)
    return plan
