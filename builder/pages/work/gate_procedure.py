"""A gate of the first power-up as a procedure, from power off to power off: for the page, where its
band is, and for paper.
"""

from itertools import pairwise

from builder.compute.power_up.emptied import battery_empty
from builder.compute.power_up.gate import Gate
from builder.compute.power_up.gate_power import SAFE_VOLTS
from builder.compute.power_up.gate_readings import GateReading
from builder.compute.power_up.gate_volts import METER_VOLTS, RailReading
from builder.diagnostics.finding import Signal
from builder.model.build import Build
from builder.model.kinds import VideoTransmitter
from builder.pages.blocks import (
    Block,
    Cell,
    Column,
    Facts,
    Notice,
    Row,
    Section,
    Span,
    Table,
    Tick,
    WriteIn,
)
from builder.pages.numbers import number
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.work.gate_lines import battery_alone, before, end, head, limiter, supply_volts
from builder.pages.work.photograph import photographs_at_gate
from builder.pages.work.reading_words import expected_words, reason_words, suspect_words
from builder.rounding import rounded
from builder.rules.cautions import CAUTIONS

_PASSED = Column("Passed", align="centre")
ONE_PROBE = (
    "Under power, only the red probe touches the board. One held by hand comes off each contact"
    " before you move on."
)
PROBES = f"Clip the black lead to battery minus with the power off. {ONE_PROBE}"


def meter_band() -> str:
    """What the band of a voltage is made of."""
    error = rounded(100 * METER_VOLTS, 0)
    return f"The band is what the board states, wider by the meter's own {error} %."


def _between(reading: GateReading) -> Cell:
    """Two contacts, or an edge with its contacts in their order."""
    first, second = reading.between
    if " " in second:
        return Cell((Span(first),), note=second)
    return Cell((Span(f"{first} to {second}", code=True),))


def _readings(gate: Gate) -> Table | None:
    reasons = [reason_words(r) for r in gate.readings]
    # a reason that was just read is not said again
    notes = [why if why != before else "" for before, why in pairwise(("", *reasons))]
    rows = []
    for i, r in enumerate(gate.readings):
        expected = Cell((Span(expected_words(r)),), note=notes[i])
        read = WriteIn(f"gate-{gate.letter}-r{i}", "read", "Ω")
        passed = Tick(f"gate-{gate.letter}-t{i}", "passed")
        rows.append(table_row(_between(r), expected, read, passed))
    if not rows:
        return None
    heads = table_columns("Between", "Expected", "Read", _PASSED)
    return Table("Power off: beep test and ohms", heads, tuple(rows), stack=True)


def _reached(v: RailReading) -> str:
    """Where and how the probe goes on, where that is not plain."""
    said = []
    if v.instead_of:
        said.append(f"for {', '.join(v.instead_of)}: same net, open pad")
    if v.reach == "clamp":
        said.append(
            "room beside it under 1 mm or not known. Supply off, wait until it reads under"
            f" {SAFE_VOLTS:g} V, fix the probe here, output on again. Do the same before it comes off"
        )
    told = suspect_words(v.suspects) if v.reach != "none" else ""
    return ". ".join(w for w in ("; ".join(said), told) if w)


def _volt_row(gate: Gate, i: int, v: RailReading) -> Row:
    first = Cell((Span(v.contact, code=True),), note=_reached(v))
    if v.reach == "none":
        return table_row(first, "no open pad: not measured here", Cell(), Cell())
    band = f"{rounded(v.read_low, 2)} to {rounded(v.read_high, 2)} V"
    read = WriteIn(f"gate-{gate.letter}-v{i}", "read", "V", band)
    passed = Tick(f"gate-{gate.letter}-vt{i}", "passed")
    return table_row(first, f"{rounded(v.nominal, 2)} V", read, passed)


def _volts(gate: Gate) -> Table | None:
    rows = tuple(_volt_row(gate, i, v) for i, v in enumerate(gate.volts))
    if not rows:
        return None
    note = f"{ONE_PROBE} {meter_band()}"
    heads = table_columns("Contact", right_column("Nominal"), "Read", _PASSED)
    return Table("Power on: volts", heads, rows, stack=True, note=note)


def _antenna(build: Build, gate: Gate) -> Notice | None:
    """The notice about antennas, at the gate that first puts power on a video transmitter."""
    if not any(isinstance(build.parts[p.split(".")[0]].part, VideoTransmitter) for p in gate.parts):
        return None
    caution = next(c for c in CAUTIONS if c.key == "antenna")
    return Notice(
        caution.signal,
        caution.title,
        (Span(f"It gets power here for the first time. {caution.text}"),),
    )


def _stage(gate: Gate, number_: int, what: str, *blocks: Block | None) -> Section:
    """A stage of a gate: its heading with what is done in it."""
    anchor = f"gate-{gate.letter.casefold()}-{number_}"
    return Section(anchor, f"{number_}. {what}", tuple(b for b in blocks if b is not None), 4)


def gate_blocks(sheet: SheetInput, gate: Gate) -> tuple[Block | Section, ...]:
    """One gate, from power off to power off."""
    build = sheet.build
    facts = Facts(
        (
            ("Connected", Cell((Span(gate.connected),))),
            ("Supply set to", Cell((Span(supply_volts(gate)),))),
            ("Current limit", Cell((number(gate.limit),))),
            ("Current to expect", _expected(gate)),
            ("Without a fan", Cell((Span(f"at most {rounded(gate.dwell, 0)} s"),))),
        )
    )
    antenna = _antenna(build, gate)
    stages = [
        _stage(gate, 1, "Power off", before(gate), _readings(gate)),
        _stage(gate, 2, "Power on", head(build, gate), _volts(gate)),
    ]
    if gate.closing:
        stages.append(_stage(gate, 3, "Battery alone, without limiter", battery_alone(build, gate)))
    stages.append(_stage(gate, len(stages) + 1, "Power off again", end(build, gate)))
    first = (*((antenna,) if antenna is not None else ()), facts, limiter(gate))
    return (*first, *photographs_at_gate(sheet, gate.letter), *stages)


def _expected(gate: Gate) -> Cell:
    """The band of the current once all has started; nothing is made up for what nobody says."""
    taken = gate.power
    if taken.low is None or taken.high is None:
        who = f": draw of {', '.join(taken.unknown)}" if taken.unknown else ""
        return Cell((Span(f"not known{who}; note it"),))
    return Cell((number(taken.low), Span(" to "), number(taken.high)))


def trip_notice(sheet: SheetInput) -> Notice:
    """What to do when the limit trips."""
    text = (
        f"Do not raise the limit. Wait until {battery_empty(sheet.build, sheet.results.gates)}. Then"
        " look for the warm"
        " spot without touching it, repeat the beep test of this gate, and look for bridges under a"
        " lens."
    )
    return Notice(
        Signal.CAUTION,
        "If the limit trips, or something warms or smells, take the power off.",
        (Span(text),),
    )


def gate_section(sheet: SheetInput, gate: Gate) -> Section:
    """A gate with its heading."""
    anchor, heading = f"gate-{gate.letter.casefold()}", f"Gate {gate.letter}: {gate.title}"
    return Section(anchor, heading, gate_blocks(sheet, gate), 3)
