"""Copper wire against the printed tables, the aircraft handbook's ratings, heat balances integrated
over time.
"""

import math
from collections.abc import Callable

import pytest

from builder.compute.formulas.electric.conductor import (
    awg_diameter,
    bundle_rating,
    copper_resistivity,
    resistance_per_length,
    stranded_resistance,
    wire_area,
    wire_diameter,
)
from builder.compute.formulas.electric.conductor_heat import (
    current_for_rise,
    onderdonk_current,
    wire_temperature_rise,
)
from tests.compute.formulas.solve import grown

ROOM = 293.15

# Solid annealed copper at 20 °C: ASTM B258 sizes with IACS copper; 12 to 30 AWG agree with the
# printed table. AWG, mm, mm², Ω/km.
WIRES = [
    (10, 2.588, 5.261, 3.277),
    (12, 2.053, 3.309, 5.211),
    (14, 1.628, 2.081, 8.286),
    (16, 1.291, 1.309, 13.17),
    (18, 1.024, 0.8231, 20.95),
    (20, 0.8118, 0.5176, 33.31),
    (22, 0.6438, 0.3255, 52.96),
    (24, 0.5106, 0.2047, 84.22),
    (26, 0.4049, 0.1288, 133.9),
    (28, 0.3211, 0.08098, 212.9),
    (30, 0.2546, 0.05093, 338.6),
]


@pytest.mark.parametrize(("gauge", "millimetres", "area", "ohms"), WIRES)
def test_wire_table(gauge: float, millimetres: float, area: float, ohms: float) -> None:
    diameter = awg_diameter(gauge)
    assert diameter * 1e3 == pytest.approx(millimetres, rel=5e-4)
    assert wire_area(diameter) * 1e6 == pytest.approx(area, rel=5e-4)
    assert resistance_per_length(wire_area(diameter), ROOM) * 1e3 == pytest.approx(ohms, rel=5e-4)


def test_gauges_that_the_standard_defines() -> None:
    """ASTM B258: No. 36 is 0.0050 in, No. 0000 is 0.4600 in, and 39 steps lie between."""
    assert awg_diameter(36) == pytest.approx(0.0050 * 0.0254)
    assert awg_diameter(-3) == pytest.approx(0.4600 * 0.0254)
    assert awg_diameter(20) / awg_diameter(26) == pytest.approx(
        2.005, abs=1e-3
    )  # six gauges double the diameter


def test_warm_copper() -> None:
    assert copper_resistivity(333.15) / copper_resistivity(293.15) == pytest.approx(1.1572)


def test_stranded_wire_of_the_handbook() -> None:
    """FAA AC 43.13-1B, table 11-9: 24 AWG there has up to about 11 % more than solid copper."""
    assert stranded_resistance(1.0, 0.11) == pytest.approx(1.11)


def test_metric_wire() -> None:
    assert wire_diameter(wire_area(0.0008)) == pytest.approx(0.0008)


# FAA AC 43.13-1B CHG 1 (2001), table 11-9, bundles with insulation for 200 °C: AWG, A.
@pytest.mark.parametrize(
    ("gauge", "amperes"),
    [(24, 5), (22, 6), (20, 9), (18, 12), (16, 14), (14, 18), (12, 25), (10, 32)],
)
def test_bundle_ratings(gauge: float, amperes: float) -> None:
    assert bundle_rating(gauge) == amperes


def test_a_gauge_between_two_counts_as_the_thinner() -> None:
    assert bundle_rating(21) == bundle_rating(22)
    assert bundle_rating(13) == bundle_rating(14)


# Preece, I = 80 A/mm^1.5 d^1.5, computed: AWG, A.


@pytest.mark.parametrize(
    ("gauge", "seconds", "amperes"),
    [
        (24, 10.0, 18.7),
        (24, 1.0, 59.1),
        (16, 5.0, 168.9),  # a widely copied example uses 234 - t and gives 178 A
    ],
)
def test_onderdonk(gauge: float, seconds: float, amperes: float) -> None:
    area = wire_area(awg_diameter(gauge))
    assert onderdonk_current(area, seconds, 298.15) == pytest.approx(amperes, rel=2e-3)


def test_a_rated_wire_stays_below_its_insulation() -> None:
    """The heat balance, with a still-air film, keeps every rated wire below the 200 °C that its
    rating names.
    """
    for gauge, *_ in WIRES[:8]:
        area = wire_area(awg_diameter(gauge))
        rise = wire_temperature_rise(
            bundle_rating(gauge), area, 1.6 * awg_diameter(gauge), 10.0, 313.15
        )
        assert rise < 473.15 - 313.15


def test_steady_rise_is_where_a_slow_heating_ends() -> None:
    """Heat in minus heat out, integrated (scipy) until nothing changes any more."""
    current, area, outer, film, ambient = 6.0, wire_area(awg_diameter(24)), 0.0011, 20.0, 298.15

    def gain(rise: float) -> float:
        heat_in = current**2 * resistance_per_length(area, ambient + rise)
        return (heat_in - film * math.pi * outer * rise) / (8890.0 * 384.0 * area)

    settled = grown(gain, 0.0, 2000.0)
    assert wire_temperature_rise(current, area, outer, film, ambient) == pytest.approx(
        settled, rel=1e-6
    )
    assert current_for_rise(settled, area, outer, film, ambient) == pytest.approx(current, rel=1e-6)


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (awg_diameter, (57,), "0000 to 56"),
        (wire_area, (-1.0,), "negative"),
        (wire_diameter, (-1.0,), "negative"),
        (copper_resistivity, (700.0,), "300 °C"),
        (resistance_per_length, (0.0, ROOM), "above 0"),
        (stranded_resistance, (1.0, -0.1), "never"),
        (bundle_rating, (26,), "10 to 24"),
        (bundle_rating, (8,), "10 to 24"),
        (onderdonk_current, (1e-7, 0.0, ROOM), "above 0"),
        (onderdonk_current, (1e-7, 1.0, 1400.0), "melting point"),
        (wire_temperature_rise, (30.0, 2e-7, 0.001, 20.0, ROOM), "without end"),
        (wire_temperature_rise, (1.0, 2e-7, 0.001, 0.0, ROOM), "above 0"),
        (current_for_rise, (-1.0, 2e-7, 0.001, 10.0, ROOM), "0 or more"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
