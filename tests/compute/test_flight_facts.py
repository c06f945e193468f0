"""Flight against published static tests, a log with a known truth, and facts of the trade."""

import csv
from math import exp, log, pi, sqrt
from pathlib import Path
from random import Random
from statistics import fmean, median

import pytest

from builder.compute.flight.hover import MERIT_LOG_SPREAD
from builder.compute.flight.style import margins_of
from builder.compute.formulas.rotors.rotor import (
    disc_area,
    ideal_hover_power,
    shaft_power,
    small_propeller_merit,
)

pytestmark = pytest.mark.slow  # draws at random again and again

_Z80 = 1.2815515655446004
_TABLE = Path(__file__).parents[1] / "data" / "uiuc_static.csv"


def _rows() -> list[dict[str, str]]:
    lines = [line for line in _TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def test_shaft_power_equals_the_coefficients() -> None:
    """UIUC rows: P = CP ρ n³ D⁵ is the ideal power of T = CT ρ n² D⁴ over M = √(2/π) CT^1.5 / CP."""
    for row in _rows():
        ct, cp, diameter, n = (
            float(row["ct"]),
            float(row["cp"]),
            float(row["diameter_in"]) * 0.0254,
            120.0,
        )
        thrust, power = ct * 1.225 * n**2 * diameter**4, cp * 1.225 * n**3 * diameter**5
        merit = sqrt(2 / pi) * ct**1.5 / cp
        ideal = ideal_hover_power(thrust, 1.225, disc_area(diameter))
        assert shaft_power(ideal, merit) == pytest.approx(power, rel=1e-9)


def test_default_band_holds_published_propellers(capsys: pytest.CaptureFixture[str]) -> None:
    """Share of UIUC static tests, 2.5 to 5 inch, whose M lies in the default 80 % band. A wide band
    is no merit.
    """
    inside, widths = [], []
    for row in _rows():
        inches = float(row["diameter_in"])
        if not 2.5 <= inches <= 5.0:
            continue
        middle, factor = small_propeller_merit(inches * 0.0254), exp(_Z80 * MERIT_LOG_SPREAD)
        merit = sqrt(2 / pi) * float(row["ct"]) ** 1.5 / float(row["cp"])
        inside.append(middle / factor <= merit <= middle * factor)
        widths.append(factor - 1 / factor)
    share = fmean(inside)
    with capsys.disabled():
        print(
            f"\nUIUC, 2.5 to 5 inch: {100 * share:.0f} % of {len(inside)} in the band, width"
            f" {median(widths):.2f}"
        )
    assert 0.75 <= share <= 0.90


def test_style_band_covers_the_truth() -> None:
    """1,000 logs of 1 to 8 flights with a known style: the 80 % band covers it in 75 to 85 %."""
    held = 0
    for seed in range(1000):
        random = Random(seed)
        truth, count = random.uniform(1.1, 2.5), random.randint(1, 8)
        flights = tuple(truth * exp(random.gauss(0.0, 0.12)) for _ in range(count))
        mean, following = margins_of(flights)
        assert following > mean
        held += abs(fmean(log(f) for f in flights) - log(truth)) <= _Z80 * mean
    assert 750 <= held <= 850, held
