"""First power-up in gates: nothing goes on before its gate has passed."""

from builder.compute.gate_readings import Reading
from builder.compute.power_gates import Gate
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
from builder.pages.numbers import number, rounded
from builder.pages.sheet_input import SheetInput
from builder.rules.cautions import CAUTIONS


def _between(reading: Reading) -> Cell:
    """Two contacts, or an edge with its contacts in their order."""
    first, second = reading.between
    if " " in second:
        return Cell((Span(first),), note=second)
    return Cell((Span(f"{first} to {second}", code=True),))


def _readings(gate: Gate) -> Table | None:
    before = ("", *(r.why for r in gate.readings))  # a reason that was just read is not said again
    rows = tuple(
        Row(
            (
                _between(r),
                Cell((Span(r.expect),), note=r.why if r.why != before[i] else ""),
                Cell((WriteIn(f"gate-{gate.letter}-r{i}", "read", "Ω"),)),
                Cell((Tick(f"gate-{gate.letter}-t{i}", "passed"),)),
            )
        )
        for i, r in enumerate(gate.readings)
    )
    if not rows:
        return None
    return Table(
        "Pack away: ring and measure first",
        (Column("Between"), Column("Expected"), Column("Read"), Column("Passed", align="centre")),
        rows,
        stack=True,
    )


def _volts(gate: Gate) -> Table | None:
    rows = tuple(
        Row(
            (
                Cell((Span(v.contact, code=True),)),
                Cell((Span(f"{rounded(v.nominal, 2)} V"),)),
                Cell(
                    (
                        WriteIn(
                            f"gate-{gate.letter}-v{i}", "read", "V", f"{rounded(v.low, 2)} to {rounded(v.high, 2)} V"
                        ),
                    )
                ),
                Cell((Tick(f"gate-{gate.letter}-vt{i}", "passed"),)),
            )
        )
        for i, v in enumerate(gate.volts)
    )
    if not rows:
        return None
    return Table(
        "Power on: volts",
        (Column("Contact"), Column("Nominal", align="right"), Column("Read"), Column("Passed", align="centre")),
        rows,
        stack=True,
    )


def _antenna(build: Build, gate: Gate) -> Notice | None:
    """The notice about antennas, at the gate that first puts power on a video transmitter."""
    if not any(isinstance(build.parts[p.split(".")[0]].part, VideoTransmitter) for p in gate.parts):
        return None
    caution = next(c for c in CAUTIONS if c.key == "antenna")
    return Notice(caution.signal, caution.title, (Span(f"It gets power here for the first time. {caution.text}"),))


def gate_blocks(sheet: SheetInput, gate: Gate, *, paper: bool = False) -> tuple[Block, ...]:
    """One gate: readings, limit, volts; on paper what to do when the limit trips, which a screen says once."""
    supply = f"{rounded(gate.supply_low, 1)} V" if gate.supply_low is not None else "the pack's nominal volts"
    facts = Facts(
        (
            ("Connected", Cell((Span(gate.connected),))),
            ("Supply set to", Cell((Span(supply),))),
            ("Current limit", Cell((number(gate.limit),))),
            ("Without moving air", Cell((Span(f"at most {rounded(gate.dwell, 0)} s"),))),
        )
    )
    antenna = _antenna(sheet.build, gate)
    made = (antenna, _readings(gate), facts, _volts(gate), _trip() if paper else None)
    return tuple(b for b in made if b is not None)


def _trip() -> Notice:
    text = "Feel and smell for the warm spot, ring the contacts of this gate again, and look for bridges under a lens."
    return Notice(
        Signal.CAUTION,
        "The limit trips or something warms: take power off, do not raise the limit.",
        (Span(text),),
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
            (Span("A motor that starts unasked cuts to the bone. Local rules and licensed practice come first."),),
        ),
        Paragraph(
            (
                Span(
                    "Use a bench supply with a current limit, or a series limiter in the battery lead. What passed a gate "
                    "stays on at the next."
                ),
            )
        ),
        Bullets(
            (
                (Span("Ring first with the pack away, then power on, then measure volts, then go on."),),
                (
                    Span(
                        "A lead on the wrong contact shows here for the price of a minute, later for the price of a board."
                    ),
                ),
                (Span("Each current limit is 1.5 times the starting loads of its gate plus 0.1 A, at least 0.3 A."),),
            )
        ),
    )
    parts = [
        Section(f"gate-{g.letter.casefold()}", f"Gate {g.letter}: {g.title}", gate_blocks(sheet, g, paper=paper), 3)
        for g in gates
    ]
    if not paper:
        intro = (*intro, _trip())
    return Section("first-power-up", "First power-up", (*intro, *parts))
