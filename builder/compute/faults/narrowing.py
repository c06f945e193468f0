"""Which reading to take next, until one cause is left or none can be told from another: beep tests
with the power off first, volts only where no short is among the causes.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, islice
from typing import Literal, TypeVar

from builder.compute.faults.fault_states import FaultState, WiredBench, beside
from builder.compute.faults.single_faults import SingleFault
from builder.compute.faults.symptoms import is_hot
from builder.compute.joints.bench_pieces import sleeved
from builder.compute.power_up.gate_readings import feed_of
from builder.compute.power_up.open_pads import reach_dead, reach_live
from builder.frozen import value_class
from builder.model.build import Build, Contact
from builder.model.kinds import Capacitor, FlightController, Motor, SpeedController

_NEAR = 2  # contacts that stand in for one that no probe reaches


@value_class(frozen=True, slots=True)
class FaultReading:
    """A beep test between two contacts with the power off, or volts at one with the power on."""

    kind: Literal["beep", "volts"]
    at: Contact
    to: Contact | None = None


@value_class(frozen=True, slots=True)
class FaultTree:
    """What to read, and what follows if it beeps or has its volts, and if not; or, without a
    reading, the causes that are left.
    """

    reading: FaultReading | None = None
    yes: "FaultTree | None" = None
    no: "FaultTree | None" = None
    causes: tuple[SingleFault, ...] = ()


def _under_sleeve(build: Build, contact: Contact) -> bool:
    """Whether a contact of the finished aircraft lies under a sleeve."""
    fitted = build.parts[contact.part]
    return isinstance(fitted.part, Motor | Capacitor) or sleeved(build, fitted)


def _reached(bench: WiredBench, contact: Contact) -> bool:
    """Whether a probe gets to a contact of the built aircraft, with the power off."""
    build, part = bench.build, bench.build.parts[contact.part].part
    if _under_sleeve(build, contact):
        return False
    hidden = isinstance(part, SpeedController | FlightController)
    if hidden and build.pad(contact).side == "under":
        return False
    return reach_dead(build, bench.nets, contact) == "open"


Near = tuple[tuple[Contact, ...], ...]


def _near(bench: WiredBench, fault: SingleFault | None) -> Near:
    """For each place of a fault: itself, or contacts that conduct to it with its wires off, where a
    probe reaches.
    """
    if fault is None or fault.kind in ("rail", "part"):
        return ()
    reached = ((c for c in row if _reached(bench, c)) for row in beside(bench, fault))
    return tuple(tuple(islice(row, _NEAR)) for row in reached)


def _across(rows: Near) -> Iterator[FaultReading]:
    """Beep tests across one fault."""
    for row, other in combinations(rows, 2):
        pairs = ((a, b) for a in row for b in other if a != b)
        yield from (FaultReading("beep", a, b) for a, b in pairs)


def _beeps(bench: WiredBench, near: Mapping[FaultState, Near]) -> Iterator[FaultReading]:
    """Across each fault by itself, then along a net over several of their joints at once."""
    met: dict[Contact, None] = {}
    for state, rows in near.items():
        yield from _across(rows)
        if state.fault is not None and state.fault.kind in ("open", "plug"):
            met.update(dict.fromkeys(row[0] for row in rows if row))
    for a, b in combinations(met, 2):
        if bench.nets.joined(a, b):
            yield FaultReading("beep", a, b)


def _volts(bench: WiredBench) -> Iterator[FaultReading]:
    """Supplies of boards and outputs of rails, where a probe may be under power."""
    for contact in bench.build.contacts:
        pad, fitted = bench.build.pad(contact), bench.build.parts[contact.part]
        source = pad.role == "supply" and pad.rail
        takes = contact.pad == feed_of(fitted)
        if _under_sleeve(bench.build, contact):
            continue
        if (source or takes) and reach_live(bench.build, contact) != "none":
            yield FaultReading("volts", contact)


def fault_answer(state: FaultState, reading: FaultReading) -> bool:
    """What a reading gives with a fault in: a beep, or the volts that are expected."""
    if reading.to is not None:
        return state.one(reading.at, reading.to)
    return state.fed(reading.at)


Answers = Mapping[FaultReading, int]  # a bit for each cause: set where it beeps or has its volts


@dataclass(frozen=True, eq=False)
class _Asked:
    """What can be read of some causes, and what each reading gives with each of them in. `hot` are
    those with which no power goes on.
    """

    states: tuple[FaultState, ...]
    beeps: Answers
    volts: Answers
    hot: int


def _bits(given: Iterable[bool]) -> int:
    return sum(1 << i for i, yes in enumerate(given) if yes)


def _best(answers: Answers, left: int) -> FaultReading | None:
    """The reading that parts the causes that are left most evenly; None where none does."""
    best, most, count = None, 0, left.bit_count()
    for reading, given in answers.items():
        yes = (given & left).bit_count()
        part = min(yes, count - yes)
        if part > most:
            best, most = reading, part
    return best


def _grown(asked: _Asked, left: int) -> FaultTree:
    reading, answers = _best(asked.beeps, left), asked.beeps
    if reading is None and not left & asked.hot:
        reading, answers = _best(asked.volts, left), asked.volts
    if reading is None:
        states = (s for i, s in enumerate(asked.states) if left >> i & 1)
        return FaultTree(causes=tuple(s.fault for s in states if s.fault is not None))
    given = answers[reading]
    return FaultTree(reading, _grown(asked, left & given), _grown(asked, left & ~given))


Causes = TypeVar("Causes")


def fault_trees(
    bench: WiredBench, causes: Mapping[Causes, tuple[FaultState, ...]]
) -> Mapping[Causes, FaultTree]:
    """What to read, in which order, for the faults that each symptom can come from."""
    all_states = dict.fromkeys(s for states in causes.values() for s in states)
    near = {s: _near(bench, s.fault) for s in all_states}
    hot = {s: is_hot(s.fault, bench) for s in all_states}
    volts = tuple(_volts(bench))
    live = {r: {s for s in all_states if fault_answer(s, r)} for r in volts}
    trees = {}
    for symptom, states in causes.items():
        here = dict.fromkeys(_beeps(bench, {s: near[s] for s in states}))
        asked = _Asked(
            states,
            {r: _bits(fault_answer(s, r) for s in states) for r in here},
            {r: _bits(s in live[r] for s in states) for r in volts},
            _bits(hot[s] for s in states),
        )
        trees[symptom] = _grown(asked, (1 << len(states)) - 1)
    return trees
