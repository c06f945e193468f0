"""Money: whole minor units, rounded once a line, whole bags and spares in what you pay, dated rates
either way round.
"""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.compute import compute
from builder.compute.formulas.money import line_price_abroad
from builder.compute.money.budget import Budget
from tests.compute.small_workspace import one_build


def _budget(part: str, use: str = "f", site: str = "") -> Budget:
    shelf = f"f: {{kind: frame, name: F, {part}}}"
    return compute(one_build(shelf, f"title: T\nparts: {{f: {use}}}", f"title: T\n{site}")).budget


def test_a_bag_of_ten_at_the_till_and_three_of_it_in_the_build() -> None:
    """7.99 for ten: three of them are 2.397, rounded once to 2.40; the till takes a whole bag."""
    budget = _budget("price: {pack: 7.99 EUR, sold_in: 10}", "{use: f, count: 3}")
    assert (budget.this_build.minor, budget.at_the_till.minor) == (240, 799)


def test_spares_open_a_second_bag() -> None:
    budget = _budget("price: {each: 0.80 EUR, sold_in: 8}", "{use: f, count: 4, spares: 8}")
    assert (budget.this_build.minor, budget.at_the_till.minor, budget.lines[0].purchases) == (
        320,
        1280,
        2,
    )


@pytest.mark.parametrize(
    ("rates", "minor"),
    [
        ("[{from: USD, to: EUR, rate: 0.92, dated: 2026-01-01}]", 920),
        ("[{from: EUR, to: USD, rate: 1.25, dated: 2026-01-01}]", 800),
        (
            (
                "[{from: USD, to: EUR, rate: 0.92, dated: 2026-01-01},"
                " {from: USD, to: EUR, rate: 0.95, dated: 2026-02-01}]"
            ),
            950,
        ),
    ],
)
def test_the_newest_rate_either_way_round(rates: str, minor: int) -> None:
    assert _budget("price: 10.00 USD", site=f"rates: {rates}").this_build.minor == minor


def test_without_a_rate_the_total_says_what_it_lacks() -> None:
    budget = _budget("price: 10.00 USD")
    assert (budget.this_build.minor, budget.lacks) == (0, ("F",))


def test_a_currency_without_minor_units() -> None:
    """The yen has none (ISO 4217)."""
    budget = _budget("price: 1250 JPY", "{use: f, count: 2}", "currency: JPY")
    assert (budget.this_build.minor, budget.this_build.digits) == (2500, 0)


def test_postage_once_a_shop() -> None:
    shelf = """
a: {kind: frame, name: A, price: {each: 1.00 EUR, shop: S, postage: 4.00 EUR}}
b: {kind: camera, name: B, price: {each: 1.00 EUR, shop: S, postage: 5.00 EUR}}
c: {kind: other, name: C, price: {each: 1.00 EUR, shop: R, postage: 2.00 EUR}}
"""
    budget = compute(one_build(shelf, "title: T\nparts: {a: a, b: b, c: c}")).budget
    assert [(shop, f.value) for shop, f in budget.postage] == [("R", 2.0), ("S", 5.0)]
    assert budget.at_the_till.minor == 1000


def test_tools_are_bought_once_and_stand_apart() -> None:
    shelf = (
        "a: {kind: frame, name: A, price: 9.00 EUR}\niron: {kind: tool, name: I, price: 54.00 EUR}"
    )
    budget = compute(
        one_build(shelf, "title: T\nparts: {a: a, iron: {use: iron, owned: yes}}")
    ).budget
    assert (budget.this_build.minor, budget.once_total.minor, budget.once_to_buy.minor) == (
        900,
        5400,
        0,
    )


@pytest.mark.parametrize(("as_of", "stale"), [("2026-06-29", False), ("2026-07-01", True)])
def test_age_counts_from_as_of(as_of: str, stale: bool) -> None:
    """180 days after 2026-01-01 is 2026-06-30."""
    line = _budget(
        "price: {each: 1.00 EUR, seen: 2026-01-01}", site=f"as_of: {as_of}\nprice_age: 180 days"
    ).lines[0]
    assert line.stale is stale


@settings(max_examples=200)
@given(st.integers(1, 10**7), st.integers(1, 99), st.integers(1, 100), st.integers(1, 20000))
def test_rounding_is_half_away_from_zero_in_exact_arithmetic(
    minor: int, pieces: int, bag: int, rate: int
) -> None:
    exact = Decimal(minor) / 100 * pieces * (Decimal(rate) / 1000) / bag
    wanted = exact.quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)
    made = line_price_abroad(minor / 100, float(pieces), float(bag), rate / 1000, 0.01)
    assert made == pytest.approx(float(wanted), abs=1e-9)
