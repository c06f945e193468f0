"""What is typed behind `benchleaf choose` as a wish."""

import click
from pydantic import TypeAdapter, ValidationError
from pydantic_core import PydanticCustomError

from builder.compute.choose.wish import Goal, Wish
from builder.compute.money.price_figures import in_major
from builder.model.values.bounds_of_bodies import MoneyAmount
from builder.model.values.measures import Money
from builder.model.values.quantities import parse


def _mass(text: str) -> float | None:
    try:
        return parse(text, "mass").value
    except PydanticCustomError:
        return None


def _price(text: str, currency: str) -> float | None:
    try:
        money: Money = TypeAdapter(MoneyAmount).validate_python(text)
    except ValidationError:
        return None
    if money.currency != currency:
        raise click.UsageError(f"Prices of this workspace are in {currency}: write {text!r} in it.")
    return in_major(money)


def _time(text: str) -> float:
    try:
        return parse(text, "time").value
    except PydanticCustomError as error:
        context = error.context or {}
        raise click.UsageError(f"{context.get('message')} {context.get('hint')}") from None


def wish_of(under: tuple[str, ...], at_least: str | None, goal: Goal, currency: str) -> Wish:
    """The wish; UsageError for a bound that is neither a weight nor a price, or said twice."""
    mass, price = None, None
    for text in under:
        grams, amount = _mass(text), None
        if grams is None:
            amount = _price(text, currency)
        if grams is None and amount is None:
            example = f"'250 g' or '200 {currency}'"
            raise click.UsageError(
                f"{text!r} is neither a weight nor a price. Write it like {example}."
            )
        if (grams is not None and mass is not None) or (amount is not None and price is not None):
            raise click.UsageError(f"{text!r} is a second limit of one kind. Say each once.")
        mass = grams if grams is not None else mass
        price = amount if amount is not None else price
    return Wish(goal, mass, price, _time(at_least) if at_least is not None else None)
