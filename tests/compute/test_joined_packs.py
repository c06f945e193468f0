"""Two batteries in series are one battery of twice the cells; two side by side are one of twice the
charge and half the resistance. So a build that says either has to be computed and judged as one that
flies on that battery: volts, charge, sag, time, rails, limits, gates.

Currents of leads are held against nodal analysis by NumPy on generated leads.
"""

import random
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import PackFlight
from builder.compute.loops.shares import copper_ohms
from builder.model.values.measures import Gauge
from builder.rules.judge import judge
from builder.rules.rule import Case
from tests.rules.rule_files import case_of

ONE = {"parts": {"flying-motor": {"count": "4"}, "propeller": {"count": "4"}, "frame": {}}}
WIRES = [
    {"from": "pigtail.PLUS", "to": "esc.BAT+", "gauge": "14 AWG", "length": "80 mm"},
    {"from": "pigtail.MINUS", "to": "esc.BAT-", "gauge": "14 AWG", "length": "80 mm"},
    "esc.JBAT to board.VIN",
    "esc.JGND to board.GND1",
    "camera.5V to board.5V1",
    "camera.GND to board.GND2",
]
SETUP = {"style": {"factor": "1.2"}, "alarms": [{"pack": "p", "volts": "13.2 V"}]}
PACK = {"mass": "100 g", "capacity": "1500 mAh", "cells": "2S", "landing": "3.4 V"}


def _case(pack: Mapping[str, Any], use: Mapping[str, str]) -> Case:
    build = {"packs": {"p": {"use": "pack", **use}}, "setup": SETUP}
    return case_of({**ONE, "wires": WIRES, "shelf": {"pack": dict(pack)}, "build": build})


def _values(flown: PackFlight) -> dict[str, float]:
    found = {**vars(flown), **vars(flown.energy), **vars(flown.reserve), **vars(flown.hover)}
    return {k: v.value for k, v in found.items() if isinstance(v, Figure)}


def _said(case: Case) -> dict[str, str]:
    """What each rule answers; those that look at a battery itself are asked about another one."""
    answers = judge(case).answers
    return {a.rule.code: a.answer for a in answers if a.rule.family not in ("pack", "data")}


@pytest.mark.parametrize(
    ("one", "use"),
    [
        ({"mass": "200 g", "cells": "4S"}, {"series": "2"}),
        ({"mass": "200 g", "cells": "2S2P", "capacity": "3000 mAh"}, {"parallel": "2"}),
        (
            {"mass": "400 g", "cells": "4S2P", "capacity": "3000 mAh"},
            {"series": "2", "parallel": "2"},
        ),
        ({"mass": "300 g", "cells": "6S"}, {"series": "3"}),
    ],
    ids=("series", "parallel", "both", "three in series"),
)
def test_joined_batteries_are_one_battery(one: dict[str, str], use: dict[str, str]) -> None:
    joined, single = _case(PACK, use), _case({**PACK, **one}, {})
    (found,), (expected,) = joined.results.power.packs, single.results.power.packs
    assert found == expected
    theirs = _values(single.results.flight.packs["p"])
    assert len(theirs) > 20
    ours = _values(joined.results.flight.packs["p"])
    by_band = ("timer", "left_at_timer")  # two weights scatter less than one of twice the weight
    assert {k: ours.pop(k) for k in by_band} == pytest.approx(
        {k: theirs.pop(k) for k in by_band}, rel=1e-3
    )
    assert ours == pytest.approx(theirs, rel=1e-12)
    corners, other = (
        [(c.name, c.left.value) for c in case.results.path.corners if isinstance(c.left, Figure)]
        for case in (joined, single)
    )
    assert [name for name, _ in corners] == [name for name, _ in other]
    assert [left for _, left in corners] == pytest.approx([left for _, left in other], rel=1e-12)
    assert len(corners) == 3
    fed, alone = (
        [(s.lowest, s.highest) for s in c.results.power.on_pack] for c in (joined, single)
    )
    assert fed == alone and fed
    assert _said(joined) == _said(single)


def test_series_adds_volts_and_no_charge() -> None:
    """By hand: 2 x 2S at 4.20 V are 16.8 V; landing at 3.4 V a cell are 13.6 V; 1500 mAh stay
    1500 mAh; 4 cells of 4 mΩ are 16 mΩ (Kirchhoff's laws).
    """
    (volts,) = _case(PACK, {"series": "2"}).results.power.packs
    assert (volts.series, volts.parallel) == (4, 1)
    assert volts.full == pytest.approx(16.8)
    assert volts.landing == pytest.approx(13.6)
    assert volts.capacity == pytest.approx(1.5 * 3600)
    assert volts.resistance == pytest.approx(0.016)


def test_both_batteries_are_weighed_and_paid() -> None:
    case = _case({**PACK, "price": {"each": "10.00 EUR", "seen": "2026-01-01"}}, {"series": "2"})
    (line,) = case.results.mass.packs.values()
    assert isinstance(line.line, Figure)
    assert line.line.value == pytest.approx(0.2)
    assert isinstance(case.whole.budget.packs[0].till_figure, Figure)
    assert case.whole.budget.packs[0].count == 2


def test_a_battery_of_several_strings_holds_what_is_printed_on_it() -> None:
    """6S2P with 3000 mAh on its label holds 3000 mAh, not 6000; its cells share the current."""
    cells = {**PACK, "cells": "4S2P", "capacity": "3000 mAh"}
    flown = _case(cells, {}).results.flight.packs["p"].energy.capacity
    assert isinstance(flown, Figure)
    assert 0.8 * 3 * 3600 < flown.value <= 3 * 3600


def test_spares_in_the_box_are_paid_and_do_not_fly() -> None:
    case = _case({**PACK, "price": {"each": "10.00 EUR", "seen": "2026-01-01"}}, {"count": "3"})
    line = case.results.mass.packs["p"].line
    assert isinstance(line, Figure)
    assert line.value == pytest.approx(0.1)
    assert case.whole.budget.packs[0].count == 3


# Currents of leads against NumPy.
_CELL, _OHMS_EACH = 0.004, 4 * 0.004  # Ω of a cell and of a 4S battery, as small_shelf.yaml says


def _leads(seed: int, rows: int, series: int) -> list[tuple[str, str, int, int]]:
    """Leads of random gauge and length (mm): rows of batteries in series, side by side."""
    rolls = random.Random(seed)
    out = []

    def lead(a: str, b: str) -> None:
        out.append((a, b, rolls.choice((10, 12, 14, 16)), rolls.randint(30, 300)))

    for row in range(rows):
        numbers = [row * series + i + 1 for i in range(series)]
        lead(f"pigtail.{numbers[0]}.PLUS", "esc.BAT+")
        for above, below in pairwise(numbers):
            lead(f"pigtail.{above}.MINUS", f"pigtail.{below}.PLUS")
        lead(f"pigtail.{numbers[-1]}.MINUS", "esc.BAT-")
    return out


def _by_numpy(leads: list[tuple[str, str, int, int]], count: int, ohms: float) -> list[float]:
    """Share of the current in each lead: all batteries as resistors, 1 A from BAT- to BAT+."""
    ends = [(a, b, copper_ohms(Gauge(g, None), mm / 1000)) for a, b, g, mm in leads]
    ends += [(f"pigtail.{i}.MINUS", f"pigtail.{i}.PLUS", ohms) for i in range(1, count + 1)]
    names = sorted({e for a, b, _ in ends for e in (a, b)})
    incidence = np.zeros((len(ends), len(names)))
    for row, (a, b, _) in enumerate(ends):
        incidence[row, names.index(a)], incidence[row, names.index(b)] = 1.0, -1.0
    g = np.diag([1.0 / r for _, _, r in ends])
    right = np.zeros(len(names))
    right[names.index("esc.BAT-")], right[names.index("esc.BAT+")] = 1.0, -1.0
    volts = np.linalg.lstsq(incidence.T @ g @ incidence, right, rcond=1e-13)[0]
    return [abs(x) for x in (g @ incidence @ volts)[: len(leads)]]


@pytest.mark.parametrize(
    ("seed", "rows", "series"),
    [(1, 2, 1), (2, 3, 1), (3, 2, 2), (4, 1, 3), (5, 4, 1), (6, 3, 2)],
)
def test_leads_share_as_numpy_finds(seed: int, rows: int, series: int) -> None:
    leads = _leads(seed, rows, series)
    lines = [
        {"from": a, "to": b, "gauge": f"{g} AWG", "length": f"{mm} mm"} for a, b, g, mm in leads
    ]
    cells = 12 // series // 3 or 1
    use = {"use": "pack", "series": str(series), "parallel": str(rows)}
    pack = {"cells": f"{cells}S", "mass": f"{100 // (rows * series)} g"}
    build = {"packs": {"p": use}, "setup": {"style": {"factor": "1.2"}}}
    case = case_of({**ONE, "wires": lines, "shelf": {"pack": pack}, "build": build})
    path = case.results.path
    found = {(str(w.run.start), str(w.run.end)): w.short for w in (*path.wires, *path.returns)}
    current = case.results.flight.packs["p"].peak_current
    assert isinstance(current, Figure)
    shares = _by_numpy(leads, rows * series, cells * _CELL)
    for (a, b, _, _), share in zip(leads, shares, strict=True):
        short = found[a, b]
        assert isinstance(short, Figure)
        assert short.value == pytest.approx(share * current.value, rel=1e-6), (a, b)
