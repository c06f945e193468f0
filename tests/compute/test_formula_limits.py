"""Values that a formula is not made for leave a figure not known; no error and no infinity comes
out of it.

What is expected is arithmetic: a root below 0, a quotient by 0 and e to the 1000 have no value in
the reals that a float holds (IEEE 754); the slope of a root at 0 is without bound.
"""

from collections.abc import Callable
from math import exp, isfinite, log, sqrt

import pytest

from builder.compute.figures.figure import Figure, Unknown, apply, leaf
from builder.compute.figures.formula import FormulaText, Symbol
from builder.compute.figures.sloped_formula import Formula, Partials


def _formula(function: Callable[..., float], partials: Partials | None = None) -> Formula:
    text = FormulaText(
        "Made up.", "y = f(x)", (), Symbol("Gives", "y", "result", "1"), "none", "made up"
    )
    return Formula("made_up", function, text, partials)


def _own_words(x: float) -> float:
    raise ValueError(f"a battery of {x:g} cells")


@pytest.mark.parametrize(
    ("function", "value"),
    [(sqrt, -1.0), (log, 0.0), (lambda x: 1 / x, 0.0), (exp, 1000.0), (lambda x: 1e308 * x, 10.0)],
)
def test_outside_its_limits_a_formula_gives_what_is_missing(
    function: Callable[..., float], value: float
) -> None:
    found = apply("k", "Some figure", _formula(function), leaf("x", "X", value, "1"))
    assert isinstance(found, Unknown) and "Some figure" in found.missing[0]
    assert "math" not in found.missing[0] and "division" not in found.missing[0]


def test_a_refusal_in_words_of_its_own_is_kept() -> None:
    found = apply("k", "Some figure", _formula(_own_words), leaf("x", "X", 0.0, "1"))
    assert isinstance(found, Unknown) and found.missing == ("a battery of 0 cells",)


@pytest.mark.parametrize(
    "partials",
    [None, lambda x: (0.5 / sqrt(x),), lambda x: (float("inf"),), lambda x: (exp(1000.0),)],
)
def test_a_slope_without_bound_becomes_a_difference(partials: Partials | None) -> None:
    found = apply("k", "Root", _formula(sqrt, partials), leaf("x", "X", 0.0, "1", own=1e-6))
    assert isinstance(found, Figure) and found.value == 0
    assert isfinite(found.spread) and found.spread > 0


def test_a_band_far_wider_than_its_value_has_ends() -> None:
    found = apply(
        "k", "Time", _formula(lambda x: x), leaf("x", "X", 1e-9, "s", own=1.0), shape="lognormal"
    )
    assert isinstance(found, Figure)
    low, high = found.band(0.8)
    assert isfinite(low) and isfinite(high) and low < found.value < high
    narrow = apply(
        "k", "Time", _formula(lambda x: x), leaf("x", "X", 100.0, "s", own=10.0), shape="lognormal"
    )
    assert isinstance(narrow, Figure)
    low, high = narrow.band(0.8)
    assert low * high == pytest.approx(100.0**2)  # even in logarithms
