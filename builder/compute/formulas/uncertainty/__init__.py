"""Formulas of spreads, chances and bands."""
