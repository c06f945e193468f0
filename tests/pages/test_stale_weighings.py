"""A weighing says what the aircraft went through since, and an alarm the current that it is for."""

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

from builder.compute.figures.figure import Figure
from builder.pages.blocks import Cell, Number, Row, Span, Table
from builder.pages.sections.flight import flight_section
from builder.pages.sections.weight import weight
from builder.pipeline.check import Checked, judged_alone
from tests.compute.small_workspace import one_build

SHELF = """
f: {kind: frame, name: F, mass: {measured: 100.0 g}}
b: {kind: buzzer, name: B, mass: {measured: 4.0 g}}
"""
WEIGHED = "title: T\nparts: {f: f, b: b}\nweighed: [{what: dry, mass: 100.9 g%s}]\n%s"
FITTED = "changes: [{date: 2026-02-01, text: Buzzer on., added: [b]}]\n"
CRASH = "incidents: [{date: 2026-02-01, what: Hit a post., replaced: [f]}]\n"


def _walk(value: object) -> Iterator[object]:
    yield value
    if isinstance(value, tuple):
        for inner in value:
            yield from _walk(inner)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _walk(getattr(value, field.name))


def _words(cell: Cell) -> str:
    told = (p.text if isinstance(p, Span) else f"{p.value} {p.unit}" for p in cell.pieces)  # type: ignore[union-attr]
    return "".join(told)


@pytest.mark.parametrize(
    ("day", "more", "said"),
    [
        (", date: 2026-01-01", FITTED, "out of date, carried on with what is known of"),
        (", date: 2026-01-01", CRASH, "no grams are noted: 2026-02-01: Hit a post."),
        (", date: 2026-03-01", FITTED, ""),
        (", date: 2026-03-01", CRASH, ""),
        ("", FITTED, "no day noted: no change of the aircraft was added to it"),
        ("", CRASH, "no day noted: no change of the aircraft was added to it"),
        ("", "", ""),
    ],
)
def test_a_weighing_says_what_changed_since(day: str, more: str, said: str) -> None:
    section = weight(judged_alone(one_build(SHELF, WEIGHED % (day, more))))
    tables = [t for t in _walk(section) if isinstance(t, Table)]
    (table,) = [t for t in tables if t.anchor == "reconciliation"]
    (note,) = [row.cells[0].note for row in table.rows]
    assert said in note if said else note == ""


@pytest.mark.parametrize("name", ["curlew", "dipper", "redshank"])
def test_alarms_are_printed_with_their_current_the_wait_and_what_is_left(
    demo: Checked, name: str
) -> None:
    """5 s: common practice, no source. Each battery has its column."""
    sheet = demo.sheets[name]
    rows = {
        _words(row.cells[0]): row.cells[1:]
        for row in _walk(flight_section(sheet))
        if isinstance(row, Row)
    }
    packs = tuple(sheet.results.flight.packs.values())
    assert len(rows["Alarm on volts"]) == len(rows["Timer"]) == len(packs)
    for pack, alarm, timer in zip(packs, rows["Alarm on volts"], rows["Timer"], strict=True):
        of = pack.reserve
        volts, current, share, left = of.volts, of.current, of.share, of.left_at_timer
        assert isinstance(volts, Figure) and isinstance(current, Figure)
        assert isinstance(share, Figure) and isinstance(left, Figure)
        read = re.fullmatch(
            r"([\d.]+) V at ([\d.]+) A, held 5 s; ([\d.]+) % left then", _words(alarm)
        )
        assert read, _words(alarm)
        assert float(read[1]) == pytest.approx(volts.value, abs=0.06)
        assert float(read[2]) == pytest.approx(current.value, rel=0.06)
        assert float(read[3]) == pytest.approx(100 * share.value, abs=0.6)
        then = re.search(r"; ([\d.]+) % left then", _words(timer))
        assert then and float(then[1]) == pytest.approx(100 * left.value, abs=0.6)
        assert any(isinstance(p, Number) and p.anchor for p in alarm.pieces)
