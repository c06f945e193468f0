"""The inverse of a small symmetric matrix, by Cholesky's method."""

from collections.abc import Sequence
from math import fsum, sqrt


def inverse(rows: Sequence[Sequence[float]]) -> tuple[tuple[float, ...], ...]:
    """The inverse of a symmetric, positive definite matrix.

    Rows are scaled to a diagonal of 1 first: readings are known a thousand times better than what
    nobody weighed (Golub and Van Loan, Matrix Computations, 4.2; from memory).
    """
    n = len(rows)
    scale = [1.0 / sqrt(rows[i][i]) for i in range(n)]
    low = _factor(_scaled(rows, scale))
    columns = [_solved(low, [1.0 if i == j else 0.0 for i in range(n)]) for j in range(n)]
    return tuple(map(tuple, _scaled(list(zip(*columns, strict=True)), scale)))


def _scaled(rows: Sequence[Sequence[float]], scale: Sequence[float]) -> list[list[float]]:
    """Each row and each column times its scale."""
    return [
        [value * s * t for value, t in zip(row, scale, strict=True)]
        for row, s in zip(rows, scale, strict=True)
    ]


def _factor(rows: Sequence[Sequence[float]]) -> list[list[float]]:
    """The lower factor; a pivot that rounding took below nothing counts as the least that is told
    apart.
    """
    n = len(rows)
    low = [[0.0] * n for _ in range(n)]
    for i in range(n):
        for j in range(i + 1):
            before = fsum(low[i][k] * low[j][k] for k in range(j))
            rest = rows[i][j] - before
            low[i][j] = sqrt(max(rest, 1e-15)) if i == j else rest / low[j][j]
    return low


def _solved(low: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    n = len(low)
    half: list[float] = []
    for i in range(n):
        before = fsum(low[i][k] * half[k] for k in range(i))
        half.append((right[i] - before) / low[i][i])
    out = [0.0] * n
    for i in reversed(range(n)):
        rest = fsum(low[k][i] * out[k] for k in range(i + 1, n))
        out[i] = (half[i] - rest) / low[i][i]
    return out
