"""Speeds of shafts and tips, and the pressure of the air, through the shelf's and the site's
format.
"""

from math import pi

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.flight.air import air
from builder.compute.flight.speeds import Speeds
from builder.pages.told_words import note_words
from tests.compute.small_workspace import one_build

MOTOR = "kv: 1800 rpm/V, resistance: 60 mohm, no_load: 1.2 A at 10 V"
RPM = ", rpm: 12000 rpm", ", rpm: 27000 rpm"


def speeds(motor: str = MOTOR, rpm: tuple[str, str] = RPM) -> Speeds:
    shelf = f"""
frame: {{kind: frame, name: Frame, mass: {{measured: 500 g}}}}
motor: {{kind: motor, name: Motor, mass: {{measured: 0 g}}, {motor},
  bench: [{{propeller: prop, volts: 23 V, rows: [{{thrust: 1 N, current: 2 A{rpm[0]}}},
                                                 {{thrust: 12 N, current: 45 A{rpm[1]}}}]}}]}}
prop: {{kind: propeller, name: Propeller, diameter: 5 in, mass: {{measured: 0 g}}}}
pack: {{kind: pack, name: Pack, cells: 6S, capacity: 1300 mAh, resistance: 4 mohm, mass: {{measured: 100 g}}}}
"""
    build = (
        "title: T\nparts: {frame: frame, motor: {use: motor, count: 4}, prop: prop}\npacks: {pack:"
        " pack}\n"
    )
    return (
        compute(one_build(shelf, build, "title: T\nplace: {temperature: 15 degC}"))
        .flight.packs["pack"]
        .speeds
    )


def value(figure: MaybeFigure) -> float:
    assert isinstance(figure, Figure), figure
    return figure.value


def test_without_load_the_speed_is_that_for_each_volt_less_the_losses() -> None:
    """Direct-current model, ω = K_v (U - R I): 1800 rpm/V on a full 6-cell pack of 25.2 V."""
    assert value(speeds().no_load) * 30 / pi == pytest.approx(1800 * (25.2 - 0.06 * 1.2))
    bare = speeds("kv: 1800 rpm/V").no_load
    assert value(bare) * 30 / pi == pytest.approx(1800 * 25.2)
    assert isinstance(bare, Figure) and "losses left out" in note_words(bare)


def test_loaded_speed_comes_from_the_bench_and_goes_with_the_volts_left() -> None:
    found = speeds()
    push = found.full
    assert isinstance(push, Figure)
    left = next(i for i in push.inputs if i.unit == "V").value
    assert 15 < left < 25.2
    assert value(push) * 30 / pi == pytest.approx(27000 * (left / 23) ** 0.81)  # sag_pairs.csv
    assert value(found.tip_full) == pytest.approx(value(push) * 0.127 / 2)
    assert value(found.mach_full) == pytest.approx(
        value(found.tip_full) / 340.294, rel=1e-4
    )  # ICAO Doc 7488, 15 °C


def test_without_a_count_of_turns_the_loaded_speed_comes_from_the_motors_constants() -> None:
    found = speeds(rpm=("", ""))
    assert value(found.full) < value(found.no_load)
    assert isinstance(found.hover, Unknown)
    assert isinstance(speeds("kv: 1800 rpm/V", ("", "")).full, Unknown)


def test_pressure_of_the_day_counts() -> None:
    """An ideal gas: density goes with pressure. 1.2250 kg/m³ at 1013.25 hPa and 15 °C (ICAO Doc
    7488).
    """
    frame = "frame: {kind: frame, name: F}"
    build, place = (
        "title: T\nparts: {frame: frame}",
        "title: T\nplace: {altitude: 0 m, temperature: 15 degC%s}",
    )
    usual = value(air(one_build(frame, build, place % "")).density)
    assert usual == pytest.approx(1.2250, abs=5e-5)
    low = value(air(one_build(frame, build, place % ", pressure: 980 hPa")).density)
    assert low / usual == pytest.approx(980 / 1013.25)
