"""Slopes of formulas of many arguments, for which a difference by each takes long: analytic, or
which are not 0.
"""

from bisect import bisect_right
from math import fsum

from builder.compute.formulas.weight.mass import centre_of_masses


def centre_of_masses_partials(*masses_and_places: float) -> tuple[float, ...]:
    """Slopes of `centre_of_masses`: (x_i - x̄) / Σ m for a mass, m_i / Σ m for its place [m/kg, 1].

    ValueError where it has none.
    """
    masses, places = masses_and_places[0::2], masses_and_places[1::2]
    whole, centre = fsum(masses), centre_of_masses(*masses_and_places)
    return tuple(
        [s for m, x in zip(masses, places, strict=True) for s in ((x - centre) / whole, m / whole)]
    )


def monotone_reach(x: float, *points: float) -> tuple[int, ...]:
    """Which arguments of `monotone_through` and its kin can change the value at x: x itself and the
    four points around it.

    A slope of Fritsch and Butland (1984) is made of the two stretches beside its point, or of the
    last two at an end. `x` lies within the table.
    """
    xs = points[0::2]
    k = min(bisect_right(xs, x), len(xs) - 1) - 1
    near = range(max(k - 1, 0), min(k + 3, len(xs)))
    return (0, *(1 + 2 * j + side for j in near for side in (0, 1)))


def reconciled_mass_partials(_expected: float, *weights_and_gaps: float) -> tuple[float, ...]:
    """Slopes of `reconciled_mass`: 1, then gap and weight in turn [1]."""
    weights, gaps = weights_and_gaps[0::2], weights_and_gaps[1::2]
    return (1.0, *(s for w, e in zip(weights, gaps, strict=True) for s in (e, w)))
