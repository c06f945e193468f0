"""Text with a unit becomes a number in SI. The only way in for numbers; pydantic types stand below.

Every parser raises PydanticCustomError with a code of ours, so that the place of the value is
known.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from math import isfinite
from typing import Annotated, Any

from pydantic import BeforeValidator

from builder.model.values.mistaken import text_of, wrong
from builder.model.values.plain_values import (
    parse_address,
    parse_at_least_one,
    parse_count,
    parse_date,
    parse_picture_name,
    parse_text,
    parse_yes,
)
from builder.model.values.units import DIMENSIONS, Dimension

NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?"
_ONE = re.compile(rf"({NUMBER})(?:\s*(?:±|\+/-|\+-)\s*({NUMBER}))?\s*(\S.*)?")
_PIECE = re.compile(rf"({NUMBER})\s*([a-z]+)")
_RANGE = re.compile(rf"({NUMBER})\s*(?:-|–|to)\s*({NUMBER})\s*(\S.*)")
_PICTURE_END = r".+\.(?:[sS][vV][gG]|[pP][nN][gG]|[jJ][pP][eE]?[gG]|[wW][eE][bB][pP])"


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in SI, the spread that the source states (one standard deviation, or None), and the
    unit as written.

    `step` is one unit of the last digit that was written, in SI: 1 g of '160 g', 0.1 g of
    '160.0 g'; None where a text of several numbers says none.
    """

    value: float
    spread: float | None
    unit: str
    dimension: str
    step: float | None = None


@dataclass(frozen=True, slots=True)
class QuantityRange:
    """A lower and an upper bound in SI."""

    low: float
    high: float
    unit: str
    dimension: str


def _units_of(dimension: Dimension) -> str:
    return ", ".join(dimension.units)


def _scaled(number: str, unit: str | None, dimension: Dimension, text: str) -> float:
    if unit is None:
        hint = f"Units that fit: {_units_of(dimension)}. Write it like {dimension.example!r}."
        raise wrong("data/no-unit", f"{text!r} has no unit where {dimension.article} is due.", hint)
    factor = dimension.units.get(unit)
    if factor is None:
        comma = "Write decimals with a point. " if unit.startswith(",") else ""
        hint = (
            f"{comma}Units that fit: {_units_of(dimension)}. Write it like {dimension.example!r}."
        )
        raise wrong(
            "data/wrong-unit",
            f"{unit!r} is not a unit of {dimension.name}.",
            hint,
            max(0, text.rfind(unit)),
        )
    return float(number) * factor


def parse(value: Any, name: str) -> Quantity:
    """`14.3 g`, `14.3 ± 0.2 g`, `5 min 40 s` as a Quantity of the named dimension."""
    if isinstance(value, Quantity):
        return value
    dimension = DIMENSIONS[name]
    text = text_of(value, dimension.article, dimension.example)
    if (
        name == "time"
        and len(pieces := _PIECE.findall(text)) > 1
        and _PIECE.sub("", text).strip() == ""
    ):
        return Quantity(sum(_scaled(n, u, dimension, text) for n, u in pieces), None, "s", name)
    match = _ONE.fullmatch(text)
    if match is None:
        hint = (
            f"Write a number and a unit, like {dimension.example!r}. Units that fit:"
            f" {_units_of(dimension)}."
        )
        raise wrong("data/not-a-quantity", f"{text!r} cannot be read as {dimension.article}.", hint)
    number, spread, unit = match.groups()
    value_si = _scaled(number, unit, dimension, text)
    own = None if spread is None else _not_negative(_scaled(spread, unit, dimension, text), text)
    step = _scaled(_last_digit(number), unit, dimension, text)
    return Quantity(value_si, own, unit, name, step)


def _last_digit(number: str) -> str:
    """One of the last digit that a number is written with: 1 of '160', 0.1 of '160.0'."""
    digits, _, power = number.lower().partition("e")
    decimals = len(digits.partition(".")[2])
    return f"1e{int(power or 0) - decimals}"


def _not_negative(spread: float, text: str) -> float:
    if spread < 0:
        raise wrong(
            "data/absurd",
            f"The spread of {text!r} is less than nothing.",
            "Write a number of 0 or more after ±.",
        )
    return spread


def parse_any(value: Any) -> Quantity:
    """A quantity of any dimension, by its unit."""
    if isinstance(value, Quantity):
        return value
    text = text_of(value, "a figure with its unit", "96 A")
    match = _ONE.fullmatch(text)
    unit = match[3] if match is not None else None
    name = next((n for n, d in DIMENSIONS.items() if unit in d.units), None)
    if name is None:
        raise wrong(
            "data/no-unit", f"{text!r} is no figure with a unit.", "Write it like '96 A' or '9 dB'."
        )
    made = parse(text, name)
    if not isfinite(made.value) or not isfinite(made.spread or 0.0):
        raise wrong("data/absurd", f"{text!r} has no end.", "Write it like '96 A' or '9 dB'.")
    return made


def parse_span(value: Any, name: str) -> QuantityRange:
    """`7-37 V` as a Span; a single quantity is a span of no width."""
    if isinstance(value, QuantityRange):
        return value
    dimension = DIMENSIONS[name]
    text = text_of(value, dimension.article, "7-37 V")
    match = _RANGE.fullmatch(text)
    if match is None:
        one = parse(text, name)
        return QuantityRange(one.value, one.value, one.unit, name)
    low, high = (_scaled(n, match[3], dimension, text) for n in match.group(1, 2))
    if low > high:
        raise wrong(
            "data/not-a-quantity", f"{text!r} runs backwards.", "Write the lower value first."
        )
    return QuantityRange(low, high, match[3], name)


def parse_ratio(value: Any) -> Quantity:
    """A number without a unit, perhaps with its spread: `0.45 ± 0.05`."""
    if isinstance(value, Quantity):
        return value
    text = text_of(value, "a ratio", "0.45")
    match = _ONE.fullmatch(text)
    if match is None or match[3] is not None:
        raise wrong(
            "data/not-a-number",
            f"{text!r} is not a plain number.",
            "Write it like '0.45' or '0.45 ± 0.05'.",
        )
    own = None if match[2] is None else _not_negative(float(match[2]), text)
    return Quantity(float(match[1]), own, "", "ratio")


@dataclass(frozen=True, kw_only=True)
class Reads(BeforeValidator):
    """Reads one text into a value of the model; says in words what is due, gives an example and a
    pattern (ECMA 262).
    """

    what: str
    example: str
    pattern: str


def reads(function: Callable[[Any], Any], what: str, example: str = "", pattern: str = "") -> Reads:
    """How a text becomes a value; without a pattern any text may be one."""
    return Reads(function, what=what, example=example, pattern=pattern)


def one_of(units: Iterable[str]) -> str:
    """A pattern for any of these units, longest first."""
    return "(?:" + "|".join(re.escape(u) for u in sorted(units, key=len, reverse=True)) + ")"


def _quantity(name: str) -> Reads:
    how = DIMENSIONS[name]
    one = rf"{NUMBER}(?:\s*(?:±|\+/-|\+-)\s*{NUMBER})?\s*{one_of(how.units)}"
    pattern = rf"(?:{NUMBER}\s*{one_of(how.units)}\s*)+|{one}" if name == "time" else one
    return reads(lambda value: parse(value, name), how.article, how.example, pattern)


def _span(name: str, example: str) -> Reads:
    how = DIMENSIONS[name]
    pattern = rf"{NUMBER}(?:\s*(?:-|–|to)\s*{NUMBER})?\s*{one_of(how.units)}"
    return reads(
        lambda value: parse_span(value, name),
        f"{how.article}, or two with the lower first",
        example,
        pattern,
    )


Mass = Annotated[Quantity, _quantity("mass")]
MassChange = Annotated[Quantity, _quantity("change of mass")]
Length = Annotated[Quantity, _quantity("length")]
Voltage = Annotated[Quantity, _quantity("voltage")]
Current = Annotated[Quantity, _quantity("current")]
Power = Annotated[Quantity, _quantity("power")]
Resistance = Annotated[Quantity, _quantity("resistance")]
Capacitance = Annotated[Quantity, _quantity("capacitance")]
Charge = Annotated[Quantity, _quantity("charge")]
Duration = Annotated[Quantity, _quantity("time")]
Frequency = Annotated[Quantity, _quantity("frequency")]
Temperature = Annotated[Quantity, _quantity("temperature")]
Angle = Annotated[Quantity, _quantity("angle")]
SpeedConstant = Annotated[Quantity, _quantity("speed constant")]
Rotation = Annotated[Quantity, _quantity("speed of rotation")]
Speed = Annotated[Quantity, _quantity("speed")]
Pressure = Annotated[Quantity, _quantity("pressure")]
Share = Annotated[Quantity, _quantity("share")]
Gain = Annotated[Quantity, _quantity("gain")]
Level = Annotated[Quantity, _quantity("level")]
VoltsPerAmpere = Annotated[Quantity, _quantity("sensitivity")]
Force = Annotated[Quantity, _quantity("force")]
Density = Annotated[Quantity, _quantity("density")]
VoltageSpan = Annotated[QuantityRange, _span("voltage", "7-37 V")]
FrequencySpan = Annotated[QuantityRange, _span("frequency", "5650-5950 MHz")]
TemperatureSpan = Annotated[QuantityRange, _span("temperature", "183-190 degC")]
LengthSpan = Annotated[QuantityRange, _span("length", "19-20 mm")]

AnyAmount = Annotated[Quantity, reads(parse_any, "a figure with its unit", "96 A")]

Ratio = Annotated[
    Quantity,
    reads(
        parse_ratio,
        "a number without a unit",
        "0.45",
        rf"{NUMBER}(?:\s*(?:±|\+/-|\+-)\s*{NUMBER})?",
    ),
]
Count = Annotated[int, reads(parse_count, "a whole number", "4", r"\d{1,6}")]
AtLeastOne = Annotated[
    int,
    reads(parse_at_least_one, "a whole number of 1 or more", "400", r"[0-9]{0,5}[1-9][0-9]{0,5}"),
]
Yes = Annotated[
    bool, reads(parse_yes, "yes or no", "yes", "[Yy][Ee][Ss]|[Nn][Oo]|[Tt]rue|[Ff]alse")
]
Day = Annotated[date, reads(parse_date, "a day", "2026-10-04", r"\d{4}-\d{2}-\d{2}")]
Text = Annotated[str, reads(parse_text, "text")]
Address = Annotated[
    str, reads(parse_address, "an address", "https://shop.example/part", r"https?://[^\s]+")
]
PictureName = Annotated[
    str, reads(parse_picture_name, "a picture in the build's folder", "wedge.jpg", _PICTURE_END)
]
