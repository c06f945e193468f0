"""A reading of the bench that its gate, its wire or the setup does not allow.

Checks: each line under as_built. Volts and amperes that were read at a gate are compared with what that gate
expects. The contact is the one named under `at`; where none is named, any of its contacts. A length is compared with
the wires of the contact or step that it names; the way that a motor turns with the setup. Its step is one of the order.
Why: a reading out of its bounds is the fault that the gate is there for. Who writes it down and goes on
powers a camera or a receiver with wrong volts.
Example: 7.9 V read on a rail of 5 V at gate B.
Mend: find the joint that the gate names before anything else gets power; correct the line if it is a slip.
Source: the build's own gates, wires and setup; common practice, no source
"""

from collections.abc import Iterator, Sequence

from builder.compute.circuit.converters import rail_volts
from builder.compute.figures.figure import Figure
from builder.compute.order.builder_steps import meant
from builder.compute.order.steps.work_step import Gathered
from builder.compute.order.work_order import Plan
from builder.compute.power_up.gate import Gate
from builder.compute.power_up.gate_volts import RailReading
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import WireRun
from builder.model.source.build_log import AsBuilt
from builder.model.values.quantities import Quantity, parse_any
from builder.rules.compare import EXACT, clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_OFF, _SHARE = assumed("statements/cut-length"), assumed("statements/cut-share")
_HANDS = ("clockwise", "counter-clockwise")
_STOP = "Find the joint before anything else gets power. Correct the line if it is a slip."


def _quantity(text: str) -> Quantity | None:
    """A reading as a figure; None for words."""
    try:
        return parse_any(text)
    except ValueError:
        return None


def _bands(gates: Sequence[Gate], at: str | None) -> list[RailReading]:
    """What the gates expect in volts: at one contact, or at each."""
    all_of = [v for g in gates for v in g.volts]
    return [v for v in all_of if at is None or at == v.contact or at in v.instead_of]


def _of_a_battery(case: Case, volts: float) -> bool:
    """Whether a battery of the build has such volts, from empty to full."""
    return any(p.least_fed <= volts <= p.full for p in case.results.power.packs)


def _rail_band(case: Case, line: AsBuilt) -> RailReading | None:
    """What the contact itself says of its volts: what is wired to it now is another rule's."""
    for contact in case.build.contacts:
        rails = case.build.parts[contact.part].part.rails
        rail = rails.get(case.build.pad(contact).rail or "")
        if str(contact) == line.at and rail is not None and not isinstance(rail.volts, str):
            nominal, low, high = rail_volts(rail)
            return RailReading(str(contact), low, high, nominal)
    return None


def _within(read: Quantity, band: RailReading) -> bool:
    return band.read_low <= read.value <= band.read_high


def _volts(
    case: Case, gates: Sequence[Gate], line: AsBuilt, read: Quantity, where: Where
) -> Iterator[Outcome]:
    own = _rail_band(case, line)
    bands = _bands(gates, line.at) or ([own] if own is not None else [])
    if not bands:
        yield NotJudged(f"what {line.at or line.step or 'a gate'} should read in volts", where)
        return
    if own is not None and _within(read, own):
        yield Judged()
        return
    if any(_within(read, v) for v in bands):
        alone = len({(v.low, v.high) for v in bands}) == 1
        missing = "the contact that was read: write it under at"
        yield Judged() if alone else NotJudged(missing, where)
        return
    nearest = min(bands, key=lambda v: abs(v.nominal - read.value))
    if _of_a_battery(case, read.value) and _of_a_battery(case, nearest.nominal):
        yield NotJudged("whether the battery or the bench supply fed what was read", where)
        return
    text = say(
        "{} was read at {}; {} to {} is expected at {}.",
        given(read.value, "V"),
        line.at or line.step or "a gate",
        made(nearest.read_low, "V"),
        made(nearest.read_high, "V"),
        nearest.contact,
    )
    yield Found(text, _STOP, where)


def _amperes(gate: Gate, read: Quantity, where: Where) -> Iterator[Outcome]:
    low, high = gate.power.low, gate.power.high
    if not isinstance(low, Figure) or not isinstance(high, Figure):
        yield NotJudged(f"what gate {gate.letter} takes: the current of each part", where)
        return
    half = (read.step or 0.0) / 2.0  # of the last digit that the display shows
    if low.value - half <= read.value <= high.value + half:
        yield Judged()
        return
    takes = given(read.value, "A")
    text = say("{} was read at gate {}; {} to {} is expected.", takes, gate.letter, low, high)
    yield Found(text, _STOP, where, severity=Severity.REMARK)


def _names_of(run: WireRun) -> set[str | None]:
    return {str(run.start), str(run.end), f"{run.start} to {run.end}"}


def _touching(case: Case, line: AsBuilt) -> list[WireRun]:
    """Wires at the contact that the line names, else at the part that its step is about."""
    own = next((s for s in case.build.source.steps if s.id == line.step), None)
    part = (own.part if own is not None else None) or (line.step or "").rpartition(" ")[2]
    runs = case.build.wires
    named = [r for r in runs if {line.at, line.step} & _names_of(r)]
    if line.at is not None or named:
        return named
    return [r for r in runs if part in (r.start.part, r.end.part, r.start.board, r.end.board)]


def _length(case: Case, line: AsBuilt, read: Quantity, where: Where) -> Iterator[Outcome]:
    runs = _touching(case, line)
    said = [(r, s.value) for r in runs if (s := r.wire.trim_to or r.wire.length) is not None]
    if not said:
        yield NotJudged("the wire whose length was read: write a contact of it under at", where)
        return
    run, nearest = min(said, key=lambda one: abs(one[1] - read.value))
    if abs(nearest - read.value) <= max(_OFF, _SHARE * nearest) + EXACT:
        yield Judged()
        return
    cut, listed = given(read.value, "m"), given(nearest, "m")
    text = say("{} was cut; {} to {} is listed as {}.", cut, run.start, run.end, listed)
    hint = "Write the length as it was cut, so that a copier cuts it so."
    yield clash(text, hint, where, run.where, Severity.REMARK)


def _turn(case: Case, line: AsBuilt, where: Where) -> Iterator[Outcome]:
    """Which way a motor was seen to turn; other words are not judged."""
    words = (line.measured or "").casefold()
    hand = next((h for h in reversed(_HANDS) if words.startswith(h)), None)
    number = (line.at or "").rpartition(".")[2]
    motors = {m.number: m for m in case.results.settings.motors}
    if hand is None or number not in motors or not motors[number].turns:
        yield NotJudged(f"whether {line.measured!r} is right", where)
        return
    if motors[number].turns == hand:
        yield Judged()
        return
    text = f"Motor {number} was seen to turn {hand}; the setup has it {motors[number].turns}."
    turns = case.build.where("setup", "rotation", "turns", number)
    hint = "Turn it round before a propeller goes on. Correct the line if it is a slip."
    yield Found(text, hint, where, signal=Signal.DANGER, see=(turns,))


def _step(case: Case, step: str, where: Where) -> Outcome:
    """A line belongs to a step, or to a wire by its ends."""
    order = case.whole.order
    if not isinstance(order, Plan):
        return NotJudged("the order of work, which contradicts itself", where)
    known = Gathered({s.id: s for s in order.steps})
    ends = {f"{r.start} to {r.end}" for r in case.build.wires}
    contacts = {str(c) for r in case.build.wires for c in (r.start, r.end)}
    if step in {*(g.id for g in order.groups), *ends, *contacts} or meant(known, step):
        return Judged()
    text = f"There is no step {step!r} to which this line belongs."
    return Found(text, did_you_mean(step, known.steps), where, severity=Severity.REMARK)


def check(case: Case) -> Iterator[Outcome]:
    for i, line in enumerate(case.build.source.as_built):
        here = case.build.where("as_built", i)
        if line.step is not None:
            yield _step(case, line.step, here.at("step"))
        if line.measured is None:
            continue
        where, read = here.at("measured"), _quantity(line.measured)
        gates = [g for g in case.whole.gates if line.step in (None, f"gate {g.letter}")]
        if read is None:
            yield from _turn(case, line, where)
        elif read.dimension == "voltage":
            yield from _volts(case, gates or case.whole.gates, line, read, where)
        elif read.dimension == "current" and len(gates) == 1:
            yield from _amperes(gates[0], read, where)
        elif read.dimension == "length":
            yield from _length(case, line, read, where)
        else:
            yield NotJudged(f"whether {line.measured!r} is right", where)
