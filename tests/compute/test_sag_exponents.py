"""Full throttle on other volts: exponents fitted on some measured pairs foretell the others.

tests/data/sag_pairs.csv: 99 pairs of a small motor and a propeller at the highest common throttle
on about 7.4 and 11.1 V, from the open repository StrawsonDesign/motor_propeller_testing, commit
7031418, MIT licence, copyright its authors. Pair codes are the repository's.
"""

import csv
from math import log
from pathlib import Path
from statistics import median

import numpy as np
import pytest

from builder.compute.compare.difference import difference_of
from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.compute.flight.under_sag import CURRENT, SPEED, THRUST
from tests.compute.small_workspace import one_build, workspace

_TABLE = Path(__file__).parents[1] / "data" / "sag_pairs.csv"
ROWS = list(csv.DictReader(_TABLE.read_text("utf-8").splitlines()))
OF = {"current_%s_A": CURRENT, "thrust_%s_gf": THRUST, "rpm_%s": SPEED}


def _exponents(column: str) -> list[float]:
    out = []
    for row in ROWS:
        low, high = (float(row[column % end]) for end in ("low", "high"))
        out.append(log(high / low) / log(float(row["volts_high"]) / float(row["volts_low"])))
    return out


@pytest.mark.parametrize("column", OF)
def test_constants_are_the_middle_and_the_tenths_of_the_pairs(column: str) -> None:
    found = _exponents(column)
    assert len(found) == 99
    for due, share in zip(OF[column], (50, 10, 90), strict=True):
        assert float(np.percentile(found, share)) == pytest.approx(due, abs=0.02)


@pytest.mark.parametrize("column", OF)
def test_each_pair_left_out_in_turn(column: str) -> None:
    """The others' middle and tenths: 70 to 90 of 99 fall between the tenths, and the middle is off
    by less than volts squared would be (speed: than in step with volts).
    """
    found, inside, better = _exponents(column), 0, 0
    naive = 1.0 if column.startswith("rpm") else 2.0
    for i, own in enumerate(found):
        others = found[:i] + found[i + 1 :]
        low, high = np.percentile(others, [10, 90])
        inside += bool(low <= own <= high)
        better += abs(own - median(others)) < abs(own - naive)
    assert 70 <= inside <= 90
    assert better >= 90


TABLE = "{propeller: p, volts: %s V, rows: [{current: 2 A, thrust: 100 gf}, {current: %s A, thrust: %s gf}]}"
SHELF = """
f: {kind: frame, name: F, mass: {measured: 120.0 g}}
m: {kind: motor, name: M, mass: {measured: 10.0 g}, bench: [%s]}
p: {kind: propeller, name: P, diameter: 3 in, mass: {measured: 1.0 g}}
b: {kind: pack, name: B, chemistry: lithium-polymer, cells: 3S, capacity: 850 mAh, mass: {measured: 70.0 g}, resistance: %s}
"""
FILE = "title: T\nparts: {f: f, m: {use: m, count: 4}, p: {use: p, count: 4}}\npacks: {b: b}\n"


def test_two_tables_of_one_motor_say_their_own_exponent() -> None:
    one = TABLE % ("11.1", "10.9", "440")
    both = one + ", " + TABLE % ("7.4", "6.0", "222")
    usual, own = (
        compute(one_build(SHELF % (tables, "6 mohm"), FILE)).flight.drive.exponents
        for tables in (one, both)
    )
    assert isinstance(usual.current, Figure) and usual.current.value == 1.46
    assert isinstance(own.current, Figure) and isinstance(own.thrust, Figure)
    assert own.current.value == pytest.approx(log(10.9 / 6.0) / log(11.1 / 7.4))
    assert own.thrust.value == pytest.approx(log(440 / 222) / log(11.1 / 7.4))
    assert own.current.spread < usual.current.spread


def test_what_a_charger_reads_is_higher_and_wider_at_full_throttle() -> None:
    """From memory: some seconds of heavy load against a short pulse."""
    made = []
    for given in ("{measured: 6 mohm}", "{maker: 6 mohm}"):
        found = compute(one_build(SHELF % (TABLE % ("11.1", "10.9", "440"), given), FILE))
        made.append(found.flight.packs["b"])
    read, claimed = (m.energy for m in made)
    for e in (read, claimed):
        assert isinstance(e.resistance, Figure) and isinstance(e.heavy_resistance, Figure)
    assert read.heavy_resistance.value == pytest.approx(1.3 * read.resistance.value)  # type: ignore[union-attr]
    wide = read.heavy_resistance.spread / read.heavy_resistance.value  # type: ignore[union-attr]
    assert wide > read.resistance.spread / read.resistance.value  # type: ignore[union-attr]
    assert claimed.heavy_resistance is claimed.resistance


def test_tables_of_one_stand_share_its_error() -> None:
    """A difference of two motors on one stand is not called chance for the stand's own error."""
    spreads = []
    for name in ("", ", source: own stand"):
        rows = "rows: [{current: 1 A, thrust: 50 gf}, {current: %s A, thrust: 300 gf}]"
        tables = [f"{{propeller: p, volts: 11.1 V{name}, {rows % a}}}" for a in ("8", "9")]
        shelf = SHELF % (tables[0], "6 mohm")
        shelf += f"n: {{kind: motor, name: N, mass: {{measured: 10.0 g}}, bench: [{tables[1]}]}}\n"
        builds = workspace(
            shelf, {"a": FILE, "c": FILE.replace("use: m", "use: n")}, "title: T"
        ).builds
        a, c = (compute(builds[k]) for k in "ac")
        pair = next(
            p for p in difference_of(builds["a"], a, builds["c"], c).flight if "punch" in p.key
        )
        assert isinstance(pair.change, Figure)
        spreads.append(pair.change.spread)
    assert spreads[1] < 0.8 * spreads[0]
