"""Distances between what is placed: antennas, compass, battery leads, arms and propeller discs. In
m.

Parts count as points where the build places them, leads as straight lines between the parts that
they join, arms as lines from the middle to the motors. So a figure here is the best that is known,
and the rules keep wide of it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations
from math import cos, dist, fsum, sin, tau

from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, Contact, Fitted, WireRun
from builder.model.kinds import (
    Antenna,
    Compass,
    Connector,
    Frame,
    Motor,
    Propeller,
    Receiver,
    SatelliteReceiver,
    VideoTransmitter,
)
from builder.model.values.lengths_text import Position

SpacePoint = tuple[float, float, float]

_ROOM = assumed("mounting/lead-room")
_ONE_AXIS = assumed("mounting/one-axis")


@dataclass(frozen=True)
class Between:
    """What is near what, how far in m, and where that is said."""

    first: str
    second: str
    distance: float
    where: Where


@dataclass(frozen=True)
class Disc:
    """A propeller's disc: the motor's number, its middle and its radius."""

    motor: str
    middle: SpacePoint
    radius: float


@dataclass(frozen=True)
class InReach:
    """A lead that can reach a disc: the run, the disc's motor, the lead's length and the shortest
    way by the disc.
    """

    run: WireRun
    motor: str
    length: float
    needed: float


def point(position: Position | None) -> SpacePoint | None:
    """A place as a point."""
    return (position.x, position.y, position.z) if position is not None else None


def to_line(p: SpacePoint, a: SpacePoint, b: SpacePoint) -> float:
    """Distance from a point to the straight piece between two others."""
    along = [y - x for x, y in zip(a, b, strict=True)]
    length = fsum(c * c for c in along)
    share = 0.0
    if length:
        onto = fsum(c * (q - x) for c, q, x in zip(along, p, a, strict=True)) / length
        share = max(0.0, min(1.0, onto))
    nearest = [x + share * c for x, c in zip(a, along, strict=True)]
    return dist(p, nearest)


def place_of(build: Build, contact: Contact) -> SpacePoint | None:
    """Where the part of a contact sits: its own place, that of its piece, or of the motor on the
    frame.
    """
    fitted = build.parts[contact.part]
    if fitted.use.each_at and contact.piece and contact.piece <= len(fitted.use.each_at):
        return point(fitted.use.each_at[contact.piece - 1])
    if isinstance(fitted.part, Motor):
        return motor_places(build).get(str(contact.piece or 1))
    return point(fitted.use.at)


def motor_places(build: Build) -> dict[str, SpacePoint]:
    """Middles of the motors by number, as the frame has them."""
    for frame in build.of_kind(Frame):
        if frame.part.motors:
            return {k: (p.x, p.y, p.z) for k, p in frame.part.motors.items()}
    return {}


def battery_leads(build: Build) -> tuple[WireRun, ...]:
    """Wires between a connector of the pack and a board or a capacitor."""
    return tuple(r for r in build.wires if _at_battery(build, r.start) or _at_battery(build, r.end))


def _at_battery(build: Build, contact: Contact) -> bool:
    """Whether a contact is a battery contact of a connector."""
    return isinstance(build.parts[contact.part].part, Connector) and build.pad(contact).battery


def _from_leads(build: Build, what: Fitted, at: SpacePoint) -> Between | None:
    found: list[Between] = []
    for run in battery_leads(build):
        a, b = place_of(build, run.start), place_of(build, run.end)
        if a is not None and b is not None:
            name, away = f"{run.start} to {run.end}", to_line(at, a, b)
            found.append(Between(what.key, name, away, what.where))
    return min(found, key=lambda f: f.distance, default=None)


def compasses(build: Build) -> tuple[Fitted, ...]:
    """Whatever holds a compass."""
    return tuple(
        f
        for f in build.parts.values()
        if isinstance(f.part, Compass) or (isinstance(f.part, SatelliteReceiver) and f.part.compass)
    )


def from_battery_leads(build: Build, what: Fitted) -> Between | None:
    """The nearest battery lead to a part; None where one of the places is not given."""
    at = point(what.use.at)
    return _from_leads(build, what, at) if at is not None else None


def control_antennas(build: Build) -> tuple[Fitted, ...]:
    """What the control link listens with: its antennas, or the receiver itself where the antenna is
    on it.
    """
    radios = build.of_kind(Receiver)
    on_board = tuple(f for f in radios if getattr(f.part, "antenna", None) in ("chip", "fixed"))
    video = {f.key for f in video_antennas(build)}
    loose = tuple(f for f in build.of_kind(Antenna) if f.key not in video)
    return (*on_board, *loose) if radios else ()


def video_antennas(build: Build) -> tuple[Fitted, ...]:
    """Antennas of the video transmitter: by their connector, or by their name in the build."""
    coax = {f.part.coax.type for f in build.of_kind(VideoTransmitter) if f.part.coax is not None}
    others = {f.part.coax.type for f in build.of_kind(Receiver) if f.part.coax is not None}
    out = []
    for f in build.of_kind(Antenna):
        kind = f.part.coax.type if f.part.coax is not None else None
        if "video" in f.key or (kind in coax and kind not in others):
            out.append(f)
    return tuple(out)


def from_arms(build: Build, what: Fitted) -> Between | None:
    """The nearest arm to a part, on a frame that conducts; None where it does not, or a place is
    not given.
    """
    at = point(what.use.at)
    conducts = any(f.part.conducts for f in build.of_kind(Frame))
    if at is None or not conducts:
        return None
    arms = []
    for number, middle in motor_places(build).items():
        way = to_line(at, (0.0, 0.0, middle[2]), middle)
        arms.append(Between(what.key, f"arm {number}", way, what.where))
    return min(arms, key=lambda f: f.distance, default=None)


def on_one_axis(places: Mapping[str, SpacePoint]) -> tuple[tuple[str, str], ...]:
    """Motors that stand above each other, in pairs, the lower one first."""
    pairs = combinations(sorted(places, key=lambda n: places[n][2]), 2)
    return tuple((a, b) for a, b in pairs if dist(places[a][:2], places[b][:2]) < _ONE_AXIS)


def hanging(places: Mapping[str, SpacePoint], face: str) -> frozenset[str]:
    """Motors that hang under their arm, head down: the build says so by their face, or another one
    stands above them on the same arm.
    """
    if face == "down":
        return frozenset(places)
    pairs = on_one_axis(places)
    return frozenset(low for low, high in pairs if places[low][2] < places[high][2])


def discs(build: Build) -> tuple[Disc, ...]:
    """The discs that the propellers sweep, on top of their motors; under those that hang."""
    propeller = next(iter(build.of_kind(Propeller)), None)
    motor = next(iter(build.of_kind(Motor)), None)
    if propeller is None or motor is None or propeller.part.diameter is None:
        return ()
    radius = propeller.part.diameter.value / 2.0
    tall = motor.part.height.value if motor.part.height is not None else 0.0
    places = motor_places(build)
    down = hanging(places, motor.use.face)
    ups = {key: -tall if key in down else tall for key in places}
    return tuple(Disc(key, (x, y, z + ups[key]), radius) for key, (x, y, z) in places.items())


def _way_by(disc: Disc, a: SpacePoint, b: SpacePoint) -> float:
    """Length of the shortest lead from a to b that touches the disc: the best of 72 points of its
    edge and its middle.
    """
    from_edge = []
    x0, y0, z0 = disc.middle
    for step in range(72):
        angle = step * tau / 72
        q = (x0 + disc.radius * cos(angle), y0 + disc.radius * sin(angle), z0)
        from_edge.append(dist(a, q) + dist(q, b))
    return min(from_edge)


def leads_in_reach(build: Build, slack: float) -> tuple[InReach, ...]:
    """Leads longer than `slack` times the straight way between their parts that can reach a disc."""
    out = []
    for run in build.wires:
        length = run.wire.trim_to or run.wire.length
        a, b = place_of(build, run.start), place_of(build, run.end)
        ends = {build.parts[run.start.part].part.KIND, build.parts[run.end.part].part.KIND}
        if length is None or a is None or b is None or Motor.KIND in ends:
            continue
        if length.value <= slack * (dist(a, b) + _ROOM):
            continue
        for disc in discs(build):
            needed = _way_by(disc, a, b)
            if needed <= length.value:
                out.append(InReach(run, disc.motor, length.value, needed))
                break
    return tuple(out)
