"""Orders of a thousand steps and tangles of lines: the same answers as a plain search, in about as many looks as lines."""

import random

import pytest

from builder.compute.order.steps import Constraint

networkx = pytest.importorskip("networkx")


def _random_lines(seed: int) -> tuple[list[str], list[Constraint]]:
    chance = random.Random(seed)
    names = [f"s{i}" for i in range(chance.randint(2, 12))]
    pairs = {(chance.choice(names), chance.choice(names)) for _ in range(chance.randint(0, 24))}
    return names, [Constraint(a, b, "") for a, b in sorted(pairs, key=lambda p: chance.random()) if a != b]
