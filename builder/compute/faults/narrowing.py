"""Which reading to take next, until one cause is left or none can be told from another: beep tests
with the power off first, volts only where no short is among the causes.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Literal

from builder.compute.circuit.nets import components
from builder.compute.faults.fault_states import FaultState, WiredBench, without
from builder.compute.faults.single_faults import SingleFault
from builder.compute.faults.symptoms import is_hot
from builder.compute.power_up.gate_readings import feed_of
from builder.compute.power_up.open_pads import reach_dead, reach_live
from builder.frozen import value_class
from builder.model.build import Contact
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


def _reached(bench: WiredBench, contact: Contact) -> bool:
    """Whether a probe gets to a contact of the built aircraft, with the power off."""
    build, part = bench.build, bench.build.parts[contact.part].part
    if isinstance(part, Motor | Capacitor):
        return False  # sleeved
    hidden = isinstance(part, SpeedController | FlightController)
    if hidden and build.pad(contact).side == "under":
        return False
    return reach_dead(build, bench.nets, contact) == "open"


def _beside(bench: WiredBench, fault: SingleFault) -> list[list[Contact]]:
    """For each place of a fault: itself, or contacts that conduct to it with the fault's wires
    off, where a probe reaches.
    """
    net = components(bench.build.contacts, without(bench, fault))
    rows = []
    for place in fault.places:
        own = [place, *(c for c in bench.build.contacts if net[c] == net[place] and c != place)]
        rows.append([c for c in own if _reached(bench, c)][:_NEAR])
    return rows


def _beeps(bench: WiredBench, states: Sequence[FaultState]) -> Iterator[FaultReading]:
    """Across each fault by itself, then along a net over several of their joints at once."""
    met: dict[Contact, None] = {}
    for state in states:
        if state.fault is None or state.fault.kind in ("rail", "part"):
            continue
        rows = _beside(bench, state.fault)
        if state.fault.kind in ("open", "plug"):
            met.update(dict.fromkeys(row[0] for row in rows if row))
        for row, other in combinations(rows, 2):
            pairs = ((a, b) for a in row for b in other if a != b)
            yield from (FaultReading("beep", a, b) for a, b in pairs)
    for a, b in combinations(met, 2):
        if bench.nets.joined(a, b):
            yield FaultReading("beep", a, b)


def _volts(bench: WiredBench) -> Iterator[FaultReading]:
    """Supplies of boards and outputs of rails, where a probe may be under power."""
    for contact in bench.build.contacts:
        pad, fitted = bench.build.pad(contact), bench.build.parts[contact.part]
        source = pad.role == "supply" and pad.rail
        takes = contact.pad == feed_of(fitted) and not isinstance(fitted.part, Capacitor)
        if (source or takes) and reach_live(bench.build, contact) != "none":
            yield FaultReading("volts", contact)


def fault_answer(state: FaultState, reading: FaultReading) -> bool:
    """What a reading gives with a fault in: a beep, or the volts that are expected."""
    if reading.to is not None:
        return state.one(reading.at, reading.to)
    return state.fed(reading.at)


Answers = dict[FaultReading, tuple[bool, ...]]


def _best(answers: Answers, left: tuple[int, ...]) -> FaultReading | None:
    """The reading that parts the causes that are left most evenly; None where none does."""
    best, most = None, 0
    for reading, given in answers.items():
        yes = sum(given[i] for i in left)
        part = min(yes, len(left) - yes)
        if part > most:
            best, most = reading, part
    return best


def _grown(
    states: Sequence[FaultState],
    beeps: Answers,
    volts: Answers,
    left: tuple[int, ...],
    hot: tuple[bool, ...],
) -> FaultTree:
    reading = _best(beeps, left)
    if reading is None and not any(hot[i] for i in left):
        reading = _best(volts, left)
    if reading is None:
        causes = tuple(f for i in left if (f := states[i].fault) is not None)
        return FaultTree(causes=causes)
    given = (beeps if reading in beeps else volts)[reading]
    yes = tuple(i for i in left if given[i])
    no = tuple(i for i in left if not given[i])
    return FaultTree(
        reading,
        _grown(states, beeps, volts, yes, hot),
        _grown(states, beeps, volts, no, hot),
    )


def fault_tree(bench: WiredBench, states: Sequence[FaultState]) -> FaultTree:
    """What to read, in which order, for the faults that one symptom can come from."""
    hot = tuple(is_hot(s.fault, bench) for s in states)
    asked = dict.fromkeys(_beeps(bench, states))
    beeps = {r: tuple(fault_answer(s, r) for s in states) for r in asked}
    volts = {r: tuple(fault_answer(s, r) for s in states) for r in _volts(bench)}
    return _grown(states, beeps, volts, tuple(range(len(states))), hot)
