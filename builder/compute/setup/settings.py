"""Settings that follow from the wiring: what each serial port serves, how the board sits, which way
motors turn.
"""

from dataclasses import dataclass
from math import degrees

from builder.compute.circuit.pinout import Pinout
from builder.compute.radio.links import RadioLinks, radio
from builder.model.build import Build
from builder.model.kinds import CombinedBoard, FlightController

# Neighbours round a four-rotor frame, seen from above.
RING = ("front left", "front right", "rear right", "rear left")


@dataclass(frozen=True)
class Port:
    """A serial port: what the wiring joins to it, and what the setup says that it serves."""

    board: str
    port: int
    wired: tuple[str, ...]
    stated: str
    speaks: str
    stated_at: int


@dataclass(frozen=True)
class MotorPlace:
    """A motor by number: its corner, and which way it turns seen from above ('' where unsaid)."""

    number: str
    corner: str
    turns: str


@dataclass(frozen=True, eq=False)
class Settings:
    """What is set in software, as far as it follows from the build. Yaw in degrees, seen from
    above, 0 to 360.
    """

    ports: tuple[Port, ...]
    motors: tuple[MotorPlace, ...]
    props: str
    board_yaw: float | None
    board_face: str
    radio: RadioLinks


def _ports(build: Build, pins: Pinout, board: str) -> tuple[Port, ...]:
    stated = build.source.setup.serial
    by_port = {s.port: i for i, s in enumerate(stated)}
    out: list[Port] = []
    for line in pins.serial:
        if line.board != board:
            continue
        at = by_port.get(line.port, -1)
        use = stated[at] if at >= 0 else None
        speaks = (use.speaks if use is not None else None) or line.speaks
        out.append(
            Port(
                line.board,
                line.port,
                line.serves,
                use.serves if use is not None else "",
                speaks,
                at,
            )
        )
    return tuple(out)


def _motors(build: Build) -> tuple[MotorPlace, ...]:
    plan = build.source.setup.rotation
    if plan is None:
        return ()
    return tuple(MotorPlace(n, corner, plan.turns.get(n, "")) for n, corner in plan.corners.items())


def props_of(motors: tuple[MotorPlace, ...]) -> str:
    """`in` where the front propellers' leading blades move inward at the nose, `out`, or '' where
    that is unsaid.

    Seen from above with the nose up, a clockwise rotor at the front left moves its foremost blade
    to the right: inward.
    """
    for m in motors:
        if m.corner == "front left" and m.turns:
            return "in" if m.turns == "clockwise" else "out"
    return ""


def settings(build: Build, pins: Pinout) -> Settings:
    """The settings page's facts."""
    board = next(iter(build.of_kind(FlightController, CombinedBoard)), None)
    yaw = (
        degrees(board.use.yaw.value) % 360
        if board is not None and board.use.yaw is not None
        else None
    )
    motors = _motors(build)
    face = board.use.face if board is not None else "up"
    return Settings(
        _ports(build, pins, board.key if board is not None else ""),
        motors,
        props_of(motors),
        yaw,
        face,
        radio(build),
    )
