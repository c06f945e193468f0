"""Pure functions of floats in SI units, each with its source in the docstring."""
