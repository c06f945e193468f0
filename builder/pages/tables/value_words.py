"""A value of the model in the unit in which somebody wrote it, as the trade reads it."""

from collections.abc import Iterable, Mapping
from datetime import date
from types import MappingProxyType

from builder.model.values.base import Frozen, Sourced
from builder.model.values.lengths_text import Pattern, Position, Size
from builder.model.values.measures import AtVolts, Burst, Cells, Gauge, Rate
from builder.model.values.money_text import Money
from builder.model.values.quantities import Quantity, QuantityRange
from builder.model.values.units import DIMENSIONS
from builder.pages.numbers import money
from builder.rounding import significant

_READ_AS = MappingProxyType({"speaks": "protocol"})  # a key that is read by another word


def key_in_words(name: str) -> str:
    """A key of a field as it is read."""
    key = name.rstrip("_")
    return _READ_AS.get(key, key.replace("_", " "))


def in_written_unit(value: float, unit: str, dimension: str) -> float:
    """An SI value as a number of the unit that was written."""
    table = DIMENSIONS[dimension]
    return (value - table.zeros.get(unit, 0.0)) / table.units[unit]


def quantity_words(value: Quantity) -> str:
    """`75 mohm`, `14.3 ± 0.2 g`."""
    spread = ""
    if value.spread is not None:
        spread = f" ± {significant(value.spread / DIMENSIONS[value.dimension].units[value.unit])}"
    read = significant(in_written_unit(value.value, value.unit, value.dimension))
    return f"{read}{spread} {value.unit}".rstrip()


def _range_words(value: QuantityRange) -> str:
    read = (in_written_unit(v, value.unit, value.dimension) for v in (value.low, value.high))
    ends = map(significant, read)
    return f"{' to '.join(dict.fromkeys(ends))} {value.unit}".rstrip()


def _current_words(value: Rate | Burst | AtVolts) -> str:
    if isinstance(value, Rate):
        many = value.per_capacity
        return (
            f"{significant(many)}C" if many is not None else f"{significant(value.amperes or 0)} A"
        )
    amperes = f"{significant(value.current)} A"
    if isinstance(value, Burst):
        return f"{amperes} for {significant(value.seconds)} s" if value.seconds else amperes
    return f"{amperes} at {significant(value.volts)} V" if value.volts else amperes


def _place_words(value: Position) -> str:
    return ", ".join(f"{significant(1000 * v)} mm" for v in (value.x, value.y, value.z))


def _group_words(value: Frozen) -> str:
    said = [n for n in type(value).model_fields if n in value.model_fields_set]
    found = ((n, value_words(getattr(value, n))) for n in said)
    return ", ".join(f"{key_in_words(n)} {words}" for n, words in found if words)


def value_words(value: object) -> str:
    """Any value that a field of a part may hold, in words; '' for what holds nothing."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Quantity):
        return quantity_words(value)
    if isinstance(value, QuantityRange):
        return _range_words(value)
    if isinstance(value, Sourced):
        return ", ".join(f"{quantity_words(q)} ({basis})" for basis, q in value.all())
    if isinstance(value, Cells | Size | Pattern | Gauge):
        return value.label
    if isinstance(value, Rate | Burst | AtVolts):
        return _current_words(value)
    return _other_words(value)


def _other_words(value: object) -> str:
    if isinstance(value, Money):
        return money(value)
    if isinstance(value, Position):
        return _place_words(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Frozen):
        return _group_words(value)
    if isinstance(value, Mapping):
        return "; ".join(f"{key}: {value_words(each)}" for key, each in value.items())
    if isinstance(value, int | float):
        return significant(float(value))
    if isinstance(value, Iterable) and not isinstance(value, str):
        return "; ".join(words for words in map(value_words, value) if words)
    return value if isinstance(value, str) else ""
