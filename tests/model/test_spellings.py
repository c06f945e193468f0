"""What people write in place of the table's own units is read, or answered with both readings.

Factors come from pint's registry, which is made from the constants of NIST; which word stands for
which unit of it is said here apart from the code under test.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from pydantic import TypeAdapter, ValidationError
from pydantic_core import PydanticCustomError

from builder.diagnostics.finding import Finding
from builder.diagnostics.told_once import told_once
from builder.load.files import load
from builder.model.kinds import Motor, VideoTransmitter
from builder.model.read.workspace import Workspace, read_workspace
from builder.model.values.lengths_text import PatternText, PositionText
from builder.model.values.quantities import parse, parse_span
from tests.units import UNITS

# As written, the dimension, and the amount for pint.
SAME = [
    ("14.3 grams", "mass", 14.3, "gram"),
    ("14,3 g", "mass", 14.3, "gram"),
    ("0.5 oz", "mass", 0.5, "ounce"),
    ("2 LBS", "mass", 2, "pound"),
    ("3 inch", "length", 3, "inch"),
    ('5"', "length", 5, "inch"),
    ("5.1″", "length", 5.1, "inch"),
    ("0,125 in", "length", 0.125, "inch"),
    ("850mah", "charge", 850, "mA*hour"),
    ("1.3 AH", "charge", 1.3, "A*hour"),
    ("3800 kv", "speed constant", 3800, "rpm/volt"),
    ("1960KV", "speed constant", 1960, "rpm/volt"),
    ("95 m\u2126", "resistance", 95, "milliohm"),
    ("4.7 kΩ", "resistance", 4.7, "kiloohm"),
    ("470 uf", "capacitance", 470, "microfarad"),
    ("470 μF", "capacitance", 470, "microfarad"),
    ("5,8 ghz", "frequency", 5.8, "gigahertz"),
    ("12,5 amps", "current", 12.5, "ampere"),
    ("1.250,5 mAh", "charge", 1250.5, "mA*hour"),
    ("1,250,000 mAh", "charge", 1250000, "mA*hour"),
    ("0,125 kg", "mass", 0.125, "kilogram"),
    ("1250,125 g", "mass", 1250.125, "gram"),
    ("40 secs", "time", 40, "second"),
    ("11500", "speed of rotation", 11500, "rpm"),
    ("3850", "speed constant", 3850, "rpm/volt"),
    ("0", "length", 0, "mm"),
    ("0", "angle", 0, "degree"),
]
SI = {
    "mass": "kg",
    "length": "m",
    "charge": "coulomb",
    "speed constant": "rad/s/V",
    "resistance": "ohm",
    "capacitance": "farad",
    "frequency": "1/s",
    "current": "ampere",
    "time": "s",
    "speed of rotation": "rad/s",
    "angle": "rad",
}
TWO = [
    ("1,250 mAh", "charge", "'1.250 mAh'", "'1250 mAh'"),
    ("14,300 ± 0,2 g", "mass", "'14.300 ± 0,2 g'", "'14300 ± 0,2 g'"),
    ("25 MW", "power", "mW", "millions"),
    ("5 Mohm", "resistance", "mohm", "millions"),
    ("12 gr", "mass", "grams", "grains"),
    ("5:40", "time", "5 min 40 s", "5 h 40 min"),
    ("5 m", "time", "minutes", "milliseconds"),
]


@pytest.mark.parametrize(("text", "dimension", "amount", "unit"), SAME, ids=[s[0] for s in SAME])
def test_a_spelling_is_the_amount_that_pint_makes_of_it(
    text: str, dimension: str, amount: float, unit: str
) -> None:
    wanted = UNITS.Quantity(amount, unit).to(SI[dimension]).magnitude
    assert parse(text, dimension).value == pytest.approx(wanted, rel=1e-9)


def test_fahrenheit_has_another_zero_and_its_spread_none() -> None:
    made = parse("68 ± 9 °F", "temperature")
    assert made.value == pytest.approx(UNITS.Quantity(68, "degF").to("degC").magnitude)
    assert made.spread == pytest.approx(UNITS.Quantity(9, "delta_degF").to("delta_degC").magnitude)
    span = parse_span("356-374 F", "temperature")
    assert [span.low, span.high] == pytest.approx([180.0, 190.0])


def test_a_plain_c_is_celsius_where_a_temperature_is_due() -> None:
    assert parse("20 C", "temperature").value == 20.0
    assert parse("20 C", "charge").value == 20.0  # coulombs, as before


@pytest.mark.parametrize(("text", "dimension", "first", "second"), TWO, ids=[t[0] for t in TWO])
def test_what_can_be_two_things_names_both(
    text: str, dimension: str, first: str, second: str
) -> None:
    with pytest.raises(PydanticCustomError) as raised:
        parse(text, dimension)
    said = raised.value.context or {}
    assert said["code"] == "data/two-readings"
    assert first in said["message"] and second in said["message"]


def test_a_wrong_unit_stays_wrong() -> None:
    for text, dimension in (("14 V", "mass"), ("3 g", "length"), ("1,2,3 g", "mass")):
        with pytest.raises(PydanticCustomError) as raised:
            parse(text, dimension)
        assert (raised.value.context or {})["code"] == "data/wrong-unit"


@pytest.mark.parametrize(
    ("text", "dimension"),
    [("3", "length"), ("0", "temperature"), ("0", "level"), ("14", "mass"), ("5", "voltage")],
)
def test_a_number_that_could_have_several_units_still_wants_one(text: str, dimension: str) -> None:
    with pytest.raises(PydanticCustomError) as raised:
        parse(text, dimension)
    assert (raised.value.context or {})["code"] == "data/no-unit"


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("49, -49, 3.5 mm", (49, -49, 3.5)),
        ("0, 0, 8 mm", (0, 0, 8)),
        ("1 in, 0, 2 cm", (25.4, 0, 20)),
        ("14,5 mm, 0 mm, 3 mm", (14.5, 0, 3)),
    ],
)
def test_one_unit_at_the_end_of_a_place_is_that_of_all(
    text: str, millimetres: tuple[float, float, float]
) -> None:
    made = TypeAdapter(PositionText).validate_python(text)
    assert [1000 * x for x in (made.x, made.y, made.z)] == pytest.approx(millimetres)


@pytest.mark.parametrize("text", ["49, -49, 3.5", "49, 49 mm", "a, b, 3 mm"])
def test_a_place_without_a_unit_is_refused(text: str) -> None:
    with pytest.raises(ValidationError):
        TypeAdapter(PositionText).validate_python(text)


def test_a_metric_thread_says_that_the_holes_are_in_millimetres() -> None:
    pattern = TypeAdapter(PatternText)
    bare, whole = (pattern.validate_python(t) for t in ("25.5x25.5 M2", "25.5 x 25.5 mm M2"))
    assert bare == whole
    for text in ("25.5x25.5", "25.5 x 25.5 V M2"):
        with pytest.raises(ValidationError):
            pattern.validate_python(text)


def test_a_peak_and_a_power_step_may_be_one_figure() -> None:
    motor = Motor.model_validate({"kind": "motor", "name": "M", "peak": "15A"})
    sender = VideoTransmitter.model_validate(
        {"kind": "video-transmitter", "name": "V", "powers": ["25 mW", {"power": "200 mW"}]}
    )
    assert motor.peak is not None and motor.peak.current.value == 15.0
    assert [step.power.value for step in sender.powers] == pytest.approx([0.025, 0.2])


PARTS = """\
motor-a:
  kind: motor
  name: A motor
  mass: {maker: 14,3 grams, measured: "14,5 G"}
  kv: 3800kv
  price: {each: $12.50, seen: 2026-10-01}
pack-a:
  kind: pack
  name: A battery
  cells: 4s
  capacity: 850mah
  discharge: 75c
  price: 12,50 €
frame-a: {kind: frame, name: A frame, mass: 1 oz, size: 5.5x5.5x1"}
"""
BUILD = (
    "title: T\nparts:\n  frame: frame-a\n  motor: {use: motor-a, count: 4}\npacks: {p: pack-a}\n"
)


def _read(
    folder: Path, parts: str = PARTS, site: str = "title: T\n"
) -> tuple[Workspace, list[Finding]]:
    for name, text in (("shelf/parts.yaml", parts), ("t/build.yaml", BUILD), ("site.yaml", site)):
        file = folder / "builds" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    model = read_workspace(load(folder))
    return model, list(model.findings)


def test_a_shelf_as_a_newcomer_writes_it_is_read(tmp_path: Path) -> None:
    model, findings = _read(tmp_path, site="title: T\ncurrency: USD\n")
    assert findings == []
    motor, pack = model.shelf["motor-a"].part, model.shelf["pack-a"].part
    assert motor.mass is not None and motor.mass.maker is not None
    assert motor.mass.maker.value == pytest.approx(0.0143)
    assert motor.price is not None and motor.price.each is not None
    assert (motor.price.each.minor, motor.price.each.currency) == (1250, "USD")
    assert pack.price is not None and pack.price.each is not None
    assert (pack.price.each.minor, pack.price.each.currency) == (1250, "EUR")


def test_a_dollar_of_a_workspace_that_counts_in_another_dollar_is_asked(tmp_path: Path) -> None:
    _, findings = _read(tmp_path, site="title: T\ncurrency: CAD\n")
    said = [f for f in findings if f.code == "data/two-readings"]
    assert len(said) == 1
    assert "'12.50 USD'" in said[0].message and "'12.50 CAD'" in said[0].message
    assert said[0].where and said[0].where.path == ("motor-a", "price", "each")


def test_one_mistake_in_a_part_is_one_message(tmp_path: Path) -> None:
    _, findings = _read(tmp_path, PARTS.replace("850mah", "1,250 mAh"))
    assert [f.code for f in told_once(findings)] == ["data/two-readings"]
    _, findings = _read(tmp_path, PARTS.replace("14,3 grams", "14,3 volts"))
    assert [f.code for f in told_once(findings)] == ["data/wrong-unit"]


def test_patterns_of_units_are_the_same_in_every_process() -> None:
    """The order of a set of texts differs from process to process; that of a pattern may not."""
    words = "from builder.model.values.quantities import written_units as w; print(w('mass'))"
    made = {
        subprocess.run(
            [sys.executable, "-c", words],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(made) == 1
