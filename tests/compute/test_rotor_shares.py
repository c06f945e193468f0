"""What each rotor carries, against numpy on generated layouts: the rank of the mixing matrix and the
least lifts by its pseudo-inverse. And the wash of a pair, against momentum theory solved anew.
"""

from math import cos, pi, sin, sqrt

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from builder.compute.formulas.rotors.wash import (
    overlap_of_discs,
    power_with_overlap,
    thrust_in_clear_air,
    thrust_in_wash,
)
from builder.compute.geometry.clearances import hanging, on_one_axis
from builder.compute.setup.rotor_shares import in_one_line, rotor_shares, sites
from builder.load.assumed import assumed_list


def _shares(
    places: dict[str, tuple[float, float, float]], clockwise: dict[str, bool]
) -> dict[str, float] | None:
    """Independent: least norm of lifts under lift, two tilts and the turn."""
    flat = np.array([p[:2] for p in places.values()])
    flat = (flat - flat.mean(axis=0)) / np.abs(flat).max()
    turn = np.array([1.0 if clockwise[n] else -1.0 for n in places])
    mixing = np.vstack([np.ones(len(turn)), flat.T, turn])
    if np.linalg.matrix_rank(mixing, tol=1e-6) < 4:
        return None
    lifts = np.linalg.pinv(mixing) @ np.array([len(turn), 0.0, 0.0, 0.0])
    return dict(zip(places, lifts.tolist(), strict=True))


def test_generated_layouts() -> None:
    rng = np.random.default_rng(8)
    judged = refused = 0
    for _ in range(300):
        many = int(rng.choice([4, 6, 8]))
        first = float(rng.uniform(0, 2 * pi))
        places, clockwise = {}, {}
        for i in range(many):
            angle = first + 2 * pi * i / many
            reach = float(rng.uniform(0.12, 0.15)) if rng.random() < 0.5 else 0.14
            places[str(i)] = (reach * cos(angle), reach * sin(angle), 0.0)
            clockwise[str(i)] = bool(rng.random() < 0.5)
        wanted, found = _shares(places, clockwise), rotor_shares(places, clockwise)
        if wanted is None:
            assert found is None
            refused += 1
        elif found is not None:
            judged += 1
            assert found == pytest.approx(wanted, abs=1e-9)
    assert judged > 100
    assert refused > 20


def test_what_is_above_what() -> None:
    places = {"1": (0.1, 0.1, 0.0), "2": (0.1, 0.104, 0.02), "3": (0.1, -0.1, 0.0)}
    assert on_one_axis(places) == (("1", "2"),)
    assert sites(places) == 2
    assert hanging(places, "up") == {"1"}
    assert hanging(places, "down") == {"1", "2", "3"}
    assert hanging({"1": (0.1, 0.1, 0.0), "2": (0.1, 0.1, 0.0)}, "up") == frozenset()
    assert in_one_line(places)  # all three have nearly one x
    assert not in_one_line({**places, "4": (-0.1, 0.0, 0.0)})


def _pair_over_two() -> float:
    """Momentum theory of two rotors of thrust 1 and disc 1 in air of density 1/2: the lower one has
    the wash of the upper, twice its speed, over half of its disc.
    """
    upper = 1.0  # v = sqrt(T / 2 rho A)

    def lower_excess(own: float) -> float:
        # mass through the lower disc, times what it adds to the speed far below, is its thrust;
        # energy and momentum of both streams (Leishman, ch. 2)
        mass = 0.5 * (upper + own)
        entering = 0.5 * upper * 2.0 * upper
        far = (1.0 + entering) / mass  # momentum that leaves is the thrust and what entered
        power = 0.5 * mass * far**2 - 0.5 * (0.5 * upper) * (2.0 * upper) ** 2
        return float(power - (upper + own))

    own = float(brentq(lower_excess, 1e-6, 5.0))
    return (upper + (upper + own)) / 2.0


def test_the_wash_is_that_of_momentum_theory() -> None:
    assert assumed_list("flight/wash")[0] == pytest.approx((1 + sqrt(17)) / 4, abs=1e-3)
    assert _pair_over_two() == pytest.approx((1 + sqrt(17)) / 4, abs=1e-6)


def test_power_of_a_pair_is_that_much_more() -> None:
    """Power goes with thrust to the power of three halves."""
    clear = thrust_in_clear_air(2.0, 1.281)
    assert (clear / 2.0) ** 1.5 == pytest.approx(1.281)
    assert thrust_in_wash(clear, 1.281) == pytest.approx(2.0)
    for wrong in ((-1.0, 1.2), (1.0, 0.0)):
        with pytest.raises(ValueError, match="above 0"):
            thrust_in_clear_air(*wrong)
        with pytest.raises(ValueError, match="above 0"):
            thrust_in_wash(*wrong)


@pytest.mark.parametrize("ratio", (0.0, 0.1, 0.5, 0.9, 0.999, 1.0, 1.3))
def test_overlap_is_the_area_of_two_slices(ratio: float) -> None:
    """Two circles of radius 1: four times the area under one from the chord to the edge."""
    chord = min(ratio, 1.0)
    area = 4.0 * quad(lambda x: sqrt(1.0 - x * x), chord, 1.0)[0]
    assert overlap_of_discs(2.0 * ratio, 2.0) == pytest.approx(area / pi, abs=1e-7)


def _power_of_streams(shares: list[float], rotors: int) -> float:
    """Momentum theory strip by strip: thrust is spread evenly over each disc, and where two discs lie
    above each other the air gets both: power of a place goes with the thrust on it to the power of
    three halves, v = sqrt(T / 2 rho A).
    """
    twice = sum(shares)
    once = rotors - 2.0 * twice
    return (once + twice * 2.0 * sqrt(2.0)) / rotors


@pytest.mark.parametrize(("shares", "rotors"), [([0.3], 2), ([0.1] * 6, 6), ([0.2] * 4, 4)])
def test_power_with_overlap_is_that_of_the_streams(shares: list[float], rotors: int) -> None:
    found = power_with_overlap(sum(shares), float(rotors))
    assert found == pytest.approx(_power_of_streams(shares, rotors))


def test_an_overlap_that_cannot_be() -> None:
    for apart, diameter in ((-0.1, 1.0), (0.1, 0.0)):
        with pytest.raises(ValueError, match="diameter above 0"):
            overlap_of_discs(apart, diameter)
    for covered, rotors in ((-0.1, 4.0), (0.1, 0.0)):
        with pytest.raises(ValueError, match="0 or more"):
            power_with_overlap(covered, rotors)
