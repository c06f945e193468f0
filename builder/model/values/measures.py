"""Compound values of the trade: wire gauges, cell counts, currents for a time or at volts, rates."""

import re
from dataclasses import dataclass
from math import pi
from typing import Annotated, Any

from builder.model.values.mistaken import text_of, wrong
from builder.model.values.quantities import (
    NUMBER,
    WRITTEN,
    parse,
    reads,
    with_points,
    written_units,
)

_AWG = re.compile(r"(0{1,4}|\d{1,2})\s*(?:AWG|GA|GAUGE)|AWG\s*(0{1,4}|\d{1,2})", re.IGNORECASE)


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


_AMPERE, _VOLT, _SECOND = (written_units(n) for n in ("current", "voltage", "time"))
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
