"""Text with a unit becomes a number in SI. The only way in for numbers; pydantic types stand below.

Every parser raises PydanticCustomError with a code of ours, so that the place of the value is
known.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from math import fsum, isfinite
from typing import Annotated, Any, cast, get_origin

from pydantic import BeforeValidator, GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError
from pydantic_core.core_schema import (
    NoInfoValidatorFunction,
    no_info_before_validator_function,
    no_info_plain_validator_function,
)

from builder.model.values.mistaken import text_of, wrong
from builder.model.values.plain_values import (
    GIVEN_END,
    parse_address,
    parse_at_least_one,
    parse_count,
    parse_date,
    parse_given_name,
    parse_picture_name,
    parse_text,
    parse_yes,
)
from builder.model.values.spellings import (
    TwoReadings,
    common_signs,
    decimal_points,
    number_alone,
    spellings_of,
    two_units,
    unit_of_number,
)
from builder.model.values.units import DIMENSIONS, Dimension

NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?"
# As people write it: decimals behind a comma too. What it says is found by `decimal_points`.
WRITTEN = r"[+-]?(?:\d[\d.,]*|\.\d+)(?:[eE][+-]?\d+)?"
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


def two_readings(text: str, first: str, second: str) -> PydanticCustomError:
    """The mistake of a text that says two things."""
    problem = f"{text!r} can be read as {first} or as {second}."
    return wrong("data/two-readings", problem, "Write the one that you mean.")


def with_points(text: str) -> str:
    """A text whose decimals stand behind points; a mistake with both readings where a comma may
    part decimals or thousands.
    """
    try:
        return decimal_points(common_signs(text))
    except TwoReadings as two:
        raise two_readings(text, repr(two.first), repr(two.second)) from None


def _no_unit(unit: str, dimension: Dimension, text: str) -> PydanticCustomError:
    """The mistake of a unit that is none of this dimension, or that can be two."""
    both = two_units(unit, dimension.name, dimension.units)
    if both is not None:
        problem = f"{unit!r} in {text!r} can be read as {both[0]} or as {both[1]}."
        hint = f"Write the one that you mean, like {dimension.example!r}."
        return wrong("data/two-readings", problem, hint, max(0, text.rfind(unit)))
    comma = "Write decimals with a point. " if unit.startswith(",") else ""
    hint = f"{comma}Units that fit: {_units_of(dimension)}. Write it like {dimension.example!r}."
    if dimension.name == "current" and unit in DIMENSIONS["power"].units:
        hint = f"Divide the power by its volts: 10 W at 5 V are 2 A. Write it like {dimension.example!r}."
    problem = f"{unit!r} is not a unit of {dimension.name}."
    return wrong("data/wrong-unit", problem, hint, max(0, text.rfind(unit)))


def unit_of(unit: str | None, dimension: Dimension, text: str) -> str:
    """A unit of the table, from how somebody spelled it."""
    if unit is None:
        hint = f"Units that fit: {_units_of(dimension)}. Write it like {dimension.example!r}."
        raise wrong("data/no-unit", f"{text!r} has no unit where {dimension.article} is due.", hint)
    if unit in dimension.units:
        return unit
    meant = spellings_of(dimension.name).get(unit)
    if meant is None:
        raise _no_unit(unit, dimension, text)
    return meant


def _scaled(number: str, unit: str, dimension: Dimension) -> float:
    """A number in a unit of the table, in SI."""
    return float(number) * dimension.units[unit] + dimension.zeros.get(unit, 0.0)


def parse(value: Any, name: str) -> Quantity:
    """`14.3 g`, `14.3 ± 0.2 g`, `5 min 40 s` as a Quantity of the named dimension."""
    if isinstance(value, Quantity):
        return value
    dimension = DIMENSIONS[name]
    given = text_of(value, dimension.article, dimension.example)
    text = with_points(given)
    if name == "time" and (added := _added_times(text, dimension)) is not None:
        return added
    match = _ONE.fullmatch(text)
    if match is None:
        hint = (
            f"Write a number and a unit, like {dimension.example!r}. Units that fit:"
            f" {_units_of(dimension)}."
        )
        problem = f"{given!r} cannot be read as {dimension.article}."
        raise wrong("data/not-a-quantity", problem, hint)
    number, spread, written = match.groups()
    unit = unit_of(written or unit_of_number(number, name), dimension, given)
    factor = dimension.units[unit]
    own = None if spread is None else _not_negative(float(spread) * factor, given)
    step = float(_last_digit(number)) * factor
    return Quantity(_scaled(number, unit, dimension), own, unit, name, step)


def _added_times(text: str, dimension: Dimension) -> Quantity | None:
    """`5 min 40 s`, several times that are added; None for a text that is not so. `5:40` can be two
    things.
    """
    if re.fullmatch(r"\d{1,2}:\d{2}", text):
        most, least = text.split(":")
        raise two_readings(text, f"'{most} min {least} s'", f"'{most} h {least} min'")
    pieces = _PIECE.findall(text)
    if len(pieces) < 2 or _PIECE.sub("", text).strip():
        return None
    units = [unit_of(_minutes(unit), dimension, text) for _, unit in pieces]
    times = [_scaled(n, u, dimension) for (n, _), u in zip(pieces, units, strict=True)]
    return Quantity(fsum(times), None, "s", dimension.name)


def _minutes(unit: str) -> str:
    """In `5 m 40 s` the m stands for minutes; alone it can be two things."""
    return "min" if unit == "m" else unit


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


def _dimension_with(unit: str | None) -> str | None:
    """The dimension that a unit belongs to; those of the table before other spellings."""
    if unit is None:
        return None
    named = next((n for n, d in DIMENSIONS.items() if unit in d.units), None)
    return named or next((n for n in DIMENSIONS if unit in spellings_of(n)), None)


def parse_any(value: Any) -> Quantity:
    """A quantity of any dimension, by its unit."""
    if isinstance(value, Quantity):
        return value
    text = text_of(value, "a figure with its unit", "96 A")
    match = _ONE.fullmatch(with_points(text))
    if match is not None and match[3] is None:
        return _plain(match[1], text)  # a count, a factor
    name = _dimension_with(match[3] if match is not None else None)
    if name is None:
        raise wrong(
            "data/no-unit", f"{text!r} is no figure with a unit.", "Write it like '96 A' or '9 dB'."
        )
    return _with_an_end(parse(text, name), text)


def _plain(number: str, text: str) -> Quantity:
    """A count or a factor, which has no unit."""
    step = float(_last_digit(number))
    return _with_an_end(Quantity(float(number), None, "", "share", step), text)


def _with_an_end(made: Quantity, text: str) -> Quantity:
    if not isfinite(made.value) or not isfinite(made.spread or 0.0):
        raise wrong("data/absurd", f"{text!r} has no end.", "Write it like '96 A' or '9 dB'.")
    return made


def parse_span(value: Any, name: str) -> QuantityRange:
    """`7-37 V` as a Span; a single quantity is a span of no width."""
    if isinstance(value, QuantityRange):
        return value
    dimension = DIMENSIONS[name]
    given = text_of(value, dimension.article, "7-37 V")
    match = _RANGE.fullmatch(with_points(given))
    if match is None:
        one = parse(given, name)
        return QuantityRange(one.value, one.value, one.unit, name)
    unit = unit_of(match[3], dimension, given)
    low, high = (_scaled(n, unit, dimension) for n in match.group(1, 2))
    if low > high:
        raise wrong(
            "data/not-a-quantity", f"{given!r} runs backwards.", "Write the lower value first."
        )
    return QuantityRange(low, high, unit, name)


def parse_ratio(value: Any) -> Quantity:
    """A number without a unit, perhaps with its spread: `0.45 ± 0.05`."""
    if isinstance(value, Quantity):
        return value
    text = text_of(value, "a ratio", "0.45")
    match = _ONE.fullmatch(with_points(text))
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

    def __get_pydantic_core_schema__(
        self, source_type: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """That the function takes the value alone is not looked up for each of a thousand fields. What
        it gives for a plain class is of that class: nothing looks at it again.
        """
        function = cast(NoInfoValidatorFunction, self.func)
        if isinstance(source_type, type) and get_origin(source_type) is None:
            return no_info_plain_validator_function(function)
        return no_info_before_validator_function(function, schema=handler(source_type))


def reads(function: Callable[[Any], Any], what: str, example: str = "", pattern: str = "") -> Reads:
    """How a text becomes a value; without a pattern any text may be one."""
    return Reads(function, what=what, example=example, pattern=pattern)


def one_of(units: Iterable[str]) -> str:
    """A pattern for any of these units, longest first."""
    return "(?:" + "|".join(re.escape(u) for u in sorted(units, key=len, reverse=True)) + ")"


def written_units(name: str) -> str:
    """A pattern for the units of a dimension, however they are spelled."""
    return one_of(dict.fromkeys((*DIMENSIONS[name].units, *spellings_of(name))))


def _quantity(name: str) -> Reads:
    how = DIMENSIONS[name]
    units = written_units(name)
    one = rf"{WRITTEN}(?:\s*(?:±|\+/-|\+-)\s*{WRITTEN})?\s*{units}"
    more = rf"(?:{WRITTEN}\s*{units}\s*)+" if name == "time" else number_alone(name)
    pattern = rf"{more}|{one}" if more else one
    return reads(lambda value: parse(value, name), how.article, how.example, pattern)


def _span(name: str, example: str) -> Reads:
    how = DIMENSIONS[name]
    pattern = rf"{WRITTEN}(?:\s*(?:-|–|to)\s*{WRITTEN})?\s*{written_units(name)}"
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
        rf"{WRITTEN}(?:\s*(?:±|\+/-|\+-)\s*{WRITTEN})?",
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
GivenFileName = Annotated[
    str, reads(parse_given_name, "a file's name", "dipper-settings.txt", GIVEN_END)
]
PictureName = Annotated[
    str, reads(parse_picture_name, "a picture in the build's folder", "wedge.jpg", _PICTURE_END)
]
