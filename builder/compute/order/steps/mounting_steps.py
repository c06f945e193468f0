"""Steps of mounting, trimming, plugging and looking over, with what is measured on the way. Loads
are in load_steps.py.
"""

from collections.abc import Iterator

from builder.compute.figures.told import told
from builder.compute.geometry.orientation import mounting_words
from builder.compute.geometry.plastics import is_plastic
from builder.compute.joints.bench_pieces import frame_of, is_centre, mm, plug_name
from builder.compute.joints.joints import Joint
from builder.compute.joints.strips import strip_words, under
from builder.compute.order.steps.propeller_step import motor_place
from builder.compute.order.steps.winding_readings import common_winding
from builder.compute.order.steps.work_step import Measure, Phase, WorkStep
from builder.model.build import Build, FittedAs, piece_name, piece_names
from builder.model.kinds import FlightController, Frame, Motor, SpeedController


def _drives(build: Build, joints: tuple[Joint, ...], esc: str) -> bool:
    """Whether motors are soldered to a speed controller."""
    return any(build.pad(j.contact).role == "phase" for j in joints if j.contact.part == esc)


def _lock_words(build: Build, motor: str) -> str:
    """The end of the sentence that mounts a motor: with thread lock or without, and never on
    plastic.
    """
    locked = [s.screw.lock for s in build.screws if s.screw.into == motor]
    if not any(locked):
        return ". Use no thread lock." if False in locked else "."
    materials = [f.part.material or "" for f in build.of_kind(Frame)]
    plastic = next((m for m in materials if is_plastic(m)), "")
    if plastic:
        return (
            f". Use no thread lock: the frame is {plastic}, and thread lock cracks many plastics."
        )
    return " with thread lock on the threads only: keep it off plastic."


def _set(board: FittedAs[SpeedController] | FittedAs[FlightController]) -> str:
    """The beginning of the sentence that sets a board in: its soft mounts are in it before."""
    soft = "Push its soft mounts in. " if board.part.soft_mount is not None else ""
    return f"{soft}Set {board.part.name}"


def motor_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """Motors and the board that drives them."""
    frame = frame_of(build)
    for esc in build.of_kind(SpeedController):
        if _drives(build, joints, esc.key) or build.of_kind(Motor):
            text = f"Measure each phase contact of {esc.key} to battery minus."
            reading = (Measure("each to minus, least and most", "about equal, no beep", "Ω", 2),)
            yield WorkStep(
                f"phases {esc.key}", "check", text, Phase.BATTERY, esc.key, measures=reading
            )
    reading = (Measure("screw to phase", "open", "Ω"),)
    for f in build.of_kind(Motor):
        for board in piece_names(f):
            place = motor_place(build, f, board)
            text = (
                f"Mount {board}{place}{_lock_words(build, f.key)} Measure screw to phase, and see"
                " that it spins free."
            )
            yield WorkStep(
                f"mount {board}",
                "mount",
                text,
                Phase.MOTORS,
                frame,
                measures=reading,
                place=place,
            )
    for esc in build.of_kind(SpeedController):
        told_text = told(f"{_set(esc)} into the frame", mounting_words(esc))
        yield WorkStep(f"mount {esc.key}", "mount", told_text, Phase.MOTORS, frame)
    for f in build.of_kind(Motor):
        yield from _leads(build, joints, f)
    for esc in build.of_kind(SpeedController):
        if _drives(build, joints, esc.key):
            text = (
                f"Clean the flux off {esc.key}, look over its joints under a lens and beep-test"
                " neighbouring channels."
            )
            channels = (
                Measure("between channels", "no beep"),
                Measure(
                    "three contacts of each channel",
                    "each pair beeps, all pairs alike",
                    "Ω",
                    3,
                    common_winding(build),
                ),
            )
            yield WorkStep(
                f"inspect {esc.key}", "check", text, Phase.MOTORS, esc.key, measures=channels
            )


def _leads(build: Build, joints: tuple[Joint, ...], motor: FittedAs[Motor]) -> Iterator[WorkStep]:
    """A motor's leads: cut where they lie, one step each; then stripped and tinned, all motors in
    one step.
    """
    for board in piece_names(motor):
        runs = [r for r in build.wires if board in (r.start.board, r.end.board)]
        if runs:
            to = runs[0].wire.trim_to
            words = f" (about {mm(to.value)})" if to is not None else ""
            spare = "5 to 10 mm to spare"
            if under(build, joints, board):
                spare = (
                    "15 to 20 mm to spare, so that the board can lie upside down beside its place"
                    " while they are soldered"
                )
            text = f"Route the leads of {board} as they will stay. Cut them with {spare}{words}."
            yield WorkStep(f"trim {board}", "fit", text, Phase.MOTORS, frame_of(build))
    mine = [j for j in joints if any(c.part == motor.key for c in j.others)]
    if mine:
        text = (
            f"Strip {strip_words(mine, pads=False)} of each lead of {motor.key}, twist and tin it."
            " Where the winding's own wire comes out, scrape its enamel off until solder takes all"
            " round."
        )
        iron = min(j.heat.setting for j in mine)
        yield WorkStep(
            leads_id(motor.key), "tin", text, Phase.MOTORS, tip=mine[0].heat.tip, iron=iron
        )


def leads_id(motor: str) -> str:
    """The name of the step that strips and tins a motor's leads."""
    return f"tin {motor} leads"


def plug_end(key: str, piece: int, socket: str) -> str:
    """An end of a plugged joint: `esc J1`."""
    return f"{piece_name(key, piece)} {socket}"


def plug_steps(build: Build) -> Iterator[WorkStep]:
    """Cables, beep-tested before they are plugged."""
    for plug in build.plugs:
        ends = [plug_end(*end) for end in (plug.start, plug.end)]
        between = all(is_centre(build, e[0]) for e in (plug.start, plug.end))
        motor = any(isinstance(build.parts[e[0]].part, Motor) for e in (plug.start, plug.end))
        phase = Phase.MOTORS if motor else Phase.LOADS
        if between:
            phase = Phase.CONTROL
        name = plug_name(plug)
        if plug.plug.use is not None:
            text = f"Beep-test every wire of {name} against the pinout."
            reading = (Measure("contacts", "each beeps to its own; else only wires of one net do"),)
            yield WorkStep(f"ring {name}", "check", text, phase, measures=reading)
        yield WorkStep(
            f"plug {name}",
            "plug",
            f"Plug {ends[0]} to {ends[1]}; look which way round it lies.",
            phase,
            frame_of(build),
        )


def control_steps(build: Build) -> Iterator[WorkStep]:
    """The control board."""
    for f in build.of_kind(FlightController):
        text = told(f"{_set(f)} on", mounting_words(f))
        yield WorkStep(f"mount {f.key}", "mount", text, Phase.CONTROL, frame_of(build))
