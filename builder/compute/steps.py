"""The steps of a build and what must come before what, each with its reason. Derived; the builder's own steps join in."""

from dataclasses import dataclass, field

from builder.compute.joints import Joint
from builder.model.build import Build
from builder.model.kinds import (
    Antenna,
    Camera,
    CombinedBoard,
    FlightController,
    Motor,
    Propeller,
    Receiver,
    SpeedController,
    VideoTransmitter,
)


@dataclass(frozen=True, eq=False)
class WorkStep:
    """One line of the order of work. `phase` is the usual place of its kind; tip, board and side are what changes cost."""

    id: str
    do: str
    text: str
    phase: int
    board: str = ""
    side: str = "top"
    tip: str = ""
    joint: Joint | None = None
    gate: str = ""
    measure: tuple[str, str, str] | None = None
    own: int | None = None
    part: str = ""


@dataclass(frozen=True, slots=True)
class Constraint:
    """`before` comes before `after`, and why."""

    before: str
    after: str
    reason: str


@dataclass
class Gathered:
    """Steps and constraints while they are gathered. Local to a call."""

    steps: dict[str, WorkStep] = field(default_factory=dict)
    constraints: list[Constraint] = field(default_factory=list)

    def add(self, step: WorkStep) -> None:
        """Keeps a step under its name."""
        self.steps[step.id] = step

    def need(self, before: str, after: str, reason: str) -> None:
        """One step before another, where both exist."""
        if before in self.steps and after in self.steps and before != after:
            self.constraints.append(Constraint(before, after, reason))


# Phases in the usual order of a bench (common practice, no source).
ACCEPT, DRY, CUT, TIN, SOLDER, GATE_A, MOTORS, CONTROL, GATE_B, LOADS, GATE_C, COVER, SET, CLOSE, LAST = range(15)


def _accept(build: Build, plan: Gathered) -> None:
    plan.add(WorkStep("weigh", "check", "Weigh and photograph every part before anything is soldered.", ACCEPT))
    for f in build.of_kind(FlightController, CombinedBoard):
        plan.add(
            WorkStep(
                f"usb {f.key}", "check", f"Connect {f.part.name} by USB alone and see that it answers.", ACCEPT, f.key
            )
        )
    for f in build.of_kind(Motor):
        for piece in f.pieces:
            board = f"{f.key}.{piece}" if piece else f.key
            plan.add(
                WorkStep(
                    f"spin {board}",
                    "check",
                    f"Spin {board} by hand, measure its phases: alike with each other, open to the base.",
                    ACCEPT,
                    board,
                    measure=("ohms", "alike, and open to the base", "Ω"),
                )
            )
    plan.add(
        WorkStep(
            "dry fit",
            "fit",
            "Put everything together without solder. Mark the arrow, the upper side, and where the battery leads leave.",
            DRY,
        )
    )
    if build.screws:
        plan.add(WorkStep("screws", "fit", "Choose the screws of each place and write their lengths on the bag.", DRY))


def _mounts(build: Build, plan: Gathered) -> None:
    for f in build.of_kind(Motor):
        for piece in f.pieces:
            board = f"{f.key}.{piece}" if piece else f.key
            plan.add(
                WorkStep(
                    f"mount {board}",
                    "mount",
                    f"Mount {board} with thread lock on its screws; measure screw to phase: open; it spins free.",
                    MOTORS,
                    board,
                    measure=("screw to phase", "open", "Ω"),
                )
            )
            plan.add(
                WorkStep(
                    f"trim {board}",
                    "fit",
                    f"Route the leads of {board} and cut them with 5 to 10 mm to spare.",
                    MOTORS,
                    board,
                )
            )
    for f in build.of_kind(SpeedController):
        plan.add(
            WorkStep(
                f"mount {f.key}",
                "mount",
                f"Push the soft mounts in and set {f.part.name} into the frame.",
                MOTORS,
                f.key,
            )
        )
    for f in build.of_kind(FlightController):
        plan.add(
            WorkStep(
                f"mount {f.key}",
                "mount",
                f"Ring the harness through, plug it, and set {f.part.name} on with its arrow as planned.",
                CONTROL,
                f.key,
            )
        )
    for f in build.of_kind(Camera, VideoTransmitter, Receiver):
        plan.add(
            WorkStep(
                f"mount {f.key}", "mount", f"Fit {f.part.name} in its place and trim its leads there.", LOADS, f.key
            )
        )
    for f in build.of_kind(Antenna):
        plan.add(WorkStep(f"antenna {f.key}", "fit", f"Fit {f.part.name}.", LOADS, f.key, part=f.key))
    for f in build.of_kind(Receiver, VideoTransmitter):
        plan.add(
            WorkStep(
                f"cover {f.key}",
                "cover",
                f"Cover {f.part.name} with its shrink sleeve, antenna lead and button left free.",
                COVER,
                f.key,
            )
        )


def _joint_text(joint: Joint) -> str:
    others = [f"{j.b if j.a == joint.contact else j.a}" for j in joint.wires]
    colours = [j.wire.colour for j in joint.wires if j.wire is not None and j.wire.colour]
    words = " and ".join(others)
    return f"Solder {words} to {joint.contact}" + (f" ({', '.join(dict.fromkeys(colours))})" if colours else "") + "."


def _phase_of(build: Build, joint: Joint) -> int:
    part = build.parts[joint.contact.part].part
    if joint.cup:
        return CUT
    if isinstance(part, SpeedController) and not isinstance(part, CombinedBoard):
        return MOTORS if build.pad(joint.contact).role == "phase" else SOLDER
    if isinstance(part, CombinedBoard) and build.pad(joint.contact).battery:
        return SOLDER
    if isinstance(part, CombinedBoard) and build.pad(joint.contact).role == "phase":
        return MOTORS
    return LOADS


def _joints(build: Build, joints: tuple[Joint, ...], plan: Gathered) -> None:
    boards = dict.fromkeys((j.board, j.tip) for j in joints if not j.cup)
    for board, tip in boards:
        phases = [_phase_of(build, j) for j in joints if j.board == board and j.tip == tip]
        plan.add(
            WorkStep(
                f"tin {board} {tip}",
                "tin",
                f"Tin the pads of {board} that take the {tip} tip.",
                TIN if min(phases) == SOLDER else min(phases),
                board,
                tip=tip,
            )
        )
    for joint in joints:
        plan.add(
            WorkStep(
                joint.key,
                "solder",
                _joint_text(joint),
                _phase_of(build, joint),
                joint.board,
                joint.side,
                joint.tip,
                joint,
            )
        )


def _gates(build: Build, letters: tuple[str, ...], plan: Gathered) -> None:
    for letter, phase in zip(letters, (GATE_A, GATE_B, GATE_C), strict=False):
        plan.add(WorkStep(f"gate {letter}", "check", f"Gate {letter} of the first power-up.", phase, gate=letter))


def _ends(build: Build, plan: Gathered) -> None:
    if build.of_kind(SpeedController):
        plan.add(
            WorkStep(
                "coat",
                "cover",
                "Coat the boards where it is wanted; mask contacts, buttons, sockets and sensors that must stay bare.",
                COVER,
            )
        )
    plan.add(WorkStep("setup", "check", "Do the set-up below: ports, orientation, rotation, fail-safe.", SET))
    if build.of_kind(Motor):
        plan.add(
            WorkStep("rotation", "check", "Check each motor's direction with a strip of paper, propellers off.", SET)
        )
    plan.add(
        WorkStep(
            "close",
            "mount",
            "Close the frame, strap and weigh it, find its balance.",
            CLOSE,
            measure=("weight", "see the weight table", "g"),
        )
    )
    plan.add(WorkStep("unplug", "check", "Unplug the pack.", LAST))
    if build.of_kind(Propeller):
        plan.add(
            WorkStep("propellers", "mount", "Fit the propellers, each hand on its corner, and tighten them.", LAST)
        )


def _alias(plan: Gathered, name: str) -> list[str]:
    """Steps that a builder's word means: a step's own name, or all whose name begins with it."""
    if name in plan.steps:
        return [name]
    doing, _, part = name.partition(" ")
    if doing == "solder" and part:
        found = [s.id for s in plan.steps.values() if s.joint is not None and part in _touched(s.joint)]
    else:
        found = [s for s in plan.steps if s.startswith((f"{name}.", f"{name} "))]
    return found or ([part] if part in plan.steps else [])


def _touched(joint: Joint) -> set[str]:
    """Parts and pieces that a joint's wires lead to."""
    contacts = [c for wire in joint.wires for c in (wire.a, wire.b)]
    return {c.part for c in contacts} | {c.board for c in contacts}


def _own(build: Build, plan: Gathered) -> tuple[str, ...]:
    """The builder's own steps; gives the names that no step answers to."""
    unknown = []
    for i, own in enumerate(build.source.steps):
        phase = {
            "fit": DRY,
            "tin": TIN,
            "solder": SOLDER,
            "cover": COVER,
            "mount": LOADS,
            "plug": CONTROL,
            "check": SET,
        }[own.do]
        measure = ("reading", own.expect, "") if own.expect else None
        plan.add(
            WorkStep(
                own.id,
                own.do,
                own.text,
                phase,
                board=own.part or "",
                side=own.side or "top",
                own=i,
                measure=measure,
                part=own.part or "",
            )
        )
    for own in build.source.steps:
        why = own.reason or "the builder says so"
        for name in own.before:
            found = _alias(plan, name)
            unknown += [] if found else [name]
            for other in found:
                plan.need(own.id, other, why)
        for name in own.after:
            found = _alias(plan, name)
            unknown += [] if found else [name]
            for other in found:
                plan.need(other, own.id, why)
    return tuple(dict.fromkeys(unknown))


def gather(build: Build, joints: tuple[Joint, ...], letters: tuple[str, ...]) -> tuple[Gathered, tuple[str, ...]]:
    """All steps of a build without the constraints that `order_rules` adds; and names in before/after that mean nothing."""
    plan = Gathered()
    _accept(build, plan)
    _mounts(build, plan)
    _joints(build, joints, plan)
    _gates(build, letters, plan)
    _ends(build, plan)
    return plan, _own(build, plan)
