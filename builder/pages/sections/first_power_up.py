"""First power-up in gates: each begins and ends with the power off, and the next waits until it has
passed.
"""

from itertools import pairwise

from builder.compute.order.step_list import smallest_pack
from builder.compute.power_up.gate_readings import GateReading
from builder.compute.power_up.gate_volts import RailReading
from builder.compute.power_up.power_gates import Gate
from builder.diagnostics.finding import Signal
from builder.model.build import Build
from builder.model.kinds import VideoTransmitter
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Facts,
    Notice,
    Paragraph,
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
from builder.pages.work.reading_words import expected_words, reason_words
from builder.rounding import rounded
from builder.rules.cautions import CAUTIONS


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
    return Table(
        "Power off: beep test and ohms",
        table_columns("Between", "Expected", "Read", Column("Passed", align="centre")),
        tuple(rows),
        stack=True,
    )


def _reached(v: RailReading) -> str:
    """Where and how the probe goes on, where that is not plain."""
    said = []
    if v.instead_of:
        said.append(f"for {', '.join(v.instead_of)}: same net, open pad")
    if v.reach == "clamp":
        said.append(
            "room beside it under 1 mm or not known: fix the probe here with the power off, move it"
            " only then"
        )
    return "; ".join(said)


def _volt_row(gate: Gate, i: int, v: RailReading) -> Row:
    first = Cell((Span(v.contact, code=True),), note=_reached(v))
    if v.reach == "none":
        return table_row(first, "no open pad: not measured here", Cell(), Cell())
    band = f"{rounded(v.low, 2)} to {rounded(v.high, 2)} V"
    return table_row(
        first,
        f"{rounded(v.nominal, 2)} V",
        WriteIn(f"gate-{gate.letter}-v{i}", "read", "V", band),
        Tick(f"gate-{gate.letter}-vt{i}", "passed"),
    )


def _volts(gate: Gate) -> Table | None:
    rows = tuple(_volt_row(gate, i, v) for i, v in enumerate(gate.volts))
    if not rows:
        return None
    note = (
        "Clip the black lead to battery minus with the power off. Under power, only the red probe"
        " touches the board."
    )
    return Table(
        "Power on: volts",
        table_columns("Contact", right_column("Nominal"), "Read", Column("Passed", align="centre")),
        rows,
        stack=True,
        note=note,
    )


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


def gate_blocks(
    sheet: SheetInput, gate: Gate, *, paper: bool = False
) -> tuple[Block | Section, ...]:
    """One gate, from power off to power off; on paper what to do when the limit trips, which a
    screen says once.
    """
    build = sheet.build
    facts = Facts(
        (
            ("Connected", Cell((Span(gate.connected),))),
            ("Supply set to", Cell((Span(supply_volts(gate)),))),
            ("Current limit", Cell((number(gate.limit),))),
            ("Current to expect", _expected(gate)),
            ("Without moving air", Cell((Span(f"at most {rounded(gate.dwell, 0)} s"),))),
        )
    )
    antenna = _antenna(build, gate)
    trip = _trip() if paper else None
    stages = [
        _stage(gate, 1, "Power off", before(gate), _readings(gate)),
        _stage(gate, 2, "Power on", head(build, gate), _volts(gate), trip),
    ]
    if gate.closing:
        stages.append(_stage(gate, 3, "Battery alone, without limiter", battery_alone(build, gate)))
    stages.append(_stage(gate, len(stages) + 1, "Power off again", end(gate)))
    return (*((antenna,) if antenna is not None else ()), facts, limiter(gate), *stages)


def _expected(gate: Gate) -> Cell:
    """The band of the current once all has started; nothing is made up for what nobody says."""
    taken = gate.power
    if taken.low is None or taken.high is None:
        who = f": draw of {', '.join(taken.unknown)}" if taken.unknown else ""
        return Cell((Span(f"not known{who}; note it"),))
    return Cell((number(taken.low), Span(" to "), number(taken.high)))


def _trip() -> Notice:
    text = (
        "Do not raise the limit. Wait until plus to minus reads under 1 V. Then look for the warm"
        " spot without touching it, repeat the beep test of this gate, and look for bridges under a"
        " lens."
    )
    return Notice(
        Signal.CAUTION,
        "If the limit trips, or something warms or smells, take the power off.",
        (Span(text),),
    )


def _without_supply(sheet: SheetInput) -> tuple[Block, ...]:
    """What holds at every gate where the battery feeds it through a limiter."""
    names = sheet.build.packs
    smallest = smallest_pack(sheet.build)
    which = f"battery '{smallest}'" if len(names) > 1 else "the battery"
    lines = (
        (
            "Limiter: a lamp, a resettable fuse or the like in the plus lead, between two plugs of"
            " the battery's kind."
        ),
        (
            f"Use {which} at storage charge, outside or on ground that cannot burn, in view all the"
            " time."
        ),
        (
            "Replace 'output on' by plugging in, 'supply off' by unplugging. All other lines of a"
            " gate hold."
        ),
        (
            "Never bridge the limiter, and never take a larger one, before you saw what the gate"
            " expects."
        ),
        (
            "If the lamp stays lit or the limiter gets warm, unplug the battery. There is a short"
            " or a wrong wire."
        ),
    )
    return (
        Paragraph((Span("Without a bench supply: a series limiter", strong=True),)),
        Bullets(tuple((Span(line),) for line in lines)),
    )


def first_power_up(sheet: SheetInput, *, paper: bool = False) -> Section:
    """All gates in order."""
    gates = sheet.results.gates
    if not gates:
        return Section("first-power-up", "First power-up", ())
    intro: tuple[Block, ...] = (
        Notice(
            Signal.WARNING,
            "Propellers off until the last gate has passed.",
            (
                Span(
                    "A motor that starts by itself cuts to the bone. Local rules and licensed"
                    " practice come first."
                ),
            ),
        ),
        Paragraph(
            (
                Span(
                    "Use a bench supply with a current limit, or a series limiter in the battery lead."
                    " Leave connected what has passed. Switch the supply off before you touch anything."
                ),
            )
        ),
        Bullets(
            (
                (
                    Span(
                        "Each gate begins and ends with the power off. "
                        "Between gates, power goes on only where a step names it."
                    ),
                ),
                (
                    Span(
                        "No ohms, no iron, no finger on a board that has power or a charged capacitor."
                    ),
                ),
                (Span("A minute here can save a board."),),
                (
                    Span(
                        "Each current limit is 1.5 times the starting loads of its gate plus 0.1 A, at"
                        " least 0.3 A."
                    ),
                ),
            )
        ),
        *_without_supply(sheet),
    )
    parts = []
    for g in gates:
        anchor, title = f"gate-{g.letter.casefold()}", f"Gate {g.letter}: {g.title}"
        parts.append(Section(anchor, title, gate_blocks(sheet, g, paper=paper), 3))
    if not paper:
        intro = (*intro, _trip())
    return Section("first-power-up", "First power-up", (*intro, *parts))
