"""What is typed behind `benchleaf choose` as a wish."""

import click

from builder.compute.choose.wish import BuildWish, Goal
from builder.compute.money.price_figures import in_major
from builder.model.values.wish_text import mass_typed, price_typed, time_typed


def _price(text: str, currency: str) -> float | None:
    money = price_typed(text)
    if money is None:
        return None
    if money.currency != currency:
        raise click.UsageError(f"Prices of this workspace are in {currency}: write {text!r} in it.")
    return in_major(money)


def _time(text: str | None) -> float | None:
    try:
        return time_typed(text) if text is not None else None
    except ValueError as error:
        raise click.UsageError(str(error)) from None


def _only(found: list[float], kind: str) -> float | None:
    if len(found) > 1:
        raise click.UsageError(f"Say one limit of {kind}: here are {len(found)}.")
    return found[0] if found else None


def wish_of(under: tuple[str, ...], at_least: str | None, goal: Goal, currency: str) -> BuildWish:
    """The wish; UsageError for a bound that is neither a weight nor a price, or said twice."""
    masses: list[float] = []
    prices: list[float] = []
    for text in under:
        mass = mass_typed(text)
        price = _price(text, currency) if mass is None else None
        if mass is not None:
            masses.append(mass)
        elif price is not None:
            prices.append(price)
        else:
            problem = f"{text!r} is neither a weight nor a price."
            raise click.UsageError(f"{problem} Write it like '250 g' or '200 {currency}'.")
    return BuildWish(goal, _only(masses, "weight"), _only(prices, "price"), _time(at_least))
