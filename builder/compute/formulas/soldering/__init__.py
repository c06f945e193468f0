"""Formulas of the heat of a solder joint."""
