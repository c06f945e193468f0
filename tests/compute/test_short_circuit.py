"""A dead short at the end of the battery leads: its current against nodal analysis by NumPy of the
whole loop, what melts first against the heat of copper, and what is said where nothing known does.

Copper: 8.96 g/cm3, 0.385 J/gK at 20 °C rising to 0.47 at the melting point, 1.72e-8 Ωm with 0.00393 a
kelvin, melting at 1083 °C (CRC Handbook, from memory). The heat is summed step by step; Onderdonk's
equation is a closed form that others fitted to tests.
"""

import random
from collections.abc import Sequence
from math import exp, pi

import numpy as np
import pytest

from builder.compute.figures.figure import Figure
from builder.compute.power.short_circuit import ShortCircuit
from builder.pages.blocks import Cell
from builder.pages.tables.short_circuit_words import short_circuit_words
from tests.rules.rule_files import case_of

FLIES = {"flying-motor": {"count": "4"}, "propeller": {"count": "4"}, "frame": {}, "esc": {}}
CELL = 0.004 * exp(
    2000 * (1 / 290.65 - 1 / 298.15)
)  # Ω: 4 mΩ at 25 °C, flown at 17.5 °C on average
LEAD, LEAD_LONG = 12, 90  # AWG and mm of the lead on each battery
Wire = tuple[str, str, int, int]  # from, to, AWG, mm


def _short(
    wires: Sequence[Wire], cells: str = "4S", resistance: str = "4 mohm", **use: str
) -> ShortCircuit:
    lines = [
        {"from": a, "to": b, "gauge": f"{awg} AWG", "length": f"{long} mm"}
        for a, b, awg, long in wires
    ]
    lead = {"lead_gauge": f"{LEAD} AWG", "lead": f"{LEAD_LONG} mm"}
    pack = {**lead, "cells": cells, "resistance": {"measured": resistance}}
    build = {"packs": {"p": {"use": "pack", **use}}, "setup": {"style": {"factor": "1.2"}}}
    case = case_of({"wires": lines, "shelf": {"pack": pack}, "parts": FLIES, "build": build})
    found = case.results.path.short
    assert found is not None
    return found


def _area(awg: int) -> float:
    """ASTM B258: diameter 0.127 mm x 92^((36 - n) / 39)."""
    return pi / 4 * float((0.127e-3 * 92 ** ((36 - awg) / 39)) ** 2)


def _ohms(awg: int, mm: int) -> float:
    """Stranded copper at 60 °C: 5 % more way, as the project's own table says."""
    return 1.05 * 1.7241e-8 * (1 + 0.00393 * 40) / _area(awg) * mm / 1000


def _by_numpy(wires: Sequence[Wire], cells: int) -> list[tuple[Wire, float]]:
    """Current of each wire with BAT+ and BAT- joined: nodes are contacts, each battery a source of
    4.2 V a cell behind its cells, leads and contacts (CELL a cell, 0.7 mΩ a pair of contacts).
    """
    plugs = sorted({end.rpartition(".")[0] for w in wires for end in w[:2] if "pigtail" in end})
    nodes = {"esc.BAT+": 0, "esc.BAT-": 0}  # shorted: one node, at 0 V
    for plug in plugs:
        for pole in ("PLUS", "MINUS"):
            nodes[f"{plug}.{pole}"] = len(set(nodes.values()))
    count = len(set(nodes.values()))
    g, right = np.zeros((count, count)), np.zeros(count)

    def conductance(a: int, b: int, ohms: float) -> None:
        for one, other in ((a, b), (b, a)):
            g[one, one] += 1 / ohms
            g[one, other] -= 1 / ohms

    for a, b, awg, mm in wires:
        conductance(nodes[a], nodes[b], _ohms(awg, mm))
    inner = cells * CELL + 2 * _ohms(LEAD, LEAD_LONG) + 2 * 0.0007
    for plug in plugs:
        minus, plus = nodes[f"{plug}.MINUS"], nodes[f"{plug}.PLUS"]
        conductance(minus, plus, inner)
        right[plus] += cells * 4.2 / inner
        right[minus] -= cells * 4.2 / inner
    volts = np.zeros(count)
    volts[1:] = np.linalg.solve(g[1:, 1:], right[1:])
    return [(w, abs(volts[nodes[w[0]]] - volts[nodes[w[1]]]) / _ohms(*w[2:])) for w in wires]


def _into_board(currents: Sequence[tuple[Wire, float]]) -> float:
    return sum(amperes for wire, amperes in currents if wire[1] == "esc.BAT+")


def _seconds(awg: int, amperes: float) -> float:
    """Heat kept in the copper until it melts, in steps of 1 K."""
    total, area = 0.0, _area(awg)
    for warm in range(25, 1083):
        heat = 8960 * (385 + (470 - 385) * (warm - 20) / 1063)
        total += heat * area * area / (amperes**2 * 1.724e-8 * (1 + 0.00393 * (warm - 20)))
    return total


def _one(gauges: tuple[int, int], mm: int = 80) -> list[Wire]:
    return [
        ("pigtail.PLUS", "esc.BAT+", gauges[0], mm),
        ("pigtail.MINUS", "esc.BAT-", gauges[1], mm),
    ]


def test_by_hand() -> None:
    """16.8 V behind 19.02 mΩ of cells, 90 mm of 12 AWG twice, two pairs of contacts, 80 mm of 14 AWG
    twice. 12 AWG has 5.21 mΩ/m at 20 °C, 14 AWG 8.28 (ASTM B258 with IACS copper); at 60 °C 1.157
    times that, and 5 % for the strands: 1.215 times. 0.01902 + 0.00114 + 0.0014 + 0.00161 = 0.02317 Ω.
    """
    short = _short(_one((14, 14)))
    assert isinstance(short.current, Figure)
    assert short.current.value == pytest.approx(16.8 / 0.02317, rel=2e-3)
    assert short.melts == "pigtail.PLUS to esc.BAT+"  # 14 AWG before 12 AWG; both ways are alike
    assert short.after is not None
    assert short.after[0] < _seconds(14, short.current.value) * 1.25
    assert short.after[1] > _seconds(14, short.current.value) / 1.25


@pytest.mark.parametrize(
    ("cells", "use", "wires"),
    [
        (4, {}, _one((14, 12))),
        (4, {}, _one((20, 16), 120)),
        (4, {}, [*_one((14, 12)), ("pigtail.PLUS", "esc.BAT+", 14, 80)]),
        (4, {}, [*_one((14, 12)), ("pigtail.PLUS", "esc.BAT+", 18, 200)]),
        (
            2,
            {"series": "2"},
            [
                ("pigtail.1.PLUS", "esc.BAT+", 14, 80),
                ("pigtail.1.MINUS", "pigtail.2.PLUS", 16, 45),
                ("pigtail.2.MINUS", "esc.BAT-", 14, 110),
            ],
        ),
        (
            4,
            {"parallel": "2"},
            [
                (f"pigtail.{n}.{pole}", f"esc.BAT{sign}", 14, 80)
                for n in (1, 2)
                for pole, sign in (("PLUS", "+"), ("MINUS", "-"))
            ],
        ),
    ],
    ids=("one", "thin", "two alike", "two unlike", "series", "parallel"),
)
def test_the_current_is_that_of_numpy(cells: int, use: dict[str, str], wires: list[Wire]) -> None:
    short = _short(wires, f"{cells}S", **use)
    currents = _by_numpy(wires, cells)
    assert isinstance(short.current, Figure)
    assert short.current.value == pytest.approx(_into_board(currents), rel=0.01)


def _unlike(seed: int) -> list[Wire]:
    """Two batteries side by side, by leads of any gauge and length."""
    rolls = random.Random(seed)
    poles = (("PLUS", "+"), ("MINUS", "-"))
    return [
        (f"pigtail.{n}.{pole}", f"esc.BAT{sign}", rolls.choice((12, 14, 16, 18)), long)
        for n in (1, 2)
        for pole, sign in poles
        for long in (rolls.randint(40, 250),)
    ]


@pytest.mark.parametrize("seed", range(12))
def test_what_melts_first_is_what_the_heat_of_copper_says(seed: int) -> None:
    """Unlike leads share the current by their resistance: the thinnest need not be the first."""
    wires = _unlike(seed)
    short, currents = _short(wires, parallel="2"), _by_numpy(wires, 4)
    assert isinstance(short.current, Figure)
    assert short.current.value == pytest.approx(_into_board(currents), rel=0.05)
    times = {f"{w[0]} to {w[1]}": _seconds(w[2], amperes) for w, amperes in currents}
    times["lead of battery p"] = _seconds(LEAD, _into_board(currents) / 2)
    assert short.after is not None
    near = [name for name, seconds in times.items() if seconds < 1.1 * min(times.values())]
    assert short.melts in near
    assert short.after[0] / 1.4 < times[short.melts] < short.after[1] * 1.4


def test_a_thin_wire_beside_a_thick_one_carries_its_share_only() -> None:
    """The thin wire is ten times as long: it carries little, and the other one melts first."""
    wires = [*_one((14, 12)), ("pigtail.PLUS", "esc.BAT+", 22, 600)]
    assert _short(wires).melts == "pigtail.PLUS to esc.BAT+"
    currents = _by_numpy(wires, 4)
    times = [_seconds(w[2], amperes) for w, amperes in currents]
    after = _short(wires).after
    assert after is not None
    assert after[0] / 1.4 < min(times) < after[1] * 1.4


def _text(cell: Cell | None) -> str:
    assert cell is not None
    return "".join(str(getattr(part, "text", part)) for part in cell.pieces)


def test_what_bears_it_for_ten_seconds_is_not_said_to_melt() -> None:
    """A weak battery of one cell with 60 mΩ drives under 70 A into 12 AWG, which bears some
    300 A for ten seconds by the heat of copper.
    """
    assert _seconds(12, 300.0) == pytest.approx(10.0, rel=0.25)
    weak = _short(_one((12, 12)), "1S", resistance="60 mohm")
    assert isinstance(weak.current, Figure)
    assert weak.current.value < 80.0
    assert (weak.melts, weak.after, weak.untold) == ("", None, ())


def test_a_wire_of_unknown_gauge_is_not_said_to_hold() -> None:
    known = _short(_one((12, 12)))
    assert isinstance(known.current, Figure)
    silent = ShortCircuit("p", known.current, "", None, ("a to b",))
    assert "what melts first is not known; gauge not known: a to b" in _text(
        short_circuit_words(silent)
    )
    sure = ShortCircuit("p", known.current, "", None)
    assert "no lead melts within seconds" in _text(short_circuit_words(sure))
    melts = ShortCircuit("p", known.current, "x", (0.5, 1.0), ("a to b",))
    assert _text(short_circuit_words(melts)).endswith("s; gauge not known: a to b")
