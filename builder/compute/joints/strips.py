"""Which joints are made at once and which once a lead lies in its place, and how their bare ends
are said in words.
"""

from collections.abc import Iterable

from builder.compute.joints.bench_pieces import is_centre, mm
from builder.compute.joints.joints import Joint, touches
from builder.model.build import Build
from builder.model.kinds import CombinedBoard, Connector


def on_battery(build: Build, joint: Joint) -> bool:
    """Whether a joint is on a battery contact of a board: made before the first power.

    A contact at which a wire of the battery's connector ends is one, whether its part says so or
    not.
    """
    feeds = any(isinstance(build.parts[other.part].part, Connector) for other in joint.others)
    return build.pad(joint.contact).battery or feeds


def hidden(build: Build, joint: Joint) -> bool:
    """Whether a joint is on the underside of a board that others are wired to."""
    return joint.side == "under" and is_centre(build, joint.contact.part)


def hidden_lines(build: Build, joints: Iterable[Joint], key: str) -> list[Joint]:
    """The joints on the underside of a board that lead to loads: no probe reaches them once the
    board is mounted. Phases and the battery's own contacts have checks of their own.
    """
    return [
        j
        for j in joints
        if j.contact.part == key
        and hidden(build, j)
        and build.pad(j.contact).role != "phase"
        and not on_battery(build, j)
    ]


def under(build: Build, joints: Iterable[Joint], motor: str) -> bool:
    """Whether a motor's leads end under a board, so that they are soldered before the board is set
    in.
    """
    return any(hidden(build, j) and touches(j, motor) for j in joints)


def before_power(build: Build, joint: Joint) -> bool:
    """Whether a board's joint cannot wait for the gate of its rails: on a battery contact, or
    hidden under a board.

    A combined board passes that gate while it lies free, so what is hidden under it waits all the
    same; so do motors.
    """
    combined = isinstance(build.parts[joint.contact.part].part, CombinedBoard)
    motor = build.pad(joint.contact).role == "phase"
    return on_battery(build, joint) or (hidden(build, joint) and not combined and not motor)


def in_place(build: Build, joint: Joint) -> bool:
    """Whether a joint is made with its lead where it will lie, cut to length there: on a board's
    upper side.
    """
    return (
        is_centre(build, joint.contact.part)
        and not hidden(build, joint)
        and not on_battery(build, joint)
    )


def strip_words(joints: Iterable[Joint], *, pads: bool = True) -> str:
    """How much is stripped and at which contact: `3 mm at GND, 2 mm at VIN and CTRL`, or `2 mm` for
    all alike.
    """
    ends: dict[float, list[str]] = {}
    for j in joints:
        ends.setdefault(j.heat.strip, []).append(j.contact.pad if pads else str(j.contact))
    if len(ends) == 1:
        return mm(next(iter(ends)))
    longest_first = sorted(ends.items(), reverse=True)
    return ", ".join(f"{mm(strip)} at {_listed(names)}" for strip, names in longest_first)


def _listed(names: list[str]) -> str:
    return " and ".join(w for w in (", ".join(names[:-1]), names[-1]) if w)
