"""Reading between the points of a table, against scipy and numpy."""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.slopes import monotone_reach
from builder.compute.formulas.rotors.interpolate import (
    linear,
    monotone,
    monotone_through,
)

Table = tuple[tuple[float, ...], tuple[float, ...]]


@st.composite
def tables(draw: st.DrawFn, rising: bool = False) -> Table:
    count = draw(st.integers(2, 9))
    steps = draw(st.lists(st.floats(0.05, 10.0), min_size=count, max_size=count))
    rises = draw(
        st.lists(
            st.floats(0.01, 20.0) if rising else st.floats(-20.0, 20.0),
            min_size=count,
            max_size=count,
        )
    )
    flat = [0.0 if not rising and abs(r) < 2.0 else r for r in rises]
    return tuple(np.cumsum(steps).tolist()), tuple(np.cumsum(flat).tolist())


@given(tables(), st.floats(0.0, 1.0))
@settings(max_examples=200, deadline=None)
def test_monotone_against_scipy(table: Table, share: float) -> None:
    xs, ys = table
    x = min(max(xs[0] + share * (xs[-1] - xs[0]), xs[0]), xs[-1])
    assert monotone(x, xs, ys) == pytest.approx(
        float(PchipInterpolator(xs, ys)(x)), rel=1e-9, abs=1e-9
    )
    assert linear(x, xs, ys) == pytest.approx(float(np.interp(x, xs, ys)), rel=1e-9, abs=1e-9)


@given(tables(rising=True))
@settings(max_examples=60, deadline=None)
def test_a_rising_table_gives_a_rising_curve_without_overshoot(table: Table) -> None:
    xs, ys = table
    values = [monotone(min(x, xs[-1]), xs, ys) for x in np.linspace(xs[0], xs[-1], 60).tolist()]
    assert all(b >= a - 1e-9 for a, b in pairwise(values))
    assert ys[0] - 1e-9 <= min(values) and max(values) <= ys[-1] + 1e-9


def test_the_points_themselves_come_back() -> None:
    xs, ys = (0.2, 0.4, 0.7, 1.0), (1.1, 4.0, 11.5, 21.0)
    for x, y in zip(xs, ys, strict=True):
        assert monotone(x, xs, ys) == pytest.approx(y, rel=1e-12)
        assert linear(x, xs, ys) == pytest.approx(y, rel=1e-12)


def test_points_given_in_turn() -> None:
    xs, ys = (0.2, 0.4, 0.7, 1.0), (1.1, 4.0, 11.5, 21.0)
    turn = [value for pair in zip(xs, ys, strict=True) for value in pair]
    assert monotone_through(0.55, *turn) == monotone(0.55, xs, ys)


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (monotone, (3.1, (1.0, 2.0, 3.0), (1.0, 2.0, 3.0)), "does not reach that far"),
        (monotone, (0.9, (1.0, 2.0, 3.0), (1.0, 2.0, 3.0)), "does not reach that far"),
        (monotone, (1.0, (1.0,), (1.0,)), "two points"),
        (monotone, (1.5, (1.0, 2.0), (1.0,)), "for each place"),
        (linear, (1.5, (1.0, 2.0, 2.0), (1.0, 2.0, 3.0)), "rise"),
        (linear, (float("nan"), (1.0, 2.0), (1.0, 2.0)), "does not reach that far"),
        (monotone_through, (1.5, 1.0, 1.0, 2.0), "for each place"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[object, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)


@given(tables(), st.floats(0.0, 1.0), st.booleans())
@settings(max_examples=200, deadline=None)
def test_what_a_point_cannot_change_is_left_out_of_its_slopes(
    table: Table, share: float, on_a_point: bool
) -> None:
    """Every value outside `monotone_reach` is moved far, and scipy's curve still says what ours
    said before.
    """
    xs, ys = table
    between = min(max(xs[0] + share * (xs[-1] - xs[0]), xs[0]), xs[-1])
    x = xs[round(share * (len(xs) - 1))] if on_a_point else between
    points = [v for pair in zip(xs, ys, strict=True) for v in pair]
    reach = monotone_reach(x, *points)
    assert len(reach) <= 9
    near, all_of_it = formula(monotone_through, reach=monotone_reach), formula(monotone_through)
    assert near.slopes([x, *points]) == all_of_it.slopes([x, *points])
    moved = [y if 2 * k + 2 in reach else y + 100.0 for k, y in enumerate(ys)]
    assert float(PchipInterpolator(xs, moved)(x)) == pytest.approx(
        monotone(x, xs, ys), rel=1e-9, abs=1e-9
    )
