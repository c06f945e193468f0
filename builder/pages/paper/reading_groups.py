"""The readings of a gate on paper: those that expect the same for the same reason stand together, so
that both are read once.
"""

from dataclasses import replace
from itertools import pairwise

from builder.compute.power_up.gate import Gate
from builder.compute.power_up.gate_readings import GateReading
from builder.pages.blocks import Cell, Column, Row, Span, Table, Tick, WriteIn
from builder.pages.rows import table_columns, table_row
from builder.pages.work.reading_words import expected_words, reason_words, suspect_words

_LOOK = "If it reads otherwise, look at"
_ENDS = ", each wire end to end"
_HALF = 36  # letters for which there is room in half a row
_HEADS = table_columns("Between", _LOOK, "Read", Column("Passed", align="centre"))


def _said(reading: GateReading) -> str:
    """What is expected and why, without the joints that a wrong reading points to."""
    why = reason_words(replace(reading, suspects=()), meter=False)
    words = f"{expected_words(reading)}: {why}" if why else expected_words(reading)
    return f"{words[:1].upper()}{words[1:]}."


def _look_at(reading: GateReading) -> str:
    return suspect_words(reading.suspects).removeprefix(f"{_LOOK}: ")


def _without_board(first: str, second: str) -> tuple[str, str]:
    """The ends of the wires of one part, with the board that all of them lead to said once."""
    ends = [pair.partition(" to ") for pair in second.split(", ")]
    boards = {far.rpartition(".")[0] for _, _, far in ends}
    if len(boards) != 1 or not all(boards) or not first.endswith(_ENDS):
        return first, second
    board = boards.pop()
    pairs = ", ".join(f"{near} to {far.rpartition('.')[2]}" for near, _, far in ends)
    return f"{first.removesuffix(_ENDS)} to {board}, end to end", pairs


def _words_of(reading: GateReading, look: str) -> tuple[Cell, Cell]:
    """Where the probes go, and where to look. A long list of contacts takes the room of both."""
    first, second = _without_board(*reading.between)
    if " " not in second:
        return Cell((Span(f"{first} to {second}", code=True),)), Cell((Span(look),))
    if look:
        return Cell((Span(f"{first}: {second}"),)), Cell((Span(look),))
    return Cell((Span(first),)), Cell((Span(second),))


def _boxes(letter: str, at: int, reading: GateReading) -> tuple[WriteIn, Tick]:
    """Where a reading is written and ticked: a line for each of those that have to be alike."""
    count = len(reading.pairs) if "equal" in reading.expect else 1
    write = WriteIn(f"gate-{letter}-r{at}", "read", "Ω", count=max(count, 1))
    return write, Tick(f"gate-{letter}-t{at}", "passed")


def _row(letter: str, at: int, reading: GateReading, look: str) -> Row:
    write, box = _boxes(letter, at, reading)
    return table_row(*_words_of(reading, look), write, box)


def _row_of_two(letter: str, one: tuple[int, GateReading], two: tuple[int, GateReading]) -> Row:
    """Two readings beside each other, where none has more to say than where the probes go."""
    first, second = (_one_cell(reading) for _, reading in (one, two))
    write, box = _boxes(letter, *one)
    beside = Cell((write, Span(" "), box, Span("\u2003"), *second.pieces))
    return table_row(first, beside, *_boxes(letter, *two))


def _one_cell(reading: GateReading) -> Cell:
    """Where the probes go, in one piece: `esc, left edge: M1A M1B`."""
    first, second = _without_board(*reading.between)
    joint = " to " if " " not in second else ": "
    return Cell((Span(f"{first}{joint}{second}"),))


def _is_short(reading: GateReading) -> bool:
    words = "".join(p.text for p in _one_cell(reading).pieces if isinstance(p, Span))
    return len(words) <= _HALF


def _rows(letter: str, found: list[tuple[int, GateReading]], looks: list[str]) -> list[Row]:
    """A row a reading, or two that say no more than their contacts."""
    rows = []
    at = 0
    while at < len(found):
        pair, told = found[at : at + 2], looks[at : at + 2]
        if len(pair) == 2 and not any(told) and all(_is_short(r) for _, r in pair):
            rows.append(_row_of_two(letter, *pair))
            at += 2
        else:
            rows.append(_row(letter, *found[at], looks[at]))
            at += 1
    return rows


def _group(letter: str, words: str, found: list[tuple[int, GateReading]]) -> list[Row]:
    """A heading with what all of a group expect, then its readings."""
    looks = [_look_at(r) for _, r in found]
    alike = len(set(looks)) == 1 and len(looks) > 1 and looks[0]
    if alike:
        words += f" {_LOOK}: {looks[0]}."
        looks = [""] * len(looks)
    told = ["as above" if look and look == last else look for last, look in pairwise(("", *looks))]
    return [table_row(words, kind="group"), *_rows(letter, found, told)]


def grouped_readings(gate: Gate) -> Table | None:
    """All readings of a gate with the power off; None for a gate without."""
    groups: dict[str, list[tuple[int, GateReading]]] = {}
    for at, reading in enumerate(gate.readings):
        groups.setdefault(_said(reading), []).append((at, reading))
    rows = [row for words, found in groups.items() for row in _group(gate.letter, words, found)]
    return Table("", _HEADS, tuple(rows)) if rows else None
