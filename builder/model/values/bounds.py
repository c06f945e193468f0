"""Bounds of a field: between which values a thing of its kind can be at all, and why.

What lies outside is a mistake at its place. Bounds are wide: they refuse what cannot be (a lost
point, another unit), never what is unlikely; what is unlikely is for the rules. Those of a field
stand in its type, so that the reader, the field reference and the JSON Schema take them from one
place.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any, TypeVar, cast

from pydantic import GetCoreSchemaHandler, WrapValidator
from pydantic_core import CoreSchema, PydanticCustomError
from pydantic_core.core_schema import NoInfoWrapValidatorFunction, no_info_wrap_validator_function

from builder.model.values.lengths_text import Pattern, Position, Size
from builder.model.values.measures import AtVolts, Burst, Cells, Gauge, Rate
from builder.model.values.mistaken import wrong
from builder.model.values.money_text import Money
from builder.model.values.quantities import Quantity, QuantityRange, parse
from builder.model.values.units import DIMENSIONS

_T = TypeVar("_T")
# What is bounded but has no unit of the table: how the text of such a bound becomes a number.
_WITHOUT_UNIT: dict[str, Callable[[str], float]] = {
    "count": float,
    "ratio": float,
    "amount": float,
    "day": lambda text: date.fromisoformat(text).toordinal(),
    "cells": lambda text: float(text.removesuffix("S")),
    "parallel": lambda text: float(text.removesuffix("P")),
    "rate": lambda text: float(text.removesuffix("C")),
}
_WORDS = {"day": ("before", "after"), "temperature": ("colder than", "hotter than")}


def _number(text: str, dimension: str) -> float:
    read = _WITHOUT_UNIT.get(dimension)
    return read(text) if read is not None else parse(text, dimension).value


@dataclass(frozen=True)
class Bound:
    """The least and the most that one of a value's numbers may be, as a person writes them."""

    dimension: str
    least: str
    most: str

    @cached_property
    def low(self) -> float:
        """The least, in SI."""
        return _number(self.least, self.dimension)

    @cached_property
    def high(self) -> float:
        """The most, in SI."""
        return _number(self.most, self.dimension)

    @property
    def words(self) -> str:
        """`1 mg to 10 kg`."""
        return f"{self.least} to {self.most}"


def _numbers(value: Any) -> Iterator[tuple[str, float]]:
    """The numbers that a value is made of, each with its dimension."""
    if isinstance(value, Quantity):
        yield value.dimension, value.value
    elif isinstance(value, QuantityRange):
        yield from ((value.dimension, value.low), (value.dimension, value.high))
    elif isinstance(value, date):
        yield "day", value.toordinal()
    elif isinstance(value, int):
        yield "count", value
    elif isinstance(value, Money):
        yield "amount", value.minor / 10**value.digits
    else:
        yield from _numbers_of_compound(value)


def _numbers_of_compound(value: Any) -> Iterator[tuple[str, float]]:
    if isinstance(value, Size):
        yield from (("length", side) for side in value.along)
    elif isinstance(value, Position):
        yield from (("length", x) for x in (value.x, value.y, value.z))
    elif isinstance(value, Pattern):
        yield from (("length", x) for x in (value.across, value.along) if x is not None)
    elif isinstance(value, Gauge):
        yield "area", value.square_metres
    elif isinstance(value, Cells):
        yield from (("cells", value.low), ("cells", value.high), ("parallel", value.parallel))
    elif isinstance(value, Burst | AtVolts):
        other = ("time", value.seconds) if isinstance(value, Burst) else ("voltage", value.volts)
        yield "current", value.current
        if other[1] is not None:
            yield other[0], other[1]
    elif isinstance(value, Rate):
        yield (
            ("current", value.amperes)
            if value.amperes is not None
            else ("rate", value.per_capacity or 0.0)
        )
    else:
        raise TypeError(f"within: no numbers in {value!r}")


@dataclass(frozen=True, kw_only=True)
class Within(WrapValidator):
    """Refuses a value outside its bounds; `why` says where they come from."""

    bounds: tuple[Bound, ...]
    why: str

    def __get_pydantic_core_schema__(
        self, source_type: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """That the function takes the value and its reader is not looked up for each field."""
        function = cast(NoInfoWrapValidatorFunction, self.func)
        return no_info_wrap_validator_function(function, schema=handler(source_type))

    @property
    def words(self) -> str:
        """`1 mg to 10 kg`; for several numbers one after the other."""
        return ", ".join(bound.words for bound in self.bounds)

    def of(self, dimension: str) -> Bound:
        """The bound of a dimension. KeyError where there is none."""
        for bound in self.bounds:
            if bound.dimension == dimension:
                return bound
        raise KeyError(f"a value with a {dimension} has no bound for it: {self.words}")


def _refused(text: str, problem: str, bound: Bound, why: str) -> PydanticCustomError:
    check = "digits" if bound.dimension in _WITHOUT_UNIT else "unit and the decimal point"
    hint = f"Taken is {bound.words}: {why}. Check the {check}."
    return wrong("data/absurd", f"{text!r} cannot be right here: {problem}.", hint)


def _spread_refused(value: Quantity, bound: Bound) -> str:
    """What is wrong with a stated spread, or ''. Where nothing below zero is taken it is at most
    the value itself.
    """
    if value.spread is None:
        return ""
    if bound.low >= 0 and 0 < value.value < value.spread:
        return "the spread after ± is more than the value itself"
    if value.spread > bound.high - bound.low:
        return "the spread after ± is wider than all that is taken"
    return ""


def within(why: str, **bounds: tuple[str, str]) -> Within:
    """Bounds by dimension: `within('…', mass=('1 mg', '10 kg'))`; `_` stands for a blank of the
    dimension's name.
    """
    all_of_them = tuple(Bound(name.replace("_", " "), *ends) for name, ends in bounds.items())
    for bound in all_of_them:
        if bound.dimension not in DIMENSIONS and bound.dimension not in _WITHOUT_UNIT:
            raise ValueError(f"within: {bound.dimension!r} is no dimension")

    def check(value: Any, read: Callable[[Any], _T]) -> _T:
        given = read(value)
        text = value.strip() if isinstance(value, str) else str(value)
        for dimension, number in _numbers(given):
            bound = marker.of(dimension)
            below, above = _WORDS.get(dimension, ("less than", "more than"))
            if number < bound.low:
                raise _refused(text, f"{below} {bound.least}", bound, why)
            if not number <= bound.high:
                raise _refused(text, f"{above} {bound.most}", bound, why)
        if isinstance(given, Quantity) and (
            problem := _spread_refused(given, marker.of(given.dimension))
        ):
            hint = (
                "Write one standard deviation after ±, in the unit of the value; check the decimal"
                " point."
            )
            raise wrong("data/absurd", f"{text!r} cannot be right here: {problem}.", hint)
        return given

    marker = Within(check, bounds=all_of_them, why=why)
    return marker
