"""Hover power and time in the air by drawing, written anew from textbooks; it shares no code with the
estimate (JCGM 101:2008).

Momentum theory: Leishman, Principles of Helicopter Aerodynamics, ch. 2. Dry air: 287.05 J/kg/K, and
the isothermal barometric formula. Capacity in the cold: straight lines through 0.80 at 0 degC and 1
at 25 degC of one maker's data sheet. Resistance in the cold: Arrhenius, 2000 K (from memory).
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from builder.compute.figures.figure import Figure, MaybeFigure

DRAWS = 200_000
# Curve of resting volts of lithium-polymer from full to a fifth left, tenth by tenth (from memory).
CURVE = (4.20, 4.11, 4.02, 3.95, 3.87, 3.84, 3.80, 3.77, 3.73)
DISC = np.pi * 0.04445**2  # of 3.5 inches
STYLE = 0.05  # spread of the factor of style that the tests' builds say


@dataclass(frozen=True)
class DrawnParts:
    """What two aircraft of the same parts have in common, drawn: the air in K and kg/m3, and how
    good propeller, drive and battery are.
    """

    air: Any
    density: Any
    merit: Any
    efficiency: Any
    charge: Any
    ohms: Any


def _leaf(figure: Figure, end: str) -> tuple[float, float]:
    """What goes in: value and spread of a leaf of the estimate, which are no formula."""
    (found,) = [n for n in figure.derivation if n.formula is None and n.key.endswith(end)]
    return found.value, found.own


def _near(random: np.random.Generator, value: float, spread: float) -> Any:
    """A quantity above nothing with this mean and spread, in logarithms."""
    return value * np.exp(spread / value * random.standard_normal(DRAWS))


def drawn_parts(random: np.random.Generator, of: MaybeFigure, celsius: float) -> DrawnParts:
    """Drawn by the leaves of a time in the air."""
    assert isinstance(of, Figure)
    air = 273.15 + celsius + _leaf(of, "place/temperature")[1] * random.standard_normal(DRAWS)
    height = _leaf(of, "place/altitude")[1] * random.standard_normal(DRAWS)
    density = 101325.0 * np.exp(-9.81 * height / 287.05 / air) / 287.05 / air
    merit = _near(random, *_leaf(of, "prop/merit"))
    efficiency = _near(random, *_leaf(of, "drive-efficiency"))
    charge = 3060.0 * (1 + 0.04 * random.standard_normal(DRAWS))
    ohms = 4 * _near(random, *_leaf(of, "pack/resistance"))
    return DrawnParts(air, density, merit, efficiency, charge, ohms)


def simulated(
    random: np.random.Generator, drawn: DrawnParts, kilograms: Any, factor: float
) -> tuple[Any, Any]:
    """Hover power in W, and seconds in the air down to a fifth left in the builder's style."""
    each = (kilograms * 9.80665 / 4) ** 1.5 / np.sqrt(2 * drawn.density * DISC)
    hover = 4 * each / drawn.merit / drawn.efficiency
    style = factor + STYLE * random.standard_normal(DRAWS)
    cell = (293.15 + 4.0 * random.standard_normal(DRAWS) + drawn.air) / 2
    share = 0.80 + 0.20 * (cell - 273.15) / 25.0
    charge = 0.8 * drawn.charge * share
    volts = 4 * float(np.mean(np.convolve(CURVE, (0.5, 0.5), "valid")))
    ohms = drawn.ohms * np.exp(2000.0 * (1 / cell - 1 / 298.15))
    power = hover * style
    amperes = (volts - np.sqrt(volts**2 - 4 * ohms * power)) / (2 * ohms)
    return hover, charge * (volts - ohms * amperes) / power
