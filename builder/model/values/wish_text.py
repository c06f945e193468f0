"""What somebody types as a bound of weight, price or time."""

from pydantic import TypeAdapter, ValidationError
from pydantic_core import PydanticCustomError

from builder.model.values.bounds_of_bodies import MoneyAmount
from builder.model.values.money_text import Money
from builder.model.values.quantities import parse


def mass_typed(text: str) -> float | None:
    """A weight in kg; None for what is none."""
    try:
        return parse(text, "mass").value
    except PydanticCustomError:
        return None


def price_typed(text: str) -> Money | None:
    """An amount of money; None for what is none."""
    try:
        money: Money = TypeAdapter(MoneyAmount).validate_python(text)
    except ValidationError:
        return None
    return money


def time_typed(text: str) -> float:
    """A time in s. ValueError with what is wrong, and what to write instead."""
    try:
        return parse(text, "time").value
    except PydanticCustomError as error:
        context = error.context or {}
        raise ValueError(f"{context.get('message')} {context.get('hint')}") from None
