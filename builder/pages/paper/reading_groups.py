"""The readings of a gate on paper: those that expect the same for the same reason stand together, so
that both are read once.
"""

from dataclasses import replace

from builder.compute.power_up.gate_readings import GateReading
from builder.compute.power_up.power_gates import Gate
from builder.pages.blocks import Cell, Column, Row, Span, Table, Tick, WriteIn
from builder.pages.rows import table_columns, table_row
from builder.pages.work.reading_words import expected_words, reason_words, suspect_words

_LOOK = "If it reads otherwise, look at"
_HEADS = table_columns("Between", _LOOK, "Read", Column("Passed", align="centre"))


def _said(reading: GateReading) -> str:
    """What is expected and why, without the joints that a wrong reading points to."""
    why = reason_words(replace(reading, suspects=()))
    words = f"{expected_words(reading)}: {why}" if why else expected_words(reading)
    return f"{words[:1].upper()}{words[1:]}."


def _look_at(reading: GateReading) -> str:
    return suspect_words(reading.suspects).removeprefix(f"{_LOOK}: ")


def _words_of(reading: GateReading, look: str) -> tuple[Cell, Cell]:
    """Where the probes go, and where to look. A long list of contacts takes the room of both."""
    first, second = reading.between
    if " " not in second:
        return Cell((Span(f"{first} to {second}", code=True),)), Cell((Span(look),))
    if look:
        return Cell((Span(f"{first}: {second}"),)), Cell((Span(look),))
    return Cell((Span(first),)), Cell((Span(second),))


def _row(letter: str, at: int, reading: GateReading, look: str) -> Row:
    box = Tick(f"gate-{letter}-t{at}", "passed")
    write = WriteIn(f"gate-{letter}-r{at}", "read", "Ω")
    return table_row(*_words_of(reading, look), write, box)


def _group(letter: str, words: str, found: list[tuple[int, GateReading]]) -> list[Row]:
    """A heading with what all of a group expect, then its readings."""
    looks = [_look_at(r) for _, r in found]
    alike = len(set(looks)) == 1 and len(looks) > 1 and looks[0]
    if alike:
        words += f" {_LOOK}: {looks[0]}."
        looks = [""] * len(looks)
    head = table_row(words, kind="group")
    lines = zip(found, looks, strict=True)
    return [head, *(_row(letter, at, r, look) for (at, r), look in lines)]


def grouped_readings(gate: Gate) -> Table | None:
    """All readings of a gate with the power off; None for a gate without."""
    groups: dict[str, list[tuple[int, GateReading]]] = {}
    for at, reading in enumerate(gate.readings):
        groups.setdefault(_said(reading), []).append((at, reading))
    rows = [row for words, found in groups.items() for row in _group(gate.letter, words, found)]
    return Table("", _HEADS, tuple(rows)) if rows else None
