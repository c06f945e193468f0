"""A contact of a plug that carries too much.

Checks: the current through each supply and ground contact of a plug, and a motor's current through
its plug, against what the socket takes. Steady current above it is a fault; full throttle above it
is a remark.
Why: small contacts soften their housing and let go in flight.
Example: 1.6 A for a control board through a harness for 1 A.
Mend: feed that board by a wire of its own, or solder the motors.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.contacts import Join
from builder.compute.figures.figure import Figure, Unknown
from builder.diagnostics.finding import Severity
from builder.model.build import Build, Contact
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT


def _rating(build: Build, contact: Contact) -> float | None:
    """What the socket of a contact takes, in A; None where nobody says."""
    for socket in build.parts[contact.part].part.sockets.values():
        if contact.pad in socket.contacts and socket.continuous is not None:
            return socket.continuous.value
    return None


def _least(build: Build, join: Join) -> float | None:
    ratings = [r for r in (_rating(build, join.a), _rating(build, join.b)) if r is not None]
    return min(ratings, default=None)


def _supplies(case: Case) -> Iterator[Outcome]:
    for load in case.results.path.plugs:
        takes, name = _least(case.build, load.join), f"{load.join.a} to {load.join.b}"
        if takes is None:
            yield NotJudged(f"current that the plug of {name} takes", load.join.where)
        elif isinstance(load.steady, Unknown):
            yield from (NotJudged(m, load.join.where) for m in load.steady.missing)
        elif load.steady.value > takes:
            yield Found(
                say("{} carries {} through a plug for {}.", name, load.steady, given(takes, "A")),
                "Feed the board by a wire of its own.",
                load.join.where,
            )
        else:
            yield Judged()


def _motors(case: Case) -> Iterator[Outcome]:
    rotors = case.results.flight.drive.rotors
    peaks = [
        p.peak_current
        for p in case.results.flight.packs.values()
        if isinstance(p.peak_current, Figure)
    ]
    most = max(peaks, key=lambda p: p.value, default=None)
    plugs: dict[str, tuple[Join, float]] = {}
    for join in case.results.netlist.joins:
        if join.by == "plug" and case.build.pad(join.a).role == "phase":
            takes = _least(case.build, join)
            if takes is not None:
                plugs.setdefault(join.a.board, (join, takes))
    for board, (join, takes) in plugs.items():
        if most is None or not rotors:
            yield NotJudged(
                "a bench table of this motor with this propeller",
                join.where,
            )
        elif most.value / rotors > takes:
            yield Found(
                say(
                    "{} takes {} at full throttle through a plug for {}.",
                    board,
                    made(most.value / rotors, "A", most.key),
                    given(takes, "A"),
                ),
                "Keep full throttle short, and feel the plug after flying.",
                join.where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    yield from _supplies(case)
    yield from _motors(case)
