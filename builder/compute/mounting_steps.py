"""Steps of mounting, trimming, plugging and covering, with what is looked at and measured on the way."""

from collections.abc import Iterator

from builder.compute.bench_pieces import CENTRES, cuts, frame_of, is_centre, loads, mm, pieces, plug_name
from builder.compute.joint_steps import cut_step, phase_of
from builder.compute.joints import Joint
from builder.compute.steps import Measure, Phase, WorkStep
from builder.model.build import Build
from builder.model.kinds import Antenna, FlightController, Motor, Receiver, SpeedController, VideoTransmitter


def motor_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """Motors and the board that drives them."""
    frame = frame_of(build)
    for esc in build.of_kind(SpeedController):
        if any(build.pad(j.contact).role == "phase" for j in joints if j.contact.part == esc.key) or build.of_kind(
            Motor
        ):
            text = f"Measure each phase contact of {esc.key} to battery minus."
            reading = (Measure("each to minus", "alike, no ring", "Ω"),)
            yield WorkStep(f"phases {esc.key}", "check", text, Phase.MOTORS, esc.key, measures=reading)
    reading = (Measure("screw to phase", "open", "Ω"),)
    for f in build.of_kind(Motor):
        for board in pieces(f):
            lock = " with thread lock" if any(s.screw.lock and s.screw.into == f.key for s in build.screws) else ""
            text = f"Mount {board}{lock}. Measure screw to phase, and see that it spins free."
            yield WorkStep(f"mount {board}", "mount", text, Phase.MOTORS, frame, measures=reading)
    for esc in build.of_kind(SpeedController):
        text = f"Push the soft mounts in and set {esc.part.name} into the frame, its arrow as planned."
        yield WorkStep(f"mount {esc.key}", "mount", text, Phase.MOTORS, frame)
    for f in build.of_kind(Motor):
        for board in pieces(f):
            runs = [r for r in build.wires if board in (r.start.board, r.end.board)]
            if runs:
                to = runs[0].wire.trim_to
                words = f" (about {mm(to.value)})" if to is not None else ""
                text = f"Route the leads of {board} where they will lie and cut them with 5 to 10 mm to spare{words}."
                yield WorkStep(f"trim {board}", "fit", text, Phase.MOTORS, frame)
    for esc in build.of_kind(SpeedController):
        if any(build.pad(j.contact).role == "phase" for j in joints if j.contact.part == esc.key):
            text = f"Look over the joints of {esc.key} under a lens and ring neighbouring channels against each other."
            reading = (Measure("between channels", "no ring"),)
            yield WorkStep(f"inspect {esc.key}", "check", text, Phase.MOTORS, esc.key, measures=reading)


def plug_steps(build: Build) -> Iterator[WorkStep]:
    """Cables, rung through before they are plugged."""
    for plug in build.plugs:
        ends = [f"{e[0]}.{e[1]} {e[2]}" if e[1] else f"{e[0]} {e[2]}" for e in (plug.start, plug.end)]
        between = all(is_centre(build, e[0]) for e in (plug.start, plug.end))
        motor = any(isinstance(build.parts[e[0]].part, Motor) for e in (plug.start, plug.end))
        phase = Phase.CONTROL if between else Phase.MOTORS if motor else Phase.LOADS
        name = plug_name(plug)
        if plug.plug.use is not None:
            text = f"Ring {name} through, contact by contact, against the pinout."
            reading = (Measure("contacts", "each rings to its own, to no other"),)
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
        text = f"Set {f.part.name} on, its arrow as planned."
        yield WorkStep(f"mount {f.key}", "mount", text, Phase.CONTROL, frame_of(build))


def load_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """What hangs on the boards."""
    groups, frame = cuts(build), frame_of(build)
    for f in loads(build):
        for board in pieces(f):
            if board in groups:
                yield cut_step(build, board, groups[board], joints)
    for f in build.of_kind(Antenna):
        yield WorkStep(f"antenna {f.key}", "fit", f"Fit {f.part.name}.", Phase.LEADS, part=f.key)
    for f in loads(build):
        if isinstance(f.part, Receiver):
            text = f"Lay {f.part.name} in its place and trim its leads there."
            yield WorkStep(f"lay {f.key}", "fit", text, Phase.LOADS, frame)
            text = f"Shrink the sleeve over {f.part.name}; leave the antenna and the button free."
            yield WorkStep(f"cover {f.key}", "cover", text, Phase.COVER, f.key)
            yield WorkStep(f"mount {f.key}", "mount", f"Tie {f.part.name} down in its place.", Phase.COVER, frame)
        elif isinstance(f.part, VideoTransmitter):
            text = f"Cover {f.part.name} with its sleeve; leave the antenna lead, the button and its cooling face free."
            yield WorkStep(f"cover {f.key}", "cover", text, Phase.LEADS, f.key)
            yield WorkStep(
                f"mount {f.key}",
                "mount",
                f"Fit {f.part.name} in its place and trim its leads there.",
                Phase.LOADS,
                frame,
            )
        else:
            yield WorkStep(
                f"mount {f.key}",
                "mount",
                f"Fit {f.part.name} in its place and trim its leads there.",
                Phase.LOADS,
                frame,
            )
    for f in build.of_kind(*CENTRES):
        if any(j.contact.part == f.key and phase_of(build, j) == Phase.LOADS for j in joints):
            text = f"Look for bridges on {f.key} under a lens, pull at each wire, ring each contact to its neighbours."
            reading = (Measure("neighbours", "no ring"),)
            yield WorkStep(f"look over {f.key}", "check", text, Phase.LOADS, f.key, measures=reading)
