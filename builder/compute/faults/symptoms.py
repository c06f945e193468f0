"""What somebody sees who says 'this does not work', and which single faults look so."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from builder.compute.faults.fault_states import FaultState, WiredBench
from builder.compute.faults.single_faults import SingleFault, single_faults
from builder.compute.power_up.gate_readings import feed_of, ground_of
from builder.compute.power_up.pair_readings import burns_if_joined, stands_on
from builder.frozen import value_class
from builder.model.build import Contact, piece_name, piece_names
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


@dataclass(frozen=True, eq=False)
class _Board:
    """A piece that takes power: its feed, and the contacts by which it talks."""

    name: str
    feed: Contact
    has_ground: bool
    is_centre: bool
    lines: tuple[Contact, ...]


@dataclass(frozen=True, eq=False)
class _InSight:
    """What somebody looks at on the bench: boards, and motors by what they hang on."""

    boards: tuple[_Board, ...]
    motors: tuple[tuple[str, tuple[Contact, ...]], ...]


def _boards(bench: WiredBench) -> Iterator[_Board]:
    for fitted in bench.build.parts.values():
        feed = feed_of(fitted)
        if isinstance(fitted.part, Motor | Capacitor | Connector) or feed is None:
            continue
        has_ground = ground_of(fitted) is not None
        is_centre = isinstance(fitted.part, FlightController)
        for piece in fitted.pieces:
            name, at = piece_name(fitted.key, piece), Contact(fitted.key, piece, feed)
            yield _Board(name, at, has_ground, is_centre, _signals(bench, name))


def _signals(bench: WiredBench, board: str) -> tuple[Contact, ...]:
    """Contacts of a board by which it talks: no supply, no ground, no motor's lead."""
    silent = ("ground", "supply", "draws", "phase")
    own = [c for c in bench.build.contacts if c.board == board and bench.nets.of[c].connected]
    pads = [(c, bench.build.pad(c)) for c in own]
    return tuple(c for c, pad in pads if pad.role not in silent and not pad.battery)


def _leads(bench: WiredBench, board: str) -> tuple[Contact, ...]:
    """Contacts that a motor hangs on: its leads, the pads that they are soldered to, and the
    signal of that channel.
    """
    build = bench.build
    own = [c for c in bench.build.contacts if c.board == board]
    pads = [c for lead in own for c in bench.nets.of[lead].contacts if c.board != board]
    channels = {(c.board, build.pad(c).channel) for c in pads}
    others = [(c, build.pad(c)) for c in build.contacts]
    signals = [c for c, p in others if p.role != "phase" and (c.board, p.channel) in channels]
    return (*own, *pads, *signals)


def _in_sight(bench: WiredBench) -> _InSight:
    motors = [name for motor in bench.build.of_kind(Motor) for name in piece_names(motor)]
    return _InSight(tuple(_boards(bench)), tuple((name, _leads(bench, name)) for name in motors))


def _changed(state: FaultState, contacts: Iterable[Contact]) -> bool:
    return any(c in state.changed for c in contacts)


def _burning(state: FaultState) -> bool:
    """Whether a bridge or a swap joins what burns as soon as power goes on."""
    fault, bench = state.fault, state.bench
    if fault is None or fault.kind not in ("bridge", "swap"):
        return False
    merged: dict[int, Contact] = {}
    for contact in state.on(fault.places[0]) + state.on(fault.places[-1]):
        merged.setdefault(bench.sound.net[contact], contact)
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


def _of_board(sound: FaultState, state: FaultState, board: _Board) -> list[Symptom]:
    """What one board shows. One without a ground of its own, as a buzzer, is dead or is not."""
    gone, name = state.is_dead(board.name), board.name
    if not board.has_ground:
        off = not state.fed(board.feed) or _changed(state, board.lines)
        return [Symptom("dead", name)] if gone or off else []
    if sound.powered(name) and not state.powered(name):
        mute = [Symptom("mute", name, c.pad) for c in board.lines if gone and not board.is_centre]
        return [Symptom("dead", name), *mute]
    if board.is_centre:
        return []  # its lines are those of what hangs on it
    return [Symptom("mute", name, c.pad) for c in board.lines if c in state.changed]


def _symptoms_of(seen: _InSight, sound: FaultState, state: FaultState) -> tuple[Symptom, ...]:
    """What a fault looks like, the plainest first."""
    if _burning(state):
        return (Symptom("short"),)
    out = [s for board in seen.boards for s in _of_board(sound, state, board)]
    for motor, leads in seen.motors:
        if state.is_dead(motor) or _changed(state, leads):
            out.append(Symptom("motor", motor))
    return tuple(out)


def by_symptom(bench: WiredBench) -> Mapping[Symptom, tuple[FaultState, ...]]:
    """The single faults that each symptom can come from."""
    seen, sound = _in_sight(bench), FaultState(bench, None)
    out: dict[Symptom, list[FaultState]] = {}
    for fault in single_faults(bench.build, bench.nets):
        state = FaultState(bench, fault)
        for symptom in _symptoms_of(seen, sound, state):
            out.setdefault(symptom, []).append(state)
    return {s: tuple(states) for s, states in out.items()}
