"""The shortest cable that turns round, against every path of arcs and straight pieces.

A shortest path of bounded curvature has at most three pieces: arcs of the tightest radius, or an arc,
a straight piece and an arc (Dubins 1957, from memory). Here all such paths that end where they must
are searched by solving for their pieces with scipy, whatever their shape.
"""

from itertools import product
from math import cos, pi, sin

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import fsolve

from builder.compute.geometry.bends import turn_round

WORDS = ("LRL", "RLR", "LSL", "RSR", "LSR", "RSL")


def _end(word: str, pieces: tuple[float, ...], bend: float) -> tuple[float, float, float]:
    """Where a path ends that starts at 0, 0 and heads along x: x, y and heading."""
    x = y = heading = 0.0
    for letter, piece in zip(word, pieces, strict=True):
        if letter == "S":
            x, y = x + piece * cos(heading), y + piece * sin(heading)
            continue
        side = 1.0 if letter == "L" else -1.0
        turned = heading + side * piece
        x += side * bend * (sin(turned) - sin(heading))
        y -= side * bend * (cos(turned) - cos(heading))
        heading = turned
    return x, y, heading


def _shortest(apart: float, bend: float) -> float:
    """The shortest path from 0, 0 along x to 0, apart back along x."""
    found = []
    starts = product(WORDS, (0.3, 1.5, 4.0), (2.0, 4.5), (0.3, 1.5, 4.0))
    for word, first, middle, last in starts:

        def miss(pieces: NDArray[np.float64], word: str = word) -> list[float]:
            x, y, heading = _end(word, tuple(pieces), bend)
            return [x, y - apart, sin((heading - pi) / 2)]

        pieces, _, good, _ = fsolve(miss, (first, middle, last), full_output=True)
        if good == 1 and min(pieces) > -1e-9 and max(map(abs, miss(pieces))) < 1e-9:
            lengths = (p if s == "S" else p * bend for s, p in zip(word, pieces, strict=True))
            found.append(sum(lengths))
    return float(min(found))


@pytest.mark.parametrize(
    ("apart", "bend"), [(0.5, 1.0), (1.0, 1.0), (1.9, 1.0), (2.5, 1.5), (3.0, 1.0), (10.0, 1.0)]
)
def test_no_path_of_bounded_bend_is_shorter(apart: float, bend: float) -> None:
    assert turn_round(apart, bend) == pytest.approx(_shortest(apart, bend), rel=1e-6)


def test_half_a_circle_where_it_just_fits() -> None:
    assert turn_round(2.0, 1.0) == pytest.approx(pi)
    assert turn_round(2.0 - 1e-9, 1.0) == pytest.approx(pi, rel=1e-3)
