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
from builder.compute.power.path_wires import PlugLoad
from builder.diagnostics.finding import Severity
from builder.model.build import Build, Contact
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_BRIEFLY = "Keep full throttle short, and feel the plug after flying."


def _rating(build: Build, contact: Contact) -> float | None:
    """What the socket of a contact takes, in A; None where nobody says."""
    for socket in build.parts[contact.part].part.sockets.values():
        if contact.pad in socket.contacts and socket.continuous is not None:
            return socket.continuous.value
    return None


def _least(build: Build, join: Join) -> float | None:
    ratings = [r for r in (_rating(build, join.a), _rating(build, join.b)) if r is not None]
    return min(ratings, default=None)


def _supply(build: Build, load: PlugLoad) -> Iterator[Outcome]:
    """One contact of a plug by its steady current, and at full throttle if motors hang on it."""
    takes, name = _least(build, load.join), f"{load.join.a} to {load.join.b}"
    where = load.join.where
    if takes is None:
        yield NotJudged(f"current that the plug of {name} takes", where)
    elif isinstance(load.steady, Unknown):
        yield from (NotJudged(m, where) for m in load.steady.missing)
    elif load.steady.value > takes:
        told = say("{} carries {} through a plug for {}.", name, load.steady, given(takes, "A"))
        yield Found(told, "Feed the board by a wire of its own.", where)
    elif load.motors and isinstance(load.short, Unknown):
        yield from (NotJudged(m, where) for m in load.short.missing)
    elif load.motors and isinstance(load.short, Figure) and load.short.value > takes:
        text = "Full throttle takes {} through {}, a plug for {}."
        told = say(text, load.short, name, given(takes, "A"))
        yield Found(told, _BRIEFLY, where, severity=Severity.REMARK)
    else:
        yield Judged()


def _supplies(case: Case) -> Iterator[Outcome]:
    """Each supply and ground contact; of the way out and the way back through one plug, both too
    small, only the first is said.
    """
    said: set[tuple[object, ...]] = set()
    for load in case.results.path.plugs:
        for answer in _supply(case.build, load):
            if isinstance(answer, Found):
                key = (load.join.where, load.join.a.board, load.join.b.board, answer.severity)
                if key in said:
                    continue
                said.add(key)
            yield answer


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
                _BRIEFLY,
                join.where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    yield from _supplies(case)
    yield from _motors(case)
