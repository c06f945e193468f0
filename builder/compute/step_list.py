"""The steps of a build, derived from what it holds. The builder's own steps are in own_steps.py."""

from collections.abc import Iterator

from builder.compute.bench_pieces import CENTRES, coating_steps, frame_of, gate_letters, pieces
from builder.compute.joint_steps import battery_steps, joint_steps
from builder.compute.joints import Joint
from builder.compute.load_steps import load_steps
from builder.compute.mounting_steps import control_steps, motor_steps, plug_steps
from builder.compute.power_gates import Gate
from builder.compute.steps import Gathered, Measure, Phase, WorkStep
from builder.model.build import Build
from builder.model.kinds import CombinedBoard, FlightController, Motor, Payload, Propeller


def _accept(build: Build) -> Iterator[WorkStep]:
    at = Phase.ACCEPT
    yield WorkStep("weigh", "check", "Weigh and photograph every part as it came.", at)
    for f in build.of_kind(FlightController, CombinedBoard):
        yield WorkStep(
            f"usb {f.key}", "check", f"Connect {f.part.name} by USB alone and see that it answers.", at, f.key
        )
    readings = (Measure("three pairs of phases", "alike", "Ω"), Measure("phase to base", "open", "Ω"))
    for f in build.of_kind(Motor):
        for board in pieces(f):
            yield WorkStep(
                f"spin {board}", "check", f"Spin {board} by hand and measure its phases.", at, board, measures=readings
            )
    text = "Put everything together without solder. Mark the arrow, the upper side and where the battery leads leave."
    yield WorkStep("dry fit", "fit", text, Phase.DRY, frame_of(build))
    if build.screws:
        text = "Choose the screws of each place and write place and length on their bag."
        yield WorkStep("screws", "fit", text, Phase.DRY, frame_of(build))


def _gates(build: Build, gates: tuple[Gate, ...]) -> Iterator[WorkStep]:
    feed, rails, load = gate_letters(build, gates)
    for letter, phase in ((feed, Phase.GATE_FEED), (rails, Phase.GATE_RAILS), (load, Phase.GATE_LOADS)):
        if letter and not (letter == rails == feed and phase == Phase.GATE_RAILS):
            yield WorkStep(f"gate {letter}", "check", f"Gate {letter} of the first power-up.", phase, gate=letter)


def _powered(build: Build, gates: tuple[Gate, ...]) -> Iterator[WorkStep]:
    """Set-up, the first pack, and what turns: all that wants power, done before anything wet goes on."""
    text = "Do the set-up, over USB or the bench supply with its limit: ports, orientation, fail-safe."
    yield WorkStep("setup", "check", text, Phase.SET)
    motors = build.of_kind(Motor)
    if gates or motors:
        small = min(build.packs, key=lambda k: _charge(build, k), default="")
        which = f"the first pack{f' ({small})' if len(build.packs) > 1 else ''}"
        text = (
            f"Plug in {which} through a series limiter: red to plus, black to minus. Nothing else in reach of the motors. "
            "Unplug it at once if the limiter trips, something warms or smells."
        )
        yield WorkStep("first pack", "plug", text, Phase.SET)
    if motors:
        text = (
            "Check each motor's direction with a strip of paper, then all else under 'To try before the first flight'; "
            "propellers off."
        )
        yield WorkStep("rotation", "check", text, Phase.SET)
    if gates or motors:
        yield WorkStep(
            "unplug", "plug", "Unplug the pack. It is not plugged in again before the first flight.", Phase.SET
        )


def _charge(build: Build, pack: str) -> float:
    capacity = getattr(build.packs[pack].part, "capacity", None)
    return capacity.value if capacity is not None else 0.0


def _ends(build: Build) -> Iterator[WorkStep]:
    if build.wires:
        text = "Tie down what may swing: wires clear of propellers and edges, the capacitor, antenna leads."
        yield WorkStep("tie", "fit", text, Phase.COVER)
    coats = bool(build.of_kind(*CENTRES))
    if coats:
        text = (
            "Coat the boards where it is wanted, and glue what a tie does not hold. Mask contacts, sockets, buttons and "
            "sensors: they stay bare."
        )
        yield WorkStep("coat", "cover", text, Phase.COAT)
    if coats or coating_steps(build):
        text = "Let coating and glue dry as long as their labels say, overnight where they say nothing. No power until then."
        yield WorkStep("dry", "check", text, Phase.COAT)
    yield WorkStep("close", "mount", "Close the frame.", Phase.CLOSE, frame_of(build))
    if build.of_kind(Propeller):
        text = "Fit the propellers, each hand on its corner, and tighten them."
        yield WorkStep("propellers", "mount", text, Phase.LAST, frame_of(build))
    reading = (Measure("weight", "see the weight table", "g"),)
    carried, then = (" and payload", ", put the payload on") if build.of_kind(Payload) else ("", "")
    text = (
        f"Weigh the finished aircraft with propellers, without battery{carried}. Strap each battery on without plugging it "
        f"in{then}, weigh, find the balance."
    )
    yield WorkStep("balance", "check", text, Phase.LAST, frame_of(build), measures=reading)


def step_list(build: Build, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> Gathered:
    """All derived steps in the usual order; ties between orders are broken by it."""
    found = [
        *_accept(build),
        *battery_steps(build, joints),
        *motor_steps(build, joints),
        *load_steps(build, joints),
        *joint_steps(build, joints),
        *plug_steps(build),
        *control_steps(build),
        *_gates(build, gates),
        *_powered(build, gates),
        *_ends(build),
    ]
    plan = Gathered()
    for step in sorted(found, key=lambda s: s.phase):
        plan.add(step)
    return plan
