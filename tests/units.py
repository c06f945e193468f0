"""The registry of units that the tests hold ours against; to make one takes a second."""

import pint

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
