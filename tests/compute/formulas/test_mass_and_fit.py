"""Mass of wire and solder, balance, thread grip, against facts of the trade, integrals and a
solver.
"""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.formulas.weight.fit import (
    clearance_below,
    grip_in_diameters,
    stack_height,
    thread_grip,
)
from builder.compute.formulas.weight.mass import (
    centre_of_mass,
    centre_of_masses,
    hover_share,
    symmetric_hover_share,
    trim_place,
)


@given(
    st.lists(
        st.tuples(st.floats(0.001, 0.2), st.floats(-0.1, 0.1)),
        min_size=1,
        max_size=10,
    )
)
@settings(max_examples=60, deadline=None)
def test_centre_of_mass_against_numpy(parts: list[tuple[float, float]]) -> None:
    masses, places = zip(*parts, strict=True)
    expected = float(np.average(places, weights=masses))
    assert centre_of_mass(masses, places) == pytest.approx(expected, abs=1e-12)
    assert centre_of_masses(*(x for part in parts for x in part)) == pytest.approx(
        expected, abs=1e-12
    )


rotors = st.lists(
    st.tuples(st.floats(-0.2, 0.2), st.floats(-0.2, 0.2)), min_size=4, max_size=8
).filter(lambda r: np.linalg.svd(np.array(r) - np.mean(r, axis=0))[1][1] > 0.01)


@given(rotors, st.floats(-0.02, 0.02), st.floats(-0.02, 0.02))
@settings(max_examples=80, deadline=None)
def test_shares_at_hover_against_the_pseudo_inverse(
    places: list[tuple[float, float]], along: float, across: float
) -> None:
    """Lift 1, centre of lift over the centre of mass: numpy's least-norm solution of the three
    equations.
    """
    xs, ys = zip(*places, strict=True)
    exact = np.linalg.pinv(np.array([np.ones(len(xs)), xs, ys])) @ np.array([1.0, along, across])
    ours = [hover_share(along, across, xs, ys, k) for k in range(len(xs))]
    assert ours == pytest.approx(exact.tolist(), abs=1e-8)
    assert math.fsum(ours) == pytest.approx(1.0)
    assert math.fsum(s * x for s, x in zip(ours, xs, strict=True)) == pytest.approx(along, abs=1e-9)


def test_the_short_form_agrees_on_a_symmetric_frame() -> None:
    xs, ys = (0.05, 0.05, -0.05, -0.05), (0.06, -0.06, 0.06, -0.06)
    for k in range(4):
        short = symmetric_hover_share(4, 0.004, -0.002, xs[k], ys[k], 4 * 0.05**2, 4 * 0.06**2)
        assert short == pytest.approx(hover_share(0.004, -0.002, xs, ys, k))


def test_a_balanced_four_shares_alike() -> None:
    assert symmetric_hover_share(4, 0.0, 0.0, 0.05, 0.06, 0.01, 0.0144) == 0.25


def test_the_pack_trims_the_balance() -> None:
    place = trim_place(0.0, 0.171, 0.003, 0.074)
    assert centre_of_mass((0.171, 0.074), (0.003, place)) == pytest.approx(0.0, abs=1e-15)
    assert place == pytest.approx(-0.171 * 0.003 / 0.074)


def test_screw_that_reaches_the_winding() -> None:
    """An 8 mm screw through a 3.5 mm arm and a 0.5 mm washer, 3 mm of thread, winding 0.5 mm behind
    it.
    """
    grip = thread_grip(0.008, 0.0035 + 0.0005, 0.003)
    assert grip == pytest.approx(0.003)
    assert clearance_below(0.008, 0.004, 0.0035) == pytest.approx(-0.0005)
    assert thread_grip(0.006, 0.004, 0.003) == pytest.approx(0.002)
    assert grip_in_diameters(0.002, 0.002) == pytest.approx(1.0)
    assert thread_grip(0.003, 0.004, 0.003) < 0.0


def test_height_of_a_stack() -> None:
    assert stack_height(0.003, 0.0065, 0.003) == pytest.approx(0.0125)


@pytest.mark.parametrize(
    ("call", "arguments", "words"),
    [
        (centre_of_mass, ((), ()), "not all 0"),
        (centre_of_mass, ((1.0,), (1.0, 2.0)), "for each"),
        (centre_of_mass, ((1.0, -0.5), (1.0, 2.0)), "not negative"),
        (centre_of_masses, (1.0, 2.0, 3.0), "for each"),
        (trim_place, (0.0, 0.17, 0.01, 0.0), "with mass"),
        (hover_share, (0.0, 0.0, (1.0, 2.0, 3.0), (1.0, 2.0, 3.0), 0), "one line"),
        (hover_share, (0.0, 0.0, (1.0, 2.0), (1.0, 3.0), 0), "three rotors"),
        (symmetric_hover_share, (4, 0.0, 0.0, 0.1, 0.1, 0.0, 0.1), "one line"),
        (grip_in_diameters, (0.001, 0.0), "above 0"),
    ],
)
def test_outside_the_domain(
    call: Callable[..., float], arguments: tuple[object, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        call(*arguments)
