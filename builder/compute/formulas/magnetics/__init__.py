"""Formulas of electric motors."""
