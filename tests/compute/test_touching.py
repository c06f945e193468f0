"""The chance that two bodies touch, against bodies that are really shifted; and the numbers that
stand in its words.
"""

import numpy as np
import pytest

from builder.compute.geometry.solids import Solid, room_between
from builder.compute.geometry.touching import chance_to_touch
from builder.rules.say import times_of

PLACE = 2.0e-3  # standard deviation of a place, in m
SIZE = 0.5e-3  # and of a size


@pytest.mark.parametrize("gap", [-3.0e-3, 0.0, 2.0e-3, 4.0e-3])
@pytest.mark.parametrize("read", [1, 2])
def test_shifted_bodies_touch_as_often(gap: float, read: int) -> None:
    """Two long walls face each other; one or both places are read with a ruler."""
    rng = np.random.default_rng(7)
    touched, many = 0, 4000
    for _ in range(many):
        shifts = rng.normal(0.0, PLACE, 2) * np.array([1.0, 1.0 if read == 2 else 0.0])
        half = 0.010 + rng.normal(0.0, SIZE, 2) / 2
        one = Solid((shifts[0], 0.0, 0.0), (half[0], 1.0, 1.0))
        other = Solid((0.020 + gap + shifts[1], 0.0, 0.0), (half[1], 1.0, 1.0))
        touched += room_between(one, other) < 0.0
    assert chance_to_touch(gap, read) == pytest.approx(touched / many, abs=0.025)


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.05, "1 of 20"),
        (0.5, "1 of 2"),
        (0.86, "6 of 7"),
        (0.99999, "999 of 1000"),
        (0.0, "1 of 1000"),
    ],
)
def test_a_chance_as_times(chance: float, words: str) -> None:
    assert times_of(chance).shown == words
