"""Pinout, serial ports and wires to cut."""

import pytest

from builder.compute.circuit.pinout import IEC_60757, letters
from builder.compute.compute import compute
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build

# IEC 60757:2021, letter codes for colours (as copied from the standard's table).
STANDARD = [
    "BK",
    "BN",
    "RD",
    "OG",
    "YE",
    "GN",
    "BU",
    "VT",
    "GY",
    "WH",
    "PK",
    "GD",
    "TQ",
    "SR",
    "GNYE",
]

SHELF = """
fc:
  kind: flight-controller
  name: Board
  edges:
    left: [GND, 5V, RX1]
    right: [TX1]
    rear: [LED]
    under: {left: [X]}
  sockets: {J: {seen: 'into the mating face, latch down', contacts: [A, B]}}
  pads:
    LED: {role: light-out}
    X: {role: ring}
    A: {role: ring}
    B: {role: ring}
    TX1: {role: sends, serial: 1}
    RX1: {role: listens, serial: 1}
    5V: {role: supply}
    GND: {role: ground}
    NOWHERE: {role: ring}
rx: {kind: receiver, name: Receiver, pads: {TX: {role: sends}, RX: {role: listens}, GND: {role: ground}}}
"""
BUILD = """
title: T
parts: {fc: fc, rx: rx}
wires:
  - {from: rx.TX, to: fc.RX1, colour: white, gauge: 28 AWG, length: 50 mm}
  - {from: rx.RX, to: fc.TX1, colour: White, gauge: 28 AWG, length: 70 mm}
  - {from: rx.GND, to: fc.GND, colour: black, gauge: 28 AWG, length: 60 mm}
  - {from: rx.GND, to: fc.GND, colour: black, gauge: 26 AWG, length: 10 mm}
  - {from: rx.GND, to: fc.GND, lead: fitted, trim_to: 12 mm}
setup: {serial: [{port: 1, serves: rx, speaks: plain frames}]}
"""


def test_colour_letters_are_those_of_the_standard() -> None:
    assert set(IEC_60757.values()) == set(STANDARD)
    assert letters("Red") == "RD"
    assert letters("mauve") == ""


def test_contacts_stand_in_physical_order() -> None:
    """Left and right edge from top to bottom, rear from left to right, then the underside, sockets,
    and the rest.
    """
    made = one_build(SHELF, BUILD)
    board = next(b for b in compute(made).pinout.boards if b.board == "fc")
    listed = [(r.contact.pad, r.place) for r in board.rows]
    assert listed == [
        ("GND", "left edge"),
        ("5V", "left edge"),
        ("RX1", "left edge"),
        ("TX1", "right edge"),
        ("LED", "rear edge"),
        ("X", "underside, left edge"),
        ("B", "J, contact 1"),
        ("A", "J, contact 2"),
        ("NOWHERE", ""),
    ]


def test_each_contact_names_every_wire_that_ends_there() -> None:
    board = next(b for b in compute(one_build(SHELF, BUILD)).pinout.boards if b.board == "fc")
    ends = {r.contact.pad: [str(o) for o in r.others] for r in board.rows}
    assert ends["GND"] == ["rx.GND", "rx.GND", "rx.GND"]
    assert ends["RX1"] == ["rx.TX"]
    assert ends["LED"] == []


def test_the_serial_map_says_what_is_wired_and_what_is_set() -> None:
    (line,) = compute(one_build(SHELF, BUILD)).pinout.serial
    assert (line.board, line.port, line.serves, line.set_to, line.speaks) == (
        "fc",
        1,
        ("rx",),
        "rx",
        "plain frames",
    )
    assert line.sends == "TX1 to rx.RX"
    assert line.listens == "RX1 to rx.TX"


def test_wires_to_cut_by_gauge_and_colour_with_totals() -> None:
    cuts = {(c.gauge, c.colour): c for c in compute(one_build(SHELF, BUILD)).pinout.cuts}
    white = cuts[("28 AWG", "white")]
    assert white.total == pytest.approx(0.120)
    assert [length for length, _ in white.pieces] == [0.07, 0.05]
    assert white.letters == "WH"
    assert cuts[("28 AWG", "black")].total == pytest.approx(0.060)
    assert cuts[("26 AWG", "black")].total == pytest.approx(0.010)
    assert len(cuts) == 3


def test_the_cut_list_holds_every_wire_that_is_cut_once(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        listed = sum(len(c.pieces) for c in sheet.results.pinout.cuts)
        wanted = [r for r in sheet.build.wires if r.wire.lead is None and r.wire.length is not None]
        assert listed == len(wanted)
        total = sum(c.total for c in sheet.results.pinout.cuts)
        assert total == pytest.approx(
            sum(r.wire.length.value for r in wanted if r.wire.length is not None)
        )


def test_every_wire_is_in_the_pinout_of_both_its_boards(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        rows = {r.contact: r for b in sheet.results.pinout.boards for r in b.rows}
        for run in sheet.build.wires:
            assert run.end in rows[run.start].others
            assert run.start in rows[run.end].others
