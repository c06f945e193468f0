"""Our nodal analysis against that of NumPy on generated nets, and against sums by hand.

Kirchhoff's laws hold in each net; the potentials are solved by numpy.linalg.lstsq of the whole
(singular) matrix of conductances, which shares no step with our elimination.
"""

import random
from collections.abc import Hashable

import numpy as np
import pytest

from builder.compute.loops.nodal import Resistor, branch_currents, solved


def _net(seed: int) -> tuple[list[Resistor], dict[Hashable, float]]:
    """A joined net of 2 to 14 nodes, with resistances over five powers of ten, as copper and cells."""
    rolls = random.Random(seed)
    count = rolls.randint(2, 14)
    ends = [(i, rolls.randrange(i)) for i in range(1, count)]
    ends += [(rolls.randrange(count), rolls.randrange(count)) for _ in range(rolls.randint(0, 18))]
    resistors = [Resistor(a, b, 10 ** rolls.uniform(-4, 1)) for a, b in ends]
    currents: dict[Hashable, float] = {i: rolls.uniform(-100, 100) for i in range(count - 1)}
    return resistors, {**currents, count - 1: -sum(currents.values())}


def _by_numpy(resistors: list[Resistor], entering: dict[Hashable, float]) -> list[float]:
    count = len(entering)
    incidence = np.zeros((len(resistors), count))
    for row, r in enumerate(resistors):
        incidence[row, int(str(r.a))] += 1.0
        incidence[row, int(str(r.b))] -= 1.0
    g = np.diag([1.0 / r.ohms for r in resistors])
    right = np.array([entering[i] for i in range(count)])
    volts = np.linalg.lstsq(incidence.T @ g @ incidence, right, rcond=1e-14)[0]
    return list(g @ incidence @ volts)


@pytest.mark.parametrize("seed", range(200))
def test_currents_are_those_of_numpy(seed: int) -> None:
    resistors, entering = _net(seed)
    largest = max(abs(c) for c in entering.values())
    expected = _by_numpy(resistors, entering)
    found = branch_currents(resistors, [entering])[0]
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-6 * largest)


@pytest.mark.parametrize("seed", range(200, 260))
def test_what_enters_a_node_leaves_it(seed: int) -> None:
    resistors, entering = _net(seed)
    left = dict(entering)
    for r, current in zip(resistors, branch_currents(resistors, [entering])[0], strict=True):
        left[r.a] -= current
        left[r.b] += current
    assert max(abs(c) for c in left.values()) < 1e-6 * max(abs(c) for c in entering.values())


def test_two_ways_share_by_their_conductance() -> None:
    """Current divider: of 10 A through 1 Ω and 4 Ω side by side, 8 A and 2 A (any textbook)."""
    both = [Resistor("a", "b", 1.0), Resistor("a", "b", 4.0)]
    assert branch_currents(both, [{"a": 10.0, "b": -10.0}])[0] == pytest.approx((8.0, 2.0))


def test_a_bridge_by_hand() -> None:
    """A balanced bridge carries nothing in its middle (Wheatstone; any textbook)."""
    bridge = [
        Resistor("a", "l", 1.0),
        Resistor("a", "r", 2.0),
        Resistor("l", "b", 3.0),
        Resistor("r", "b", 6.0),
        Resistor("l", "r", 5.0),
    ]
    assert branch_currents(bridge, [{"a": 3.0, "b": -3.0}])[0][-1] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("size", (1, 2, 7, 30))
def test_equations_are_solved_as_numpy_does(size: int) -> None:
    rows = np.random.default_rng(size).normal(size=(size, size))
    rights = [np.arange(1.0, size + 1), np.arange(size, 0.0, -1.0)]
    found = solved(rows.tolist(), [r.tolist() for r in rights])
    for right, own in zip(rights, found, strict=True):
        assert own == pytest.approx(list(np.linalg.solve(rows, right)), rel=1e-8)


def test_a_zero_on_the_diagonal_is_no_obstacle() -> None:
    assert solved([[0.0, 2.0], [3.0, 1.0]], [[4.0, 5.0]])[0] == pytest.approx([1.0, 2.0])
