"""Bench tables with few rows against the rows left out, from published static tests of small
propellers.
"""

import csv
from collections.abc import Callable
from itertools import chain, pairwise
from pathlib import Path
from statistics import median

import pytest
from scipy.interpolate import PchipInterpolator

from builder.compute.formulas.rotors.bench_table import (
    bench_current,
    bench_speed,
    bench_throttle,
)

TABLE = Path(__file__).parents[2] / "data" / "uiuc_static.csv"


def published_tests() -> dict[str, list[tuple[float, float, float]]]:
    """Thrust, power and speed of each row with a known speed, up to a factor that is common to one
    propeller.
    """
    lines = [
        line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")
    ]
    found: dict[str, list[tuple[float, float, float]]] = {}
    for row in csv.DictReader(lines):
        if row["rpm"]:
            n = float(row["rpm"])
            found.setdefault(row["propeller"], []).append(
                (float(row["ct"]) * n**2, float(row["cp"]) * n**3, n)
            )
    return {
        name: rows for name, rows in found.items() if all(a[0] < b[0] for a, b in pairwise(rows))
    }


@pytest.mark.parametrize(("every", "middle", "widest"), [(2, 0.01, 0.03), (4, 0.015, 0.06)])
def test_current_of_the_rows_left_out(
    every: int, middle: float, widest: float, capsys: pytest.CaptureFixture[str]
) -> None:
    """UIUC Propeller Data Site, rows of 12 to 45 % of full thrust that are not in the thinned
    table.

    On constant volts and at constant efficiency, current is power up to a factor.
    """
    current_misses, speed_misses = [], []
    for rows in published_tests().values():
        kept = rows[::-1][::every][::-1]
        for thrust, power, speed in rows:
            if (
                (thrust, power, speed) in kept
                or thrust < kept[0][0]
                or not 0.12 <= thrust / rows[-1][0] <= 0.45
            ):
                continue
            current = bench_current(thrust, *chain.from_iterable((t, p) for t, p, _ in kept))
            turns = bench_speed(thrust, *chain.from_iterable((t, n) for t, _, n in kept))
            current_misses.append(abs(current / power - 1.0))
            speed_misses.append(abs(turns / speed - 1.0))
    with capsys.disabled():
        print(
            f"\none row in {every} kept, {len(current_misses)} tried: current off by"
            f" {median(current_misses):.2%} in the middle, {max(current_misses):.2%} at most; speed"
            f" {max(speed_misses):.2%} at most"
        )
    assert len(current_misses) > 20
    assert median(current_misses) < middle
    assert sorted(current_misses)[int(0.9 * len(current_misses))] < widest
    assert max(speed_misses) < 0.02


def test_rows_come_back_and_the_curve_is_scipys() -> None:
    rows = ((0.2, 0.4), (1.1, 2.5), (2.5, 7.9), (4.0, 17.0))
    flat = tuple(chain.from_iterable(rows))
    thrusts, currents = zip(*rows, strict=True)
    for thrust, current in rows:
        assert bench_current(thrust, *flat) == pytest.approx(current)
        assert bench_speed(thrust, *flat) == pytest.approx(current)
        assert bench_throttle(thrust, *flat) == pytest.approx(current)
    curve = PchipInterpolator(thrusts, [i ** (2 / 3) for i in currents])
    assert bench_current(1.7, *flat) == pytest.approx(float(curve(1.7)) ** 1.5)


def test_a_rotor_that_follows_momentum_theory_is_met_exactly_by_two_rows() -> None:
    assert bench_current(1.3, 0.4, 3 * 0.4**1.5, 5.0, 3 * 5.0**1.5) == pytest.approx(3 * 1.3**1.5)
    assert bench_speed(1.3, 0.4, 900 * 0.4**0.5, 5.0, 900 * 5.0**0.5) == pytest.approx(
        900 * 1.3**0.5
    )


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (bench_current, (5.0, 0.5, 1.0, 2.0, 8.0), "does not reach that far"),
        (bench_current, (0.1, 0.5, 1.0, 2.0, 8.0), "does not reach that far"),
        (bench_current, (1.0, 0.5, -1.0, 2.0, 8.0), "negative currents"),
        (bench_current, (1.0, 0.5, 1.0), "two points"),
        (bench_speed, (1.0, 0.5, -1.0, 2.0, 8.0), "negative speeds"),
        (bench_throttle, (1.0, 0.5, 0.2, 0.5, 0.3), "rise"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
