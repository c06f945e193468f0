"""Prices of lines: multiplied first, rounded once to the smallest coin, half away from zero."""

from decimal import ROUND_HALF_UP, Decimal


def _to_step(exact: Decimal, step: float) -> float:
    unit = Decimal(repr(step))
    return float((exact / unit).quantize(Decimal(1), rounding=ROUND_HALF_UP) * unit)


def line_price(price: float, pieces: float, sold_in: float, step: float) -> float:
    """Price of a line, rounded once.

    Formula: P = round(p n / k) to the step u
    price: p, price of one purchase, in the currency [1]
    pieces: n, pieces that are counted [1]
    sold_in: k, pieces that come in one purchase [1]
    step: u, smallest coin of the currency [1]
    Gives: P, price of the line, in the currency [1]
    Limits: k and u above 0, else ValueError; halves are rounded away from zero.
    Source: definition

    >>> line_price(7.99, 3.0, 10.0, 0.01)
    2.4
    """
    return line_price_abroad(price, pieces, sold_in, 1.0, step)


def line_price_abroad(
    price: float, pieces: float, sold_in: float, rate: float, step: float
) -> float:
    """Price of a line in another currency, rounded once.

    Formula: P = round(p n r / k) to the step u
    price: p, price of one purchase, in its own currency [1]
    pieces: n, pieces that are counted [1]
    sold_in: k, pieces that come in one purchase [1]
    rate: r, what one unit of its currency is worth in the site's [1]
    step: u, smallest coin of the site's currency [1]
    Gives: P, price of the line, in the site's currency [1]
    Limits: k and u above 0, else ValueError; halves are rounded away from zero.
    Source: definition

    >>> line_price_abroad(10.0, 2.0, 1.0, 0.8512, 0.01)
    17.02
    """
    if sold_in <= 0.0 or step <= 0.0:
        raise ValueError("A purchase holds at least one piece, and a coin is worth something.")
    exact = (
        Decimal(repr(price)) * Decimal(repr(pieces)) * Decimal(repr(rate)) / Decimal(repr(sold_in))
    )
    return _to_step(exact, step)


def inverse_rate(rate: float) -> float:
    """A rate of exchange the other way round.

    Formula: r' = 1 / r
    rate: r, what one unit of the first currency is worth in the second [1]
    Gives: r', what one unit of the second is worth in the first [1]
    Limits: rate above 0, else ValueError.
    Source: definition

    >>> inverse_rate(1.25)
    0.8
    """
    if rate <= 0.0:
        raise ValueError("A rate of exchange lies above 0.")
    return 1.0 / rate
