"""Propagation against the uncertainties package (first order), and against a Monte Carlo run with
numpy.

The numpy formulas below are written anew, so that a mistake in the project's own cannot hide.
"""

from collections.abc import Callable
from math import sqrt
from typing import Any

import numpy as np
import pytest
import uncertainties

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build

pytestmark = pytest.mark.slow  # takes long

SAMPLES = 100_000
MONEY = {
    "line_price",
    "line_price_abroad",
}  # rounded to a coin: a numeric slope of a step says nothing


def _from_leaves(figure: Figure) -> Any:
    """The figure again, by the uncertainties package: leaves become variables, formulas are
    wrapped.
    """
    made: dict[str, Any] = {}
    for step in figure.derivation:
        if step.formula is None:
            made[step.key] = made.get(
                step.key, uncertainties.ufloat(step.value, step.own) if step.own else step.value
            )
        else:
            made[step.key] = uncertainties.wrap(step.formula.function)(
                *(made[i.key] for i in step.inputs)
            )
    return made[figure.key]


@pytest.mark.parametrize("name", ["dipper", "redshank", "curlew"])
def test_against_the_uncertainties_package(demo: Checked, name: str) -> None:
    results = demo.sheets[name].results
    assert results.balance is not None
    wanted: list[object] = [
        results.mass.dry_sum,
        *results.mass.all_up_sum.values(),
        *results.mass.all_up.values(),
    ]
    wanted += [
        f
        for p in results.balance.packs
        for f in (p.along, p.across, p.trim_along, *p.shares.values())
    ]
    for figure in wanted:
        assert isinstance(figure, Figure)
        oracle = _from_leaves(figure)
        assert figure.value == pytest.approx(oracle.nominal_value, rel=1e-9, abs=1e-12)
        assert figure.spread == pytest.approx(oracle.std_dev, rel=1e-4, abs=1e-12)


def test_shared_leaves_cancel_between_builds(demo: Checked) -> None:
    """Dipper and its lighter variant share all but the motors: what they share leaves no spread in
    the difference.
    """
    one, other = (demo.sheets[n].results.mass.dry_sum for n in ("dipper", "dipper-light"))
    shared = {k for k in one.slopes if k.startswith("shelf/")} & set(other.slopes)
    assert len(shared) > 10
    rest = set(one.slopes) ^ set(other.slopes)
    errors = [
        one.slopes.get(k, 0.0) * (one.leaves[k].own if k in one.leaves else 0.0) for k in rest
    ]
    errors += [
        other.slopes.get(k, 0.0) * (other.leaves[k].own if k in other.leaves else 0.0) for k in rest
    ]
    assert all(
        one.slopes[k] == pytest.approx(other.slopes[k]) for k in shared if "motor-1" not in k
    )
    assert sqrt(sum(e * e for e in errors)) < sqrt(one.spread**2 + other.spread**2)


Array = Any
NUMPY: dict[str, Callable[..., Array]] = {
    "add": lambda *a: sum(a),
    "_subtract": lambda a, b: a - b,
    "line_mass": lambda a, n, e: n * a + e,
    "pieces_mass": lambda a, n: n * a,
    "joint_solder": lambda a, n: n * a,
    "wire_run_mass": lambda area, outer, run: (
        run * (8890 * area + 1200 * (np.pi * outer**2 / 4 - 1.15**2 * area))
    ),
    "trimmed_mass": lambda area, outer, whole, left: (
        -np.maximum(0.0, whole - left)
        * (8890 * area + 1200 * (np.pi * outer**2 / 4 - 1.15**2 * area))
    ),
    "centre_of_masses": lambda *a: (
        sum(m * x for m, x in zip(a[::2], a[1::2], strict=True)) / sum(a[::2])
    ),
    "trim_place": lambda w, big, x, m: (w * (big + m) - big * x) / m,
    "symmetric_hover_share": lambda n, x, y, rx, ry, xx, yy: 1 / n + x * rx / xx + y * ry / yy,
    "line_price": lambda p, n, k, u: np.round(p * n / k / u) * u,
    "line_price_abroad": lambda p, n, k, r, u: np.round(p * n * r / k / u) * u,
    "inverse_rate": lambda r: 1 / r,
}


def _sampled(figure: Figure, seed: int) -> Array:
    rng = np.random.default_rng(seed)
    made: dict[str, Array] = {}
    for step in figure.derivation:
        if step.key in made:
            continue
        if step.formula is None:
            made[step.key] = (
                rng.normal(step.value, step.own, SAMPLES)
                if step.own
                else np.full(SAMPLES, step.value)
            )
        else:
            made[step.key] = NUMPY[step.formula.function.__name__](
                *(made[i.key] for i in step.inputs)
            )
    return made[figure.key]


def _agrees(figure: object, seed: int) -> None:
    assert isinstance(figure, Figure)
    samples = _sampled(figure, seed)
    assert np.std(samples) == pytest.approx(figure.spread, rel=0.03)
    # What is not linear (a diameter squared) moves the mean a little: second order, left out on
    # purpose.
    assert np.mean(samples) == pytest.approx(figure.value, abs=0.05 * figure.spread)


@pytest.mark.parametrize("name", ["dipper", "curlew"])
def test_weight_against_monte_carlo(demo: Checked, name: str) -> None:
    for i, figure in enumerate(demo.sheets[name].results.mass.all_up_sum.values()):
        _agrees(figure, 20 + i)


def test_balance_against_monte_carlo(demo: Checked) -> None:
    balance = demo.sheets["curlew"].results.balance
    assert balance is not None
    for i, pack in enumerate(balance.packs):
        for figure in (pack.along, pack.across, pack.trim_along, next(iter(pack.shares.values()))):
            _agrees(figure, 40 + i)


@pytest.mark.parametrize(
    "rate", ["{from: USD, to: EUR, rate: 0.92 ± 0.02", "{from: EUR, to: USD, rate: 1.09 ± 0.02"]
)
def test_budget_against_monte_carlo(rate: str) -> None:
    site = f"title: T\ncurrency: EUR\nrates: [{rate}, dated: 2026-01-01}}]"
    shelf = """
a: {kind: frame, name: A, price: {each: 84.00 USD, seen: 2026-01-01}}
b: {kind: motor, name: B, price: {each: 21.50 USD, seen: 2026-01-01}}
c: {kind: camera, name: C, price: {each: 30.00 EUR, seen: 2026-01-01}}
"""
    budget = compute(
        one_build(shelf, "title: T\nparts: {a: a, b: {use: b, count: 4}, c: c}", site)
    ).budget
    assert budget.figures["this-build"].spread > 1
    _agrees(budget.figures["this-build"], 60)


def test_every_formula_has_slopes_that_a_difference_confirms(demo: Checked) -> None:
    """Analytic partials against central differences, for every figure of every build that has them."""
    checked = 0
    for sheet in demo.sheets.values():
        for figure in sheet.figures:
            how = figure.formula
            if how is None or how.partials is None or how.function.__name__ in MONEY:
                continue
            values = [i.value for i in figure.inputs]
            for i, slope in enumerate(figure.partials):
                step = 1e-6 * max(1.0, abs(values[i]))
                up, down = (
                    how.function(*values[:i], values[i] + s, *values[i + 1 :])
                    for s in (step, -step)
                )
                assert slope == pytest.approx((up - down) / (2 * step), rel=1e-4, abs=1e-6)
                checked += 1
    assert checked > 100
