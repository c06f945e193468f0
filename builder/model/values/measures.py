"""Compound values of the trade: hole patterns, wire gauges, cell counts, prices, rates with a
duration.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from math import pi
from typing import Annotated, Any

from builder.model.values.mistaken import text_of, wrong
from builder.model.values.price_text import PRICE_PATTERN, amount_and_code
from builder.model.values.quantities import (
    NUMBER,
    WRITTEN,
    parse,
    reads,
    two_readings,
    unit_of,
    with_points,
    written_units,
)
from builder.model.values.spellings import TwoReadings
from builder.model.values.units import DIMENSIONS

_CURRENCY_DIGITS = {
    "JPY": 0,
    "KRW": 0,
    "CLP": 0,
    "ISK": 0,
    "VND": 0,
    "BHD": 3,
    "KWD": 3,
    "TND": 3,
    "OMR": 3,
    "JOD": 3,
}
_OF_THREE = frozenset(code for code, digits in _CURRENCY_DIGITS.items() if digits == 3)
_METRIC = re.compile(rf"({NUMBER}\s*[x×*]\s*{NUMBER})\s+(M[1-9](?:\.\d)?)", re.IGNORECASE)
_AWG = re.compile(r"(0{1,4}|\d{1,2})\s*(?:AWG|GA|GAUGE)|AWG\s*(0{1,4}|\d{1,2})", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in whole minor units of an ISO 4217 currency."""

    minor: int
    currency: str

    @property
    def digits(self) -> int:
        """Decimal places of the currency's minor unit (ISO 4217; two unless listed)."""
        return _CURRENCY_DIGITS.get(self.currency, 2)


@dataclass(frozen=True, slots=True)
class Pattern:
    """A hole pattern: spacing across and along in metres, and the thread. One spacing means a bolt
    circle.
    """

    across: float
    along: float | None
    thread: str | None

    @property
    def label(self) -> str:
        """As the trade writes it: `20 x 20 mm M2`."""
        sides = [f"{1000 * s:g}" for s in (self.across, self.along) if s is not None]
        return " x ".join(sides) + " mm" + (f" {self.thread}" if self.thread else "")


@dataclass(frozen=True, slots=True)
class Gauge:
    """Copper of a wire: an AWG number (ASTM B258; 00 is -1) or a cross-section in square metres."""

    awg: int | None
    area: float | None

    @property
    def square_metres(self) -> float:
        """Cross-section of the copper (ASTM B258: No. 36 has 0.005 in, 39 steps further No. 0000
        has 0.46 in).
        """
        if self.area is not None:
            return self.area
        steps = 36 - (self.awg or 0)
        diameter: float = 0.000127 * 92.0 ** (steps / 39)
        return pi * diameter**2 / 4

    @property
    def label(self) -> str:
        """`28 AWG` or `0.5 mm²`."""
        return f"{self.awg} AWG" if self.awg is not None else f"{1e6 * (self.area or 0):g} mm²"


@dataclass(frozen=True, slots=True)
class Cells:
    """How many cells in series: from low to high (equal for one figure), and how many in parallel."""

    low: int
    high: int
    parallel: int = 1

    @property
    def label(self) -> str:
        """`4S`, `3-6S`, `6S2P`."""
        series = f"{self.low}S" if self.low == self.high else f"{self.low}-{self.high}S"
        return series + (f"{self.parallel}P" if self.parallel > 1 else "")


@dataclass(frozen=True, slots=True)
class Burst:
    """A current (A) and for how long (s); no duration stated is None."""

    current: float
    seconds: float | None


@dataclass(frozen=True, slots=True)
class AtVolts:
    """A current (A) measured at a voltage (V)."""

    current: float
    volts: float | None


@dataclass(frozen=True, slots=True)
class Rate:
    """A charge or discharge limit: a multiple of the capacity per hour, or amperes."""

    per_capacity: float | None
    amperes: float | None

    def current(self, capacity: float) -> float:
        """The limit in A for a capacity in C."""
        if self.amperes is not None:
            return self.amperes
        return (self.per_capacity or 0.0) * capacity / 3600.0


@dataclass(frozen=True, slots=True)
class Size:
    """Lengths along the part's own axes in metres: two or three."""

    along: tuple[float, ...]

    @property
    def label(self) -> str:
        """`30 x 30 x 8 mm`."""
        return " x ".join(f"{1000 * s:g}" for s in self.along) + " mm"


@dataclass(frozen=True, slots=True)
class Position:
    """x forward, y left, z up from the middle of the frame's base, in metres."""

    x: float
    y: float
    z: float


def _money(value: Any) -> Money:
    if isinstance(value, Money):
        return value
    given = text_of(value, "a price", "12.50 EUR")
    try:
        found = amount_and_code(given, _OF_THREE)
    except TwoReadings as two:
        raise two_readings(given, repr(two.first), repr(two.second)) from None
    if found is None or not found[1]:
        problem = "has no currency" if found else "cannot be read as a price"
        raise wrong(
            "data/not-a-price",
            f"{given!r} {problem}.",
            "Write amount and ISO 4217 code, like '12.50 EUR'.",
        )
    amount, code = found
    money = Money(0, code)
    minor = Decimal(amount).scaleb(money.digits)
    if minor != minor.to_integral_value():
        problem = f"{given!r} is finer than the smallest unit of {code}."
        raise wrong("data/not-a-price", problem, f"Write at most {money.digits} decimal places.")
    return Money(int(minor), code)


def _pattern(value: Any) -> Pattern:
    if isinstance(value, Pattern):
        return value
    given = text_of(value, "a hole pattern", "20 x 20 mm M2")
    text = with_points(given)
    metric = _METRIC.fullmatch(text)
    if metric is not None:  # a metric thread without a unit before it: so are the lengths
        text = f"{metric[1]} mm {metric[2]}"
    match = re.fullmatch(
        rf"({NUMBER})(?:\s*[x×*]\s*({NUMBER}))?\s*(\D\S*?)?(?:\s+([Mm][1-9](?:\.\d)?))?",
        text,
        re.IGNORECASE,
    )
    if match is None:
        raise wrong(
            "data/not-a-pattern",
            f"{given!r} is not a hole pattern.",
            "Write it like '20 x 20 mm M2' or '9 mm M2'.",
        )
    length = DIMENSIONS["length"]
    factor = length.units[unit_of(match[3], length, given)]
    along = float(match[2]) * factor if match[2] else None
    thread = match[4].upper() if match[4] else None
    return Pattern(float(match[1]) * factor, along, thread)


def _gauge(value: Any) -> Gauge:
    if isinstance(value, Gauge):
        return value
    given = text_of(value, "a wire gauge", "28 AWG")
    text = with_points(given)
    if match := _AWG.fullmatch(text):
        digits = match[1] or match[2]
        number = 1 - len(digits) if digits.startswith("0") else int(digits)
        if number <= 40:
            return Gauge(number, None)
    elif match := re.fullmatch(rf"({NUMBER})\s*(?:mm2|mm²|mm\^2|sqmm)", text):
        return Gauge(None, float(match[1]) * 1e-6)
    raise wrong(
        "data/not-a-gauge",
        f"{given!r} is not a wire gauge.",
        "Write it like '28 AWG' or '0.5 mm2'.",
    )


def _cells(value: Any) -> Cells:
    if isinstance(value, Cells):
        return value
    text = text_of(value, "a cell count", "4S")
    match = re.fullmatch(r"(\d{1,2})(?:\s*[-–]\s*(\d{1,2}))?\s*[Ss](?:\s*(\d)[Pp])?", text)
    if match is None or not 1 <= int(match[1]) <= int(match[2] or match[1]):
        raise wrong(
            "data/not-cells",
            f"{text!r} is not a cell count.",
            "Write cells in series, like '4S' or '3-6S'.",
        )
    return Cells(int(match[1]), int(match[2] or match[1]), int(match[3] or 1))


def _burst(value: Any) -> Burst:
    if isinstance(value, Burst):
        return value
    text = text_of(value, "a current", "45 A for 10 s")
    current, _, time = text.partition(" for ")
    return Burst(parse(current, "current").value, parse(time, "time").value if time else None)


def _at_volts(value: Any) -> AtVolts:
    if isinstance(value, AtVolts):
        return value
    text = text_of(value, "a current at a voltage", "0.6 A at 10 V")
    current, _, volts = text.partition(" at ")
    return AtVolts(
        parse(current, "current").value, parse(volts, "voltage").value if volts else None
    )


def _rate(value: Any) -> Rate:
    if isinstance(value, Rate):
        return value
    text = text_of(value, "a discharge or charge rate", "75C")
    if match := re.fullmatch(rf"({NUMBER})\s*[Cc]", with_points(text)):
        return Rate(float(match[1]), None)
    return Rate(None, parse(text, "current").value)


def _lengths(given: str, many: tuple[int, ...], example: str) -> tuple[float, ...]:
    text = with_points(given)
    match = re.fullmatch(rf"(.*?{NUMBER})\s*(\D*)", text)
    pieces = re.split(r"\s*[x×*]\s*", match[1]) if match else []
    last = match[2] if match else ""
    ends = [piece.removesuffix(last).strip() for piece in pieces] if last else pieces
    sound = len(ends) in many and all(re.fullmatch(NUMBER, p) for p in ends)
    if not sound:
        raise wrong("data/not-a-size", f"{given!r} is not a size.", f"Write it like {example!r}.")
    length = DIMENSIONS["length"]
    factor = length.units[unit_of(last or None, length, given)]
    return tuple(float(p) * factor for p in ends)


def _size(value: Any) -> Size:
    if isinstance(value, Size):
        return value
    text = text_of(value, "a size", "30 x 30 x 8 mm")
    return Size(_lengths(text, (1, 2, 3), "30 x 30 x 8 mm"))


def _position(value: Any) -> Position:
    if isinstance(value, Position):
        return value
    text = text_of(value, "a position", "0 mm, 0 mm, 14 mm")
    pieces = re.split(r",(?!\d)|(?<!\d),", text)  # not the comma of 14,5 mm
    if len(pieces) != 3:
        raise wrong(
            "data/not-a-size",
            f"{value!r} is not a position.",
            "Write forward, left, up: '0 mm, 0 mm, 14 mm'.",
        )
    last = re.fullmatch(rf"\s*{NUMBER}\s*(\D+?)\s*", with_points(pieces[2]))
    unit = last[1] if last is not None else ""  # one at the end is that of all three
    whole = (f"{p} {unit}" if re.fullmatch(rf"\s*{NUMBER}\s*", p) else p for p in pieces)
    x, y, z = (parse(p, "length").value for p in whole)
    return Position(x, y, z)


_AMPERE, _VOLT, _SECOND = (written_units(n) for n in ("current", "voltage", "time"))
_METRE = written_units("length")
_LENGTH = rf"{WRITTEN}\s*{_METRE}"

MoneyText = Annotated[Money, reads(_money, "a price", "12.50 EUR", PRICE_PATTERN)]
PatternText = Annotated[
    Pattern,
    reads(
        _pattern,
        "a hole pattern",
        "20 x 20 mm M2",
        rf"{WRITTEN}(?:\s*[x×*]\s*{WRITTEN})?\s*{_METRE}(?:\s+[Mm][1-9](?:\.\d)?)?"
        rf"|{WRITTEN}\s*[x×*]\s*{WRITTEN}\s+[Mm][1-9](?:\.\d)?",
    ),
]
GaugeText = Annotated[
    Gauge,
    reads(
        _gauge,
        "a wire gauge",
        "28 AWG",
        r"(?:0{1,4}|\d{1,2})\s*(?:AWG|awg|Awg|ga|gauge)|(?:AWG|awg|Awg)\s*(?:0{1,4}|\d{1,2})"
        rf"|{WRITTEN}\s*(?:mm2|mm²|mm\^2|sqmm)",
    ),
]
CellsText = Annotated[
    Cells,
    reads(_cells, "cells in series", "4S", r"\d{1,2}(?:\s*[-–]\s*\d{1,2})?\s*[Ss](?:\s*\d[Pp])?"),
]
BurstText = Annotated[
    Burst,
    reads(
        _burst,
        "a current, perhaps for a time",
        "45 A for 10 s",
        rf"{WRITTEN}\s*{_AMPERE}(?: for {WRITTEN}\s*{_SECOND})?",
    ),
]
AtVoltsText = Annotated[
    AtVolts,
    reads(
        _at_volts,
        "a current, perhaps at volts",
        "0.6 A at 10 V",
        rf"{WRITTEN}\s*{_AMPERE}(?: at {WRITTEN}\s*{_VOLT})?",
    ),
]
RateText = Annotated[
    Rate,
    reads(
        _rate, "a multiple of the capacity, or a current", "75C", rf"{WRITTEN}\s*(?:[Cc]|{_AMPERE})"
    ),
]
SizeText = Annotated[
    Size,
    reads(
        _size,
        "a size",
        "30 x 30 x 8 mm",
        rf"{WRITTEN}(?:\s*{_METRE}?\s*[x×*]\s*{WRITTEN}){{0,2}}\s*{_METRE}",
    ),
]
PositionText = Annotated[
    Position,
    reads(
        _position,
        "a place: forward, left, up",
        "0 mm, 0 mm, 14 mm",
        rf"\s*{WRITTEN}\s*{_METRE}?\s*,\s*{WRITTEN}\s*{_METRE}?\s*,\s*{_LENGTH}\s*",
    ),
]
