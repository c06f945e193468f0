"""Nodal analysis of a net of resistors: how a current that enters at one node and leaves at another
shares itself among all ways between them.
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum


@dataclass(frozen=True)
class Resistor:
    """A resistance (Ω, above 0) between two nodes."""

    a: Hashable
    b: Hashable
    ohms: float


def solved(rows: Sequence[Sequence[float]], rights: Sequence[Sequence[float]]) -> list[list[float]]:
    """The x of A x = b for each of several b, by elimination with the largest pivot of each column.
    ZeroDivisionError where A is singular.
    """
    made = [[*row, *(b[i] for b in rights)] for i, row in enumerate(rows)]
    count = len(made)
    for i in range(count):
        best = max(range(i, count), key=lambda r: abs(made[r][i]))
        made[i], made[best] = made[best], made[i]
        pivot = made[i]
        for row in made[i + 1 :]:
            factor = row[i] / pivot[i]
            if factor:
                row[i:] = [x - factor * p for x, p in zip(row[i:], pivot[i:], strict=True)]
    return [_back(made, count + k) for k in range(len(rights))]


def _back(made: Sequence[Sequence[float]], column: int) -> list[float]:
    """The unknowns of one right side, from the last equation up."""
    count = len(made)
    out = [0.0] * count
    for i in reversed(range(count)):
        row = made[i]
        known = fsum(row[k] * out[k] for k in range(i + 1, count))
        out[i] = (row[column] - known) / row[i]
    return out


def _conductances(
    nodes: Mapping[Hashable, int], resistors: Sequence[Resistor]
) -> list[list[float]]:
    """The matrix of conductances without the last node, which is held at 0 V."""
    count = len(nodes) - 1
    matrix = [[0.0] * count for _ in range(count)]
    for each in resistors:
        a, b, g = nodes[each.a], nodes[each.b], 1.0 / each.ohms
        if a == b:
            continue
        for one, other in ((a, b), (b, a)):
            if one < count:
                matrix[one][one] += g
            if one < count and other < count:
                matrix[one][other] -= g
    return matrix


def branch_currents(
    resistors: Sequence[Resistor], cases: Sequence[Mapping[Hashable, float]]
) -> tuple[tuple[float, ...], ...]:
    """In each case, the current of each resistor from its a to its b (A), where such currents enter
    the net at its nodes; what enters leaves again, so their sum is 0. All nodes have to be joined.
    """
    ends = [end for r in resistors for end in (r.a, r.b)]
    nodes = {node: i for i, node in enumerate(dict.fromkeys(ends))}
    held = len(nodes) - 1
    rights = [[0.0] * held for _ in cases]
    for right, entering in zip(rights, cases, strict=True):
        for node, current in entering.items():
            if nodes[node] < held:
                right[nodes[node]] += current
    out = []
    for found in solved(_conductances(nodes, resistors), rights):
        volts = [*found, 0.0]
        flowing = ((volts[nodes[r.a]] - volts[nodes[r.b]]) / r.ohms for r in resistors)
        out.append(tuple(flowing))
    return tuple(out)
