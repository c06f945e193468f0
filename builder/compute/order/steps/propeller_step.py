"""The step that fits propellers: which way round on which motor, and how they are fastened."""

from collections.abc import Iterator, Sequence

from builder.compute.joints.bench_pieces import frame_of
from builder.compute.order.steps.work_step import Measure, Phase, WorkStep
from builder.load.assumed import assumed
from builder.model.build import Build, FittedAs
from builder.model.kinds import Frame, Motor, Propeller

_HANDS = ("clockwise", "counter-clockwise")
_STYLES = ("two-screw", "three-screw", "shaft nut", "press")
NOT_KNOWN = "not known"
_MIDDLE = assumed("setup/middle-line")


def motor_numbers(build: Build) -> tuple[str, ...]:
    """The numbers of all motors as the setup counts them, in order.

    They are the builder's own where the setup names as many motors as there are; else pieces are
    counted.
    """
    count = sum(len(f.pieces) for f in build.of_kind(Motor))
    plan = build.source.setup.rotation
    named = tuple(dict.fromkeys((*plan.corners, *plan.turns))) if plan is not None else ()
    return named if len(named) == count else tuple(str(n) for n in range(1, count + 1))


def turns_of(build: Build) -> dict[str, str]:
    """The way that each motor turns, seen from above; motors of which nobody says it are left out."""
    plan = build.source.setup.rotation
    return (
        {n: plan.turns[n] for n in motor_numbers(build) if n in plan.turns}
        if plan is not None
        else {}
    )


def _corner(build: Build, number: str) -> str:
    """The corner of a motor: as the setup names it, else by its seat on the frame; '' where neither
    says it.
    """
    plan = build.source.setup.rotation
    if plan is not None and number in plan.corners:
        return plan.corners[number]
    seats = (f.part.motors or {} for f in build.of_kind(Frame) if f.part.motors_per_arm == 1)
    seat = next((s[number] for s in seats if number in s), None)
    if seat is None or abs(seat.x) < _MIDDLE or abs(seat.y) < _MIDDLE:
        return ""
    end = "front" if seat.x > 0 else "rear"
    side = "left" if seat.y > 0 else "right"
    return f"{end} {side}"


def motor_place(build: Build, motor: FittedAs[Motor], board: str) -> str:
    """Where a motor goes and which way it turns, as the end of 'motor 1'. Motors of several parts
    are not told apart by their numbers.
    """
    number = board.partition(".")[2] or "1"
    one_part = len(build.of_kind(Motor)) == 1
    corner = _corner(build, number) if one_part else ""
    where = f" at the {corner}" if corner else f" (its corner: {NOT_KNOWN})"
    turns = turns_of(build).get(number, "") if one_part else ""
    return f"{where}, {f'{turns} from above' if turns else f'its turn: {NOT_KNOWN}'}"


def listed_motors(names: Sequence[str]) -> str:
    """`1, 2 and 3`."""
    return " and ".join(w for w in (", ".join(names[:-1]), *names[-1:]) if w)


def _motors(build: Build, numbers: list[str]) -> str:
    """`motors 1 (front left) and 3 (rear right)`."""
    plan = build.source.setup.rotation
    corners = plan.corners if plan is not None else {}
    told = [f"{n} ({corners[n]})" if n in corners else n for n in numbers]
    return f"motor{'s' if len(told) > 1 else ''} {listed_motors(told)}"


def _hands(build: Build) -> Iterator[str]:
    turns = turns_of(build)
    for hand in _HANDS:
        mine = [n for n, way in turns.items() if way == hand]
        if mine:
            yield f"Fit {hand} propellers on {_motors(build, mine)}, as seen from above."
    unsaid = [n for n in motor_numbers(build) if n not in turns]
    if unsaid:
        yield (
            f"Which way {_motors(build, unsaid)} must turn is {NOT_KNOWN}: this sheet does not say."
            " Take the direction that you measured and wrote down when you checked the motors."
            " Without it fit no propeller there."
        )


def _lettering(build: Build) -> Iterator[str]:
    """Which face looks up: the same for motors above and below their arm, since both push the air
    down.
    """
    plan = build.source.setup.rotation
    below = (
        [n for n, corner in plan.corners.items() if corner.endswith(" lower")]
        if plan is not None
        else []
    )
    yield "Lettering up, and on each blade the higher edge moves first."
    if below or any(f.use.face == "down" for f in build.of_kind(Motor)):
        where = f" on {_motors(build, below)}" if below else ""
        yield f"Below an arm too{where} the lettering looks up, towards the motor."


def _style(build: Build, propeller: Propeller) -> str:
    """How it is held: as its own entry says, else as the motor's does; '' where neither does."""
    if propeller.mount is not None:
        return propeller.mount.style
    said = [(f.part.mount or "").strip().casefold() for f in build.of_kind(Motor)]
    return next((style for style in _STYLES for words in said if words.startswith(style)), "")


def propeller_styles(build: Build) -> tuple[str, ...]:
    """How the propellers of a build are held, each way once; '' where nobody says."""
    return tuple(dict.fromkeys(_style(build, f.part) for f in build.of_kind(Propeller)))


def _fastened(style: str) -> Iterator[str]:
    if style == "press":
        yield "Press each straight onto its shaft until it is fully on."
        yield "Pull at each by hand: it must not move. Use no glue and no thread lock."
    elif style in ("two-screw", "three-screw"):
        count = "both" if style == "two-screw" else "all three"
        yield (
            f"Turn {count} screws of each in by turns with a hand driver until the hub does not"
            " move."
        )
        yield (
            "Use no thread lock: what the hub is made of is not known, and thread lock cracks many"
            " plastics."
        )
        yield "Turn each motor by hand: no screw end may touch its winding."
    elif style == "shaft nut":
        yield (
            "Hold the motor and tighten the nut with a hand tool until the propeller does not slip."
        )
        yield "Use no power tool. If a locking nut turns on by fingers alone, take a new one."
    else:
        yield f"How they are fastened is {NOT_KNOWN}: read their maker's instructions."


def propeller_steps(build: Build) -> Iterator[WorkStep]:
    """The propellers of a build, in one step; no step without a propeller."""
    found = build.of_kind(Propeller)
    if not found:
        return
    styles = propeller_styles(build)
    words = [*_hands(build), *_lettering(build)]
    for style in styles:
        words += _fastened(style)
    yield WorkStep("propellers", "mount", " ".join(words), Phase.LAST, frame_of(build))


def direction_readings(build: Build) -> tuple[Measure, ...]:
    """A reading for each motor of which nobody says which way it turns."""
    turns = turns_of(build)
    way = "clockwise or counter-clockwise, seen from above: write it down"
    return tuple(Measure(f"motor {n} turns", way) for n in motor_numbers(build) if n not in turns)


__all__ = [
    "NOT_KNOWN",
    "direction_readings",
    "listed_motors",
    "motor_numbers",
    "motor_place",
    "propeller_steps",
    "turns_of",
]
