"""What somebody sees who says 'this does not work', and which single faults look so."""

from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import Literal

from builder.compute.faults.fault_states import FaultState, WiredBench, state_of
from builder.compute.faults.single_faults import SingleFault, single_faults
from builder.compute.power_up.gate_readings import feed_of, ground_of
from builder.compute.power_up.pair_readings import burns_if_joined, stands_on
from builder.frozen import value_class
from builder.model.build import Contact, Fitted, piece_name, piece_names
from builder.model.kinds import Capacitor, Connector, FlightController, Motor

SymptomKind = Literal["short", "dead", "mute", "motor"]


@value_class(frozen=True, slots=True)
class Symptom:
    """What is seen: `short` of the supply, a board that is `dead`, or `mute` on one of its lines (power,
    but no signal), a `motor` that does not turn as it should.
    """

    kind: SymptomKind
    board: str = ""
    line: str = ""


def _pieces(bench: WiredBench) -> Iterator[tuple[Fitted, int, str]]:
    """Pieces that take power, by name."""
    for fitted in bench.build.parts.values():
        if isinstance(fitted.part, Motor | Capacitor | Connector) or feed_of(fitted) is None:
            continue
        for piece in fitted.pieces:
            yield fitted, piece, piece_name(fitted.key, piece)


def _signals(bench: WiredBench, board: str) -> list[Contact]:
    """Contacts of a board by which it talks: no supply, no ground, no motor's lead."""
    silent = ("ground", "supply", "draws", "phase")
    own = [c for c in bench.build.contacts if c.board == board and bench.nets.of[c].connected]
    return [
        c for c in own if bench.build.pad(c).role not in silent and not bench.build.pad(c).battery
    ]


def _leads(bench: WiredBench, board: str) -> list[Contact]:
    """Contacts that a motor hangs on: its leads, the pads that they are soldered to, and the
    signal of that channel.
    """
    build = bench.build
    own = [c for c in bench.build.contacts if c.board == board]
    pads = [c for lead in own for c in bench.nets.of[lead].contacts if c.board != board]
    channels = {(c.board, build.pad(c).channel) for c in pads}
    others = [(c, build.pad(c)) for c in build.contacts]
    signals = [c for c, p in others if p.role != "phase" and (c.board, p.channel) in channels]
    return [*own, *pads, *signals]


def _changed(sound: FaultState, state: FaultState, contacts: list[Contact]) -> bool:
    return any(set(sound.on(c)) != set(state.on(c)) for c in contacts)


def _burning(sound: FaultState, state: FaultState) -> bool:
    """Whether a bridge or a swap joins what burns as soon as power goes on."""
    fault, bench = state.fault, state.bench
    if fault is None or fault.kind not in ("bridge", "swap"):
        return False
    merged: dict[int, Contact] = {}
    for contact in state.on(fault.places[0]) + state.on(fault.places[-1]):
        merged.setdefault(sound.net[contact], contact)
    pairs = combinations(merged.values(), 2)
    return any(state.one(a, b) and _is_supply_short(bench, a, b) for a, b in pairs)


def _is_supply_short(bench: WiredBench, a: Contact, b: Contact) -> bool:
    build, nets = bench.build, bench.nets
    phase = "phase" in (stands_on(build, nets, a), stands_on(build, nets, b))
    return not phase and burns_if_joined(build, nets, a, b)


def is_hot(fault: SingleFault | None, bench: WiredBench) -> bool:
    """Whether no power may go on while this fault is suspected: a bridge or a swap where a supply or
    a motor's lead takes part.
    """
    if fault is None or fault.kind not in ("bridge", "swap"):
        return False
    ends = {stands_on(bench.build, bench.nets, c) for c in fault.places}
    return bool(ends & {"battery", "rail", "phase"})


def _of_board(sound: FaultState, state: FaultState, of: tuple[Fitted, int, str]) -> list[Symptom]:
    """What one board shows. One without a ground of its own, as a buzzer, is dead or is not."""
    bench, (fitted, piece, board) = sound.bench, of
    gone = state.is_dead(board)
    lines = _signals(bench, board)
    if ground_of(fitted) is None:
        feed = Contact(fitted.key, piece, feed_of(fitted) or "")
        off = not state.fed(feed) or _changed(sound, state, lines)
        return [Symptom("dead", board)] if gone or off else []
    if sound.powered(fitted.key, piece) and not state.powered(fitted.key, piece):
        centre = isinstance(fitted.part, FlightController)
        mute = [Symptom("mute", board, c.pad) for c in lines if gone and not centre]
        return [Symptom("dead", board), *mute]
    if isinstance(fitted.part, FlightController):
        return []  # its lines are those of what hangs on it
    return [Symptom("mute", board, c.pad) for c in lines if _changed(sound, state, [c])]


def symptoms_of(sound: FaultState, state: FaultState) -> tuple[Symptom, ...]:
    """What a fault looks like, the plainest first."""
    bench = sound.bench
    if _burning(sound, state):
        return (Symptom("short"),)
    out = [s for of in _pieces(bench) for s in _of_board(sound, state, of)]
    for motor in bench.build.of_kind(Motor):
        for board in piece_names(motor):
            if state.is_dead(board) or _changed(sound, state, _leads(bench, board)):
                out.append(Symptom("motor", board))
    return tuple(out)


def by_symptom(bench: WiredBench) -> Mapping[Symptom, tuple[FaultState, ...]]:
    """The single faults that each symptom can come from."""
    sound = state_of(bench, None)
    out: dict[Symptom, list[FaultState]] = {}
    for fault in single_faults(bench.build, bench.nets):
        state = state_of(bench, fault)
        for symptom in symptoms_of(sound, state):
            out.setdefault(symptom, []).append(state)
    return {s: tuple(states) for s, states in out.items()}
